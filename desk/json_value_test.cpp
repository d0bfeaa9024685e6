#include "desk/json_value.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>
#include <string>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

std::string refusal(std::string_view text) {
  try {
    read_json("ask.json", text);
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.error(), ErrorWord::bad_json);
    return failure.what();
  }
  return "";
}

TEST(Json, SaysWhereAndWhatIsWrong) {
  EXPECT_EQ(refusal(""), "ask.json:1:1: the text is empty; a JSON object, or a list of them, is expected.");
  EXPECT_EQ(refusal("{\"a\": 1,\n \"a\": 2}"), "ask.json:2:2: the key \"a\" stands here a second time; a key may stand once.");
  EXPECT_EQ(refusal("{} {}"), "ask.json:1:4: something follows the end of the JSON value; nothing may.");
  EXPECT_EQ(refusal("{\"a\": 01}"),
            "ask.json:1:7: a JSON value is expected: an object, a list, text in double quotes, a number, true, false or null.");
  EXPECT_EQ(refusal("{\"ä\" 1}"), "ask.json:1:6: a colon is expected after the key \"ä\".");
  EXPECT_EQ(refusal("{\"a\": \"\xC3\"}"), "ask.json:1:8: the bytes here are not UTF-8.");
  EXPECT_EQ(refusal("{\"a\": 1"), "ask.json:1:8: a comma or the closing brace of the object is expected.");
  EXPECT_EQ(refusal("[1, 2"), "ask.json:1:6: a comma or the closing bracket of the list is expected.");
  EXPECT_EQ(refusal("{'a': 1}"), "ask.json:1:2: a key in double quotes is expected.");
  EXPECT_EQ(refusal("[\"\\ud800x\"]"), "ask.json:1:9: the first half of a surrogate pair stands without its second.");
  EXPECT_NE(refusal(std::string(40, '[')).find("more than 32 deep"), std::string::npos);
  EXPECT_EQ(refusal(std::string(32, '[') + std::string(32, ']')), "");
}

TEST(Json, KeepsWhatIsNotFiniteForTheRefusalThatNamesTheKey) {
  for (const char* text : {"[NaN]", "[nan]", "[-Infinity]", "[Infinity]", "[1e999]", "[-1e999]"}) {
    const Json read = read_json("x", text);
    ASSERT_TRUE(read.list()) << text;
    EXPECT_TRUE(std::isnan(*read.list()->front().number())) << text;
  }
  EXPECT_EQ(*read_json("x", "1e-999").number(), 0.0);
}

TEST(Json, ReadsEscapesAndKeepsTheOrder) {
  const Json read = read_json("x", R"({"b": "\u00e9\ud83d\ude00\n", "a": [true, false, null]})");
  EXPECT_EQ(*read.find("b")->text(), "é😀\n");
  EXPECT_EQ(read.object()->front().key, "b");
  EXPECT_EQ(read.find("c"), nullptr);
}

TEST(Json, WritesTenSignificantDigits) {
  EXPECT_EQ(json_number(1.0 / 3.0), "0.3333333333");
  EXPECT_EQ(json_number(-0.0), "0");
  EXPECT_EQ(json_number(1.2777e12), "1.2777e+12");
  EXPECT_EQ(json_number(9612.6), "9612.6");
  EXPECT_THROW(json_number(std::nan("")), std::logic_error);
  EXPECT_THROW(json_number(std::numeric_limits<double>::infinity()), std::logic_error);
}

TEST(Json, WritesWhatItReads) {
  const std::string text =
      "{\n  \"a\": [[0, 25], [60, 900.5]],\n  \"b\": {\n    \"c\": \"x\\\"y\"\n  },\n  \"d\": [\n    {\n      \"e\": null\n    }\n  ]\n}\n";
  EXPECT_EQ(write_json(read_json("x", text)), text);
}

// Another reader is the referee: texts changed at random must be taken or refused by both alike, and mean the same.
TEST(Json, AgreesWithAnotherReader) {
  const std::string seed_text = R"({"a": [1, -2.5e-3, {"b": "\u20acx"}], "c": true, "d": null, "e": ""})";
  const std::string letters = "{}[]\",:0123456789.eE+-truefalsn\\u \n\xC3\xA9";
  std::mt19937 random(7);
  int taken = 0;
  for (int round = 0; round < 20000; ++round) {
    std::string text = seed_text;
    for (int change = 0; change < 1 + round % 3; ++change) text[random() % text.size()] = letters[random() % letters.size()];
    std::string refused;
    Json read;
    try {
      read = read_json("x", text);
    } catch (const Failure& failure) {
      refused = failure.what();
    }
    const auto theirs = nlohmann::ordered_json::parse(text, nullptr, false);
    if (!refused.empty()) {
      EXPECT_TRUE(theirs.is_discarded() || refused.find("a second time") != std::string::npos) << text;
    } else if (theirs.is_discarded()) {
      EXPECT_THROW(write_json(read), std::logic_error) << "a number that is not finite: " << text;
    } else {
      ++taken;
      EXPECT_EQ(nlohmann::ordered_json::parse(write_json(read)), theirs) << text;
    }
  }
  EXPECT_GT(taken, 500);
}

}  // namespace
}  // namespace heatwork::desk
