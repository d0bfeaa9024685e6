#include "furnace_care/chamber_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "metrology/colour_difference.h"
#include "trade/choice_words.h"

namespace heatwork::furnace_care {
namespace {

using trade::MapPlace;

constexpr double usual_limit_K = 10.0;  ///< Standing: assumed. source: chosen-here
// A difference that half of people see, and one that half accept. Standing: memory. source: field-memory
constexpr double perceptible = 1.74, acceptable = 3.48;

std::string word_of(MapPlace place) {
  return std::string(trade::choice_word(place));
}

const trade::MapTab* tab_at(const std::vector<trade::MapTab>& tabs, MapPlace where) {
  const auto found = std::find_if(tabs.begin(), tabs.end(), [&](const trade::MapTab& tab) { return tab.where.value == where; });
  return found == tabs.end() ? nullptr : &*found;
}

metrology::Lab colour_of(const trade::MapTab& tab) {
  return {tab.lightness->value, tab.redness->value, tab.yellowness->value};
}

/// The first place without a tab.
std::optional<Question> next_question(const std::vector<trade::MapTab>& tabs) {
  const auto words = trade::choices<MapPlace>();
  for (std::size_t i = 0; i < words.size(); ++i)
    if (tab_at(tabs, static_cast<MapPlace>(i)) == nullptr)
      return Question{"map",
                      fmt::format("How did the tab from the {} look?", words[i]),
                      "Five equal tabs in one firing, against a reference tab: as if so much hotter or colder, or by its colour.",
                      {},
                      fmt::format("{} 3 K", words[i]),
                      std::string(words[i]),
                      tabs.empty()               ? ""
                      : tabs.front().looked_like ? "heat"
                                                 : "colour"};
  return std::nullopt;
}

void judge_kelvin(MapTold& told) {
  const auto by_heat = [](const PlaceFound& a, const PlaceFound& b) { return *a.hotter_K < *b.hotter_K; };
  // Of places alike the first is named: the middle where it is one of them.
  const auto coldest = std::min_element(told.found.begin(), told.found.end(), by_heat);
  const auto hottest = std::max_element(told.found.begin(), told.found.end(), by_heat);
  told.spread_K = *hottest->hotter_K - *coldest->hotter_K;
  told.level = *told.spread_K <= told.limit ? CheckLevel::good : CheckLevel::not_good;
  if (*told.spread_K == 0) {
    told.sentence = fmt::format("All places fire alike; {:.0f} K are allowed.", told.limit);
    return;
  }
  told.sentence = fmt::format("From the {} (coldest) to the {} (hottest) the chamber differs by {:.0f} K; allowed are {:.0f} K.",
                              word_of(coldest->where), word_of(hottest->where), *told.spread_K, told.limit);
}

void judge_colour(MapTold& told) {
  const auto worst = std::max_element(told.found.begin(), told.found.end(),
                                      [](const auto& a, const auto& b) { return *a.colour_difference < *b.colour_difference; });
  told.colour_difference = *worst->colour_difference;
  told.limit = acceptable;
  told.limit_of_lab = false;
  if (*worst->colour_difference > acceptable) {
    told.level = CheckLevel::not_good;
    told.sentence =
        fmt::format("The tab from the {} differs from the middle by {:.1f} in colour, more than the {:.2f} that half of people accept.",
                    word_of(worst->where), *worst->colour_difference, acceptable);
    return;
  }
  told.level = CheckLevel::good;
  told.sentence =
      fmt::format("The largest difference in colour from the middle is {:.1f}, at the {}; {:.2f} is what half of people accept.",
                  *worst->colour_difference, word_of(worst->where), acceptable);
  if (*worst->colour_difference > perceptible)
    told.remarks.push_back(fmt::format("It can be seen, though: half of people see {:.2f}.", perceptible));
}

}  // namespace

MapTold tell_chamber_map(const MapAsked& asked) {
  MapTold told;
  told.limit = asked.limit_K.value_or(usual_limit_K);
  told.limit_of_lab = asked.limit_K.has_value();
  if (asked.tabs.empty()) {
    told.question = next_question(asked.tabs);
    return told;
  }
  const bool in_kelvin = asked.tabs.front().looked_like.has_value();
  for (const trade::MapTab& tab : asked.tabs)
    if (tab.looked_like.has_value() != in_kelvin)
      throw std::domain_error("Some tabs are told in kelvin and some by colour; tell all five in one way.");
  told.question = next_question(asked.tabs);
  const trade::MapTab* middle = tab_at(asked.tabs, MapPlace::middle);
  for (const trade::MapTab& tab : asked.tabs) {
    PlaceFound found;
    found.where = tab.where.value;
    if (in_kelvin) found.hotter_K = tab.looked_like->value.si();
    if (!in_kelvin && middle != nullptr) found.colour_difference = metrology::colour_difference_2000(colour_of(*middle), colour_of(tab));
    told.found.push_back(found);
  }
  if (told.question) {
    told.sentence = "The check still goes on.";
    return told;
  }
  if (in_kelvin) {
    judge_kelvin(told);
  } else {
    judge_colour(told);
  }
  if (told.level == CheckLevel::not_good)
    told.remarks.emplace_back(
        "Until that is mended fire what must match in the middle only, and turn the tray between two firings of a pair.");
  return told;
}

}  // namespace heatwork::furnace_care
