// What to key on this furnace so that its display becomes true, what that does to proven programs, and what must follow.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

/// What to key in place of what is keyed now, by the furnace's own convention and in steps its panel takes.
struct Keying {
  double keyed_now_K = 0;
  double to_key_K = 0;
  double left_K = 0;     ///< error that the step leaves
  std::string sentence;  ///< which way, in words
};

/// Errors: none; an error of 0 keys what is keyed now. theory: (display-offset.9)
[[nodiscard]] Keying keying_for(const trade::Furnace& furnace, double keyed_now_K, double error_K);

/// One of the two ways to live with an error.
struct Way {
  std::string word;                    ///< "correct it", "allow for it"
  std::string decision;                ///< as a check keeps it: "corrected", "allowed for"
  std::vector<std::string> sentences;  ///< what it does, to proven programs and to a maker's
};

/// Correct it, or keep the setting and let Heatwork allow for it.
[[nodiscard]] std::vector<Way> ways_with(const trade::Furnace& furnace, double keyed_now_K, double error_K);

/// The firings near one melting point [°C] that show that an error [K] is mended: of a display so corrected, or, where it is allowed
/// for, of the display as it is; none where nothing was done about it. No decision yet counts as a correction to come.
[[nodiscard]] std::vector<std::string> confirming_firings(double melting_C, double error_K,
                                                          const std::optional<trade::CheckDecision>& decision);

/// After silver was in the chamber.
[[nodiscard]] std::vector<std::string> after_silver();

}  // namespace heatwork::furnace_care
