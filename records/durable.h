// Files that are on the disk when a call returns, and stand under their name whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace heatwork::records {

/// What is being written until it has its name ends so.
inline constexpr std::string_view unfinished = ".part";

/// Errors of all of these: StoreError full or refused, naming the file.
void sync_file(const std::string& path);
void sync_folder_of(const std::string& path);
/// Gives a file its name, where nothing of that name may stand; both are in one folder.
void give_name(const std::string& unfinished_path, const std::string& path);
/// Writes a file that is on the disk when it returns; where that fails nothing is left of it.
void write_whole(const std::string& path, std::string_view text);
/// Copies a file's bytes where none stands; it can be written by its owner whatever the rights of the other are.
void copy_whole(const std::string& from, const std::string& to);
/// Takes away files and folders whose names begin so and that are older than a day: what a killed program left.
void sweep(const std::filesystem::path& folder, std::string_view beginning);
/// Takes a file away where there is one. False where it cannot be taken away.
bool take_away(const std::string& path);

}  // namespace heatwork::records
