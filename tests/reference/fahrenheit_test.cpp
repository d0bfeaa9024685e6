// Fahrenheit and Celsius: points have the 32, differences and rates never; percents of a reading are not free of the unit.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <string_view>

#include "evidence_row.h"
#include "quantity/read.h"
#include "quantity/write.h"

namespace heatwork {
namespace {

using namespace quantity;
using reference::Evidence;

template <class T>
T typed(std::string_view text) {
  const auto read_back = read<T>(text);
  EXPECT_TRUE(read_back) << text;
  return read_back ? *read_back : T{};
}

/// The number that stands in what a reader of Fahrenheit is shown.
template <class T>
double shown(T value, int decimals) {
  return std::stod(show(value, Manner{UnitSystem::fahrenheit, '.', decimals}));
}

TEST(Fahrenheit, metrology_P26) {
  Evidence row("rules of the two scales, computed apart", "°F");
  row.near(shown(typed<Temperature>("961.78 °C"), 3), 1763.204, 0.0005);
  row.near(shown(typed<Temperature>("850 °C"), 1), 1562, 0.05);
  row.near(shown(typed<Temperature>("-40 °C"), 1), -40, 0.05);
  row.near(shown(typed<TemperatureDifference>("-10 K"), 1), -18, 0.05);
  row.near(shown(typed<TemperatureDifference>("6.4 K"), 2), 11.52, 0.005);
  row.in("°F/min");
  row.near(shown(typed<HeatingRate>("55 K/min"), 1), 99, 0.05);
  row.in("C");
  row.near(typed<Temperature>("1763.204 °F").celsius(), 961.78, 0.0005);
  row.near(typed<Temperature>("1562 °F").celsius(), 850, 0.0005);
  row.near(typed<Temperature>("-40 °F").celsius(), -40, 0.0005);
  row.in("K");
  row.near(typed<TemperatureDifference>("-18 °F").si(), -10, 0.0005);
  row.near(typed<TemperatureDifference>("11.52 °F").si(), 6.4, 0.0005);
  row.in("K/min");
  row.near(60 * typed<HeatingRate>("99 °F/min").si(), 55, 0.0005);
}

TEST(Fahrenheit, APercentOfAReadingDependsOnItsScale) {
  const Temperature silver = Temperature::celsius(961.78);
  const double of_reading_F = 0.003 * shown(silver, 1);
  Evidence row("0.3 % of a display's reading, computed apart", "°F");
  row.near(of_reading_F, 5.29, 0.005);
  row.in("K");
  row.near(typed<TemperatureDifference>(std::to_string(of_reading_F) + " °F").si(), 2.94, 0.005);
  row.near(0.003 * silver.celsius(), 2.885, 0.0005);
}

TEST(Fahrenheit, WholeDegreesOfADisplayCarryTheirStep) {
  const double step_F_K = typed<TemperatureDifference>("1 °F").si(), step_C_K = 1;
  Evidence row("uniform over the step, computed apart", "K");
  row.near(step_F_K / std::sqrt(12.0), 0.16, 0.005);
  row.near(step_C_K / std::sqrt(12.0), 0.29, 0.005);
  double farthest = 0;
  for (double C = 20; C <= 1200; C += 0.01) {
    const double back = typed<Temperature>(std::to_string(std::lround(1.8 * C + 32)) + " °F").celsius();
    farthest = std::max(farthest, std::abs(back - C));
  }
  row.near(farthest, 0.28, 0.005);
}

}  // namespace
}  // namespace heatwork
