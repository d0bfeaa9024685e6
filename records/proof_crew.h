// Work for as many threads as the machine has processors: one reads, all compute, and none waits long for the others.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace heatwork::records {

/// Each worker has a number, from 0, so that it can have a result of its own; 0 is whoever hands work out.
class ProofCrew {
 public:
  using Task = std::function<void(std::size_t worker)>;
  /// `most` workers at most, the one who hands out among them.
  explicit ProofCrew(std::size_t most);
  ~ProofCrew();
  ProofCrew(const ProofCrew&) = delete;
  ProofCrew& operator=(const ProofCrew&) = delete;

  [[nodiscard]] std::size_t workers() const { return threads_.size() + 1; }
  /// Hands work out; where enough waits already it is done at once, by the one who hands out.
  void add(Task task);
  /// Returns when all is done. Errors: the first that a task threw.
  void end();

 private:
  void work(std::size_t worker);
  void stop();
  void run(const Task& task, std::size_t worker);

  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Task> waiting_;
  std::exception_ptr error_;
  bool ending_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace heatwork::records
