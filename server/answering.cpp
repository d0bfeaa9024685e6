#include "server/answering.h"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <list>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace heatwork::server {
namespace {

/// Something to be done, and who waits for it.
struct Errand {
  const std::function<void()>& work;
  std::exception_ptr thrown;
  bool over = false;
  std::condition_variable told;
};

struct Hand {
  std::thread thread;
  Errand* errand = nullptr;
  std::condition_variable wake;
};

}  // namespace

class Answering::Threads {
 public:
  explicit Threads(std::chrono::milliseconds rest) : rest_(rest) {}

  ~Threads() {
    std::unique_lock lock(guard_);
    closing_ = true;
    for (Hand& hand : hands_) hand.wake.notify_one();
    left_.wait(lock, [&] { return hands_.empty(); });
    join_ended(lock);
  }
  Threads(const Threads&) = delete;
  Threads& operator=(const Threads&) = delete;

  void have_done(const std::function<void()>& work) {
    Errand errand{work, nullptr, false, {}};
    std::unique_lock lock(guard_);
    join_ended(lock);
    if (free_.empty() && !began_another()) {
      lock.unlock();
      work();  // the machine gives no thread: whoever asked does it
      return;
    }
    Hand& hand = *free_.back();
    free_.pop_back();
    hand.errand = &errand;
    hand.wake.notify_one();
    errand.told.wait(lock, [&] { return errand.over; });
    if (errand.thrown) std::rethrow_exception(errand.thrown);
  }

  std::size_t count() {
    const std::lock_guard lock(guard_);
    return hands_.size();
  }

 private:
  bool began_another() {
    const auto hand = hands_.emplace(hands_.end());
    try {
      hand->thread = std::thread([this, hand] { serve(hand); });
    } catch (const std::system_error&) {
      hands_.erase(hand);
      return false;
    }
    free_.push_back(&*hand);
    return true;
  }

  void serve(std::list<Hand>::iterator hand) {
    std::unique_lock lock(guard_);
    while (hand->wake.wait_for(lock, rest_, [&] { return hand->errand != nullptr || closing_; })) {
      Errand* const errand = hand->errand;
      if (errand == nullptr) break;
      lock.unlock();
      try {
        errand->work();
      } catch (...) {
        errand->thrown = std::current_exception();
      }
      lock.lock();
      hand->errand = nullptr;
      free_.push_back(&*hand);
      errand->over = true;
      errand->told.notify_one();
    }
    std::erase(free_, &*hand);
    ended_.push_back(std::move(hand->thread));
    hands_.erase(hand);
    left_.notify_all();
  }

  void join_ended(std::unique_lock<std::mutex>& lock) {
    std::vector<std::thread> ended;
    ended.swap(ended_);
    if (ended.empty()) return;
    lock.unlock();
    for (std::thread& thread : ended) thread.join();
    lock.lock();
  }

  const std::chrono::milliseconds rest_;
  std::mutex guard_;
  std::condition_variable left_;
  bool closing_ = false;
  std::list<Hand> hands_;
  std::vector<Hand*> free_;  ///< the one that was busy last stands last
  std::vector<std::thread> ended_;
};

Answering::Answering(std::chrono::milliseconds rest) : threads_(std::make_unique<Threads>(rest)) {}
Answering::~Answering() = default;

void Answering::have_done(const std::function<void()>& work) {
  threads_->have_done(work);
}
std::size_t Answering::count() const {
  return threads_->count();
}

}  // namespace heatwork::server
