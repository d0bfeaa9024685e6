#include "trade/relaxation.h"

#include <gtest/gtest.h>

#include <string>

#include "trade/mistake.h"
#include "trade/reader.h"

namespace heatwork::trade {
namespace {

const std::string whole =
    "format = 1\n[relaxation]\nname = \"own\"\nmeaning = \"ours\"\nstanding = \"measured\"\nsource = \"the lab\"\n"
    "shear = [[0.4, 0.1], [0.6, 2]]\nstructure = [[1, 3.5]]\n";

std::string with(const std::string& old, const std::string& other) {
  std::string text = whole;
  text.replace(text.find(old), old.size(), other);
  return text;
}

/// The sentence without the user's line and the caret.
std::string refused(const std::string& text) {
  try {
    static_cast<void>(read_relaxation("own.toml", text));
  } catch (const Mistake& mistake) {
    const std::string what = mistake.what();
    return what.substr(0, what.find('\n'));
  }
  return "read";
}

TEST(Relaxation, IsRead) {
  const Relaxation own = read_relaxation("own.toml", whole);
  EXPECT_EQ(own.name, "own");
  EXPECT_EQ(own.standing, Standing::measured);
  EXPECT_EQ(own.shear, (Relaxation::Terms{{0.4, 0.1}, {0.6, 2}}));
  EXPECT_EQ(own.structure, (Relaxation::Terms{{1, 3.5}}));
}

TEST(Relaxation, SaysWhatIsWrong) {
  EXPECT_EQ(refused("[relaxation]\n"), "own.toml:1:1: a file of a relaxation begins with format = 1");
  EXPECT_EQ(refused("format = 1\n"), "own.toml:1:1: a file of a relaxation has the table [relaxation]");
  EXPECT_EQ(refused(whole + "[other]\n"),
            "own.toml:9:2: \"other\" has no place in a file of a relaxation; allowed are format and [relaxation]");
  EXPECT_EQ(refused(whole + "bulk = 1\n"),
            "own.toml:9:1: \"bulk\" is no key of a relaxation; allowed are name, meaning, standing, source, shear, structure");
  EXPECT_EQ(refused(with("structure = [[1, 3.5]]\n", "")),
            "own.toml:2:2: a relaxation has no structure; it has name, meaning, standing, source, shear, structure");
  EXPECT_EQ(refused(with("source = \"the lab\"", "source = \"\"")), "own.toml:6:10: source of a relaxation is empty");
  EXPECT_EQ(refused(with("\"measured\"", "\"guess\"")),
            "own.toml:5:12: \"guess\" is no standing; allowed are measured, computed, memory, assumed, none found");
  EXPECT_EQ(refused(with("[[1, 3.5]]", "[[1]]")), "own.toml:8:14: structure of a relaxation holds pairs [share, seconds]");
  EXPECT_EQ(refused(with("[[1, 3.5]]", "[[1, 0]]")),
            "own.toml:8:18: structure of a relaxation holds 0; it holds pairs [share, seconds] of numbers above 0");
  EXPECT_EQ(refused(with("[0.6, 2]", "[0.7, 2]")), "own.toml:7:9: the shares of shear make 1.1 together; they make 1");
}

TEST(Relaxation, ThoseThatShipAreFoundByName) {
  EXPECT_EQ(relaxation_names(), (std::vector<std::string>{"sealing-glass", "soda-lime-float"}));
  ASSERT_NE(relaxation("soda-lime-float"), nullptr);
  EXPECT_EQ(relaxation("soda-lime-float")->structure.size(), 6U);
  EXPECT_EQ(relaxation("no-such"), nullptr);
}

}  // namespace
}  // namespace heatwork::trade
