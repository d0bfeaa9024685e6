#include "firing/side_by_side.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace heatwork::firing {

void side_by_side(std::size_t count, unsigned workers, const std::function<void(std::size_t)>& part) {
  if (workers == 0) workers = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::exception_ptr> failed(count);
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        part(i);
      } catch (...) {
        failed[i] = std::current_exception();
      }
    }
  };
  std::vector<std::thread> others;
  for (unsigned i = 1; i < workers && i < count; ++i) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
  for (const std::exception_ptr& failure : failed)
    if (failure) std::rethrow_exception(failure);
}

}  // namespace heatwork::firing
