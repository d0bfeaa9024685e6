#include "desk/lab/sample_table.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

std::string refusal(const std::string& text) {
  try {
    (void)read_sample_table("pump.csv", text);
  } catch (const Failure& failure) {
    return failure.what();
  }
  return "nothing was refused";
}

using Texts = std::vector<std::string>;

TEST(SampleTable, ReadsUnitsFromTheTitlesAndBehindTheNumbers) {
  EXPECT_EQ(read_sample_table("pump.csv", "time (s),pressure (mbar)\n0,950\n2.5,700\n").samples,
            (Texts{"0 s, 950 mbar", "2.5 s, 700 mbar"}));
  EXPECT_EQ(read_sample_table("pump.csv", "time,gauge\n0 s,12 mmHg\n1 min,30 mmHg\n").samples, (Texts{"0 s, 12 mmHg", "1 min, 30 mmHg"}));
}

TEST(SampleTable, ReadsWhatASpreadsheetInAnotherLandWrites) {
  const SampleTable table = read_sample_table("pump.csv",
                                              "\xEF\xBB\xBFZeit [s];Druck [mbar];Ofen\r\n"
                                              "0;950,5;corner\r\n"
                                              "\r\n"
                                              "2,5;700,25;corner\r\n");
  EXPECT_EQ(table.samples, (Texts{"0 s, 950,5 mbar", "2.5 s, 700,25 mbar"}));
  EXPECT_EQ(table.furnace, "corner");
}

TEST(SampleTable, WhatIsNoNumberGoesOnToTheReaderOfReadings) {
  EXPECT_EQ(read_sample_table("pump.csv", "time (s),pressure (mbar)\n0,NaN\n").samples, (Texts{"0 s, NaN mbar"}));
}

TEST(SampleTable, ARecordBeginsAtItsFirstReading) {
  EXPECT_EQ(read_sample_table("run.csv", "time\tdisplay\n10:00:05\t40 °C\n10:00:15\t65 °C\n").samples,
            (Texts{"0 s, 40 °C", "10 s, 65 °C"}));
}

TEST(SampleTable, RefusesWithTheLine) {
  EXPECT_EQ(refusal(""), "pump.csv is empty; a record has a line of titles and a row a reading.");
  EXPECT_EQ(refusal("time (s),pressure (mbar)\n"), "pump.csv holds titles and no reading.");
  EXPECT_EQ(refusal("0,950\n2,700\n").substr(0, 17), "pump.csv, line 1:");
  EXPECT_EQ(refusal("time (s),pressure (mbar)\n0,950\nlater,700\n").substr(0, 17), "pump.csv, line 3:");
  EXPECT_EQ(refusal("time (s),pressure (mbar)\n0,950\nNaN,700\n").substr(0, 17), "pump.csv, line 3:");
  EXPECT_EQ(refusal("time (s),pressure (mbar)\n0,950\n2\n"), "pump.csv, line 3: the row has fewer cells than there are titles.");
  EXPECT_EQ(refusal("time (s),pressure (mbar)\n10,950\n2,700\n"),
            "pump.csv, line 3: the clock went back before the first reading; rows stand in the order of time.");
  EXPECT_EQ(refusal("time (s),pressure (mbar),furnace\n0,950,corner\n2,700,window\n"),
            "pump.csv, line 3: the furnace is \"window\" here and \"corner\" above; a record is of one furnace.");
  EXPECT_EQ(refusal("time (s),a,b\n0,950,1\n").substr(0, 40), "pump.csv, line 1: \"b\" is one column too ");
}

}  // namespace
}  // namespace heatwork::desk
