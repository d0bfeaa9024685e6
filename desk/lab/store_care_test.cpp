#include "desk/lab/store_care.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <string>
#include <utility>

#include "desk/errors.h"
#include "desk/files.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

class StoreCareTest : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("heatwork_care_" + std::to_string(::getpid()));
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "backups");
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] std::string at(const std::string& name) const { return (folder_ / name).string(); }
  [[nodiscard]] AskedLab asked(const std::string& name = "lab.sqlite") const { return {at(name), "mk"}; }
  [[nodiscard]] CareAnswer backed_up() const {
    BackUpWords words;
    words.folder = at("backups");
    return back_up_store(asked(), words, {});
  }

  fs::path folder_;
};

std::string text(const CareAnswer& answer, const char* key) {
  const Json* found = answer.json.find(key);
  return found != nullptr && found->text() != nullptr ? *found->text() : "";
}
bool truth(const CareAnswer& answer, const char* key) {
  const Json* found = answer.json.find(key);
  return found != nullptr && found->truth() != nullptr && *found->truth();
}

/// Word of the error and its sentence.
template <class Call>
std::pair<ErrorWord, std::string> refusal(Call&& call) {
  try {
    call();
  } catch (...) {
    const Shown shown = explain(std::current_exception());
    return {shown.error, shown.sentence};
  }
  ADD_FAILURE() << "Nothing was refused.";
  return {ErrorWord::mistake_of_ours, ""};
}

TEST_F(StoreCareTest, format_stands_first_in_every_answer) {
  const CareAnswer answers[] = {make_store(asked()),
                                status_of_store(asked()),
                                verify_store(asked(), "", {}),
                                backed_up(),
                                export_store(asked(), at("lab.json"), {}),
                                export_tables(asked(), at("tables"), {})};
  for (const CareAnswer& answer : answers) {
    ASSERT_NE(answer.json.object(), nullptr);
    EXPECT_EQ(answer.json.object()->front().key, "format");
    EXPECT_FALSE(answer.wrong) << answer.text;
  }
}

TEST_F(StoreCareTest, a_store_that_stands_is_not_made_again) {
  const std::string head = text(make_store(asked()), "head");
  const auto [word, sentence] = refusal([&] { make_store(asked()); });
  EXPECT_EQ(word, ErrorWord::already_there) << sentence;
  EXPECT_EQ(text(status_of_store(asked()), "head"), head);
}

TEST_F(StoreCareTest, the_newest_backup_in_a_folder_is_the_one_restored) {
  make_store(asked());
  const std::string first = text(backed_up(), "path");
  const std::string older = std::regex_replace(first, std::regex("-\\d{8}T"), "-20200101T");
  fs::copy(first, older);
  const CareAnswer restored = restore_store(asked("again.sqlite"), at("backups"), {});
  EXPECT_EQ(text(restored, "backup"), first);
  EXPECT_FALSE(restored.wrong) << restored.text;
  EXPECT_EQ(copies_seen(at("backups")).size(), 2U);
  EXPECT_EQ(copies_seen(at("backups")).back().path, older);
}

TEST_F(StoreCareTest, a_text_that_is_not_that_of_the_backup_is_told) {
  make_store(asked());
  const std::string copy = text(backed_up(), "path");
  std::ifstream in(copy + ".txt");
  std::string beside((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  beside = std::regex_replace(beside, std::regex("(export hash +)[0-9a-f]{64}"), "$1" + std::string(64, 'a'));
  std::ofstream(copy + ".txt") << beside;
  const CareAnswer restored = restore_store(asked("again.sqlite"), copy, {});
  EXPECT_TRUE(restored.wrong);
  EXPECT_TRUE(truth(restored, "differs"));
}

TEST_F(StoreCareTest, a_backup_without_its_text_is_restored_and_that_is_said) {
  make_store(asked());
  const std::string copy = text(backed_up(), "path");
  fs::remove(copy + ".txt");
  const CareAnswer restored = restore_store(asked("again.sqlite"), copy, {});
  EXPECT_FALSE(restored.wrong);
  EXPECT_NE(text(restored, "compared").find("no text beside"), std::string::npos);
}

TEST_F(StoreCareTest, what_was_stopped_is_called_stopped_and_leaves_nothing) {
  make_store(asked());
  const CareWatch stop = [](std::int64_t, std::int64_t) { return false; };
  BackUpWords words;
  words.folder = at("backups");
  EXPECT_EQ(refusal([&] { verify_store(asked(), "", stop); }).first, ErrorWord::stopped);
  EXPECT_EQ(refusal([&] { back_up_store(asked(), words, stop); }).first, ErrorWord::stopped);
  EXPECT_EQ(refusal([&] { export_store(asked(), at("lab.json"), stop); }).first, ErrorWord::stopped);
  EXPECT_EQ(refusal([&] { export_tables(asked(), at("tables"), stop); }).first, ErrorWord::stopped);
  EXPECT_TRUE(fs::is_empty(at("backups")));
  EXPECT_FALSE(fs::exists(at("lab.json")));
  EXPECT_FALSE(fs::exists(at("tables")));
}

TEST_F(StoreCareTest, an_export_is_never_written_over_what_stands) {
  make_store(asked());
  write_whole(at("lab.json"), "mine");
  fs::create_directories(at("tables"));
  write_whole(at("tables/uses.csv"), "mine");
  EXPECT_EQ(refusal([&] { export_store(asked(), at("lab.json"), {}); }).first, ErrorWord::already_there);
  EXPECT_EQ(refusal([&] { export_tables(asked(), at("tables"), {}); }).first, ErrorWord::already_there);
  EXPECT_EQ(read_whole(at("lab.json")), "mine");
  EXPECT_EQ(read_whole(at("tables/uses.csv")), "mine");
  EXPECT_FALSE(fs::exists(at("tables/heads.csv"))) << "of tables that are of use together none is left alone";
}

TEST_F(StoreCareTest, an_altered_export_is_refused_and_leaves_nothing) {
  make_store(asked());
  export_store(asked(), at("lab.json"), {});
  std::string exported = read_whole(at("lab.json"));
  exported.replace(exported.find("store made"), 5, "STORE");
  write_whole(at("altered.json"), exported);
  const auto [word, sentence] = refusal([&] { import_store(asked("again.sqlite"), at("altered.json"), {}); });
  EXPECT_NE(word, ErrorWord::mistake_of_ours) << sentence;
  EXPECT_FALSE(fs::exists(at("again.sqlite")));
}

TEST_F(StoreCareTest, a_photo_that_is_not_kept_cannot_be_erased) {
  make_store(asked());
  EXPECT_EQ(refusal([&] { erase_photo(asked(), std::string(64, 'a'), "shows a face"); }).first, ErrorWord::unknown_name);
}

TEST_F(StoreCareTest, sizes_in_words) {
  EXPECT_EQ(bytes_in_words(1), "1 byte");
  EXPECT_EQ(bytes_in_words(999), "999 bytes");
  EXPECT_EQ(bytes_in_words(106'496), "106 kB");
  EXPECT_EQ(bytes_in_words(999'600), "1 MB");
  EXPECT_EQ(bytes_in_words(2'340'000'000), "2.34 GB");
  EXPECT_EQ(bytes_in_words(1'500'000'000'000), "1.5 TB");
}

TEST_F(StoreCareTest, a_file_written_part_by_part_stands_only_when_it_is_done) {
  {
    WholeFile file(at("parts"));
    file.put("one ");
    EXPECT_FALSE(fs::exists(at("parts")));
  }
  EXPECT_FALSE(fs::exists(at("parts")));
  WholeFile file(at("parts"));
  file.put("one ");
  file.put("two");
  file.done();
  EXPECT_EQ(read_whole(at("parts")), "one two");
}

}  // namespace
}  // namespace heatwork::desk
