// An alloy as a generic class or a lab's own: when it melts, how it grows, and what in it colours porcelain or spoils a chamber.
#pragma once

#include <map>
#include <string>

#include "trade/place.h"

namespace heatwork::trade {

/// What most of an alloy is; decides how it oxidises.
enum class AlloyKind {
  gold_rich,
  gold_reduced,
  palladium_silver,
  palladium_rich,
  cobalt_chromium,
  nickel_chromium,
  titanium,
  solder,
  other
};

/// An alloy; `properties` by the names of trade/property.h, each in the unit written there.
struct Alloy {
  std::string name;
  std::string label;
  std::string note;
  Given<AlloyKind> kind;
  std::map<std::string, Estimate> properties;
  Place place;

  /// nullptr where the alloy does not carry it.
  [[nodiscard]] const Estimate* find(const std::string& property) const {
    const auto found = properties.find(property);
    return found == properties.end() ? nullptr : &found->second;
  }
};

}  // namespace heatwork::trade
