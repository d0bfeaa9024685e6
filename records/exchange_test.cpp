#include "records/exchange.h"

#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "records/export_rows.h"
#include "records/hash.h"
#include "records/sample_store_for_tests.h"

namespace heatwork::records::for_tests {
namespace {

Lines lines_of(const std::string& text) {
  const auto in = std::make_shared<std::istringstream>(text);
  return [in]() -> std::optional<std::string> {
    std::string line;
    if (!std::getline(*in, line)) return std::nullopt;
    return line;
  };
}

class ExchangeTest : public OnEachEngine {
 protected:
  static std::string text_of(Store& store) {
    std::string text;
    const std::string hash = export_json(store, [&](std::string_view bytes) { text += bytes; });
    EXPECT_EQ(hash, hash_of_bytes(text));
    EXPECT_EQ(hash, export_hash(store));
    return text;
  }
  Address beside(const std::string& name) const { return {Engine::sqlite, (folder_ / name).string()}; }
};
HEATWORK_ON_EACH_ENGINE(ExchangeTest);

TEST_P(ExchangeTest, the_export_is_one_json_value_with_a_row_a_line) {
  Store store = fresh();
  fill_sample(store);
  const std::string text = text_of(store);
  const nlohmann::json whole = nlohmann::json::parse(text);
  EXPECT_EQ(whole["what"], "heatwork store");
  EXPECT_EQ(whole["format"], export_format);
  const Status status = store.status();
  const nlohmann::json& end = whole["rows"].back();
  EXPECT_EQ(end["documents"], status.versions);
  EXPECT_EQ(end["entries"], status.entries);
  EXPECT_EQ(whole["rows"].size(), static_cast<std::size_t>(3 + status.versions + status.entries + 2 + 1));
  std::istringstream lines(text);
  std::string line;
  std::getline(lines, line);
  EXPECT_EQ(line, export_opening());
  for (std::size_t row = 0; std::getline(lines, line); ++row) EXPECT_EQ(line.rfind("{\"row\":", 0), 0U) << line;
}

TEST_P(ExchangeTest, an_import_makes_the_same_store) {
  std::string text, head;
  std::vector<std::string> bodies;
  {
    Store store = fresh();
    fill_sample(store);
    text = text_of(store);
    head = store.status().head;
  }
  const Address to = beside("imported.sqlite");
  EXPECT_EQ(import_json(lines_of(text), to, opening()), hash_of_bytes(text));
  Store store = Store::open(to, opening());
  EXPECT_EQ(text_of(store), text);
  EXPECT_EQ(store.status().head, head);
  EXPECT_EQ(store.heads({"firing", "", "ended", 1}).count, 6);
  EXPECT_EQ(store.pieces({PieceQuery::By::lot, "lot-1"}).count, 2);
  EXPECT_EQ(store.dues("2026-12-31").count, 1);
  EXPECT_EQ(store.personal("mk"), "Maria K\u00f6nig, bench 2\n");
  EXPECT_TRUE(store.photo(photo_hash("\x89PNG made up, one")));
  store.keep(change({version("program", "dentine", 3, "label Dentine\n600\n")}));
  EXPECT_TRUE(verify(store).wrong.empty());
}

TEST_P(ExchangeTest, an_import_goes_to_this_engine_too) {
  std::string text;
  {
    Store store = Store::open(beside("first.sqlite"), opening());
    fill_sample(store);
    text = text_of(store);
  }
  import_json(lines_of(text), address_, opening());
  Store store = Store::open(address_, opening());
  EXPECT_EQ(text_of(store), text);
  EXPECT_EQ(problem_of([&] { import_json(lines_of(text), address_, opening()); }).first, StoreProblem::already_there);
}

TEST_P(ExchangeTest, whatever_differs_by_one_byte_is_refused_and_leaves_nothing) {
  std::string text;
  {
    Store store = Store::open(beside("first.sqlite"), opening());
    fill_sample(store, 2);
    text = text_of(store);
  }
  // Every byte in turn would take minutes on a server; a prime step meets every column all the same.
  const std::size_t step = sqlite() ? 37 : 997;
  for (std::size_t at = 0; at < text.size(); at += step) {
    std::string altered = text;
    altered[at] = altered[at] == 'x' ? 'y' : 'x';
    const auto [problem, sentence] = problem_of([&] { import_json(lines_of(altered), address_, opening()); });
    EXPECT_TRUE(problem == StoreProblem::bad_value || problem == StoreProblem::damaged) << at << ": " << sentence;
  }
  import_json(lines_of(text), address_, opening());
}

class ImportTest : public OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    Store store = Store::open({Engine::sqlite, (folder_ / "first.sqlite").string()}, opening());
    fill_sample(store, 1);
    export_json(store, [&](std::string_view bytes) { text_ += bytes; });
    std::istringstream in(text_);
    for (std::string line; std::getline(in, line);) lines_.push_back(line);
  }
  std::pair<StoreProblem, std::string> import_of(const std::vector<std::string>& lines) const {
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    const auto problem = problem_of([&] { import_json(lines_of(text), address_, opening()); });
    EXPECT_FALSE(std::filesystem::exists(address_.where));
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_), std::filesystem::directory_iterator()), 1);
    return problem;
  }
  std::string text_;
  std::vector<std::string> lines_;
};
INSTANTIATE_TEST_SUITE_P(Engines, ImportTest, testing::Values(Engine::sqlite), engine_name);

TEST_P(ImportTest, names_the_line_that_is_wrong) {
  auto lines = lines_;
  lines.erase(lines.begin());
  EXPECT_EQ(import_of(lines).second.rfind("Line 1 of the export cannot be taken: an export of a store begins with", 0), 0U);
  lines = lines_;
  lines.pop_back();
  EXPECT_EQ(import_of(lines).second,
            "Line " + std::to_string(lines_.size()) +
                " of the export cannot be taken: it is missing; an export ends with a line of the row “end”. Nothing was kept.");
  lines = lines_;
  lines.emplace_back("{}");
  EXPECT_EQ(import_of(lines).second,
            "Line " + std::to_string(lines.size()) + " of the export cannot be taken: it stands behind the last line. Nothing was kept.");
  lines = lines_;
  std::swap(lines[5], lines[6]);
  EXPECT_EQ(import_of(lines).second,
            "Line 7 of the export cannot be taken: its row does not stand in its order, or stands twice. Nothing was kept.");
  lines = lines_;
  lines.insert(lines.begin() + 5, lines[5]);
  EXPECT_EQ(import_of(lines).second,
            "Line 7 of the export cannot be taken: its row does not stand in its order, or stands twice. Nothing was kept.");
  lines = lines_;
  lines.erase(lines.begin() + 5);
  EXPECT_EQ(import_of(lines).second,
            "Line " + std::to_string(lines.size()) +
                " of the export cannot be taken: the rows before it are not as many as it says. Nothing was kept.");
}

TEST_P(ImportTest, names_what_is_wrong_in_a_line) {
  const auto with = [&](const std::string& line) {
    auto lines = lines_;
    lines[4] = line;
    const std::string sentence = import_of(lines).second;
    EXPECT_EQ(sentence.rfind("Line 5 of the export cannot be taken: ", 0), 0U) << sentence;
    return sentence.substr(38, sentence.find(". Nothing") - 38);
  };
  const std::string good = lines_[4];
  EXPECT_EQ(with(good.substr(0, good.size() - 1)), "it ends neither with a comma nor with the brackets of the last line");
  EXPECT_EQ(with("{\"row\":\"document\","), "it is no JSON object followed by a comma");
  EXPECT_EQ(with("[1],"), "it is no JSON object");
  EXPECT_EQ(with(std::string(100000, '[') + ","), "it is no JSON object followed by a comma");
  EXPECT_EQ(with("{\"row\":\"thing\"},"), "“row” is “thing”; it is about, document, entry, personal, photo or end");
  EXPECT_EQ(with("{\"row\":\"document\",\"kind\":1},"), "“kind” is no text");
  EXPECT_EQ(with("{\"row\":\"document\",\"kind\":\"a\\u0000b\"},"), "“kind” holds a NUL");
  EXPECT_EQ(with("{\"row\":\"document\",\"kind\":\"a\",\"id\":\"b\",\"version\":1.0},"), "“version” is no whole number");
  EXPECT_EQ(with("{\"row\":\"document\",\"kind\":\"a\",\"id\":\"b\",\"version\":18446744073709551615},"), "“version” is too large");
  EXPECT_EQ(with("{\"row\":\"document\",\"kind\":\"a\",\"id\":\"b\",\"version\":-1},"), "“version” is out of range");
  EXPECT_EQ(with("{\"row\":\"document\",\"kind\":\"a\"},"), "“id” is missing");
  EXPECT_EQ(with("{\"row\":\"about\",\"key\":\"z\",\"value\":\"x\", \"more\":1},"),
            "it is not written as an export writes it: keys, their order and every sign are fixed");
}

TEST_P(ImportTest, an_export_of_another_format_is_refused_by_name) {
  std::string text = text_;
  const std::string now = export_line(AboutRow{"format", sealed("format", std::to_string(store_format))});
  const std::string later = export_line(AboutRow{"format", sealed("format", std::to_string(store_format + 1))});
  ASSERT_NE(text.find(now), std::string::npos);
  text.replace(text.find(now), now.size(), later);
  const auto [problem, sentence] = problem_of([&] { import_json(lines_of(text), address_, opening()); });
  EXPECT_EQ(problem, StoreProblem::too_new) << sentence;
}

TEST_P(ImportTest, the_example_of_the_page_is_an_export) {
  std::ifstream in(HEATWORK_SOURCE_DIR "/docs/formats/store-export.md");
  const std::string page(std::istreambuf_iterator<char>(in), {});
  const std::size_t from = page.find("```json\n") + 8;
  const std::string example = page.substr(from, page.find("```", from) - from);
  const std::string hash = import_json(lines_of(example), address_, opening());
  EXPECT_EQ(hash, hash_of_bytes(example));
  EXPECT_NE(page.find("Its hash is `" + hash + "`"), std::string::npos);
}

TEST_P(ExchangeTest, tables_for_spreadsheets_quote_what_they_must) {
  Store store = fresh();
  fill_sample(store, 2);
  NewVersion odd = version("note", "a,b", 0, "label \"quoted\", twice\n");
  odd.reason = "one\ntwo";
  store.keep(change({odd}));
  std::map<std::string, std::string> files;
  export_csv(store, [&](std::string_view file, std::string_view bytes) { files[std::string(file)] += bytes; });
  ASSERT_EQ(files.size(), 4U);
  EXPECT_EQ(files["heads.csv"].rfind("kind,id,version,label,state,words,at_ms\r\n", 0), 0U);
  EXPECT_NE(files["heads.csv"].find("note,\"a,b\",1,\"\"\"quoted\"\", twice\",,,0\r\n"), std::string::npos) << files["heads.csv"];
  EXPECT_NE(files["uses.csv"].find("firing,firing-1,2,1700003600000,bridge-1,corner,dentine@1,\r\n"), std::string::npos)
      << files["uses.csv"];
  EXPECT_NE(files["dues.csv"].find("furnace,corner,1,2026-12-01,check of the display\r\n"), std::string::npos) << files["dues.csv"];
  EXPECT_NE(files["trail.csv"].find(",\"one\ntwo\","), std::string::npos);
  EXPECT_EQ(files["trail.csv"].rfind("sequence,at_utc,zone,person,known_by,action,kind,id,", 0), 0U);
}

TEST_P(ExchangeTest, a_watcher_may_stop_an_export_and_an_import) {
  Store store = fresh();
  fill_sample(store, 300);
  const Watch stop = [](std::int64_t, std::int64_t) { return false; };
  EXPECT_EQ(problem_of([&] { export_hash(store, stop); }).first, StoreProblem::refused);
  const std::string text = text_of(store);
  const Address to = beside("imported.sqlite");
  EXPECT_EQ(problem_of([&] { import_json(lines_of(text), to, opening(), stop); }).first, StoreProblem::refused);
  EXPECT_FALSE(std::filesystem::exists(to.where));
}

}  // namespace
}  // namespace heatwork::records::for_tests
