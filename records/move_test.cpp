#include <algorithm>
#include <atomic>
#include <thread>

#include "records/backup.h"
#include "records/exchange.h"
#include "records/sample_store_for_tests.h"

namespace heatwork::records::for_tests {
namespace {

class MoveTest : public OnEachEngine {
 protected:
  Address file(const std::string& name) const { return {Engine::sqlite, (folder_ / name).string()}; }
};
HEATWORK_ON_EACH_ENGINE(MoveTest);

TEST_P(MoveTest, there_and_back_gives_the_same_export_hash) {
  std::string hash, head;
  {
    Store first = Store::open(file("first.sqlite"), opening());
    fill_sample(first);
    hash = export_hash(first);
    head = first.status().head;
    const Copied there = move(first, address_, opening());
    EXPECT_EQ(there.export_hash, hash);
    EXPECT_EQ(there.head, head);
  }
  Store second = Store::open(address_, opening());
  EXPECT_EQ(export_hash(second), hash);
  EXPECT_EQ(move(second, file("third.sqlite"), opening()).export_hash, hash);
  Store third = Store::open(file("third.sqlite"), opening());
  EXPECT_EQ(export_hash(third), hash);
  EXPECT_TRUE(verify(third, {head, {}}).wrong.empty());
  third.keep(change({version("program", "dentine", 3, "label Dentine\n600\n")}));
}

TEST_P(MoveTest, the_old_store_takes_nothing_any_more_and_says_where_to) {
  Store old = fresh();
  Store elsewhere = fresh();  // open since before the move
  fill_sample(old);
  const std::string head = old.status().head;
  const Address to = file("new.sqlite");
  move(old, to, opening());
  for (Store* store : {&old, &elsewhere}) {
    const auto [problem, sentence] = problem_of([&] { store->keep(change({sample_firing(77)})); });
    EXPECT_EQ(problem, StoreProblem::closed);
    EXPECT_NE(sentence.find(to.where), std::string::npos) << sentence;
  }
  EXPECT_EQ(old.status().moved_to, to.shown());
  EXPECT_TRUE(old.find("program", "dentine")) << "it can be read";
  const Verified verified = verify(old, {head, {}});
  EXPECT_EQ(verified.wrong, std::vector<std::string>());
  EXPECT_EQ(old.trail({"store", "", 0, true}).rows.at(0).action, "moved");
  EXPECT_EQ(problem_of([&] { move(old, file("another.sqlite"), opening()); }).first, StoreProblem::closed);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "another.sqlite"));
}

TEST_P(MoveTest, that_it_was_moved_cannot_be_taken_back_unseen) {
  {
    Store old = fresh();
    move(old, file("new.sqlite"), opening());
  }
  behind_its_back("delete from about where key = 'moved_to'");
  Store old = fresh();
  const Verified verified = verify(old);
  ASSERT_FALSE(verified.wrong.empty());
  EXPECT_NE(verified.wrong[0].find("lacks its “moved_to”"), std::string::npos) << verified.wrong[0];
}

TEST_P(MoveTest, a_damaged_store_goes_on_and_nothing_is_left_at_the_new_address) {
  Store first = Store::open(file("first.sqlite"), opening());
  fill_sample(first);
  {
    Store::Inside hand;
    hand.address = file("first.sqlite");
    hand.run("update documents set body = 'x' where id = 'firing-3'");
  }
  EXPECT_EQ(problem_of([&] { move(first, address_, opening()); }).first, StoreProblem::damaged);
  first.keep(change({sample_firing(77)}));
  EXPECT_EQ(first.status().moved_to, "");
  Opening nothing = opening();
  nothing.make = false;
  EXPECT_EQ(problem_of([&] { Store::open(address_, nothing); }).first, StoreProblem::no_store);
}

TEST_P(MoveTest, where_something_stands_nothing_is_moved) {
  Store store = fresh();
  fill_sample(store);
  EXPECT_EQ(problem_of([&] { move(store, address_, opening()); }).first,
            sqlite() ? StoreProblem::already_there : problem_of([&] { move(store, address_, opening()); }).first);
  { Store other = Store::open(file("other.sqlite"), opening()); }
  EXPECT_EQ(problem_of([&] { move(store, file("other.sqlite"), opening()); }).first, StoreProblem::already_there);
  store.keep(change({sample_firing(77)}));
}

TEST_P(MoveTest, a_move_that_is_stopped_leaves_everything_as_it_was) {
  Store store = fresh();
  fill_sample(store, 300);
  const std::string hash = export_hash(store);
  const Watch stop = [](std::int64_t, std::int64_t) { return false; };
  EXPECT_EQ(problem_of([&] { move(store, file("new.sqlite"), opening(), stop); }).first, StoreProblem::refused);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "new.sqlite"));
  EXPECT_EQ(export_hash(store), hash);
  store.keep(change({sample_firing(777)}));
}

TEST_P(MoveTest, whoever_keeps_meanwhile_is_in_the_new_store_or_is_told) {
  {
    Store store = fresh();
    fill_sample(store, 50);
  }
  std::atomic<int> kept = 0;
  std::atomic<bool> told = false;
  std::thread writer([&] {
    Store store = fresh();
    try {
      for (int number = 100; number < 100'000; ++number, ++kept) store.keep(change({sample_firing(number)}));
    } catch (const StoreError& error) {
      told = error.problem() == StoreProblem::closed;
    }
  });
  while (kept < 5) std::this_thread::yield();
  {
    Store store = fresh();
    move(store, file("new.sqlite"), opening());
  }
  writer.join();
  EXPECT_TRUE(told);
  Store moved = Store::open(file("new.sqlite"), opening());
  EXPECT_EQ(moved.heads({"firing", "", "", 1}).count, 50 + kept);
  EXPECT_TRUE(verify(moved).wrong.empty());
}

}  // namespace
}  // namespace heatwork::records::for_tests
