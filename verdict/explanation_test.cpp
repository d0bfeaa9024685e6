#include "verdict/explanation.h"

#include <gtest/gtest.h>

#include <regex>

#include "verdict/judge_case.h"

namespace heatwork::verdict {
namespace {

using judge_case::text_of;
using judge_case::words;

std::vector<Aspect> all_aspects() {
  std::vector<Aspect> all;
  for (int i = 0; i <= static_cast<int>(Aspect::refiring); ++i) all.push_back(static_cast<Aspect>(i));
  return all;
}

/// A page without the marks of code.
std::string plain(std::string text) {
  std::erase(text, '`');
  return std::regex_replace(text, std::regex(R"(\*\*)"), "");
}

TEST(Explanation, EveryAspectHasAPageThatStandsAndItsEquationAsThePageHasIt) {
  for (const Aspect aspect : all_aspects()) {
    const Explanation explained = explanation_of(aspect);
    const std::string page = plain(text_of("docs/theory/" + std::string(explained.page) + ".md"));
    ASSERT_FALSE(page.empty()) << word(aspect) << ": " << explained.page;
    EXPECT_NE(page.find(explained.equation), std::string::npos) << word(aspect) << ": " << explained.equation;
    ASSERT_FALSE(explained.source.empty()) << word(aspect);
  }
}

TEST(Explanation, EverySourceWithAKeyStandsInTheBibliography) {
  const std::string bibliography = text_of("docs/bibliography.md");
  for (const Aspect aspect : all_aspects()) {
    const std::string source(explanation_of(aspect).source);
    std::smatch key;
    if (!std::regex_search(source, key, std::regex(R"(\(([a-z0-9-]+)\)\.$)")) || key[1] == "textbook") continue;
    EXPECT_NE(bibliography.find("**" + key[1].str() + "**"), std::string::npos) << source;
  }
}

TEST(Explanation, EveryAspectIsExplainedInBothLanguages) {
  for (const char* language : {"en", "de"})
    for (const Aspect aspect : all_aspects()) EXPECT_GT(words(language).say(help_key_of(aspect)).size(), 40U) << language << word(aspect);
}

TEST(FahrenheitFindings, ADifferenceNeverGetsThe32) {
  firing::Rehearsal made = judge_case::rehearsal();
  made.compared[0].shift_K = -13.0;
  made.compared[0].hold_s = -40.0;
  const Verdict verdict = judge(made, judge_case::limits(), words(), quantity::UnitSystem::fahrenheit);
  const Finding& degree = judge_case::finding(verdict, Aspect::degree_of_firing, made.firing.pieces[0].piece);
  EXPECT_NE(degree.sentence.find("about 23 °F too cold"), std::string::npos) << degree.sentence;
  EXPECT_EQ(degree.number, -13.0) << "numbers stay in kelvin";
  for (const Finding& each : verdict.findings) {
    EXPECT_EQ((each.sentence + each.change).find("°C"), std::string::npos) << each.sentence << each.change;
    EXPECT_FALSE(std::regex_search(each.sentence + each.change, std::regex("[0-9] K\\b"))) << each.sentence << each.change;
  }
}

TEST(BandsThatFollow, ALevelByTheNumberAloneSaysSo) {
  firing::Rehearsal made = judge_case::rehearsal();
  const Verdict alone = judge_case::judged(made);
  made.bands = true;
  const Verdict whole = judge_case::judged(made);
  const std::string piece = made.firing.pieces[0].piece;
  const Finding &early = judge_case::finding(alone, Aspect::pores, piece), &late = judge_case::finding(whole, Aspect::pores, piece);
  EXPECT_TRUE(early.band_follows);
  EXPECT_FALSE(late.band_follows);
  EXPECT_EQ(level_in_words(early, words()), "sound by the number alone; its range follows");
  EXPECT_EQ(level_in_words(late, words()), "sound");
  EXPECT_EQ(level_in_words(early, words("de")), "nach der Zahl allein: einwandfrei; ihr Bereich folgt");
  for (const Finding& each : whole.findings) EXPECT_FALSE(each.band_follows) << word(each.aspect);
}

}  // namespace
}  // namespace heatwork::verdict
