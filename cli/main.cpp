#include <malloc.h>

#include "cli/run.h"

namespace {

/// A rehearsal takes and gives back columns of some hundred kilobytes thousands of times; from the system each time they would cost more
/// than what is computed in them.
void keep_memory() {
  constexpr int large = 64 << 20;
  ::mallopt(M_MMAP_THRESHOLD, large);
  ::mallopt(M_TRIM_THRESHOLD, large);
  ::mallopt(M_TOP_PAD, 1 << 20);
}

}  // namespace

int main(int argc, char** argv) {
  keep_memory();
  return heatwork::cli::run({argv + 1, argv + argc});
}
