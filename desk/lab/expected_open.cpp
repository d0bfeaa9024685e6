#include "desk/lab/expected_open.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "desk/errors.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "desk/rehearse_files.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

constexpr double minute_s = 60;

std::optional<firing::OpenTime> opens(records::Store& store, const trade::Firing& firing) {
  try {
    return open_time_of(as_started(store, firing));
  } catch (const trade::Mistake&) {
    return std::nullopt;
  } catch (const Failure&) {
    return std::nullopt;
  }
}

}  // namespace

std::optional<ExpectedOpen> expected_open(records::Store& store, const trade::Firing& firing) {
  if (!firing.record || firing.record->state.value != trade::FiringState::started || firing.record->started.empty()) return std::nullopt;
  const auto time = opens(store, firing);
  if (!time) return std::nullopt;
  const double started_s = static_cast<double>(utc_ms(firing.record->started)) / 1000;
  const auto text = [](double minutes) { return utc_text(static_cast<std::int64_t>(minutes * minute_s * 1000)); };
  const double expected = std::round((started_s + time->at_s) / minute_s);
  return ExpectedOpen{text(expected), text(std::min(expected - 1, std::floor((started_s + time->earliest_s) / minute_s))),
                      text(std::max(expected + 1, std::ceil((started_s + time->latest_s) / minute_s)))};
}

}  // namespace heatwork::desk
