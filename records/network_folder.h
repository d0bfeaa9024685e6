// Finds out whether a path lies on a file system of a network, where SQLite's locks and syncs cannot be relied on.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace heatwork::records {

/// Type of the network file system that holds the path ("nfs4"), by the text of /proc/self/mountinfo; nothing where it is a local one.
/// The path is absolute, without links, and need not exist yet.
std::optional<std::string> network_file_system(std::string_view mountinfo, std::string_view path);

/// The same on this machine, links followed.
std::optional<std::string> network_file_system(const std::string& path);

}  // namespace heatwork::records
