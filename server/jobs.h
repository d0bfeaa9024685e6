// Long work with an id: how far it is, its answer, cancel; work that nobody asks after any more is dropped.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "desk/lab/store_care.h"

namespace heatwork::server {

enum class JobState { running, done, failed, cancelled };
std::string_view word(JobState state);

/// A job as it stands.
struct JobSeen {
  std::string id, work, person;
  JobState state = JobState::running;
  std::int64_t done = 0, all = 0;
  desk::CareAnswer answer;      ///< where it is done
  std::string error, sentence;  ///< where it failed or was cancelled: the word of the error and why
};

class Jobs {
 public:
  using Work = std::function<desk::CareAnswer(const desk::CareWatch&)>;
  /// Where nobody asked for `stale`, a job is cancelled and forgotten.
  explicit Jobs(std::chrono::milliseconds stale = std::chrono::minutes(10));
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// Begins it in a thread of its own; returns its id. Errors: Failure busy where four run already.
  std::string begin(const std::string& work, const std::string& person, Work does);
  /// Errors: Failure unknown_name, also where it is another person's.
  [[nodiscard]] JobSeen seen(const std::string& id, const std::string& person);
  /// What runs ends at its next step; what is over is forgotten. Errors: as above.
  void cancel(const std::string& id, const std::string& person);
  [[nodiscard]] std::size_t count() const;

 private:
  class Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace heatwork::server
