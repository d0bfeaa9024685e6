#include "trade/samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "quantity/unit.h"
#include "quantity/write.h"
#include "trade/mistake.h"

namespace heatwork::trade {
namespace {

using quantity::Reading;
using tl::make_unexpected;

constexpr double longest_record_s = 24 * 3600;

struct Halves {
  quantity::Duration after;
  std::string_view shown;
};

/// The comma that parts the two halves has a blank behind it: "1,5 s, 300 mbar".
Reading<Halves> halves_of(std::string_view text, std::string_view example) {
  const auto comma = text.find(", ");
  if (comma == std::string_view::npos)
    return make_unexpected(fmt::format("\"{}\" is no reading; it is a time since the start and what was shown then, such as \"{}\"",
                                       for_message(text), example));
  const auto after = quantity::read<quantity::Duration>(text.substr(0, comma));
  if (!after) return make_unexpected(after.error());
  if (after->si() > longest_record_s)
    return make_unexpected(fmt::format("\"{}\" lies more than a day after the start; a record is at most 1 d long", for_message(text)));
  return Halves{*after, text.substr(comma + 2)};
}

}  // namespace

Reading<GaugeSample> read_gauge_sample(std::string_view text) {
  constexpr std::string_view example = "30 s, 300 mbar";
  const auto halves = halves_of(text, example);
  if (!halves) return make_unexpected(halves.error());
  const std::string shown = quantity::plain_spelling(halves->shown);
  const auto digit = shown.find_last_of("0123456789");
  std::string unit = digit == std::string::npos ? shown : shown.substr(digit + 1);
  unit.erase(0, unit.find_first_not_of(' '));
  if (std::find(gauge_units.begin(), gauge_units.end(), unit) == gauge_units.end())
    return make_unexpected(fmt::format("\"{}\" ends in no unit of a vacuum gauge; allowed are {}, such as \"{}\"", for_message(text),
                                       fmt::join(gauge_units, ", "), example));
  const auto number = quantity::read_number(std::string_view(shown).substr(0, digit + 1), "the reading of the gauge");
  if (!number) return make_unexpected(number.error());
  if (*number < 0 || *number > 200'000)
    return make_unexpected(fmt::format("\"{}\": no vacuum gauge shows that; allowed is 0 to 200000 of its unit", for_message(text)));
  return GaugeSample{halves->after, *number, std::move(unit), {}};
}

Reading<TemperatureSample> read_temperature_sample(std::string_view text) {
  const auto halves = halves_of(text, "30 s, 412 °C");
  if (!halves) return make_unexpected(halves.error());
  const auto shown = quantity::read<quantity::Temperature>(halves->shown);
  if (!shown) return make_unexpected(shown.error());
  if (shown->celsius() < -50 || shown->celsius() > 1800)
    return make_unexpected(fmt::format("\"{}\" is out of range; allowed is -50 °C to 1800 °C", for_message(text)));
  return TemperatureSample{halves->after, quantity::canonical(*shown), {}};
}

std::string write_sample(const GaugeSample& sample) {
  return fmt::format("{}, {} {}", quantity::write(sample.after), quantity::write_number(sample.reading), sample.unit);
}

std::string write_sample(const TemperatureSample& sample) {
  return fmt::format("{}, {}", quantity::write(sample.after), quantity::write(sample.temperature));
}

}  // namespace heatwork::trade
