#include "records/proof_crew.h"

#include <algorithm>
#include <utility>

namespace heatwork::records {

namespace {

constexpr std::size_t most_waiting = 4;  ///< some megabytes each

}  // namespace

ProofCrew::ProofCrew(std::size_t most) {
  const std::size_t processors = std::max(1U, std::thread::hardware_concurrency());
  for (std::size_t worker = 1; worker < std::min(most, processors); ++worker) threads_.emplace_back([this, worker] { work(worker); });
}

ProofCrew::~ProofCrew() {
  {
    const std::lock_guard lock(mutex_);
    waiting_.clear();
  }
  stop();
}

void ProofCrew::add(Task task) {
  {
    const std::lock_guard lock(mutex_);
    if (!threads_.empty() && waiting_.size() < most_waiting) {
      waiting_.push_back(std::move(task));
      changed_.notify_one();
      return;
    }
  }
  run(task, 0);
}

void ProofCrew::end() {
  for (;;) {
    Task task;
    {
      const std::lock_guard lock(mutex_);
      if (waiting_.empty()) break;
      task = std::move(waiting_.front());
      waiting_.pop_front();
    }
    run(task, 0);
  }
  stop();
  if (error_) std::rethrow_exception(error_);
}

void ProofCrew::stop() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  changed_.notify_all();
  for (std::thread& thread : threads_)
    if (thread.joinable()) thread.join();
}

void ProofCrew::run(const Task& task, std::size_t worker) {
  try {
    task(worker);
  } catch (...) {
    const std::lock_guard lock(mutex_);
    if (!error_) error_ = std::current_exception();
  }
}

void ProofCrew::work(std::size_t worker) {
  std::unique_lock lock(mutex_);
  for (;;) {
    changed_.wait(lock, [&] { return ending_ || !waiting_.empty(); });
    if (waiting_.empty()) return;
    const Task task = std::move(waiting_.front());
    waiting_.pop_front();
    lock.unlock();
    run(task, worker);
    lock.lock();
  }
}

}  // namespace heatwork::records
