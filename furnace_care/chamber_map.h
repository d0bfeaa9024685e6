// Five specimens over the chamber: how far the places lie apart, in kelvin or by colour.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "furnace_care/question.h"
#include "trade/check.h"

namespace heatwork::furnace_care {

struct MapAsked {
  std::vector<trade::MapTab> tabs;
  std::optional<double> limit_K;  ///< of the lab, from the hottest to the coldest place; absent: 10 K
};

/// A place against the middle.
struct PlaceFound {
  trade::MapPlace where = trade::MapPlace::middle;
  std::optional<double> hotter_K;           ///< than the reference tab
  std::optional<double> colour_difference;  ///< CIEDE2000, against the tab in the middle
};

struct MapTold {
  std::optional<Question> question;
  std::vector<PlaceFound> found;
  std::optional<double> spread_K;           ///< hottest minus coldest
  std::optional<double> colour_difference;  ///< the largest
  double limit = 0;                         ///< of what was judged [K, or colour difference]
  bool limit_of_lab = false;
  CheckLevel level = CheckLevel::going_on;
  std::string sentence;
  std::vector<std::string> remarks;
};

/// Errors: std::domain_error where tabs are told in both ways. source: cie-15, sharma-wu-dalal-2005
[[nodiscard]] MapTold tell_chamber_map(const MapAsked& asked);

}  // namespace heatwork::furnace_care
