#include <gtest/gtest.h>

#include <string>

#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/writer.h"

namespace heatwork::trade {
namespace {

const std::string beginning = "format = 1\n[material]\nname = \"own\"\nkind = \"powder\"\n";

Material read(const std::string& more) {
  return read_noun<Material>(source_of("own.toml", beginning + more));
}

std::string refusal(const std::string& more) {
  try {
    read(more);
  } catch (const Mistake& mistake) {
    return mistake.what();
  }
  return "read";
}

TEST(Calibrated, IsReadAndWrittenBack) {
  const Material own =
      read("[material.calibrated]\nfurnace = \"corner\"\ntray = \"light\"\nwithin = \"18 °F\"\ndisplay_error_u = \"3 K\"\n");
  ASSERT_TRUE(own.calibrated && own.calibrated->display_error_u);
  EXPECT_EQ(own.calibrated->furnace, "corner");
  EXPECT_EQ(own.calibrated->tray, "light");
  EXPECT_DOUBLE_EQ(own.calibrated->within.value.si(), 10);
  const std::string written = write_noun(own);
  EXPECT_EQ(write_noun(read_noun<Material>(source_of("again.toml", written))), written);
  EXPECT_NE(written.find("[material.calibrated]\nfurnace = \"corner\"\ntray = \"light\"\nwithin = \"10 K\"\ndisplay_error_u = \"3 K\"\n"),
            std::string::npos)
      << written;
}

TEST(Calibrated, MayLackADisplayErrorAndMayBeAbsent) {
  EXPECT_FALSE(read("[material.calibrated]\nfurnace = \"corner\"\ntray = \"light\"\nwithin = \"10 K\"\n").calibrated->display_error_u);
  EXPECT_FALSE(read("").calibrated);
}

TEST(Calibrated, SaysWhatIsWrong) {
  EXPECT_NE(refusal("[material.calibrated]\ntray = \"light\"\nwithin = \"10 K\"\n").find("furnace"), std::string::npos);
  EXPECT_EQ(refusal("[material.calibrated]\nfurnace = \"corner\"\ntray = \"light\"\nwithin = \"-10 K\"\n"),
            "own.toml:8:10: within: \"-10 K\" is out of range; allowed is 1 K to 150 K\nwithin = \"-10 K\"\n         ^");
  EXPECT_NE(
      refusal("[material.calibrated]\nfurnace = \"corner\"\ntray = \"light\"\nwithin = \"10 K\"\ntrays = \"x\"\n").find("did you mean"),
      std::string::npos);
}

/// A firing of one material that was calibrated somewhere.
std::string canonical_of(const std::string& furnace, const std::string& tray, const std::string& trial_furnace,
                         const std::string& material_name = "own") {
  ResolvedFiring firing;
  firing.furnace.name = furnace;
  firing.tray.name = tray;
  firing.tray.mass.emplace();
  Material material = read("[material.calibrated]\nfurnace = \"" + trial_furnace + "\"\ntray = \"light\"\nwithin = \"10 K\"\n");
  material.name = material_name;
  firing.materials[material_name] = material;
  return canonical_text(firing);
}

TEST(Calibrated, WhetherThisIsItsFurnaceAndTrayChangesTheInputsAndNoNameDoes) {
  const std::string here = canonical_of("corner", "light", "corner");
  EXPECT_NE(here, canonical_of("window", "light", "corner"));
  EXPECT_NE(here, canonical_of("corner", "heavy", "corner"));
  EXPECT_EQ(here, canonical_of("window", "light", "window"));
  EXPECT_EQ(here, canonical_of("corner", "light", "corner", "mine"));
  EXPECT_EQ(here.find("corner"), std::string::npos);
}

}  // namespace
}  // namespace heatwork::trade
