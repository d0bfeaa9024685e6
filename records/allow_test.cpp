// What is asked under the writers' lock before a change is kept.
#include <gtest/gtest.h>

#include <future>
#include <optional>

#include "records/store_for_tests.h"

namespace heatwork::records {
namespace {

using namespace for_tests;

class Allow : public OnEachEngine {};

struct Forbidden {
  int word = 0;
};

TEST_P(Allow, WhatItThrowsEndsTheChangeAndComesOutAsItIs) {
  Store store = fresh();
  store.keep(change({version("program", "a", 0, "one")}));
  const std::string head = store.status().head;
  Change made = change({version("program", "a", 1, "two"), version("program", "b", 0, "beside")});
  made.photos = {{"\x89PNG made up", ""}};
  made.personal = {{"mk", "name = \"Made Up\"", ""}};
  made.allow = [](Store&) { throw Forbidden{7}; };
  try {
    store.keep(made);
    ADD_FAILURE() << "It was kept.";
  } catch (const Forbidden& forbidden) {
    EXPECT_EQ(forbidden.word, 7);
  }
  const Status after = store.status();
  EXPECT_EQ(after.head, head);
  EXPECT_EQ(after.versions, 1);
  EXPECT_EQ(after.photos + after.persons_with_data, 0);
  made.allow = [](Store&) {};
  EXPECT_EQ(store.keep(made).documents.size(), 2U) << "the store is as usable as before";
}

TEST_P(Allow, ItReadsWhatStandsInEveryWayThereIs) {
  Store store = fresh();
  store.keep(change({version("program", "a", 0, "label Dentine\nuse 10 p1 oven a@1 -\ndue 2027-01-31 check\n")}));
  Change made = change({version("program", "b", 0, "two")});
  int asked = 0;
  made.allow = [&](Store& standing) {
    ++asked;
    EXPECT_EQ(standing.find("program", "a")->version, 1);
    EXPECT_FALSE(standing.find("program", "b")) << "nothing of the change is written yet";
    EXPECT_EQ(standing.versions("program", "a").size(), 1U);
    HeadQuery programs;
    programs.kind = "program";
    EXPECT_EQ(standing.heads(programs).count, 1);
    EXPECT_EQ(standing.kinds().size(), 1U);
    EXPECT_EQ(standing.uses_of("p1").count, 1);
    EXPECT_EQ(standing.dues("2027-12-31").count, 1);
    EXPECT_EQ(standing.trail({}).count, 2);
    EXPECT_FALSE(standing.personal("mk"));
    EXPECT_EQ(standing.status().documents, 1);
  };
  store.keep(made);
  EXPECT_EQ(asked, 1);
  EXPECT_EQ(store.find("program", "b")->version, 1);
}

TEST_P(Allow, ItMayNotWrite) {
  Store store = fresh();
  Change made = change({version("program", "a", 0, "one")});
  made.allow = [](Store& standing) { standing.keep(change({version("program", "b", 0, "two")})); };
  EXPECT_EQ(problem_of([&] { store.keep(made); }).first, StoreProblem::mistake_of_ours);
  EXPECT_EQ(store.status().documents, 0);
}

TEST_P(Allow, ItSeesWhatAnotherProgramKeptWhileThisOneWaitedForTheLock) {
  Store store = fresh(), other = fresh();
  std::promise<void> other_writes;
  std::future<void> writes = other_writes.get_future();
  std::promise<void> go_on;
  std::future<void> goes_on = go_on.get_future();
  // The other holds the writers' lock from here until it is let go on.
  const auto elsewhere = std::async(std::launch::async, [&] {
    Change locks = change({version("lock", "a", 0, "locked")});
    locks.allow = [&](Store&) {
      other_writes.set_value();
      goes_on.wait();
    };
    other.keep(locks);
  });
  writes.wait();
  EXPECT_FALSE(store.find("lock", "a"));
  std::optional<bool> locked;
  Change mine = change({version("program", "a", 0, "one")});
  mine.allow = [&](Store& standing) { locked = standing.find("lock", "a").has_value(); };
  const auto here = std::async(std::launch::async, [&] { store.keep(mine); });
  EXPECT_EQ(here.wait_for(std::chrono::milliseconds(200)), std::future_status::timeout) << "it waits for the lock";
  go_on.set_value();
  elsewhere.wait();
  here.wait();
  EXPECT_EQ(locked, true);
}

HEATWORK_ON_EACH_ENGINE(Allow);

}  // namespace
}  // namespace heatwork::records
