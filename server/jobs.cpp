#include "server/jobs.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <exception>
#include <list>
#include <mutex>
#include <thread>
#include <utility>

#include "desk/errors.h"
#include "server/answer.h"
#include "server/sessions.h"

namespace heatwork::server {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int most_running = 4;
constexpr std::size_t most_kept = 100;

struct Job {
  JobSeen seen;
  std::atomic<bool> stop{false};
  Clock::time_point asked = Clock::now();
  std::thread thread;
};

}  // namespace

std::string_view word(JobState state) {
  constexpr std::array<std::string_view, 4> words{"running", "done", "failed", "cancelled"};
  return words[static_cast<std::size_t>(state)];
}

class Jobs::Kept {
 public:
  explicit Kept(std::chrono::milliseconds stale) : stale_(stale) {}

  ~Kept() {
    std::list<std::shared_ptr<Job>> all;
    {
      const std::lock_guard lock(guard_);
      all.swap(jobs_);
    }
    for (const auto& job : all) job->stop = true;
    for (const auto& job : all) job->thread.join();
  }
  Kept(const Kept&) = delete;
  Kept& operator=(const Kept&) = delete;

  std::string begin(const std::string& work, const std::string& person, Work does) {
    drop_stale();
    auto job = std::make_shared<Job>();
    job->seen.id = random_id();
    job->seen.work = work;
    job->seen.person = person;
    const std::lock_guard lock(guard_);
    const auto running = std::count_if(jobs_.begin(), jobs_.end(), [](const auto& each) { return each->seen.state == JobState::running; });
    if (running >= most_running || jobs_.size() >= most_kept)
      throw desk::Failure(desk::ErrorWord::busy, "As much long work runs already as the machine is given; wait until some of it is done.");
    jobs_.push_back(job);
    job->thread = std::thread([this, job, does = std::move(does)] { run(*job, does); });
    return job->seen.id;
  }

  JobSeen seen(const std::string& id, const std::string& person) {
    drop_stale();
    const std::lock_guard lock(guard_);
    const auto job = find(id, person);
    job->asked = Clock::now();
    return job->seen;
  }

  void cancel(const std::string& id, const std::string& person) {
    std::shared_ptr<Job> over;
    {
      const std::lock_guard lock(guard_);
      const auto job = find(id, person);
      job->stop = true;
      if (job->seen.state == JobState::running) return;
      over = job;
      jobs_.remove(job);
    }
    over->thread.join();
  }

  std::size_t count() {
    drop_stale();
    const std::lock_guard lock(guard_);
    return jobs_.size();
  }

 private:
  std::shared_ptr<Job> find(const std::string& id, const std::string& person) {
    for (const auto& job : jobs_)
      if (job->seen.id == id && job->seen.person == person) return job;
    throw desk::Failure(desk::ErrorWord::unknown_name,
                        "No long work goes by this id; it is forgotten 10 minutes after anybody asked last.");
  }

  /// What nobody asked after for so long is stopped; once over it is forgotten.
  void drop_stale() {
    std::list<std::shared_ptr<Job>> over;
    {
      const std::lock_guard lock(guard_);
      const auto now = Clock::now();
      for (auto at = jobs_.begin(); at != jobs_.end();) {
        const auto job = *at++;
        if (now - job->asked < stale_) continue;
        job->stop = true;
        if (job->seen.state == JobState::running) continue;
        over.push_back(job);
        jobs_.remove(job);
      }
    }
    for (const auto& job : over) job->thread.join();
  }

  void run(Job& job, const Work& does) {
    const desk::CareWatch watch = [&](std::int64_t done, std::int64_t all) {
      const std::lock_guard lock(guard_);
      job.seen.done = done;
      job.seen.all = all;
      if (Clock::now() - job.asked >= stale_) job.stop = true;
      return !job.stop.load();
    };
    JobState state = JobState::done;
    desk::CareAnswer answer;
    desk::Shown shown;
    try {
      answer = does(watch);
    } catch (...) {
      shown = desk::explain(std::current_exception());
      state = job.stop ? JobState::cancelled : JobState::failed;
    }
    const std::lock_guard lock(guard_);
    job.seen.state = state;
    job.seen.answer = std::move(answer);
    if (state == JobState::done) return;
    job.seen.error = key_of(shown.error);
    job.seen.sentence = shown.sentence;
  }

  std::chrono::milliseconds stale_;
  std::mutex guard_;
  std::list<std::shared_ptr<Job>> jobs_;
};

Jobs::Jobs(std::chrono::milliseconds stale) : kept_(std::make_unique<Kept>(stale)) {}
Jobs::~Jobs() = default;

std::string Jobs::begin(const std::string& work, const std::string& person, Work does) {
  return kept_->begin(work, person, std::move(does));
}
JobSeen Jobs::seen(const std::string& id, const std::string& person) {
  return kept_->seen(id, person);
}
void Jobs::cancel(const std::string& id, const std::string& person) {
  kept_->cancel(id, person);
}
std::size_t Jobs::count() const {
  return kept_->count();
}

}  // namespace heatwork::server
