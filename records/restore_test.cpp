#include <fstream>
#include <iterator>

#include "records/backup.h"
#include "records/exchange.h"
#include "records/new_store.h"
#include "records/old_store_for_tests.h"
#include "records/sample_store_for_tests.h"
#include "records/schema.h"
#include "records/transaction.h"

namespace heatwork::records::for_tests {
namespace {

/// A copy of a store as Heatwork made it when the tables had format 1: what falls due was not kept.
class RestoreTest : public OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    old_ = (folder_ / "old.sqlite").string();
    NewFile file({Engine::sqlite, old_}, opening());
    Store::Inside& inside = file.inside();
    begin_writing(inside);
    make_tables(inside, 1);
    begin_trail(inside, somebody());
    for (int number = 1; number <= 3; ++number) keep(inside, sample_firing(number));
    keep(inside, version("furnace", "corner", 0, "label Corner\ndue 2026-12-01 check of the display\n"));
    head_ = inside.newest_entry()->hash;
    commit(inside);
    file.put_in_place();
  }

  static void keep(Store::Inside& inside, const NewVersion& version) {
    Document document{version.kind, version.id, 1, version.body, "", ""};
    document.hash = document_hash(document);
    inside.insert(std::vector{document});
    const Index index = toy_index(document);
    inside.insert(std::vector<HeadRow>{{document.kind, document.id, 1, index.label, index.state, index.words, index.at_ms}});
    int row = 0;
    for (const Use& use : index.uses) inside.insert(std::vector<IndexUse>{{document.kind, document.id, ++row, use}});
    inside.append({0, somebody(), "added", document.kind, document.id, 1, document.hash, "", "", "", ""});
  }

  [[nodiscard]] std::string bytes() const {
    std::ifstream in(old_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  std::string old_, head_;
};
HEATWORK_ON_EACH_ENGINE(RestoreTest);

TEST_P(RestoreTest, a_copy_of_an_earlier_format_is_migrated_on_its_way_and_stays_as_it_is) {
  const std::string before = bytes();
  const Copied copied = restore(old_, address_, opening());
  EXPECT_EQ(bytes(), before);
  Store store = Store::open(address_, opening());
  EXPECT_EQ(store.status().format, store_format);
  EXPECT_FALSE(store.status().migrated) << "not by this opening";
  EXPECT_EQ(export_hash(store), copied.export_hash);
  EXPECT_EQ(store.dues("2026-12-31").count, 1) << "what falls due is found from the old documents";
  EXPECT_EQ(store.trail({"store", "", 0, true}).rows.at(0).action, "migrated");
  const Verified verified = verify(store, {head_, {}});
  EXPECT_EQ(verified.wrong, std::vector<std::string>()) << "the head printed before the migration stands";
  std::size_t files = 0;
  for (const auto& file : std::filesystem::directory_iterator(folder_)) files += file.path().string().find("restore") != std::string::npos;
  EXPECT_EQ(files, 0U) << "nothing is left of the way";
}

TEST_P(RestoreTest, the_kept_store_of_the_first_format_is_restored) {
  const std::string kept = HEATWORK_SOURCE_DIR "/tests/records/formats/format-1.sqlite";
  const Copied copied = restore(kept, address_, plain_opening());
  Store store = Store::open(address_, plain_opening());
  EXPECT_EQ(export_hash(store), copied.export_hash);
  EXPECT_EQ(verify(store).wrong, std::vector<std::string>());
  EXPECT_TRUE(store.find("furnace", "corner"));
  EXPECT_EQ(copied.entries, store.status().entries);
}

TEST_P(RestoreTest, an_altered_copy_of_an_earlier_format_is_not_restored) {
  {
    Store::Inside hand;
    hand.address = {Engine::sqlite, old_};
    hand.run("update documents set body = 'x' where id = 'firing-2'");
  }
  EXPECT_EQ(problem_of([&] { restore(old_, address_, opening()); }).first, StoreProblem::damaged);
  Opening nothing = opening();
  nothing.make = false;
  EXPECT_EQ(problem_of([&] { (void)Store::open(address_, nothing); }).first, StoreProblem::no_store);
}

TEST_P(RestoreTest, a_copy_of_a_later_format_is_refused_by_name) {
  {
    Store::Inside hand;
    hand.address = {Engine::sqlite, old_};
    hand.set_about("format", std::to_string(store_format + 1));
  }
  const auto [problem, sentence] = problem_of([&] { restore(old_, address_, opening()); });
  EXPECT_EQ(problem, StoreProblem::too_new);
  EXPECT_NE(sentence.find("format " + std::to_string(store_format + 1)), std::string::npos) << sentence;
}

}  // namespace
}  // namespace heatwork::records::for_tests
