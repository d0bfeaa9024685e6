#include "desk/lab/live_rehearsals.h"

#include <sys/stat.h>

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <future>
#include <list>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/rehearse_in_lab.h"
#include "firing/maker_runs.h"

namespace heatwork::desk {
namespace {

constexpr std::size_t most_waiting = 1000;

/// Which file an address is now: another one may have been put in its place by a restore.
std::pair<std::uint64_t, std::uint64_t> file_of(const records::Address& address) {
  struct stat found {};
  if (address.engine != records::Engine::sqlite || ::stat(address.where.c_str(), &found) != 0) return {0, 0};
  return {found.st_dev, found.st_ino};
}

/// A store that stays open in its thread from question to question.
class OpenStore {
 public:
  records::Store& of(const StorePlace& place) {
    const auto file = file_of(place.address);
    if (!store_ || shown_ != place.address.shown() || file != file_) {
      store_.reset();
      store_ = store_that_stands(place);
      if (!store_)
        throw Failure(ErrorWord::no_store, "There is no store yet, so nothing is kept that could be rehearsed; set the lab up first.");
      shown_ = place.address.shown();
      file_ = file;
    }
    return *store_;
  }
  void close() { store_.reset(); }

 private:
  std::optional<records::Store> store_;
  std::string shown_;
  std::pair<std::uint64_t, std::uint64_t> file_;
};

[[noreturn]] void superseded() {
  throw Failure(ErrorWord::superseded, "A newer edit was asked for meanwhile; this one is not answered.");
}

}  // namespace

class LiveRehearsals::Threads {
 public:
  explicit Threads(unsigned count) : count_(count > 0 ? count : std::max(1U, std::thread::hardware_concurrency())) {
    for (unsigned i = 0; i < count_; ++i) threads_.emplace_back([this] { work(); });
  }

  ~Threads() {
    {
      const std::lock_guard lock(guard_);
      closing_ = true;
      for (const auto& task : tasks_) task->stop = true;
    }
    wake_.notify_all();
    for (std::thread& thread : threads_) thread.join();
  }
  Threads(const Threads&) = delete;
  Threads& operator=(const Threads&) = delete;

  EditedRehearsal answer(const LiveQuestion& question) {
    auto task = std::make_shared<Task>(question);
    std::future<EditedRehearsal> answered = task->answered.get_future();
    {
      const std::lock_guard lock(guard_);
      if (closing_) throw Failure(ErrorWord::stopped, "The server stops; nothing was rehearsed.");
      for (const auto& other : tasks_) {
        if (other->question.session != question.session) continue;
        if (other->question.edit > question.edit) superseded();
        if (other->question.edit < question.edit) other->stop = true;
      }
      if (tasks_.size() >= most_waiting) throw Failure(ErrorWord::busy, "Too many rehearsals wait; try again in a moment.");
      tasks_.push_back(std::move(task));
    }
    wake_.notify_one();
    return answered.get();
  }

 private:
  struct Task {
    explicit Task(const LiveQuestion& asked) : question(asked) {}
    LiveQuestion question;
    std::atomic<bool> stop{false};
    bool begun = false;
    std::promise<EditedRehearsal> answered;
  };

  /// The next that nobody does: one that is to be stopped first, then numbers, then bands, then stress.
  std::shared_ptr<Task> next() {
    const auto turn = [](const Task& task) {
      if (task.stop) return 0;
      return task.question.stress ? 3 : task.question.bands ? 2 : 1;
    };
    std::shared_ptr<Task> first;
    for (const auto& task : tasks_)
      if (!task->begun && (!first || turn(*task) < turn(*first))) first = task;
    return first;
  }

  void work() {
    OpenStore open;
    std::unique_lock lock(guard_);
    while (true) {
      std::shared_ptr<Task> task;
      wake_.wait(lock, [&] { return (task = next()) != nullptr || closing_; });
      if (!task) return;
      task->begun = true;
      const bool alone = std::none_of(tasks_.begin(), tasks_.end(), [&](const auto& other) { return other != task; });
      lock.unlock();
      std::optional<EditedRehearsal> made;
      std::exception_ptr failed;
      try {
        made = rehearsed(*task, open, alone);
      } catch (...) {
        failed = std::current_exception();
      }
      lock.lock();
      tasks_.remove(task);
      lock.unlock();
      if (failed)
        task->answered.set_exception(failed);
      else
        task->answered.set_value(std::move(*made));
      lock.lock();
    }
  }

  EditedRehearsal rehearsed(Task& task, OpenStore& open, bool alone) {
    if (task.stop) superseded();
    const LiveQuestion& question = task.question;
    const StorePlace place = place_of(question.lab);
    HowRehearsed how;
    how.manner = question.manner;
    how.bands = question.bands;
    how.stress = question.stress;
    how.workers = alone ? 0 : 1;
    how.states = &states_;
    how.maker_runs = &maker_runs_;
    how.stop = [&task] { return task.stop.load(); };
    try {
      return caring(place, [&] { return rehearse_edited(question.firing, place, open.of(place), how); });
    } catch (const firing::Stopped&) {
      superseded();
    } catch (const Failure& failure) {
      if (row(failure.error()).kind == ErrorKind::machine) open.close();
      throw;
    }
  }

  const unsigned count_;
  std::mutex guard_;
  std::condition_variable wake_;
  bool closing_ = false;
  std::list<std::shared_ptr<Task>> tasks_;  ///< waiting and begun, in order of asking
  std::vector<std::thread> threads_;
  firing::StateCache states_;
  firing::MakerRuns maker_runs_;
};

LiveRehearsals::LiveRehearsals(unsigned threads) : threads_(std::make_unique<Threads>(threads)) {}
LiveRehearsals::~LiveRehearsals() = default;

EditedRehearsal LiveRehearsals::answer(const LiveQuestion& question) {
  return threads_->answer(question);
}

}  // namespace heatwork::desk
