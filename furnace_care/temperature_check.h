// The guided wire test of a furnace: what to ask, where to fire the next wire, when to stop, what the display's error is and how sure.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "furnace_care/budget.h"
#include "furnace_care/display_verdict.h"
#include "furnace_care/known_error.h"
#include "furnace_care/question.h"
#include "furnace_care/temperature_line.h"
#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

/// What is known when it is asked: the furnace, its last check, the answers given so far and the wires fired.
struct WireAsked {
  const trade::Furnace& furnace;
  trade::WireTest wire;
  std::vector<trade::WireTrial> trials;
  std::optional<EarlierError> earlier;
  double keyed_now_K = 0;
  std::optional<double> limit_K;        ///< of the lab; absent: 5 K
  std::vector<ErrorFound> others = {};  ///< errors that other checks found lately, under what is keyed now
  int means = 0;                        ///< of these wires, as `others` number them
};

/// True temperature at which this wire counts as melted, as it is fired.
struct WirePoint {
  double temperature_C = 0;
  double uncertainty_K = 0;  ///< standard, of the melting point alone
  double superheat_K = 0;    ///< above the melting point, until the criterion is met within the hold; part of the temperature
  std::string sentence;      ///< where it comes from
  trade::Standing standing = trade::Standing::computed;
  std::string source;
};

/// What the wires tell of the display.
struct WireFound {
  double threshold_C = 0;
  double low_C = 0, high_C = 0;  ///< hold 95 % of the threshold
  double error_K = 0;            ///< display - true
  double standard_uncertainty_K = 0;
  double range_low_K = 0, range_high_K = 0;  ///< error, k = 2
  bool contradictory = false;
};

struct WireTold {
  std::optional<Question> question;  ///< still to be answered before a wire is fired
  ErrorBefore before;
  std::optional<WirePoint> point;
  std::optional<double> next_display_C;
  std::string next_sentence;
  std::optional<WireFound> found;
  Budget budget;
  double limit_K = 0;
  bool limit_of_lab = false;
  std::optional<ErrorLine> line;       ///< through these wires and the other findings, once the test is over
  std::optional<DisplayError> judged;  ///< what the level is told by: of that line where these wires melt
  DisplayVerdict verdict = {CheckLevel::going_on, false, false, 0, {}, {}};
  std::vector<std::string> remarks;  ///< on how the test is done
};

/// One answer is worked out whole from the readings, each time anew.
/// Errors: std::domain_error for what is no melt test: an alloy, a wire that melts or stays whole far from where its metal could,
/// a display this furnace cannot reach. source: kontsevich-tyler-1999, gum-2008 theory: (melt-test.7)
[[nodiscard]] WireTold tell_wire_test(const WireAsked& asked);

/// As a finding of one means, for a line with others; nothing before a wire was fired.
[[nodiscard]] std::optional<ErrorFound> error_of(const WireTold& told, int means);

/// What the wire itself leaves unsure, the same for every wire of its kind. Errors: as wire_point.
[[nodiscard]] Budget wire_budget(const trade::WireTest& wire, const trade::Furnace& furnace);

/// Where such a wire counts as melted. Needs metal and gas, or a stated melting temperature. Errors: std::domain_error.
[[nodiscard]] WirePoint wire_point(const trade::WireTest& wire, const trade::Furnace& furnace);

}  // namespace heatwork::furnace_care
