#include "physics/decay.h"

// Several at a time where the processor can; without contracted products, so that the result does not depend on the processor.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define HEATWORK_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define HEATWORK_WIDE
#endif

namespace heatwork::physics {

HEATWORK_WIDE void decay_all(std::size_t count, const double* __restrict y, double* __restrict kept, double* __restrict even,
                             double* __restrict skew) {
  for (std::size_t i = 0; i < count; ++i) kept[i] = decay(y[i], even[i], skew[i]);
}

}  // namespace heatwork::physics
