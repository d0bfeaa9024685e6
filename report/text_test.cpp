#include "report/text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "report/made_up_rehearsal.h"
#include "report/terminal_strip.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string without_breaks(const std::string& text) {
  std::string joined;
  for (const std::string& line : lines_of(text)) {
    const std::size_t first = line.find_first_not_of(' ');
    if (first != std::string::npos) joined += (joined.empty() ? "" : " ") + line.substr(first);
  }
  return joined;
}

std::string made(const TextOptions& options = {}) {
  return rehearsal_text(made_up::rehearsal(), made_up::verdict(), made_up::words(), options);
}

TEST(Text, TheFirstFindingStandsOnTop) {
  const auto lines = lines_of(made());
  EXPECT_EQ(lines[0].rfind("borderline: bridge-24-26 is fired like 19 K less", 0), 0U);
  const std::string text = without_breaks(made());
  EXPECT_NE(text.find("degree of firing, bridge-24-26: −19 K, limit 10 K (set by Heatwork)"), std::string::npos);
  EXPECT_NE(text.find("To change: Check the display, then ask for 19 K more."), std::string::npos);
}

TEST(Text, HundredColumnsAndNoBlanksAtTheEnd) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  for (int i = 0; i < 3; ++i) rehearsal.firing.pieces.push_back(rehearsal.firing.pieces[0]);
  rehearsal.firing.pieces[4].piece = "A very long label of a piece that goes on and on over the edge of any column";
  rehearsal.request.firing.label = std::string(140, 'x');
  for (const bool plain : {false, true}) {
    TextOptions options;
    options.plain_ascii = plain;
    for (const std::string& line : lines_of(rehearsal_text(rehearsal, made_up::verdict(), made_up::words(), options))) {
      EXPECT_LE(signs(line), 100U) << line;
      EXPECT_TRUE(line.empty() || line.back() != ' ') << line;
    }
  }
}

TEST(Text, ColourIsNeverTheOnlySign) {
  TextOptions options;
  options.colour = true;
  std::string coloured = made(options);
  EXPECT_NE(coloured.find("\x1b[1m"), std::string::npos);
  for (const char* code : {"\x1b[1m", "\x1b[2m", "\x1b[0m"}) {
    for (std::size_t at = coloured.find(code); at != std::string::npos; at = coloured.find(code))
      coloured.erase(at, std::string(code).size());
  }
  EXPECT_EQ(coloured, made());
  EXPECT_EQ(made().find('\x1b'), std::string::npos);
}

TEST(Text, LevelsAreTheFourWords) {
  verdict::Verdict verdict;
  for (const auto level :
       {verdict::Level::fault_expected, verdict::Level::cannot_tell, verdict::Level::borderline, verdict::Level::sound}) {
    verdict::Finding finding;
    finding.aspect = verdict::Aspect::heat;
    finding.level = level;
    finding.sentence = "A sentence.";
    verdict.findings.push_back(finding);
  }
  const std::string text = rehearsal_text(made_up::rehearsal(), verdict, made_up::words());
  for (const char* words :
       {"fault expected: A sentence.", "  cannot tell     heat: A sentence.", "  borderline      heat", "  sound           heat"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words;
  }
}

TEST(Text, NumbersOfEachPiece) {
  const std::string text = made();
  for (const char* row :
       {"  display, highest            926 °C                 926 °C\n", "  core of the piece           911 °C                 909 °C\n",
        "  like the maker's heat, but  12 K less              19 K less\n",
        "    or like its hold, but     41 s less              over all of it less\n",
        "  water as the chamber shuts  0 %                    6.4 %\n", "    chamber pressure then     47 mbar                47 mbar\n",
        "  porosity at the end         0.63 %                 0.81 %\n"}) {
    EXPECT_NE(text.find(row), std::string::npos) << row;
  }
  EXPECT_EQ(text.find("crystals"), std::string::npos) << "a row that says nothing is left out";
}

TEST(Text, AssumptionsSourcesAndTheStandingWords) {
  const std::string text = without_breaks(made());
  for (const std::string& words : {std::string("The tray of the comparison is small round."), std::string("furnace corner: corner.toml"),
                                   std::string("taken from its shape."), made_up::words().say("safety.disclaimer")}) {
    EXPECT_NE(text.find(words), std::string::npos) << words;
  }
}

TEST(Text, PlainAsciiHoldsNothingElse) {
  TextOptions options;
  options.plain_ascii = true;
  for (const char letter : made(options)) ASSERT_LT(static_cast<unsigned char>(letter), 128);
}

TEST(TerminalStrip, EveryMomentStandsInWordsOnce) {
  const firing::Rehearsal rehearsal = made_up::rehearsal();
  for (const bool plain : {false, true}) {
    TerminalStripOptions options;
    options.plain_ascii = plain;
    const std::string strip = terminal_strip(rehearsal, Numbers(made_up::words()), options);
    for (const char* words :
         {"crown-16: dry 4:46", "bridge-24-26: dry 6:42", "chamber shut 6:00", "vacuum on 9:43", "vacuum reached 10:45",
          "crown-16: pores half sealed 14:25", "bridge-24-26: pores half sealed 14:35", "crown-16: pores sealed 14:50",
          "bridge-24-26: pores sealed 15:05", "top 16:07", "air let in 16:15", "hold ends 17:14", "chamber opens 19:50"}) {
      EXPECT_NE(strip.find(words), std::string::npos) << words << "\n" << strip;
    }
    for (const std::string& line : lines_of(strip)) EXPECT_LE(signs(line), 100U);
  }
}

TEST(TerminalStrip, TheLineRisesWithTheDisplay) {
  TerminalStripOptions options;
  options.plain_ascii = true;
  const auto lines = lines_of(terminal_strip(made_up::rehearsal(), Numbers(made_up::words()), options));
  EXPECT_EQ(lines[1].rfind("  926 C", 0), 0U);
  EXPECT_GT(lines[1].find('*'), 60U) << "the top comes late";
  EXPECT_EQ(lines[4].find('*'), 9U) << "and the entry stands half way up from the start";
}

TEST(TerminalStrip, TooNarrowIsRefused) {
  TerminalStripOptions options;
  options.columns = 20;
  EXPECT_THROW(terminal_strip(made_up::rehearsal(), Numbers(made_up::words()), options), std::invalid_argument);
}

TEST(Text, AFiringThatCannotBeRunSaysSoAndShowsNoNumbers) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.firing = {};
  rehearsal.moments.clear();
  rehearsal.reference.clear();
  rehearsal.compared.clear();
  rehearsal.impossible = "Heating stage 1 asks for 1240.0 °C; at full power the display of this furnace ends at 1101.0 °C.";
  const std::string text = rehearsal_text(rehearsal, made_up::verdict(), made_up::words());
  std::string unwrapped = text;
  std::replace(unwrapped.begin(), unwrapped.end(), '\n', ' ');
  EXPECT_NE(unwrapped.find("was not rehearsed, so there are no numbers and no picture: Heating stage 1 asks"), std::string::npos) << text;
  EXPECT_EQ(text.find("Temperature shown by the display"), std::string::npos);
  EXPECT_EQ(text.find("core of the piece"), std::string::npos);
  EXPECT_NE(text.find("Not a medical device."), std::string::npos);
}

}  // namespace
}  // namespace heatwork::report
