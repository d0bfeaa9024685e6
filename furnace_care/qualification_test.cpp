#include "furnace_care/qualification.h"

#include <gtest/gtest.h>

namespace heatwork::furnace_care {
namespace {

using State = QualificationLine::State;

QualifyingCheck check(const std::string& name, Upkeep work, int day, CheckCame came = CheckCame::good) {
  return {name, work, day, came, false, false};
}

const std::vector<Reopening> new_furnace = {{Reopened::put_into_service, 100, "put into service", "furnace corner@1"}};

std::vector<QualifyingCheck> all_good(int day) {
  return {check("t", Upkeep::temperature, day), check("v", Upkeep::vacuum, day), check("h", Upkeep::heating, day),
          check("m", Upkeep::chamber_map, day)};
}

const std::vector<SpecimenFiring> three = {{"s-1", 110, true}, {"s-2", 111, true}, {"s-3", 112, true}};

TEST(Qualification, WholeByChecksAndSpecimens) {
  const Qualification found = qualification_of(all_good(105), new_furnace, three);
  EXPECT_EQ(found.outcome, Qualified::yes);
  EXPECT_EQ(found.sentence, "Qualified since put into service on 1970-04-11: every check wanted is good, 3 specimen firings as wanted.");
  EXPECT_EQ(qualification_of(all_good(105), new_furnace, {}).outcome, Qualified::not_whole);
  auto checks = all_good(105);
  checks.erase(checks.begin() + 1);
  EXPECT_EQ(qualification_of(checks, new_furnace, three).sentence,
            "Not yet qualified since put into service on 1970-04-11: vacuum test still to be done.");
  checks.push_back(check("v", Upkeep::vacuum, 106, CheckCame::cannot_tell));
  EXPECT_EQ(qualification_of(checks, new_furnace, three).outcome, Qualified::not_whole);
}

TEST(Qualification, AsLeftDecidesUntilItIsFoundAgain) {
  auto checks = all_good(105);
  checks[0].came = CheckCame::not_good;
  EXPECT_EQ(qualification_of(checks, new_furnace, three).outcome, Qualified::no);
  QualifyingCheck left = check("t-left", Upkeep::temperature, 105);
  left.as_left = true;
  checks.push_back(left);
  const Qualification adjusted = qualification_of(checks, new_furnace, three);
  EXPECT_EQ(adjusted.outcome, Qualified::yes);
  EXPECT_EQ(*adjusted.lines[0].as_found, 0U);
  EXPECT_EQ(*adjusted.lines[0].as_left, 4U);
  checks.push_back(check("t-later", Upkeep::temperature, 140, CheckCame::not_good));
  const Qualification later = qualification_of(checks, new_furnace, three);
  EXPECT_FALSE(later.lines[0].as_left);
  EXPECT_EQ(later.lines[0].state, State::failed);
}

TEST(Qualification, AChangeReopensWhatItTouches) {
  auto since = new_furnace;
  since.push_back({Reopened::sensor, 130, "new sensor", "check t-new"});
  const auto found = qualification_of(all_good(105), since, three);
  EXPECT_EQ(found.lines[0].state, State::missing);
  EXPECT_EQ(found.lines[1].state, State::not_wanted);
  EXPECT_EQ(found.lines[3].state, State::missing);
  EXPECT_EQ(found.sentence, "Not yet qualified since new sensor on 1970-05-11: temperature check and chamber map still to be done.");
  EXPECT_EQ(found.specimens_as_wanted, 0U) << "specimens before the change count no more";
  EXPECT_EQ(reopened_by("new muffle"), Reopened::muffle);
  EXPECT_EQ(reopened_by("Neue Muffel eingesetzt"), Reopened::muffle);
  EXPECT_EQ(reopened_by("door seal"), Reopened::pump_or_seal);
  EXPECT_EQ(reopened_by("sensor and muffle"), Reopened::repair);
  EXPECT_EQ(reopened_by("board"), Reopened::repair);
  EXPECT_EQ(works_reopened(Reopened::repair).size(), 4U);
}

TEST(Qualification, OutOfUseUntilFoundGood) {
  auto checks = all_good(105);
  checks.push_back(check("t-off", Upkeep::temperature, 120, CheckCame::not_good));
  checks.back().out_of_use = true;
  const Qualification tagged = qualification_of(checks, new_furnace, three);
  EXPECT_EQ(tagged.outcome, Qualified::out_of_use);
  EXPECT_EQ(tagged.sentence, "Out of use since 1970-05-01, by check t-off.");
  checks.push_back(check("v-2", Upkeep::vacuum, 121));
  EXPECT_EQ(qualification_of(checks, new_furnace, three).outcome, Qualified::out_of_use) << "another check does not take the tag away";
  checks.push_back(check("t-again", Upkeep::temperature, 122));
  EXPECT_EQ(qualification_of(checks, new_furnace, three).outcome, Qualified::yes);
}

TEST(Qualification, ASpecimenThatDidNotComeOutSaysSo) {
  auto specimens = three;
  specimens.push_back({"s-4", 113, false});
  const Qualification found = qualification_of(all_good(105), new_furnace, specimens);
  EXPECT_EQ(found.outcome, Qualified::no);
  EXPECT_EQ(found.sentence, "Not qualified: 1 of 4 specimen firings since put into service on 1970-04-11 did not come out as wanted.");
}

}  // namespace
}  // namespace heatwork::furnace_care
