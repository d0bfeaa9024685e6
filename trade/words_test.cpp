#include "trade/words.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "trade/mistake.h"

namespace heatwork::trade {
namespace {

template <class Action>
std::string refusal(const Action& action) {
  try {
    action();
  } catch (const Mistake& mistake) {
    const std::string what = mistake.what();
    return what.substr(0, what.find('\n'));
  } catch (const std::logic_error& error) {
    return error.what();
  }
  return "accepted";
}

std::string refused(std::string_view text) {
  return refusal([&] { static_cast<void>(Words::read("words.toml", text)); });
}

TEST(Words, FillGapsAndChooseTheNumber) {
  const Words words = Words::read("words.toml", R"(format = 1
[a.b]
plain = "as it stands"
gaps = "{x} of {y}, {x} again"
minutes = { one = "{count} minute", other = "{count} minutes" }
)");
  EXPECT_EQ(words.say("a.b.plain"), "as it stands");
  EXPECT_EQ(words.say("a.b.gaps", {{"x", "3"}, {"y", "{y}"}}), "3 of {y}, 3 again");
  EXPECT_EQ(words.say("a.b.minutes", {{"count", "1"}}), "1 minute");
  EXPECT_EQ(words.say("a.b.minutes", {{"count", "5"}}), "5 minutes");
  EXPECT_TRUE(words.has("a.b.minutes"));
  EXPECT_FALSE(words.has("a.b"));
}

TEST(Words, AMissingKeyOrAGapLeftOpenIsABugAndNamesIt) {
  const Words words = Words::read("words.toml", "format = 1\na = \"{x}\"\n");
  EXPECT_EQ(refusal([&] { static_cast<void>(words.say("b")); }), "The catalogue of words has no \"b\".");
  EXPECT_EQ(refusal([&] { static_cast<void>(words.say("a")); }), "The words \"a\" have a gap \"x\" that nothing fills.");
}

TEST(Words, MistakesAreLocated) {
  EXPECT_EQ(refused("a = \"b\"\n"), "words.toml:1:1: a catalogue of words begins with format = 1");
  EXPECT_EQ(refused("format = 2\n"), "words.toml:1:10: a catalogue of words begins with format = 1");
  EXPECT_EQ(refused("format = 1\na = 3\n"), "words.toml:2:5: a is a whole number; it is a text in quotes");
  EXPECT_EQ(refused("format = 1\n[t]\na = \"\"\n"), "words.toml:3:5: t.a is empty; give it words");
  EXPECT_EQ(refused("format = 1\na = \"one {gap\"\n"), "words.toml:2:5: \"one {gap\" opens a gap and does not close it");
  EXPECT_EQ(refused("format = 1\na = \"one } gap\"\n"),
            "words.toml:2:5: \"one } gap\" has a brace that opens or closes no gap; a gap is a name in braces, such as {piece}");
  EXPECT_EQ(refused("format = 1\nbad-key = \"x\"\n"), "words.toml:2:1: \"bad-key\" is no key of words; a key is letters, digits and _");
}

TEST(Words, OfALanguageAreAllItsFilesJoinedAndReadOnce) {
  const Words& german = words_of(Language::german);
  EXPECT_EQ(&german, &words_of(Language::german));
  EXPECT_EQ(german.say("language.name"), "Deutsch");
  EXPECT_EQ(words_of(Language::english).say("language.name"), "English");
  EXPECT_EQ(language_of("de"), Language::german);
  EXPECT_FALSE(language_of("fr"));
  Words joined = Words::read("a.toml", "format = 1\n[t]\na = \"x\"\n");
  joined.add("b.toml", "format = 1\n[t]\nb = \"y\"\n");
  EXPECT_EQ(joined.say("t.b"), "y");
  EXPECT_EQ(refusal([&] { joined.add("c.toml", "format = 1\n[t]\nb = \"z\"\n"); }),
            "c.toml:3:5: t.b stands in another file of this language already");
}

}  // namespace
}  // namespace heatwork::trade
