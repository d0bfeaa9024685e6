#include "trade/edit.h"

#include <gtest/gtest.h>

#include "trade/difference.h"
#include "trade/mistake.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

template <class T>
T read(const std::string& text) {
  return read_noun<T>(source_of("a test", text));
}

const char* const morning = R"(format = 1
[program]
name = "morning"
standby = "411 °C"
entry = "433 °C"
drying_time = "4 min 10 s"
closing_time = "1 min 50 s"
[[program.heating]]
to = "611 °C"
rate = "37 K/min"
[[program.heating]]
to = "781 °C"
rate = "37 K/min"
hold = "1 min"
[program.vacuum]
from = "450 °C"
level = "47 mbar"
)";

/// What an edit changes, in words; or the sentence of its mistake.
template <class T>
std::vector<std::string> changes(const T& noun, const std::vector<Edit>& edits) {
  try {
    std::vector<std::string> all;
    for (const auto& each : difference(noun, read<T>(edited_text(noun, edits)))) all.push_back(in_words(each));
    return all;
  } catch (const Mistake& mistake) {
    return {mistake.sentence()};
  }
}
using Lines = std::vector<std::string>;

TEST(Edit, nothing_asked_nothing_changed) {
  const auto program = read<Program>(morning);
  EXPECT_EQ(changes(program, {}), Lines{});
}

TEST(Edit, values_by_their_key) {
  const auto program = read<Program>(morning);
  EXPECT_EQ(changes(program, {{"heating[2].hold", "1 min 20 s"}, {"drying_time", "5 min"}}),
            (Lines{"drying time: 5 min instead of 4 min 10 s", "heating stage 2, hold: 1 min 20 s instead of 1 min"}));
  EXPECT_EQ(changes(program, {{"drying_opening", "60 %"}}), Lines{"drying opening: 60 % instead of 100 %"});
  EXPECT_EQ(changes(program, {{"heating[2].hold", std::nullopt}}), Lines{"heating stage 2, hold: 0 s instead of 1 min"});
  EXPECT_EQ(changes(program, {{"note", "say \"now\""}}), Lines{"note: added (say \"now\")"});
}

TEST(Edit, tables_come_and_go) {
  const auto program = read<Program>(morning);
  EXPECT_EQ(changes(program, {{"vacuum", std::nullopt}}),
            Lines{"vacuum: taken away (was from 450 °C, level 47 mbar, hold under vacuum 0 s)"});
  EXPECT_EQ(changes(program, {{"cooling[1].to", "640 °C"}}), Lines{"cooling stage 1: added (to 640 °C, opening 0 %)"});
  EXPECT_EQ(changes(program, {{"heating[1]", std::nullopt}}),
            Lines{"heating stage 1: taken away (was to 611 °C, rate 37 K/min, hold 0 s)"});
  const auto bare = read<Program>(edited_text(program, {{"vacuum", std::nullopt}}));
  EXPECT_EQ(changes(bare, {{"vacuum.from", "460 °C"}}),
            Lines{"[program.vacuum] lacks level: pressure asked for, absolute or as a dial below "
                  "ambient, such as level = \"50 mbar\""});
}

TEST(Edit, one_of_a_list_by_its_name) {
  const auto firing = read<Firing>(
      "format = 1\n[firing]\nname = \"late\"\nstage = \"dentine\"\ntray = \"light\"\nfurnace = \"window\"\n"
      "program = \"morning\"\n[[firing.piece]]\npiece = \"crown-16\"\n[[firing.piece]]\npiece = \"bridge\"\n");
  EXPECT_EQ(changes(firing, {{"piece[bridge].place", "edge"}}), Lines{"piece bridge, place: edge instead of middle"});
  EXPECT_EQ(changes(firing, {{"piece[crown-16]", std::nullopt}}), Lines{"piece crown-16: taken away (was piece crown-16, place middle)"});
  EXPECT_EQ(changes(firing, {{"after", "morning-one, morning-two"}}), Lines{"after: added ([\"morning-one\", \"morning-two\"])"});
}

TEST(Edit, what_a_noun_has_not_is_refused) {
  const auto program = read<Program>(morning);
  EXPECT_EQ(changes(program, {{"heating[2].hodl", "1 min"}}),
            Lines{"a program has no \"heating[2].hodl\"; did you mean \"heating[2].hold\"?"});
  EXPECT_EQ(changes(program, {{"heating[4].hold", "1 min"}}),
            Lines{"a program has no \"heating[4].hold\"; did you mean \"heating[1].hold\"?"});
  EXPECT_EQ(changes(program, {{"vacuum", "50 mbar"}}), Lines{"vacuum is a table; set its values, such as vacuum.KEY"});
  EXPECT_EQ(changes(program, {{"heating", "50"}}), Lines{"heating is a list of tables; set values of one of them, such as heating[1].KEY"});
  EXPECT_EQ(changes(program, {{"drying_time", "long"}}).front().substr(0, 13), "drying_time: ");
}

TEST(Edit, a_new_one_of_values_alone) {
  const auto lot = read<Lot>(new_text<Lot>("jar-7", {{"material", "glaze"}, {"code", "0417"}, {"opened", "2026-11-25"}}));
  EXPECT_EQ(lot.name, "jar-7");
  EXPECT_EQ(lot.code, "0417");
  const auto one = read<Case>(new_text<Case>("k-0420", {{"teeth", "16, 17"}, {"pieces", "crown-16, crown-17"}, {"closed", "false"}}));
  EXPECT_EQ(one.teeth, (std::vector<int>{16, 17}));
  EXPECT_EQ(one.pieces.size(), 2U);
  EXPECT_THROW((void)read<Case>(new_text<Case>("k-0420", {{"teeth", "16, 99"}})), Mistake);
}

}  // namespace
}  // namespace heatwork::trade
