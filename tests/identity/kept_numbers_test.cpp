// Kept numbers of every demo firing. They are no check of what is right, only of what has changed: when one moves by over 1e-6 the model
// version must rise, for states and rehearsals stored under the old one no longer replay. Accept new ones with HEATWORK_ACCEPT=1.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "demo_firing.h"
#include "firing/rehearsal.h"

namespace heatwork {
namespace {

const std::string kept_file = std::string(HEATWORK_SOURCE_DIR) + "/tests/identity/kept/numbers.txt";
constexpr double moved = 1e-6;

using Numbers = std::map<std::string, double>;

void add(Numbers& numbers, const std::string& stem, const firing::Rehearsal& rehearsal) {
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) {
    const firing::PieceResult& piece = rehearsal.firing.pieces[i];
    const std::string at = stem + "/" + piece.piece + "/";
    numbers[at + "surface_C"] = piece.peak_surface_C;
    numbers[at + "core_C"] = piece.peak_core_C;
    numbers[at + "deciding_least"] = piece.deciding_least;
    numbers[at + "deciding_greatest"] = piece.deciding_greatest;
    if (rehearsal.compared[i].shift_K) numbers[at + "shift_K"] = *rehearsal.compared[i].shift_K;
    if (rehearsal.compared[i].hold_s) numbers[at + "hold_s"] = *rehearsal.compared[i].hold_s;
    for (const firing::SectionResult& section : piece.sections) {
      numbers[at + section.name + "/water_at_close_percent"] = section.water_at_close_percent;
      numbers[at + section.name + "/burst_index"] = section.burst_index;
    }
    for (const firing::PointResult& point : piece.points) {
      const std::string on = fmt::format("{}{}.{}.{}/", at, point.section, point.layer, point.outer_face ? "outer" : "inner");
      if (point.viscous) numbers[on + "porosity_percent"] = point.porosity_percent;
      if (point.viscous) numbers[on + "rounding_um"] = point.rounding_um;
      if (!point.viscous) numbers[on + "crystallised"] = point.fraction.back();
      if (!point.viscous) numbers[on + "crystal_um"] = point.crystal_um;
    }
  }
}

Numbers numbers_now() {
  Numbers numbers;
  for (const char* stem : {"firing", "window-firing", "correction-firing", "glaze-firing", "crystallise-firing", "metal-ceramic-firing",
                           "stain-firing", "heavier-tray", "thick-build-up", "leak", "vacuum-released-early", "thirty-kelvin-short"})
    add(numbers, stem, firing::rehearse(tests::demo_firing(stem)));
  return numbers;
}

TEST(kept_numbers, a_number_that_moves_raises_the_model_version) {
  const Numbers now = numbers_now();
  Numbers kept;
  int kept_version = 0;
  std::ifstream file(kept_file);
  for (std::string name; file >> name;) file >> kept[name];
  kept_version = static_cast<int>(kept["model_version"]);
  kept.erase("model_version");

  std::vector<std::string> changed;
  for (const auto& [name, value] : now)
    if (!kept.contains(name) || std::abs(value - kept[name]) > moved * std::max(1.0, std::abs(value)))
      changed.push_back(fmt::format("{}: {:.10g}, kept {:.10g}", name, value, kept.contains(name) ? kept[name] : NAN));
  for (const auto& [name, value] : kept)
    if (!now.contains(name)) changed.push_back(name + ": no longer there");

  if (std::getenv("HEATWORK_ACCEPT") != nullptr && !(changed.empty() && kept_version == firing::model_version)) {
    ASSERT_TRUE(kept.empty() || kept_version != firing::model_version || changed.empty())
        << "raise firing::model_version before new numbers are accepted";
    std::ofstream out(kept_file);
    out << "model_version " << firing::model_version << '\n';
    for (const auto& [name, value] : now) out << fmt::format("{} {:.12g}\n", name, value);
    for (const std::string& line : changed) fmt::print("accepted {}\n", line);
    return;
  }
  EXPECT_EQ(kept_version, firing::model_version) << "the kept numbers are of another model version";
  EXPECT_GT(now.size(), 100U);
  std::string list;
  for (const std::string& line : changed) list += "\n  " + line;
  EXPECT_TRUE(changed.empty()) << changed.size() << " numbers have moved; raise firing::model_version and accept them:" << list;
}

}  // namespace
}  // namespace heatwork
