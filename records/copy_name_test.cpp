#include "records/copy_name.h"

#include <gtest/gtest.h>

#include "records/store_error.h"

namespace heatwork::records {
namespace {

const std::string id = "1f0c33a9b5d24e6f8a7b6c5d4e3f2a1b";

TEST(CopyName, tells_the_store_and_the_second) {
  EXPECT_EQ(copy_name(id, "2026-11-25T17:11:04.123Z"), "heatwork-1f0c33a9-20261125T171104Z.sqlite");
  EXPECT_EQ(copy_name(id, "2026-11-25T17:11:04Z"), "heatwork-1f0c33a9-20261125T171104Z.sqlite");
  EXPECT_EQ(time_of_copy("heatwork-1f0c33a9-20261125T171104Z.sqlite", id), seconds_of("2026-11-25T17:11:04.123Z"));
}

TEST(CopyName, counts_seconds_as_the_calendar_does) {
  EXPECT_EQ(seconds_of("1970-01-01T00:00:00Z"), 0);
  EXPECT_EQ(seconds_of("2000-02-29T12:00:00.5Z"), 951'825'600);
  EXPECT_EQ(seconds_of("2026-11-25T17:11:04.123Z"), 1'795'626'664);
}

TEST(CopyName, no_time_is_refused) {
  for (const char* text :
       {"", "Z", "2026-11-25", "2026-11-25T17:11:04", "2026-02-29T00:00:00Z", "2026-13-01T00:00:00Z", "2026-11-25T24:00:00Z",
        "2026-11-25T17:61:04Z", "2026-11-25T17:11:4Z", "26-11-25T17:11:04Z", "2026-11-25 17:11:04Z"}) {
    EXPECT_THROW((void)seconds_of(text), StoreError) << text;
  }
}

TEST(CopyName, other_names_are_no_copies) {
  for (const char* name : {"heatwork-1f0c33a9-20261125T171104Z.sqlite.part", "heatwork-1f0c33a9-20261125T171104Z.sqlite.txt",
                           "heatwork-00000000-20261125T171104Z.sqlite", "heatwork-1f0c33a9-20261131T171104Z.sqlite",
                           "heatwork-1f0c33a9-2026112xT171104Z.sqlite", "heatwork-1f0c33a9-.sqlite", "", "lab.sqlite"}) {
    EXPECT_FALSE(time_of_copy(name, id)) << name;
  }
}

TEST(CopyName, what_was_never_finished_is_known_by_its_name) {
  const std::string name = copy_name(id, "2026-11-25T17:11:04Z");
  for (const std::string& left :
       {name + ".part", name + ".part-journal", name + ".txt.part", "." + name + ".part.making-0123456789abcdef"}) {
    EXPECT_TRUE(is_unfinished_copy(left, id)) << left;
  }
  for (const std::string& other : {name, name + ".txt", std::string("letter.part"), "x" + name + ".part", name + ".bak"}) {
    EXPECT_FALSE(is_unfinished_copy(other, id)) << other;
  }
}

}  // namespace
}  // namespace heatwork::records
