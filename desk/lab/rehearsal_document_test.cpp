#include "desk/lab/rehearsal_document.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <limits>

#include "desk/lab/exact_numbers.h"
#include "report/made_up_rehearsal.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;
const fs::path demo = fs::path(HEATWORK_SOURCE_DIR) / "data/demo";

std::string refusal(const std::string& text) {
  try {
    (void)read_rehearsal_document(text);
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "accepted";
}

TEST(ExactNumbers, ReadBackBitForBit) {
  const std::vector<double> values = {0.0,
                                      -0.0,
                                      0.1,
                                      -1234.5678,
                                      std::numeric_limits<double>::infinity(),
                                      std::numeric_limits<double>::denorm_min(),
                                      std::nextafter(1.0, 2.0)};
  for (std::size_t count = 0; count <= values.size(); ++count) {
    const std::vector<double> some(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(count));
    const std::vector<double> back = exact_numbers(exact_text(some));
    ASSERT_EQ(back.size(), count);
    for (std::size_t i = 0; i < count; ++i) {
      EXPECT_EQ(back[i], some[i]);
      EXPECT_EQ(std::signbit(back[i]), std::signbit(some[i]));
    }
  }
  EXPECT_EQ(exact_text(std::vector<double>{1.0}), "AAAAAAAA8D8=");  // as other programs write the same eight bytes
  for (const char* wrong : {"AAAAAAAA8D8", "AAAAAAAA8D==", "AAAA*AAA8D8=", "=AAAAAAA8D8=", "AAAAAAAA8D8=AAAA"})
    EXPECT_THROW((void)exact_numbers(wrong), std::invalid_argument) << wrong;
}

TEST(ExactNumbers, AListMuchLikeAnotherIsToldByWhatDiffers) {
  const std::vector<double> before = {1, 2.5, -0.0, 7};
  for (const std::vector<double>& values :
       std::vector<std::vector<double>>{{}, {1}, {1, 2.5, 0.0, 7}, {1, 2.5, -0.0, 7, 7, 7, 8, 7, 9, 7}, {0.1, 0.2, 0.3, 0.4, 0.3, 0.4}}) {
    const std::string text = exact_text(values, before, 2);
    const std::vector<double> back = exact_numbers(text, before, 2);
    EXPECT_EQ(exact_text(back), exact_text(values)) << text;
  }
  EXPECT_EQ(exact_text(before, before, 2), "4:0:");
  EXPECT_EQ(exact_text(std::vector<double>{1, 2.5, -0.0, 1.0}, before, 2), "4:8:AAAAAAAA8D8=");
  for (const char* wrong : {"", "4", "4:0", "4:00:", "x:0:", "4:g:", "4:1:", "4:0:AAAAAAAA8D8=", "99999999:0:"})
    EXPECT_THROW((void)exact_numbers(wrong, before, 2), std::invalid_argument) << wrong;
}

TEST(RehearsalDocument, ReadsBackWhatWasComputedToTheLastBit) {
  for (const char* file : {"firing.toml", "crystallise-firing.toml", "metal-ceramic-firing.toml", "glaze-firing.toml"}) {
    const Rehearsed rehearsed = rehearse_file(demo / file);
    trade::NameUsed furnace{"furnace", rehearsed.rehearsal.request.furnace.name, 3, "", {}};
    trade::NameUsed water{"liquid", "water", 0, std::string(64, 'a'), {}};
    const RehearsalDocument document = rehearsal_document(rehearsed, 2, {{furnace, ""}, {water, "shipped: liquids/water.toml"}});
    const std::string text = write_rehearsal_document(document);
    EXPECT_EQ(text.find('\n'), std::string::npos);
    EXPECT_EQ(text.rfind("{\"format\":1,\"firing\":\"", 0), 0U);
    const RehearsalDocument back = read_rehearsal_document(text);
    EXPECT_EQ(write_rehearsal_document(back), text);
    ASSERT_FALSE(back.states.empty());
    ASSERT_EQ(back.states.size(), rehearsed.rehearsal.firing.end.size());
    for (std::size_t i = 0; i < back.states.size(); ++i) EXPECT_EQ(back.states[i].points, rehearsed.rehearsal.firing.end[i].points) << file;
    EXPECT_EQ(back.used, document.used);
    EXPECT_EQ(back.used[0].name.version, 3);
    EXPECT_EQ(back.used[1].from, "shipped: liquids/water.toml");
    EXPECT_EQ(back.inputs_hash, rehearsed.rehearsal.inputs_hash);
    EXPECT_EQ(back.firing_version, 2);
    ASSERT_EQ(back.findings.size(), rehearsed.verdict.findings.size());
    for (std::size_t i = 0; i < back.findings.size(); ++i) EXPECT_EQ(back.findings[i].sentence, rehearsed.verdict.findings[i].sentence);
    ASSERT_EQ(back.pieces.size(), rehearsed.rehearsal.firing.pieces.size());
    for (const PieceReading& piece : back.pieces) {
      ASSERT_FALSE(piece.layers.empty()) << file;
      for (const LayerReading& layer : piece.layers) EXPECT_TRUE(layer.porosity_percent || layer.crystallised_share) << layer.material;
    }
    RecordProperty(std::string("bytes_") + file, static_cast<int>(text.size()));
    EXPECT_LT(text.size(), 20'000U) << "it is kept a million times over";
  }
}

TEST(RehearsalDocument, KeepsTheStressOfEachSectionInItsWorstForm) {
  Rehearsed rehearsed;
  rehearsed.rehearsal = report::made_up::rehearsal();
  EXPECT_EQ(write_rehearsal_document(rehearsal_document(rehearsed, 1, {})).find("\"stress\""), std::string::npos) << "not asked for";
  report::made_up::add_stress(rehearsed.rehearsal);
  rehearsed.rehearsal.firing.pieces[0].stress[0].worst = 1;
  const std::string text = write_rehearsal_document(rehearsal_document(rehearsed, 1, {}));
  const RehearsalDocument back = read_rehearsal_document(text);
  EXPECT_EQ(write_rehearsal_document(back), text);
  ASSERT_EQ(back.pieces[0].stress.size(), 1U);
  EXPECT_EQ(back.pieces[0].stress[0].form, "plate-flat");
  EXPECT_NEAR(*back.pieces[0].stress[0].stays_MPa, 0.6 * 6.4, 1e-9);
  ASSERT_EQ(back.pieces[1].stress.size(), 2U);
  const StressReading& wide = back.pieces[1].stress[0];
  EXPECT_EQ(wide.material, "made-up powder");
  EXPECT_NEAR(*wide.low_MPa, 3.1, 1e-9);
  EXPECT_NEAR(*wide.high_MPa, 23.1, 1e-9);
  EXPECT_NEAR(*wide.on_the_way_MPa, 27.8, 1e-9);
  const StressReading& unknown = back.pieces[1].stress[1];
  EXPECT_FALSE(unknown.stays_MPa);
  EXPECT_EQ(unknown.not_computed, rehearsed.rehearsal.firing.pieces[1].stress[1].not_computed);
}

TEST(RehearsalDocument, WhatIsNoneOrOfAnotherFormatIsRefused) {
  EXPECT_EQ(refusal("{\"format\":2}"), "The kept rehearsal is of format 2; this Heatwork reads format 1.");
  EXPECT_EQ(refusal("{\"format\":1}"), "The kept rehearsal cannot be read: a key is missing or holds something else.");
  EXPECT_EQ(refusal("no JSON"), "The kept rehearsal cannot be read: a key is missing or holds something else.");
  const Rehearsed rehearsed = rehearse_file(demo / "glaze-firing.toml");
  std::string text = write_rehearsal_document(rehearsal_document(rehearsed, 1, {}));
  const std::size_t state = text.find("\"powder\":\"") + 10;
  text[state] = 'x';
  EXPECT_EQ(refusal(text), "The kept rehearsal cannot be read: numbers kept bit for bit do not say how many they are.");
}

}  // namespace
}  // namespace heatwork::desk
