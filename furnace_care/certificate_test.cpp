#include "furnace_care/certificate.h"

#include <gtest/gtest.h>

#include "furnace_care/due.h"
#include "furnace_care/furnace_for_tests.h"

namespace heatwork::furnace_care {
namespace {

using trade::ReferenceOf;

trade::Reference reference(ReferenceOf of, const std::string& certified, const std::string& expires) {
  trade::Reference made;
  made.of = given(of);
  made.certified = certified;
  made.expires = expires;
  return made;
}

int day(const char* text) {
  return day_number(text).value();
}

const int today = day("2026-11-25");

TEST(Certificate, CommonPracticeStandsBehindWhatNobodySays) {
  const auto due = certificate_due(reference(ReferenceOf::thermocouple, "2026-03-01", ""), today);
  ASSERT_TRUE(due);
  EXPECT_EQ(day_text(due->day), "2027-03-01");
  EXPECT_EQ(due->by, SetBy::common_practice);
  EXPECT_EQ(due->sentence, "Certified on 2026-03-01.");
  EXPECT_EQ(in_words(*due->interval), "every 365 days");
  EXPECT_EQ(certificate_due(reference(ReferenceOf::barometer, "2026-03-01", ""), today)->day, due->day);
  EXPECT_EQ(certificate_due(reference(ReferenceOf::vacuum_gauge, "2026-03-01", ""), today)->day, due->day);
  EXPECT_EQ(certificate_due(reference(ReferenceOf::silver_wire, "2026-03-01", ""), today)->by, SetBy::assumed);
  EXPECT_FALSE(certificate_due(reference(ReferenceOf::shade_tab, "2026-03-01", ""), today)) << "a tab ages in no known time";
}

TEST(Certificate, ItsOwnDayGoesBeforeCommonPracticeAndIsNeverPutOff) {
  auto with_day = reference(ReferenceOf::thermocouple, "2026-03-01", "2028-05-31");
  EXPECT_EQ(certificate_due(with_day, today)->by, SetBy::certificate);
  EXPECT_EQ(day_text(certificate_due(with_day, today)->day), "2028-05-31");
  EXPECT_FALSE(certificate_due(with_day, today)->interval);
  with_day.every_days = given(180);
  EXPECT_EQ(day_text(certificate_due(with_day, today)->day), "2026-08-28") << "the lab wants it sooner";
  EXPECT_EQ(certificate_due(with_day, today)->by, SetBy::lab);
  with_day.every_days = given(2000);
  EXPECT_EQ(day_text(certificate_due(with_day, today)->day), "2028-05-31") << "no lab makes a certificate last longer";
  with_day.certified = "";
  with_day.every_days = given(180);
  EXPECT_EQ(certificate_due(with_day, today)->by, SetBy::certificate) << "from no day nothing is counted";
}

TEST(Certificate, TheFurnaceMakersWordStandsWithWhereItSays) {
  auto probe = reference(ReferenceOf::thermocouple, "2026-03-01", "");
  probe.every_days = given(90);
  probe.by = given(trade::IntervalBy::furnace_maker);
  probe.stated_in = "instructions for use, page 31";
  const auto due = certificate_due(probe, today);
  EXPECT_EQ(due->by, SetBy::furnace_maker);
  EXPECT_EQ(who_says(*due->interval), "furnace maker's instruction, instructions for use, page 31");
}

TEST(Certificate, WithoutAnyDayItIsDueNow) {
  const auto due = certificate_due(reference(ReferenceOf::thermocouple, "", ""), today);
  ASSERT_TRUE(due);
  EXPECT_EQ(due->day, today);
  EXPECT_EQ(due->sentence, "Nothing that is kept tells when it was certified.");
}

}  // namespace
}  // namespace heatwork::furnace_care
