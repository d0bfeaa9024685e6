#include "records/network_folder.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

namespace heatwork::records {

namespace {

constexpr std::array networks = {"nfs",
                                 "nfs4",
                                 "cifs",
                                 "smb3",
                                 "smbfs",
                                 "smb2",
                                 "9p",
                                 "afs",
                                 "ceph",
                                 "davfs",
                                 "lustre",
                                 "gfs2",
                                 "ocfs2",
                                 "gpfs",
                                 "pvfs2",
                                 "ncpfs",
                                 "coda",
                                 "beegfs",
                                 "orangefs",
                                 "fuse.sshfs",
                                 "fuse.glusterfs",
                                 "fuse.davfs2",
                                 "fuse.ceph",
                                 "fuse.s3fs",
                                 "fuse.rclone",
                                 "fuse.curlftpfs",
                                 "fuse.gvfsd-fuse",
                                 "fuse.smbnetfs",
                                 "fuse.mfs",
                                 "fuse.juicefs",
                                 "fuse.nfs"};

/// Blank, tab, line end and backslash are written as \ and three octal digits.
std::string plain(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto octal = [&](std::size_t k) { return text[i + k] >= '0' && text[i + k] <= '7'; };
    if (text[i] == '\\' && i + 3 < text.size() + 0 && octal(1) && octal(2) && octal(3)) {
      out += static_cast<char>((text[i + 1] - '0') * 64 + (text[i + 2] - '0') * 8 + (text[i + 3] - '0'));
      i += 3;
    } else {
      out += text[i];
    }
  }
  return out;
}

bool holds(const std::string& mount, std::string_view path) {
  if (mount == "/") return true;
  return path.substr(0, mount.size()) == mount && (path.size() == mount.size() || path[mount.size()] == '/');
}

}  // namespace

std::optional<std::string> network_file_system(std::string_view mountinfo, std::string_view path) {
  std::istringstream lines{std::string(mountinfo)};
  std::string line, best, type;
  while (std::getline(lines, line)) {
    // 36 35 98:0 /root /mount/point rw,noatime master:1 - nfs4 server:/path rw
    const auto dash = line.find(" - ");
    if (dash == std::string::npos) continue;
    std::istringstream before(line.substr(0, dash)), after(line.substr(dash + 3));
    std::string skipped, mount, of;
    before >> skipped >> skipped >> skipped >> skipped >> mount;
    after >> of;
    mount = plain(mount);
    // A later line covers an earlier one of the same place.
    if (holds(mount, path) && mount.size() >= best.size()) {
      best = mount;
      type = of;
    }
  }
  const bool network = std::any_of(networks.begin(), networks.end(), [&](const char* name) { return type == name; });
  return network ? std::optional<std::string>(type) : std::nullopt;
}

std::optional<std::string> network_file_system(const std::string& path) {
  std::ifstream file("/proc/self/mountinfo");
  std::ostringstream text;
  text << file.rdbuf();
  std::error_code ignored;
  const auto real = std::filesystem::weakly_canonical(std::filesystem::absolute(path), ignored);
  return network_file_system(text.str(), ignored ? path : real.string());
}

}  // namespace heatwork::records
