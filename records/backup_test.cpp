#include "records/backup.h"

#include <sys/resource.h>
#include <unistd.h>
#include <utime.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <fstream>
#include <thread>

#include "records/copy_name.h"
#include "records/exchange.h"
#include "records/sample_store_for_tests.h"

namespace heatwork::records::for_tests {
namespace {

namespace fs = std::filesystem;

class BackupTest : public OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    copies_ = folder_ / "copies";
    fs::create_directory(copies_);
  }
  BackUpAsked asked(const std::string& now = "2026-11-25T17:11:04.123Z") const {
    BackUpAsked asked;
    asked.folder = copies_.string();
    asked.now_utc = now;
    asked.index_of = toy_index;
    return asked;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const auto& file : fs::directory_iterator(copies_)) names.push_back(file.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
  }
  static std::string text_in(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  fs::path copies_;
};
HEATWORK_ON_EACH_ENGINE(BackupTest);

Opening reading() {
  Opening reading = opening();
  reading.read_only = true;
  reading.make = false;
  return reading;
}

TEST_P(BackupTest, a_copy_is_the_whole_store_with_its_text_beside_it) {
  Store store = fresh();
  fill_sample(store);
  const BackUpMade made = back_up(store, asked());
  EXPECT_TRUE(made.made);
  const std::string name = "heatwork-" + store.status().store_id.substr(0, 8) + "-20261125T171104Z.sqlite";
  EXPECT_EQ(names(), std::vector<std::string>({name, name + ".txt"}));
  EXPECT_EQ(made.path, (copies_ / name).string());
  EXPECT_EQ(made.head, store.status().head);
  EXPECT_EQ(made.export_hash, export_hash(store));
  EXPECT_EQ(made.bytes, static_cast<std::int64_t>(fs::file_size(made.path)));
  EXPECT_TRUE(made.said.empty());
  Store copy = Store::open({Engine::sqlite, made.path}, reading());
  EXPECT_EQ(export_hash(copy), made.export_hash);
  const std::string text = text_in(made.path + ".txt");
  for (const std::string& part :
       {made.head, made.export_hash, name, std::string("2026-11-25T17:11:04.123Z"), std::string("store restore")}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
  }
  EXPECT_EQ(text.find("postgresql://tester@"), sqlite() ? std::string::npos : text.find("postgresql://tester@"));
  EXPECT_EQ(names().size(), 2U) << "reading leaves nothing beside a copy";
}

TEST_P(BackupTest, a_store_opened_for_reading_only_can_be_copied) {
  {
    Store store = fresh();
    fill_sample(store);
  }
  Opening only = reading();
  Store store = Store::open(address_, only);
  EXPECT_EQ(back_up(store, asked()).export_hash, export_hash(store));
}

TEST_P(BackupTest, a_second_copy_of_the_same_second_is_refused) {
  Store store = fresh();
  const BackUpMade made = back_up(store, asked());
  const std::string bytes = text_in(made.path);
  EXPECT_EQ(problem_of([&] { back_up(store, asked()); }).first, StoreProblem::already_there);
  EXPECT_EQ(text_in(made.path), bytes);
  EXPECT_EQ(names().size(), 2U);
}

TEST_P(BackupTest, the_oldest_copies_of_this_store_go_and_no_others) {
  Store store = fresh();
  const std::string id = store.status().store_id.substr(0, 8);
  for (const char* now : {"2026-11-21T10:00:00Z", "2026-11-22T10:00:00Z", "2026-11-23T10:00:00Z"}) back_up(store, asked(now));
  {
    Store other = Store::open({Engine::sqlite, (folder_ / "other.sqlite").string()}, opening());
    back_up(other, asked("2026-11-20T10:00:00Z"));
  }
  std::ofstream(copies_ / ("heatwork-" + id + "-20261101T100000Z.sqlite")) << "named like one";
  std::ofstream(copies_ / "letter.txt") << "of somebody";
  BackUpAsked last = asked("2026-11-24T10:00:00Z");
  last.keep = 2;
  const BackUpMade made = back_up(store, last);
  ASSERT_EQ(made.dropped.size(), 2U);
  EXPECT_NE(made.dropped[0].find("20261122T100000Z"), std::string::npos);
  EXPECT_NE(made.dropped[1].find("20261121T100000Z"), std::string::npos);
  ASSERT_EQ(made.said.size(), 1U);
  EXPECT_NE(made.said[0].find("named like a copy of this store"), std::string::npos);
  EXPECT_EQ(names().size(), 2U * 2U + 2U + 1U + 1U);
}

TEST_P(BackupTest, a_copy_of_a_time_that_lies_ahead_is_said_and_not_trusted) {
  Store store = fresh();
  back_up(store, asked("2031-01-01T00:00:00Z"));
  BackUpAsked now = asked();
  now.if_due_s = 86'400;
  now.keep = 1;
  const BackUpMade made = back_up(store, now);
  EXPECT_TRUE(made.made);
  ASSERT_EQ(made.said.size(), 1U);
  EXPECT_NE(made.said[0].find("lies ahead"), std::string::npos);
  EXPECT_TRUE(fs::exists(made.path)) << "never the one just made";
}

TEST_P(BackupTest, a_copy_is_made_only_when_one_is_due) {
  Store store = fresh();
  const BackUpMade first = back_up(store, asked("2026-11-24T10:00:00Z"));
  BackUpAsked daily = asked("2026-11-25T09:59:59Z");
  daily.if_due_s = 86'400;
  const BackUpMade early = back_up(store, daily);
  EXPECT_FALSE(early.made);
  EXPECT_EQ(early.path, first.path);
  daily.now_utc = "2026-11-25T10:00:00Z";
  EXPECT_TRUE(back_up(store, daily).made);
}

TEST_P(BackupTest, what_was_never_finished_is_swept_after_a_day) {
  Store store = fresh();
  const std::string name = copy_name(store.status().store_id, "2026-11-20T10:00:00Z");
  for (const char* left : {".part", ".part-journal", ".txt.part"}) {
    std::ofstream(copies_ / (name + left)) << "half";
    const utimbuf then{1'763'600'000, 1'763'600'000};  // a year before
    ::utime((copies_ / (name + left)).c_str(), &then);
  }
  const std::string young = copy_name(store.status().store_id, "2026-11-25T10:00:00Z") + ".part";
  std::ofstream(copies_ / young) << "being made";
  const utimbuf now{1'795'626'000, 1'795'626'000};
  ::utime((copies_ / young).c_str(), &now);
  const BackUpMade made = back_up(store, asked());
  EXPECT_EQ(made.said.size(), 3U);
  EXPECT_EQ(names().size(), 3U);
  EXPECT_TRUE(fs::exists(copies_ / young));
}

TEST_P(BackupTest, a_damaged_store_gives_no_copy_and_loses_none) {
  Store store = fresh();
  fill_sample(store);
  back_up(store, asked("2026-11-24T10:00:00Z"));
  behind_its_back("update documents set body = 'x' where id = 'firing-3'");
  BackUpAsked next = asked();
  next.keep = 1;
  const auto [problem, sentence] = problem_of([&] { back_up(store, next); });
  EXPECT_EQ(problem, StoreProblem::damaged);
  EXPECT_NE(sentence.find("firing firing-3, version 1"), std::string::npos) << sentence;
  EXPECT_EQ(names().size(), 2U);
}

TEST_P(BackupTest, a_folder_that_is_not_there_is_refused) {
  Store store = fresh();
  BackUpAsked nowhere = asked();
  nowhere.folder = (folder_ / "not-plugged-in").string();
  EXPECT_EQ(problem_of([&] { back_up(store, nowhere); }).first, StoreProblem::refused);
  EXPECT_FALSE(fs::exists(nowhere.folder));
}

TEST_P(BackupTest, a_full_disk_leaves_nothing_under_a_final_name) {
  Store store = fresh();
  fill_sample(store, 200);
  back_up(store, asked("2026-11-24T10:00:00Z"));
  std::signal(SIGXFSZ, SIG_IGN);
  rlimit before{};
  ::getrlimit(RLIMIT_FSIZE, &before);
  const rlimit little{60'000, before.rlim_max};
  ::setrlimit(RLIMIT_FSIZE, &little);
  StoreProblem problem = StoreProblem::mistake_of_ours;
  std::string sentence;
  try {
    back_up(store, asked());
  } catch (const StoreError& error) {
    problem = error.problem();
    sentence = error.what();
  }
  ::setrlimit(RLIMIT_FSIZE, &before);
  EXPECT_EQ(problem, StoreProblem::full) << sentence;
  EXPECT_EQ(names().size(), 2U);
  EXPECT_TRUE(back_up(store, asked()).made);
}

TEST_P(BackupTest, copies_made_while_others_keep_are_whole) {
  {
    Store store = fresh();
    fill_sample(store);
  }
  std::atomic<bool> stop = false;
  std::atomic<int> kept = 0;
  std::thread writer([&] {
    Store store = fresh();
    for (int number = 100; !stop; ++number, ++kept) store.keep(change({sample_firing(number)}));
  });
  Store store = fresh();
  std::string before;
  for (int copy = 0; copy < 4; ++copy) {
    const int so_far = kept;
    const BackUpMade made = back_up(store, asked("2026-11-25T17:11:1" + std::to_string(copy) + "Z"));
    Store opened = Store::open({Engine::sqlite, made.path}, reading());
    EXPECT_GE(opened.heads({"firing", "", "", 1}).count, so_far + 6) << "what was kept before is in it";
    EXPECT_NE(made.head, before);
    before = made.head;
    while (kept < so_far + 3) std::this_thread::yield();
  }
  stop = true;
  writer.join();
  EXPECT_TRUE(verify(store, {before, {}}).wrong.empty());
}

TEST_P(BackupTest, a_copy_restored_is_the_same_store) {
  BackUpMade made;
  std::string hash;
  {
    Store store = fresh();
    fill_sample(store);
    made = back_up(store, asked());
    hash = export_hash(store);
  }
  const Address to{Engine::sqlite, (folder_ / "restored.sqlite").string()};
  const Copied copied = restore(made.path, to, opening());
  EXPECT_EQ(copied.export_hash, made.export_hash);
  EXPECT_EQ(copied.head, made.head);
  EXPECT_EQ(problem_of([&] { restore(made.path, to, opening()); }).first, StoreProblem::already_there);
  Store store = Store::open(to, opening());
  EXPECT_EQ(export_hash(store), hash);
  EXPECT_EQ(copied.documents, store.status().versions);
  EXPECT_EQ(copied.entries, store.status().entries);
  store.keep(change({version("program", "dentine", 3, "label Dentine\n600\n")}));
  EXPECT_TRUE(verify(store, {made.head, {}}).wrong.empty());
  EXPECT_EQ(names().size(), 2U) << "restoring leaves nothing beside a copy";
}

TEST_P(BackupTest, a_copy_is_restored_to_this_engine) {
  BackUpMade made;
  {
    Store store = Store::open({Engine::sqlite, (folder_ / "other.sqlite").string()}, opening());
    fill_sample(store);
    made = back_up(store, asked());
  }
  EXPECT_EQ(restore(made.path, address_, opening()).export_hash, made.export_hash);
  Store store = Store::open(address_, opening());
  EXPECT_EQ(export_hash(store), made.export_hash);
}

TEST_P(BackupTest, a_damaged_copy_is_not_restored) {
  BackUpMade made;
  {
    Store store = Store::open({Engine::sqlite, (folder_ / "other.sqlite").string()}, opening());
    fill_sample(store);
    made = back_up(store, asked());
  }
  Store::Inside hand;
  hand.address = {Engine::sqlite, made.path};
  hand.run("update trail set reason = 'x' where sequence = 4");
  const auto [problem, sentence] = problem_of([&] { restore(made.path, address_, opening()); });
  EXPECT_EQ(problem, StoreProblem::damaged);
  EXPECT_NE(sentence.find("Entry 4"), std::string::npos);
  Opening nothing = opening();
  nothing.make = false;
  EXPECT_EQ(problem_of([&] { Store::open(address_, nothing); }).first, StoreProblem::no_store);
  EXPECT_EQ(problem_of([&] { restore((folder_ / "none.sqlite").string(), address_, opening()); }).first, StoreProblem::no_store);
}

}  // namespace
}  // namespace heatwork::records::for_tests
