#include "records/index_proofs.h"

#include <utility>

namespace heatwork::records {

namespace {

constexpr std::size_t most_bytes = 16'000'000;
constexpr std::size_t most_tasks = 2000;

}  // namespace

IndexProofs::IndexProofs(const IndexOf& index_of) : index_of_(index_of), thread_([this] { work(); }) {}

IndexProofs::~IndexProofs() {
  stop(true);
}

void IndexProofs::add(Document newest, std::int64_t sequence, IndexRows rows) {
  const std::size_t bytes = newest.body.size() + newest.typed.size();
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [&] { return waiting_.empty() || (bytes_ + bytes <= most_bytes && waiting_.size() < most_tasks); });
  bytes_ += bytes;
  waiting_.push_back({std::move(newest), sequence, std::move(rows), bytes});
  changed_.notify_all();
}

void IndexProofs::end(Findings& findings) {
  stop(false);
  findings.take(found_);
}

void IndexProofs::stop(bool drop) {
  if (!thread_.joinable()) return;
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
    if (drop) waiting_.clear();
  }
  changed_.notify_all();
  thread_.join();
}

void IndexProofs::work() {
  std::unique_lock lock(mutex_);
  for (;;) {
    changed_.wait(lock, [&] { return ending_ || !waiting_.empty(); });
    if (waiting_.empty()) return;
    const Task task = std::move(waiting_.front());
    waiting_.pop_front();
    lock.unlock();
    prove_index(task.newest, task.sequence, task.rows, index_of_, found_);
    lock.lock();
    bytes_ -= task.bytes;
    changed_.notify_all();
  }
}

}  // namespace heatwork::records
