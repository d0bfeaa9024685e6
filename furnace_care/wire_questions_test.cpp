#include "furnace_care/wire_questions.h"

#include <gtest/gtest.h>

#include "furnace_care/chamber_map.h"
#include "furnace_care/furnace_for_tests.h"
#include "furnace_care/probe_check.h"

namespace heatwork::furnace_care {
namespace {

std::vector<std::string> keys_of(const std::vector<Question>& questions) {
  std::vector<std::string> keys;
  for (const Question& question : questions) keys.push_back(question.key);
  return keys;
}
using Keys = std::vector<std::string>;

TEST(WireQuestions, TellsWhatWasAnsweredInTheOrderItWasAsked) {
  trade::WireTest wire = vacuum_wire();
  EXPECT_EQ(keys_of(answered_wire_questions(wire)), (Keys{"wire.metal", "wire.purity", "wire.gas", "wire.pressure", "wire.vented_hot",
                                                          "wire.diameter", "wire.hold", "wire.criterion"}));
  wire.pressure.reset();
  EXPECT_EQ(keys_of(answered_wire_questions(wire)), (Keys{"wire.metal", "wire.purity", "wire.gas"})) << "nothing beyond an open question";
  EXPECT_TRUE(answered_wire_questions({}).empty());
}

TEST(WireQuestions, WhatNoLongerFitsIsTakenOutAndSaid) {
  trade::WireTest wire = vacuum_wire();
  EXPECT_TRUE(take_out_what_no_longer_fits(wire).empty());
  wire.gas->value = trade::TestGas::air;
  EXPECT_EQ(take_out_what_no_longer_fits(wire), (Keys{"The wire is held in no vacuum: the pressure that was answered is taken out.",
                                                      "There is air or any gas around the wire: whether air is let in hot is taken out."}));
  EXPECT_FALSE(wire.pressure || wire.vented_hot);
  EXPECT_TRUE(wire.diameter && wire.hold) << "what still fits stays";
  wire = vacuum_wire();
  wire.metal->value = trade::TestWire::gold;
  for (const std::string& sentence : take_out_what_no_longer_fits(wire)) EXPECT_TRUE(has_german(sentence)) << sentence;
  EXPECT_FALSE(wire.gas || wire.pressure || wire.vented_hot);
  EXPECT_FALSE(next_wire_question(wire));
}

TEST(WireQuestions, OfAThermocoupleACertificateOrAClassAnswersOneQuestion) {
  trade::Probe probe;
  EXPECT_TRUE(answered_probe_questions(probe).empty());
  probe.type = "S";
  probe.use = given(trade::ProbeUse::fresh);
  EXPECT_EQ(keys_of(answered_probe_questions(probe)), (Keys{"probe.type", "probe.use"}));
  probe.tolerance_class = given(1);
  EXPECT_EQ(keys_of(answered_probe_questions(probe)), (Keys{"probe.type", "probe.use", "probe.correction"}));
}

TEST(WireQuestions, ATabsQuestionSaysItsPlaceAndHowTheFirstWasTold) {
  const auto first = tell_chamber_map({{}, {}}).question;
  EXPECT_EQ(first->place, "middle");
  EXPECT_EQ(first->told_by, "");
  trade::MapTab tab;
  tab.where = given(trade::MapPlace::middle);
  tab.looked_like = given(quantity::kelvins(0));
  EXPECT_EQ(tell_chamber_map({{tab}, {}}).question->place, "front");
  EXPECT_EQ(tell_chamber_map({{tab}, {}}).question->told_by, "heat");
  tab.looked_like.reset();
  tab.lightness = given(71.3);
  tab.redness = given(1.1);
  tab.yellowness = given(17.9);
  EXPECT_EQ(tell_chamber_map({{tab}, {}}).question->told_by, "colour");
}

}  // namespace
}  // namespace heatwork::furnace_care
