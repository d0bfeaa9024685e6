#include "records/network_folder.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

namespace heatwork::records {
namespace {

constexpr std::string_view mounts =
    "22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw\n"
    "23 22 0:21 / /cases rw,relatime shared:2 master:3 - nfs4 server:/cases rw,vers=4.2\n"
    "24 23 8:2 / /cases/local rw,relatime - xfs /dev/sdb1 rw\n"
    "25 22 0:40 / /srv/lab\\040share rw - cifs //server/lab rw\n"
    "26 22 0:41 / /srv/ssh rw - fuse.sshfs lab@server: rw\n"
    "27 22 0:42 / /over rw - nfs server:/x rw\n"
    "28 22 8:3 / /over rw - ext4 /dev/sdc1 rw\n"
    "29 22 0:43 / /host rw - 9p hostshare rw\n"
    "a line that is none\n";

TEST(NetworkFolder, the_mount_that_holds_the_path_decides) {
  const auto at = [](std::string_view path) { return network_file_system(mounts, path).value_or("local"); };
  EXPECT_EQ(at("/var/lib/heatwork/lab.sqlite"), "local");
  EXPECT_EQ(at("/cases/mk/lab.sqlite"), "nfs4");
  EXPECT_EQ(at("/casesstead/lab.sqlite"), "local");
  EXPECT_EQ(at("/cases/local/lab.sqlite"), "local");
  EXPECT_EQ(at("/cases/localized/lab.sqlite"), "nfs4");
  EXPECT_EQ(at("/srv/lab share/lab.sqlite"), "cifs");
  EXPECT_EQ(at("/srv/ssh/lab.sqlite"), "fuse.sshfs");
  EXPECT_EQ(at("/over/lab.sqlite"), "local") << "the later mount covers the earlier";
  EXPECT_EQ(at("/host/lab.sqlite"), "9p");
  EXPECT_EQ(network_file_system("", "/lab.sqlite"), std::nullopt);
}

}  // namespace
}  // namespace heatwork::records
