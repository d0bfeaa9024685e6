#include "trade/difference.h"

#include <gtest/gtest.h>

#include "trade/reader.h"
#include "trade/writer.h"

namespace heatwork::trade {
namespace {

template <class T>
T read(const std::string& text) {
  return read_noun<T>(source_of("a test", text));
}

std::string program(const std::string& stages, const std::string& more = "") {
  return R"(format = 1
[program]
name = "morning"
standby = "411 °C"
entry = "433 °C"
drying_time = "4 min 10 s"
closing_time = "1 min 50 s"
)" + more +
         stages;
}
const std::string stage_one = "[[program.heating]]\nto = \"611 °C\"\nrate = \"37 K/min\"\n";
const std::string stage_two = "[[program.heating]]\nto = \"781 °C\"\nrate = \"37 K/min\"\nhold = \"1 min\"\n";

template <class T>
std::vector<std::string> words(const T& before, const T& after) {
  std::vector<std::string> all;
  for (const auto& each : difference(before, after)) all.push_back(in_words(each));
  return all;
}
std::vector<std::string> of_programs(const std::string& before, const std::string& after) {
  return words(read<Program>(before), read<Program>(after));
}
using Lines = std::vector<std::string>;

TEST(Difference, alike_whatever_is_written_out) {
  EXPECT_EQ(of_programs(program(stage_one), program(stage_one, "preheat_hold = \"0 s\"\ndrying_opening = \"100 %\"\n")), Lines{});
}

TEST(Difference, values_in_the_order_of_the_file) {
  const auto before = read<Program>(program(stage_one + stage_two));
  auto text = program(stage_one + stage_two, "label = \"for the thick ones\"\n");
  text.replace(text.find("1 min\""), 6, "1 min 20 s\"");
  text.replace(text.find("4 min 10 s"), 10, "5 min");
  const auto after = read<Program>(text);
  EXPECT_EQ(words(before, after), (Lines{"label: added (for the thick ones)", "drying time: 5 min instead of 4 min 10 s",
                                         "heating stage 2, hold: 1 min 20 s instead of 1 min"}));
  EXPECT_EQ(difference(before, after).back().key, "heating[2].hold");
  EXPECT_EQ(words(after, before).front(), "label: taken away (was for the thick ones)");
}

TEST(Difference, a_stage_put_between_two_is_one_line) {
  const std::string between = "[[program.heating]]\nto = \"700 °C\"\nrate = \"21 K/min\"\n";
  EXPECT_EQ(of_programs(program(stage_one + stage_two), program(stage_one + between + stage_two)),
            Lines{"heating stage 2: added (to 700 °C, rate 21 K/min, hold 0 s)"});
  EXPECT_EQ(of_programs(program(stage_one + between + stage_two), program(stage_one + stage_two)),
            Lines{"heating stage 2: taken away (was to 700 °C, rate 21 K/min, hold 0 s)"});
}

TEST(Difference, a_table_that_comes_and_goes) {
  const std::string vacuum = "[program.vacuum]\nfrom = \"450 °C\"\nlevel = \"47 mbar\"\n";
  EXPECT_EQ(of_programs(program(stage_one), program(stage_one + vacuum)),
            Lines{"vacuum: added (from 450 °C, level 47 mbar, hold under vacuum 0 s)"});
  auto deeper = vacuum;
  deeper.replace(deeper.find("47"), 2, "41");
  EXPECT_EQ(of_programs(program(stage_one + vacuum), program(stage_one + deeper)), Lines{"vacuum, level: 41 mbar instead of 47 mbar"});
}

std::string firing(const std::string& pieces) {
  return "format = 1\n[firing]\nname = \"late\"\nstage = \"dentine\"\ntray = \"light\"\nfurnace = \"window\"\nprogram = \"morning\"\n" +
         pieces;
}

TEST(Difference, what_bears_a_name_is_told_by_it) {
  const std::string one = "[[firing.piece]]\npiece = \"crown-16\"\n", other = "[[firing.piece]]\npiece = \"bridge\"\nplace = \"edge\"\n";
  EXPECT_EQ(words(read<Firing>(firing(one)), read<Firing>(firing(other + one))), Lines{"piece bridge: added (piece bridge, place edge)"});
  EXPECT_EQ(words(read<Firing>(firing(one + other)), read<Firing>(firing(other + one))),
            Lines{"order of each piece: bridge, crown-16 instead of crown-16, bridge"});
  auto middle = other;
  middle.replace(middle.find("edge"), 4, "middle");
  EXPECT_EQ(words(read<Firing>(firing(one + other)), read<Firing>(firing(one + middle))),
            Lines{"piece bridge, place: middle instead of edge"});
}

TEST(Difference, none_is_missed_where_the_written_files_differ) {
  // Every value of a program by itself: whatever changes a byte of the file must be told.
  const auto base = read<Program>(program(stage_one + stage_two, "note = \"a\"\n"));
  const std::string text = write_noun(base);
  for (const auto& [from, to] : std::vector<std::pair<std::string, std::string>>{{"411", "412"},
                                                                                 {"433", "434"},
                                                                                 {"4 min 10 s", "4 min 11 s"},
                                                                                 {"100 %", "90 %"},
                                                                                 {"1 min 50 s", "1 min 51 s"},
                                                                                 {"\"a\"", "\"b\""},
                                                                                 {"morning", "evening"},
                                                                                 {"611", "612"},
                                                                                 {"37 K/min", "38 K/min"}}) {
    std::string changed = text;
    ASSERT_NE(changed.find(from), std::string::npos) << from << text;
    changed.replace(changed.find(from), from.size(), to);
    EXPECT_EQ(difference(base, read<Program>(changed)).size(), 1U) << from;
  }
}

Lines in_german(const std::string& before, const std::string& after) {
  Lines all;
  for (const auto& each : difference(read<Program>(before), read<Program>(after)))
    all.push_back(told(each, Noun::program, words_of(Language::german)).words);
  return all;
}

TEST(Difference, in_german_by_the_labels_of_the_fields) {
  auto text = program(stage_one + stage_two, "label = \"for the thick ones\"\n");
  text.replace(text.find("1 min\""), 6, "1 min 20 s\"");
  EXPECT_EQ(in_german(program(stage_one + stage_two), text),
            (Lines{"Bezeichnung: hinzugefügt (for the thick ones)", "Heizstufe 2, Haltezeit: 1 min 20 s statt 1 min"}));
  EXPECT_EQ(in_german(program(stage_one), program(stage_one + stage_two)),
            Lines{"Heizstufe 2: hinzugefügt (Aufheizen bis 781 °C, Aufheizrate 37 K/min, Haltezeit 1 min)"});
  const std::string vacuum = "[program.vacuum]\nfrom = \"460 °C\"\nlevel = \"50.5 mbar\"\n";
  EXPECT_EQ(in_german(program(stage_one + vacuum), program(stage_one)),
            Lines{"Vakuum: entfernt (war Vakuum ab 460 °C, Druck 50,5 mbar, Haltezeit im Vakuum 0 s)"});
}

}  // namespace
}  // namespace heatwork::trade
