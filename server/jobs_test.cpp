#include "server/jobs.h"

#include <gtest/gtest.h>

#include <atomic>
#include <thread>

#include "desk/errors.h"

namespace heatwork::server {
namespace {

using namespace std::chrono_literals;

/// Steps until it is told to end, as work of the desk does.
desk::CareAnswer endless(const desk::CareWatch& watch, std::atomic<bool>& ended) {
  for (std::int64_t done = 0; watch(done, 1000); ++done) std::this_thread::sleep_for(1ms);
  ended = true;
  throw desk::Failure(desk::ErrorWord::stopped, "Stopped before the end.");
}

JobSeen waited_for(Jobs& jobs, const std::string& id, const std::string& person) {
  for (int i = 0; i < 500; ++i) {
    const JobSeen job = jobs.seen(id, person);
    if (job.state != JobState::running) return job;
    std::this_thread::sleep_for(5ms);
  }
  return jobs.seen(id, person);
}

TEST(Jobs, TellHowFarTheyAreAndTheirAnswer) {
  Jobs jobs;
  const std::string id = jobs.begin("verify", "mk", [](const desk::CareWatch& watch) {
    EXPECT_TRUE(watch(3, 7));
    return desk::CareAnswer{"", desk::JsonObject{{"format", 1}}, true};
  });
  const JobSeen job = waited_for(jobs, id, "mk");
  EXPECT_EQ(job.state, JobState::done);
  EXPECT_EQ(job.done, 3);
  EXPECT_EQ(job.all, 7);
  EXPECT_TRUE(job.answer.wrong);
  EXPECT_THROW((void)jobs.seen(id, "kim"), desk::Failure) << "another person's";
  jobs.cancel(id, "mk");
  EXPECT_THROW((void)jobs.seen(id, "mk"), desk::Failure) << "what is over is forgotten";
}

TEST(Jobs, EndWhenCancelledAndSayWhyTheyFailed) {
  Jobs jobs;
  std::atomic<bool> ended{false};
  const std::string id = jobs.begin("verify", "mk", [&](const desk::CareWatch& watch) { return endless(watch, ended); });
  jobs.cancel(id, "mk");
  EXPECT_EQ(waited_for(jobs, id, "mk").state, JobState::cancelled);
  EXPECT_TRUE(ended);
  const std::string bad = jobs.begin("back up", "mk", [](const desk::CareWatch&) -> desk::CareAnswer {
    throw desk::Failure(desk::ErrorWord::disk_full, "No room in /b.");
  });
  const JobSeen failed = waited_for(jobs, bad, "mk");
  EXPECT_EQ(failed.state, JobState::failed);
  EXPECT_EQ(failed.error, "disk_full");
  EXPECT_EQ(failed.sentence, "No room in /b.");
}

TEST(Jobs, WhatNobodyAsksAfterIsDropped) {
  Jobs jobs(60ms);
  std::atomic<bool> ended{false};
  (void)jobs.begin("verify", "mk", [&](const desk::CareWatch& watch) { return endless(watch, ended); });
  std::this_thread::sleep_for(200ms);
  EXPECT_TRUE(ended);
  EXPECT_EQ(jobs.count(), 0U);
}

TEST(Jobs, AFifthAtOnceIsTooMany) {
  Jobs jobs;
  std::atomic<bool> ended{false};
  for (int i = 0; i < 4; ++i) (void)jobs.begin("verify", "mk", [&](const desk::CareWatch& watch) { return endless(watch, ended); });
  EXPECT_THROW((void)jobs.begin("verify", "mk", [&](const desk::CareWatch& watch) { return endless(watch, ended); }), desk::Failure);
}

}  // namespace
}  // namespace heatwork::server
