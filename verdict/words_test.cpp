#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <set>

#include "trade/deciding_inputs.h"
#include "verdict/bench.h"
#include "verdict/judge_case.h"

namespace heatwork::verdict {
namespace {

using namespace judge_case;

/// Every key of words that the judge's sources name.
std::set<std::string> keys_named() {
  std::set<std::string> keys;
  const std::regex key("\"((?:findings|language)\\.[a-z_.]+)\"");
  for (const auto& entry : std::filesystem::directory_iterator(std::string(HEATWORK_SOURCE_DIR) + "/verdict")) {
    const std::string name = entry.path().filename().string();
    if (!name.ends_with(".cpp") || name.ends_with("_test.cpp")) continue;
    const std::string source = text_of("verdict/" + name);
    for (std::sregex_iterator i(source.begin(), source.end(), key), end; i != end; ++i) keys.insert((*i)[1]);
  }
  return keys;
}

std::set<std::string> gaps_of(const std::string& text) {
  std::set<std::string> gaps;
  const std::regex gap("\\{([a-z_]+)\\}");
  for (std::sregex_iterator i(text.begin(), text.end(), gap), end; i != end; ++i) gaps.insert((*i)[1]);
  return gaps;
}

TEST(Words, EveryKeyTheJudgeNamesExistsAndEveryFindingKeyIsNamed) {
  const std::set<std::string> named = keys_named();
  EXPECT_GT(named.size(), 60U);
  for (const std::string& key : named) EXPECT_TRUE(words().has(key)) << key;
  for (const auto& [key, text] : words().all()) {
    EXPECT_TRUE(!key.starts_with("findings.") || named.contains(key)) << key << " is never said";
  }
}

/// What English says in the code itself, once: fields' meanings, choices, kinds of file and of value.
bool is_said_by_the_code(const std::string& key) {
  for (const char* table : {"choice.", "choice_of.", "noun.", "noun_with_article.", "noun_as_object.", "nouns.", "kind.", "range."})
    if (key.starts_with(table)) return true;
  return key.starts_with("field.") && key.ends_with(".meaning");
}

TEST(Words, EveryLanguageHasTheSameKeysAndGaps) {
  const auto& english = words("en").all();
  const auto& german = words("de").all();
  for (const auto& [key, text] : english) {
    ASSERT_TRUE(german.contains(key)) << key;
    EXPECT_EQ(gaps_of(text), gaps_of(german.at(key))) << key;
  }
  for (const auto& [key, text] : german) EXPECT_TRUE(english.contains(key) || is_said_by_the_code(key)) << key << " has no English";
}

TEST(Words, EveryLevelAspectAndOriginHasItsWord) {
  for (const std::string language : {"en", "de"}) {
    for (int i = 0; i <= static_cast<int>(Level::sound); ++i) EXPECT_TRUE(words(language).has(word_key(static_cast<Level>(i))));
    for (int i = 0; i <= static_cast<int>(Aspect::refiring); ++i) EXPECT_TRUE(words(language).has(word_key(static_cast<Aspect>(i))));
    for (int i = 0; i <= static_cast<int>(LimitFrom::heatwork); ++i) {
      EXPECT_TRUE(words(language).has(word_key(static_cast<LimitFrom>(i))));
    }
  }
}

TEST(Words, NothingShownIsABareOk) {
  for (const std::string language : {"en", "de"}) {
    for (const auto& [key, text] : words(language).all()) EXPECT_FALSE(std::regex_search(text, std::regex("\\b(OK|ok|Okay)\\b"))) << key;
  }
}

TEST(Words, AJudgementIsTheSameInEveryLanguage) {
  firing::Rehearsal made = rehearsal();
  made.request.furnace.display_error = trade::DisplayError{given(quantity::kelvins(12)), given(quantity::kelvins(3)), "invented"};
  made.compared[0].shift_K = -13.4;
  made.firing.pieces[0].points[0].porosity_percent = 1.72;
  const Verdict english = judge(made, limits(), words("en"));
  const Verdict german = judge(made, limits(), words("de"));
  ASSERT_EQ(english.findings.size(), german.findings.size());
  for (std::size_t i = 0; i < english.findings.size(); ++i) {
    EXPECT_EQ(english.findings[i].level, german.findings[i].level);
    EXPECT_EQ(english.findings[i].number, german.findings[i].number);
    EXPECT_NE(english.findings[i].sentence, german.findings[i].sentence);
  }
  EXPECT_NE(finding(german, Aspect::pores).sentence.find("1,7 % Poren"), std::string::npos) << finding(german, Aspect::pores).sentence;
}

TEST(Limits, EveryLimitTheJudgeNamesShipsWithSourceAndStanding) {
  std::set<std::string> named;
  const std::regex name("limits\\.at\\(\"([a-z_]+)\"\\)");
  for (const auto& entry : std::filesystem::directory_iterator(std::string(HEATWORK_SOURCE_DIR) + "/verdict")) {
    const std::string file = entry.path().filename().string();
    if (!file.ends_with(".cpp") || file.ends_with("_test.cpp")) continue;
    const std::string source = text_of("verdict/" + file);
    for (std::sregex_iterator i(source.begin(), source.end(), name), end; i != end; ++i) named.insert((*i)[1]);
    for (const auto& [limit, value] : limits().by_name) {
      if (source.find('"' + limit + '"') != std::string::npos) named.insert(limit);
    }
  }
  for (const std::string& limit : named) EXPECT_NO_THROW(static_cast<void>(limits().at(limit))) << limit;
  for (const auto& [limit, value] : limits().by_name) {
    EXPECT_TRUE(named.contains(limit)) << limit << " is never used";
    EXPECT_FALSE(value.source.empty());
    EXPECT_FALSE(value.meaning.empty());
  }
}

TEST(Words, NameEveryInputThatDecides) {
  for (const trade::DecidingInput& input : trade::read_deciding_inputs("inputs.toml", judge_case::text_of("data/limits/inputs.toml"))) {
    for (const char* language : {"en", "de"}) EXPECT_FALSE(judge_case::words(language).say(word_key_of(input.name)).empty()) << input.name;
  }
}

}  // namespace
}  // namespace heatwork::verdict
