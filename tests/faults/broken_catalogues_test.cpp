// Broken files of limits, of what decides them, and of words: one located sentence each, as for the nouns.
#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

#include "trade/deciding_inputs.h"
#include "trade/limits.h"
#include "trade/mistake.h"
#include "trade/words.h"

namespace heatwork::trade {
namespace {

struct Broken {
  std::string text;
  std::string sentence;  ///< with its place, without the line and the caret
};

template <class Read>
std::string first_line(Read read) {
  try {
    read();
  } catch (const Mistake& mistake) {
    const std::string whole = mistake.what();
    return whole.substr(0, whole.find('\n'));
  }
  return "no mistake was found";
}

template <class Read>
void expect_all(const std::vector<Broken>& files, Read read) {
  for (const auto& file : files) {
    const std::string said = first_line([&] { read(file.text); });
    EXPECT_EQ(said, file.sentence) << file.text;
    EXPECT_EQ(said.find(". "), std::string::npos) << "more than one sentence: " << said;
  }
}

const std::string limit_start = "format = 1\n[limits.shift]\n";
const std::string limit_end = "unit = \"K\"\nmeaning = \"odd\"\nstanding = \"assumed\"\nsource = \"own choice\"\n";

TEST(BrokenLimits, EachGivesItsSentence) {
  const std::vector<Broken> files = {
      {"", "x.toml:1:1: a file of limits begins with format = 1"},
      {"format = 2\n", "x.toml:1:10: a file of limits begins with format = 1"},
      {"format = 1\n", "x.toml:1:1: a file of limits has tables [limits.NAME]"},
      {"format = 1\nlimits = 7\n", "x.toml:1:1: a file of limits has tables [limits.NAME]"},
      {"format = 1\n[limit.shift]\nfirst = 7\n",
       "x.toml:2:2: \"limit\" has no place in a file of limits; allowed are format, [limits.NAME] and [rules.NAME]"},
      {"format = 1\n[limits]\nshift = 7\n", "x.toml:3:1: shift is no table; a limit is [limits.shift]"},
      {limit_start + "frist = 7\n" + limit_end,
       "x.toml:3:1: \"frist\" is no key of a limit; allowed are first, second, unit, meaning, standing, source"},
      {limit_start + limit_end, "x.toml:2:9: the limit shift has no first"},
      {limit_start + "first = \"7 K\"\n" + limit_end,
       "x.toml:3:9: first of the limit shift is a text in quotes; it is a finite number without quotes, in the limit's unit"},
      {limit_start + "first = nan\n" + limit_end,
       "x.toml:3:9: first of the limit shift is nan; it is a finite number without quotes, in the limit's unit"},
      {limit_start + "first = -inf\n" + limit_end,
       "x.toml:3:9: first of the limit shift is -inf; it is a finite number without quotes, in the limit's unit"},
      {limit_start + "first = 7\nsecond = true\n" + limit_end,
       "x.toml:4:10: second of the limit shift is true or false; it is a finite number without quotes, in the limit's unit"},
      {limit_start + "first = 7\nunit = 1\nmeaning = \"odd\"\nstanding = \"assumed\"\nsource = \"own choice\"\n",
       "x.toml:4:8: unit of the limit shift is a whole number; it is a text in quotes"},
      {limit_start + "first = 7\nunit = \"K\"\nmeaning = \"odd\"\nstanding = \"guessed\"\nsource = \"own choice\"\n",
       "x.toml:6:12: \"guessed\" is no standing; allowed are measured, computed, memory, assumed, none found"},
      {limit_start + "first = 7\nunit = \"K\"\nmeaning = \"odd\"\nstanding = \"assumed\"\nsource = \"\"\n",
       "x.toml:7:10: the limit shift names no source"},
      {limit_start + "first = 7\nfirst = 11\n" + limit_end, "x.toml:4:9: \"first\" is written twice; each key stands once in its table"},
      {limit_start + "first = \n" + limit_end,
       "x.toml:3:9: the value is missing; a quantity or a word is written in quotes, such as \"55 K/min\""},
      {limit_start + "first = 7 K\n" + limit_end,
       "x.toml:3:11: this is no value; a quantity or a word is written in quotes and nothing after it, such as \"55 K/min\" or \"glaze\""},
  };
  expect_all(files, [](const std::string& text) { (void)read_limits("x.toml", text); });
}

TEST(BrokenWords, EachGivesItsSentence) {
  const std::vector<Broken> files = {
      {"", "x.toml:1:1: a catalogue of words begins with format = 1"},
      {"format = \"1\"\n", "x.toml:1:10: a catalogue of words begins with format = 1"},
      {"format = 1\n[findings]\nheat = 7\n", "x.toml:3:8: findings.heat is a whole number; it is a text in quotes"},
      {"format = 1\n[findings]\nheat = \"\"\n", "x.toml:3:8: findings.heat is empty; give it words"},
      {"format = 1\n[findings]\nheat = [\"a\", \"b\"]\n", "x.toml:3:8: findings.heat is a list; it is a text in quotes"},
      {"format = 1\n[findings]\nheat = \"{piece is hot\"\n", "x.toml:3:8: \"{piece is hot\" opens a gap and does not close it"},
      {"format = 1\n[findings]\nheat = \"piece} is hot\"\n",
       "x.toml:3:8: \"piece} is hot\" has a brace that opens or closes no gap; a gap is a name in braces, such as {piece}"},
      {"format = 1\n[findings]\nheat = \"{} is hot\"\n",
       "x.toml:3:8: \"{} is hot\" has a brace that opens or closes no gap; a gap is a name in braces, such as {piece}"},
      {"format = 1\n[findings]\nheat = \"{{piece}} is hot\"\n",
       "x.toml:3:8: \"{{piece}} is hot\" has a brace that opens or closes no gap; a gap is a name in braces, such as {piece}"},
      {"format = 1\n[findings]\nheat = \"{The piece} is hot\"\n",
       "x.toml:3:8: \"{The piece} is hot\" has a brace that opens or closes no gap; a gap is a name in braces, such as {piece}"},
      {"format = 1\n[findings]\nhe-at = \"hot\"\n", "x.toml:3:1: \"he-at\" is no key of words; a key is letters, digits and _"},
      {"format = 1\n[findings]\n\"too hot\" = \"hot\"\n", "x.toml:3:1: \"too hot\" is no key of words; a key is letters, digits and _"},
      {"format = 1\n[findings]\nheat = \"hot\"\nheat = \"hotter\"\n",
       "x.toml:4:8: \"heat\" is written twice; each key stands once in its table"},
      {"format = 1\n[findings]\nheat = \"hot\n", "x.toml:3:12: a text in quotes ends on its own line; close the quotes"},
  };
  expect_all(files, [](const std::string& text) { (void)Words::read("x.toml", text); });
}

const std::string input_start = "format = 1\n[inputs.display_error]\n";
const std::string input_end = "unit = \"K\"\naspects = [\"heat\"]\nmeaning = \"odd\"\nstanding = \"assumed\"\nsource = \"own choice\"\n";

TEST(BrokenInputs, EachGivesItsSentence) {
  const std::vector<Broken> files = {
      {"", "x.toml:1:1: a file of inputs begins with format = 1"},
      {"format = 1\ninputs = true\n", "x.toml:1:1: a file of inputs has tables [inputs.NAME]"},
      {input_start + "of = \"oven\"\nlow = -2\nhigh = 2\n" + input_end,
       "x.toml:3:6: of: \"oven\" is not known; allowed are furnace, load, piece, material, model"},
      {input_start + "of = \"furnace\"\nlow = 2\nhigh = -2\n" + input_end,
       "x.toml:4:7: low of the input display_error is 2; it is a number below 0"},
      {input_start + "of = \"furnace\"\nlow = -2\n" + input_end, "x.toml:2:9: the input display_error has no high"},
      {input_start + "of = \"furnace\"\nlow = \"-2 K\"\nhigh = 2\n" + input_end,
       "x.toml:4:7: low of the input display_error is a text in quotes; it is a number"},
      {input_start + "of = \"furnace\"\nlow = nan\nhigh = 2\n" + input_end,
       "x.toml:4:7: low of the input display_error is nan; it is a number below 0"},
      {input_start + "of = \"furnace\"\nlow = -2\nhigh = 2\nmiddle = 0\n" + input_end,
       "x.toml:6:1: \"middle\" is no key of an input of the furnace; allowed are of, aspects, meaning, low, high, unit, standing, source"},
  };
  expect_all(files, [](const std::string& text) { (void)read_deciding_inputs("x.toml", text); });
}

}  // namespace
}  // namespace heatwork::trade
