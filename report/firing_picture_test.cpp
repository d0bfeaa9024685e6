#include "report/firing_picture.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <tuple>

#include "report/made_up_rehearsal.h"
#include "report/picture_look.h"
#include "report/rehearsal_json.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

using MomentKey = std::tuple<std::string, std::string, std::string>;  // what, piece, at_s

std::string drawn(const firing::Rehearsal& rehearsal, const PictureOptions& options = {}) {
  return firing_picture(rehearsal, made_up::verdict(), made_up::limits(), made_up::words(), options);
}

std::string at_text(double at_s) {
  std::ostringstream text;
  text.precision(10);
  text << at_s;
  return text.str();
}

std::multiset<MomentKey> moments_of_picture(const std::string& svg) {
  static const std::regex mark("data-moment=\"[0-9]+\" data-what=\"([^\"]*)\" data-piece=\"([^\"]*)\" data-at-s=\"([^\"]*)\"");
  std::multiset<MomentKey> keys;
  for (std::sregex_iterator it(svg.begin(), svg.end(), mark), end; it != end; ++it) keys.insert({(*it)[1], (*it)[2], (*it)[3]});
  return keys;
}

std::multiset<MomentKey> moments_of_json(const firing::Rehearsal& rehearsal) {
  const auto json =
      nlohmann::json::parse(rehearsal_json(rehearsal, made_up::verdict(), {"0", "0"}, trade::words_of(trade::Language::english)));
  std::multiset<MomentKey> keys;
  for (const auto& moment : json["moments"]) {
    keys.insert({moment["what"], moment["piece"].is_null() ? "" : moment["piece"].get<std::string>(), at_text(moment["at_s"])});
  }
  return keys;
}

int count_of(const std::string& text, const std::string& what) {
  int count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++count;
  return count;
}

TEST(FiringPicture, EveryMomentDrawnIsOneOfTheFileAndAllAreDrawn) {
  for (const bool vacuum : {true, false}) {
    const firing::Rehearsal rehearsal = made_up::rehearsal({}, vacuum);
    const auto in_picture = moments_of_picture(drawn(rehearsal));
    EXPECT_EQ(in_picture.size(), rehearsal.moments.size());
    EXPECT_EQ(in_picture, moments_of_json(rehearsal));
  }
}

TEST(FiringPicture, AMomentNotInTheRehearsalIsNotDrawn) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  const std::size_t before = rehearsal.moments.size();
  std::erase_if(rehearsal.moments, [](const auto& moment) { return moment.what == firing::MomentKind::released; });
  ASSERT_EQ(rehearsal.moments.size(), before - 1);
  const std::string svg = drawn(rehearsal);
  EXPECT_EQ(moments_of_picture(svg).size(), before - 1);
  EXPECT_EQ(svg.find("air let in 16"), std::string::npos);
}

TEST(FiringPicture, IsReadableWithoutEyes) {
  const std::string svg = drawn(made_up::rehearsal());
  EXPECT_NE(svg.find("role=\"img\" aria-labelledby=\"picture-title picture-desc\""), std::string::npos);
  EXPECT_NE(svg.find("<title id=\"picture-title\">Firing picture: Dentine firing"), std::string::npos);
  const std::size_t from = svg.find("<desc id=\"picture-desc\">"), to = svg.find("</desc>");
  ASSERT_NE(from, std::string::npos);
  const std::string told = svg.substr(from, to - from);
  for (const char* words : {"First finding, borderline", "When is it dry?", "chamber shut at 6 min",
                            "crown-16 pores half sealed at 14 min 25 s", "hold ends at 17 min 14 s"}) {
    EXPECT_NE(told.find(words), std::string::npos) << words;
  }
}

TEST(FiringPicture, AnswersTheFourQuestionsForEachPiece) {
  const std::string svg = drawn(made_up::rehearsal());
  for (const char* words :
       {"at 4 min 46 s, 1 min 14 s before the chamber shuts", "at 6 min 42 s, 42 s AFTER the chamber shuts (6.4 % left then)",
        "half sealed at 14 min 25 s, sealed at 14 min 50 s", "yes, 47 mbar; air let in after sealing",
        "core 911 °C, 15 K under the display 926 °C", "like 12 K less, or 41 s less hold",
        "like 19 K less, or more than the whole hold less"}) {
    EXPECT_NE(svg.find(std::string(">") + words + "</text>"), std::string::npos) << words;
  }
}

TEST(FiringPicture, VacuumThatWasNotThereIsSaid) {
  EXPECT_NE(drawn(made_up::rehearsal({}, false)).find("this program has no vacuum"), std::string::npos);
  made_up::Clock early;
  early.release_after_top_s = -160;
  EXPECT_NE(drawn(made_up::rehearsal(early)).find("NO, air was let in before"), std::string::npos);
  made_up::Clock late;
  late.vacuum_from_C = 885;
  EXPECT_NE(drawn(made_up::rehearsal(late)).find("NO, not yet"), std::string::npos);
}

TEST(FiringPicture, OnlyWhatAppliesHasAStrip) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  EXPECT_NE(drawn(rehearsal).find(">Water left<"), std::string::npos);
  EXPECT_EQ(drawn(rehearsal).find(">Crystals<"), std::string::npos);
  for (auto& piece : rehearsal.firing.pieces) {
    piece.sections[0].water_start_g = 0;
    firing::PointResult& point = piece.points[0];
    point.fraction_trace.assign(point.rounding_trace_um.size(), 0.97);
    point.fraction = {1.0, 0.97};
    point.crystal_um = 1.4;
    point.relative_density = 0;
    point.porosity_trace_percent.clear();
    point.sealed_trace.clear();
    point.rounding_trace_um.clear();
  }
  const std::string svg = drawn(rehearsal);
  EXPECT_EQ(svg.find(">Water left<"), std::string::npos);
  EXPECT_EQ(svg.find(">Porosity<"), std::string::npos);
  EXPECT_NE(svg.find(">Crystals<"), std::string::npos);
  EXPECT_NE(svg.find("97 %, 1.4 µm"), std::string::npos);
}

TEST(FiringPicture, AnUnknownTrayIsDrawnAsABand) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  EXPECT_EQ(count_of(drawn(rehearsal), "class=\"band"), 0);
  rehearsal.heaviest = rehearsal.firing;
  rehearsal.tray_known = false;
  for (auto& piece : rehearsal.heaviest->pieces) piece.peak_core_C -= 18;
  const std::string svg = drawn(rehearsal);
  EXPECT_GT(count_of(svg, "class=\"band"), 6);
  EXPECT_NE(svg.find("893 to 911 °C"), std::string::npos);
  EXPECT_NE(svg.find("mass is not known"), std::string::npos);
}

TEST(FiringPicture, WantedBandsAreThoseOfTheLimits) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  trade::Limits limits = made_up::limits();
  const auto picture = [&] { return firing_picture(rehearsal, made_up::verdict(), limits, made_up::words()); };
  EXPECT_NE(picture().find("wanted at the end: 1 % or less"), std::string::npos);
  limits.by_name["porosity"].first = 2;
  EXPECT_NE(picture().find("wanted at the end: 2 % or less"), std::string::npos);
  rehearsal.reference = {rehearsal.firing};
  limits.by_name["porosity_over_maker"] = {0.5, 2.0, "points", "", trade::Standing::assumed, "made up", false};
  EXPECT_NE(picture().find("wanted at the end: 1.1 % or less"), std::string::npos) << "0.63 % of the maker's firing and half a point";
  limits.by_name.clear();
  EXPECT_EQ(picture().find("wanted at the end"), std::string::npos);
}

TEST(FiringPicture, FahrenheitEverywhereOrNowhere) {
  PictureOptions options;
  options.scale = TemperatureScale::fahrenheit;
  const std::string svg = drawn(made_up::rehearsal(), options);
  EXPECT_EQ(svg.find("°C"), std::string::npos);
  EXPECT_NE(svg.find("1699 °F"), std::string::npos);
  EXPECT_EQ(drawn(made_up::rehearsal()).find("°F"), std::string::npos);
}

TEST(FiringPicture, TheSameRehearsalGivesTheSameBytes) {
  EXPECT_EQ(drawn(made_up::rehearsal()), drawn(made_up::rehearsal()));
}

TEST(FiringPicture, NamesCannotBreakOut) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.request.firing.label = "</title><script>x</script>";
  rehearsal.request.pieces[0].label = "<b>\" onload=\"";
  const std::string svg = drawn(rehearsal);
  EXPECT_EQ(svg.find("<script"), std::string::npos);
  EXPECT_EQ(svg.find("<b>"), std::string::npos);
}

TEST(FiringPicture, AnEmptyRehearsalStillMakesAPicture) {
  firing::Rehearsal nothing;
  const std::string svg = firing_picture(nothing, {}, {}, made_up::words());
  EXPECT_EQ(svg.rfind("</svg>\n"), svg.size() - 7);
  EXPECT_EQ(svg.find("nan"), std::string::npos);
}

TEST(FiringPicture, PiecesBeyondTheFourthAreCountedNotDrawn) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  for (int i = 0; i < 4; ++i) rehearsal.firing.pieces.push_back(rehearsal.firing.pieces[0]);
  EXPECT_NE(drawn(rehearsal).find("2 more on the tray are not drawn"), std::string::npos);
}

double luminance(const std::string& colour) {
  double sum = 0;
  const double weights[] = {0.2126, 0.7152, 0.0722};
  for (std::size_t i = 0; i < 3; ++i) {
    const double share = std::stoi(colour.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
    sum += weights[i] * (share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4));
  }
  return sum;
}

double contrast(const std::string& a, const std::string& b) {
  const double first = luminance(a), second = luminance(b);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

std::string colour_of(const std::string& css, const std::string& rule) {
  const std::size_t at = css.find(rule + ":#");
  return at == std::string::npos ? "" : css.substr(at + rule.size() + 1, 7);
}

TEST(PictureLook, ContrastOfTextAndLinesOnEveryGround) {
  for (const Shade shade : {Shade::light, Shade::dark}) {
    const std::string css = picture_css(shade);
    const std::string paper = colour_of(css, ".paper{fill"), panel = colour_of(css, ".panel{fill"), wanted = colour_of(css, ".wanted{fill"),
                      window = colour_of(css, ".window{fill");
    for (const std::string& text : {std::string(" text{fill"), std::string(".soft{fill"), std::string("text.p0{fill"),
                                    std::string("text.p1{fill"), std::string("text.p2{fill"), std::string("text.p3{fill")}) {
      ASSERT_EQ(colour_of(css, text).size(), 7U) << text;
      EXPECT_GE(contrast(colour_of(css, text), paper), 4.5) << text;
    }
    for (const std::string& line : {std::string(".line{stroke"), std::string(".asked,.chamber{stroke"), std::string(".p0{stroke"),
                                    std::string(".p1{stroke"), std::string(".p2{stroke"), std::string(".p3{stroke")}) {
      for (const std::string& ground : {paper, panel, wanted, window}) {
        ASSERT_EQ(colour_of(css, line).size(), 7U) << line;
        EXPECT_GE(contrast(colour_of(css, line), ground), 3.0) << line << " on " << ground;
      }
    }
    EXPECT_GE(contrast(colour_of(css, ".wanted-edge{stroke"), panel), 3.0);
  }
}

TEST(PictureLook, DarkOnlyWhereAskedFor) {
  EXPECT_NE(picture_css(Shade::as_asked).find("prefers-color-scheme: dark"), std::string::npos);
  EXPECT_EQ(picture_css(Shade::light).find("prefers-color-scheme"), std::string::npos);
}

/// Texts of the picture's words that have no gap, by key.
std::map<std::string, std::string> plain_words(trade::Language language) {
  std::map<std::string, std::string> plain;
  for (const auto& [key, text] : made_up::words(language).all())
    if ((key.starts_with("picture.") || key.starts_with("answers.")) && text.find('{') == std::string::npos) plain.emplace(key, text);
  return plain;
}

TEST(FiringPicture, InGermanNothingOfItIsEnglish) {
  const trade::Words& german = made_up::words(trade::Language::german);
  const std::string svg = firing_picture(made_up::rehearsal(), made_up::verdict(), made_up::limits(), german);
  for (const char* words : {"Restwasser", "Brandbild: Dentine firing", "Erster Befund, grenzwertig", "dann noch 6,4 %",
                            "Kammer zu bei 6 min", "Minuten ab Start", "Rechenhilfe für Fachleute"})
    EXPECT_NE(svg.find(words), std::string::npos) << words;
  const auto in_german = plain_words(trade::Language::german);
  for (const auto& [key, english] : plain_words(trade::Language::english)) {
    if (english == in_german.at(key)) continue;
    for (const std::string& edge : {">" + english + "<", ">" + english + " ", ", " + english + "<", english + ": "})
      EXPECT_EQ(svg.find(edge), std::string::npos) << key << ": " << edge;
  }
  EXPECT_EQ(svg.find(" or less"), std::string::npos);
  EXPECT_EQ(svg.find(" at the end"), std::string::npos);
}

TEST(FiringPicture, TitlesOfStripsStandBesideTheirTicksInEveryLanguage) {
  for (const auto language : {trade::Language::english, trade::Language::german}) {
    for (const auto& [key, text] : plain_words(language)) {
      if (!key.starts_with("picture.strip.") || key.ends_with("_unit")) continue;
      const double room = key == "picture.strip.pressure" ? 84 : 96;  // its 1000 stands where its title does
      for (const std::string& line : broken_into_lines(text, text_px, 76, true)) EXPECT_LE(text_width(line, text_px, true), room) << text;
    }
  }
}

}  // namespace
}  // namespace heatwork::report
