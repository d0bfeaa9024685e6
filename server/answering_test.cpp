#include "server/answering.h"

#include <gtest/gtest.h>

#include <atomic>
#include <latch>
#include <set>
#include <stdexcept>
#include <thread>
#include <vector>

namespace heatwork::server {
namespace {

using namespace std::chrono_literals;

TEST(Answering, WhoAsksOneAfterTheOtherIsServedByOneThread) {
  Answering answering;
  std::set<std::thread::id> seen;
  for (int i = 0; i < 50; ++i) std::thread([&] { answering.have_done([&] { seen.insert(std::this_thread::get_id()); }); }).join();
  EXPECT_EQ(seen.size(), 1U);
  EXPECT_FALSE(seen.contains(std::this_thread::get_id()));
  EXPECT_EQ(answering.count(), 1U);
}

TEST(Answering, NobodyWaitsForAnothersWork) {
  Answering answering;
  constexpr int at_once = 40;
  std::latch all_in(at_once);
  std::vector<std::thread> asking;
  for (int i = 0; i < at_once; ++i) asking.emplace_back([&] { answering.have_done([&] { all_in.arrive_and_wait(); }); });
  for (std::thread& each : asking) each.join();
  EXPECT_EQ(answering.count(), static_cast<std::size_t>(at_once));
}

TEST(Answering, AThreadWithNothingToDoEnds) {
  Answering answering(20ms);
  answering.have_done([] {});
  for (int i = 0; i < 200 && answering.count() > 0; ++i) std::this_thread::sleep_for(5ms);
  EXPECT_EQ(answering.count(), 0U);
  int done = 0;
  answering.have_done([&] { ++done; });
  EXPECT_EQ(done, 1);
}

TEST(Answering, WhatIsThrownComesToWhoAsked) {
  Answering answering;
  EXPECT_THROW(answering.have_done([] { throw std::runtime_error("no"); }), std::runtime_error);
  std::atomic<int> done{0};
  answering.have_done([&] { ++done; });
  EXPECT_EQ(done, 1);
  EXPECT_EQ(answering.count(), 1U);
}

}  // namespace
}  // namespace heatwork::server
