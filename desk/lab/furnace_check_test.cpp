#include "desk/lab/furnace_check.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <exception>
#include <string>
#include <vector>

#include "desk/demo.h"
#include "desk/errors.h"
#include "desk/lab/store_care.h"
#include "desk/lab/take_in.h"
#include "desk/lab/told_in.h"
#include "records/store_for_tests.h"

namespace heatwork::desk {
namespace {

const std::vector<trade::Edit> wire = {{"wire.metal", "silver"},     {"wire.purity", "99.99 %"},         {"wire.gas", "vacuum"},
                                       {"wire.pressure", "50 mbar"}, {"wire.vented_hot", "false"},       {"wire.diameter", "0.25 mm"},
                                       {"wire.hold", "2 min"},       {"wire.criterion", "edges rounded"}};

class FurnaceCheckTest : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    const std::string lab = (folder_ / "lab").string();
    write_demo(lab);
    asked_ = {address_.where, "mk"};
    (void)make_store(asked_);
    (void)take_in(asked_, lab, "");
  }

  AskedLab asked_;
};
HEATWORK_ON_EACH_ENGINE(FurnaceCheckTest);

/// Every text under "sentence", wherever it stands.
void sentences_of(const Json& json, std::vector<std::string>& all) {
  if (const JsonList* list = json.list())
    for (const Json& each : *list) sentences_of(each, all);
  if (const JsonObject* object = json.object())
    for (const JsonMember& member : *object) {
      if (member.key == "sentence" && member.value.text() != nullptr && !member.value.text()->empty()) all.push_back(*member.value.text());
      sentences_of(member.value, all);
    }
}

void expect_german(const CareAnswer& answer) {
  std::vector<std::string> english, german;
  sentences_of(answer.json, english);
  sentences_of(told_in(trade::Language::german, answer.json), german);
  ASSERT_EQ(english.size(), german.size());
  EXPECT_FALSE(english.empty());
  for (std::size_t i = 0; i < english.size(); ++i) EXPECT_NE(english[i], german[i]) << "has no German";
}

FurnaceCheckWords words_of_wire(std::vector<WireFired> trials) {
  FurnaceCheckWords words;
  words.furnace = "window";
  words.answers = wire;
  words.trials = std::move(trials);
  return words;
}

TEST_P(FurnaceCheckTest, EverySentenceIsSaidInGerman) {
  FurnaceCheckWords words;
  words.furnace = "window";
  for (std::size_t i = 0; i <= wire.size(); ++i) {  // each question in turn
    words.answers.assign(wire.begin(), wire.begin() + static_cast<std::ptrdiff_t>(i));
    expect_german(check_temperature(asked_, words));
  }
  expect_german(check_temperature(asked_, words_of_wire({{"960 °C", "whole", ""},
                                                         {"968 °C", "whole", ""},
                                                         {"977 °C", "melted", ""},
                                                         {"973 °C", "whole", ""},
                                                         {"975 °C", "melted", ""}})));
  expect_german(check_temperature(asked_, words_of_wire({{"960 °C", "melted", ""},
                                                         {"955 °C", "whole", ""},
                                                         {"957 °C", "melted", ""},
                                                         {"956 °C", "whole", ""},
                                                         {"958 °C", "melted", ""}})));
  expect_german(check_temperature(asked_, words_of_wire({{"960 °C", "whole", ""},
                                                         {"990 °C", "whole", ""},
                                                         {"998 °C", "melted", ""},
                                                         {"995 °C", "whole", ""},
                                                         {"996 °C", "melted", ""}})));
}

TEST_P(FurnaceCheckTest, OfThermocoupleAndMapTooIsEverySentenceSaidInGerman) {
  FurnaceCheckWords words;
  words.furnace = "window";
  expect_german(check_thermocouple(asked_, words));
  words.answers = {{"probe.type", "S"}};
  expect_german(check_thermocouple(asked_, words));
  words.answers.push_back({"probe.use", "new"});
  expect_german(check_thermocouple(asked_, words));
  words.answers.push_back({"probe.tolerance_class", "1"});
  expect_german(check_thermocouple(asked_, words));
  words.compared = {{"800 °C", "789 °C", "", "", ""}, {"950 °C", "936 °C", "", "", ""}};
  expect_german(check_thermocouple(asked_, words));
  words.compared = {{"800 °C", "801 °C", "", "", ""}};
  expect_german(check_thermocouple(asked_, words));
  FurnaceCheckWords map;
  map.furnace = "window";
  expect_german(check_chamber_map(asked_, map));
  for (const char* where : {"middle", "front", "back", "left", "right"}) {
    map.tabs.push_back({where, map.tabs.empty() ? "0 K" : "13 K", "", "", ""});
    expect_german(check_chamber_map(asked_, map));
  }
}

TEST_P(FurnaceCheckTest, AWrongAnswerIsSaidInGermanToo) {
  const std::vector<trade::Edit> wrong = {
      {"wire.metal", "brass"}, {"wire.pressure", "1400 mbar"}, {"wire.pressure", "760 mmHg"}, {"wire.hold", "2"}};
  for (const trade::Edit& answer : wrong) {
    FurnaceCheckWords words;
    words.furnace = "window";
    words.answers = {answer};
    try {
      (void)check_temperature(asked_, words);
      ADD_FAILURE() << answer.key << " was taken";
    } catch (const Failure& refused) {
      EXPECT_NE(explain_in(std::current_exception(), trade::Language::german).sentence, refused.what());
    }
  }
}

TEST_P(FurnaceCheckTest, TheSameAnswersGiveTheSameBytes) {
  FurnaceCheckWords words = words_of_wire({{"960 °C", "whole", ""}, {"969 °C", "melted", ""}});
  words.name = "twice";
  const CareAnswer once = check_temperature(asked_, words), again = check_temperature(asked_, words);
  EXPECT_EQ(once.text, again.text);
  EXPECT_EQ(write_json(once.json), write_json(again.json));
}

TEST_P(FurnaceCheckTest, WhatIsWorkedOutCannotBeAnswered) {
  FurnaceCheckWords words = words_of_wire({});
  words.answers.push_back({"good", "true"});
  words.keep = true;
  try {
    (void)check_temperature(asked_, words);
    FAIL() << "it was kept as good without a wire";
  } catch (const Failure& refused) {
    EXPECT_EQ(refused.error(), ErrorWord::bad_value);
    EXPECT_TRUE(std::string(refused.what()).starts_with("\"good\" is not answered in such a check;")) << refused.what();
  }
}

}  // namespace
}  // namespace heatwork::desk
