#include "desk/errors.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

namespace heatwork::desk {
namespace {

template <class E>
Shown shown_of(const E& thrown) {
  return explain(std::make_exception_ptr(thrown));
}

TEST(Errors, EachWordStandsOnceAndFitsItsKind) {
  std::set<std::string_view> words;
  for (const ErrorRow& each : error_table()) {
    EXPECT_TRUE(words.insert(each.word).second) << each.word;
    EXPECT_TRUE(each.sentence.ends_with('.')) << each.word;
    const int expected = each.kind == ErrorKind::yours ? 2 : each.kind == ErrorKind::machine ? 3 : each.kind == ErrorKind::ours ? 4 : 130;
    EXPECT_EQ(each.exit_code, expected) << each.word;
    EXPECT_EQ(each.http_status / 100, each.kind == ErrorKind::yours ? 4 : 5) << each.word;
  }
}

TEST(Errors, AFailureKeepsItsSentence) {
  const Shown seen = shown_of(Failure(ErrorWord::unknown_name, "There is no tray \"x\"."));
  EXPECT_EQ(seen.exit_code, 2);
  EXPECT_EQ(seen.http_status, 404);
  EXPECT_EQ(seen.sentence, "There is no tray \"x\".");
}

TEST(Errors, AModelThatRefusesIsBadInput) {
  EXPECT_EQ(shown_of(std::domain_error("The radius must be above 0.")).exit_code, 2);
  EXPECT_EQ(shown_of(std::invalid_argument("The times must rise.")).sentence, "The times must rise.");
}

TEST(Errors, ABugShowsNothingInside) {
  for (const Shown& seen : {shown_of(std::logic_error("index 7 of table q")), shown_of(std::runtime_error("secret path")), shown_of(42),
                            shown_of(std::out_of_range("map::at")), shown_of(Failure(ErrorWord::mistake_of_ours, "inside"))}) {
    EXPECT_EQ(seen.exit_code, 4);
    EXPECT_EQ(seen.sentence, row(ErrorWord::mistake_of_ours).sentence);
  }
}

TEST(Errors, AFullMachineIsItsOwnFault) {
  EXPECT_EQ(shown_of(std::bad_alloc()).exit_code, 3);
}

// HEATWORK_ACCEPT=1 writes the page anew.
TEST(Errors, ThePageIsMadeFromTheTable) {
  if (std::getenv("HEATWORK_ACCEPT") != nullptr) std::ofstream(HEATWORK_SOURCE_DIR "/docs/errors.md") << errors_page();
  std::ifstream file(HEATWORK_SOURCE_DIR "/docs/errors.md");
  std::stringstream text;
  text << file.rdbuf();
  EXPECT_EQ(text.str(), errors_page());
}

}  // namespace
}  // namespace heatwork::desk
