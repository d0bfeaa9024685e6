// A display compared with a thermocouple at one or several temperatures: what the probe is worth, and what it says of the display.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "furnace_care/budget.h"
#include "furnace_care/display_verdict.h"
#include "furnace_care/question.h"
#include "furnace_care/temperature_line.h"
#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

struct ProbeAsked {
  const trade::Furnace& furnace;
  trade::Probe probe;
  std::vector<trade::ProbeReading> compared;
  std::optional<double> certificate_age_days;         ///< absent: no certificate, or its day is not known
  std::optional<double> limit_K;                      ///< of the lab; absent: 5 K
  std::vector<ErrorFound> others = {};                ///< errors that other checks found lately, under what is keyed now
  int means = 0;                                      ///< of this thermocouple, as `others` number them
  std::optional<double> certificate_lasts_days = {};  ///< by the reference that is kept; absent: as is usual
};

/// One temperature compared.
struct ProbeFound {
  double display_C = 0;
  double probe_C = 0;  ///< as read, or from the voltage
  double true_C = 0;   ///< with the certificate's correction
  double error_K = 0;  ///< display - true
  double standard_uncertainty_K = 0;
  Budget budget;
};

struct ProbeTold {
  std::optional<Question> question;  ///< still to be answered
  std::vector<ProbeFound> found;
  std::optional<ErrorLine> line;  ///< through its readings and the other findings
  double limit_K = 0;
  bool limit_of_lab = false;
  std::vector<DisplayError> judged;  ///< one a reading: what the level is told by, of that line where it was read
  DisplayVerdict verdict = {CheckLevel::going_on, false, false, 0, {}, {}};
  double mend_K = 0;  ///< middle of the errors judged: what one correction mends best
  std::vector<std::string> remarks;
};

/// Errors: std::domain_error for a probe that cannot be a reference here, a voltage its type cannot give, reversed wires, a display and a
/// probe that are too far apart for an error. source: iec-60584-1, gum-2008, nist-srd-60
[[nodiscard]] ProbeTold tell_probe_check(const ProbeAsked& asked);

/// As findings of one means, for a line with others.
[[nodiscard]] std::vector<ErrorFound> errors_of(const ProbeTold& told, int means);

/// The questions of what the probe is that are answered, in the order they were asked.
[[nodiscard]] std::vector<Question> answered_probe_questions(const trade::Probe& probe);

}  // namespace heatwork::furnace_care
