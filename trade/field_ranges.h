// Ranges that more than one kind of file allows for the same quantity.
#pragma once

#include "quantity/quantity.h"
#include "trade/field.h"

namespace heatwork::trade {

inline Between<quantity::Temperature> display_range() {
  return {quantity::Temperature::celsius(0), quantity::Temperature::celsius(1800)};
}
inline Between<quantity::Duration> up_to_a_day() {
  return {quantity::seconds(0), quantity::minutes(1440)};
}
inline Between<quantity::HeatingRate> rate_range() {
  return {quantity::kelvins_per_minute(0.1), quantity::kelvins_per_minute(400)};
}

}  // namespace heatwork::trade
