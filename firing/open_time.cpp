#include "firing/open_time.h"

#include <cmath>
#include <limits>
#include <stdexcept>

#include "firing/chamber.h"
#include "firing/fire.h"
#include "firing/vary.h"

namespace heatwork::firing {
namespace {

/// NaN where the furnace never gets there.
double opens_s(const trade::ResolvedFiring& request, const ChamberConditions& conditions) {
  try {
    const ChamberHistory history = run_program(request.program, request.furnace, conditions);
    const ChamberMoment* open = history.find(ChamberEvent::open);
    return open == nullptr ? std::numeric_limits<double>::quiet_NaN() : open->time_s;
  } catch (const std::domain_error&) {
    return std::numeric_limits<double>::quiet_NaN();
  }
}

}  // namespace

std::optional<OpenTime> open_time_of(const trade::ResolvedFiring& request, const trade::DecidingInputs& inputs,
                                     double unchecked_display_K) {
  Ingredients given;
  given.conditions = conditions_today(request.furnace, request.firing.chamber, ambient_Pa_of(request));
  const double nominal_s = opens_s(request, given.conditions);
  if (std::isnan(nominal_s)) return std::nullopt;
  double before = 0, after = 0;
  for (const trade::DecidingInput& input : inputs) {
    if (input.of != trade::InputOf::furnace) continue;
    double earliest = 0, latest = 0;
    for (const double share : {-1.0, 1.0}) {
      Ingredients varied = given;
      if (!vary(varied, input, "", share, request, unchecked_display_K)) continue;
      const double moved = opens_s(request, varied.conditions) - nominal_s;
      if (std::isnan(moved)) return std::nullopt;
      if (moved < earliest) earliest = moved;
      if (moved > latest) latest = moved;
    }
    before += earliest * earliest;
    after += latest * latest;
  }
  return OpenTime{nominal_s, nominal_s - std::sqrt(before), nominal_s + std::sqrt(after)};
}

}  // namespace heatwork::firing
