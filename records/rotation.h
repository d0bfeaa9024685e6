// The copies of one store in a folder: found by name and by what is in them, the oldest dropped, what was never finished swept.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace heatwork::records {

struct CopyFile {
  std::string path;
  std::int64_t at_s = 0;  ///< by its name, seconds since 1970-01-01 UTC
};

/// Newest first. Whether it is a copy of this store is asked of the name alone. Errors: StoreError refused where the folder cannot be read.
std::vector<CopyFile> copies_in(const std::string& folder, const std::string& store_id);

/// True where the file is a store with this id inside, of any format.
bool holds_store(const std::string& path, const std::string& store_id);

struct Dropped {
  std::vector<std::string> paths;
  std::vector<std::string> said;  ///< sentences on what could not be dropped
};

/// Drops the oldest copies until `keep` are left, with the texts beside them. `made` stays in any case, and so does a file that holds
/// no such store, whatever its name.
Dropped drop_oldest(const std::string& folder, const std::string& store_id, int keep, const std::string& made);

/// Takes away what was begun more than a day before and never finished. Returns sentences on that.
std::vector<std::string> sweep_unfinished(const std::string& folder, const std::string& store_id, std::int64_t now_s);

}  // namespace heatwork::records
