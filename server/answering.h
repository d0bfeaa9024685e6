// Threads that answer: no more than answer at once, and the one that was busy last is taken first. A thread keeps memory for what it did
// once, so the hundreds that hold connections leave the work to these.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>

namespace heatwork::server {

/// Safe from several threads.
class Answering {
 public:
  /// A thread that had nothing to do for `rest` ends and gives back what it held.
  explicit Answering(std::chrono::milliseconds rest = std::chrono::seconds(30));
  ~Answering();
  Answering(const Answering&) = delete;
  Answering& operator=(const Answering&) = delete;

  /// Has the work done by one of them and returns when it is over; throws what it threw.
  void have_done(const std::function<void()>& work);
  /// How many there are now.
  [[nodiscard]] std::size_t count() const;

 private:
  class Threads;
  std::unique_ptr<Threads> threads_;
};

}  // namespace heatwork::server
