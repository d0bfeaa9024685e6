#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>

#include "records/inside.h"
#include "records/statement.h"

namespace heatwork::records {

void Store::Inside::vacuum_into(const std::string& path) {
  // An empty file of ours is written into, so that nobody else's is, and nobody may read it whom the store itself does not let.
  const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0640);
  if (file < 0) {
    const bool full = errno == ENOSPC || errno == EDQUOT;
    const StoreProblem problem = errno == EEXIST ? StoreProblem::already_there : full ? StoreProblem::full : StoreProblem::refused;
    throw StoreError(problem, fmt::format("The copy {} cannot be made: {}.", path,
                                          errno == EEXIST ? "a file of that name stands already"
                                          : full          ? "the disk is full"
                                                          : "the machine does not let a file be made there"));
  }
  ::close(file);
  try {
    Statement(*this, "vacuum into ?").bind(path).run();
  } catch (...) {
    ::unlink(path.c_str());
    throw;
  }
}

}  // namespace heatwork::records
