#include "metrology/thermocouple.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "metrology/number_text.h"
#include "metrology/thermocouple_tables.h"

namespace heatwork::metrology {
namespace {

// The exponential of type K from 0 °C up. Standing: measured. source: nist-srd-60
constexpr double bump_mV = 0.118597600000;
constexpr double bump_per_K2 = -0.000118343200000;
constexpr double bump_at_C = 126.968600000;

// What rounding may put a sum beyond the end of a range.
constexpr double rounding_mV = 1e-6;
constexpr double lowest_read_B_C = 50.0;
constexpr double coldest_junction_C = -20.0;
constexpr double hottest_junction_C = 100.0;

constexpr std::array<const char*, 5> letters = {"S", "R", "B", "K", "N"};

const char* letter(ThermocoupleType type) {
  return letters[static_cast<std::size_t>(type)];
}

std::string from_to(double low, double high, const char* unit) {
  return "from " + number_text(low) + " to " + number_text(high) + " " + unit;
}

double polynomial(std::span<const double> coefficients, double at) {
  double sum = 0.0;
  for (std::size_t i = coefficients.size(); i-- > 0;) sum = sum * at + coefficients[i];
  return sum;
}

double polynomial_slope(std::span<const double> coefficients, double at) {
  double sum = 0.0;
  for (std::size_t i = coefficients.size(); i-- > 1;) sum = sum * at + static_cast<double>(i) * coefficients[i];
  return sum;
}

/// The piece at a temperature; where two meet, the upper one.
const EmfPiece& piece_at(ThermocoupleType type, double temperature_C) {
  const ThermocoupleRange range = thermocouple_range(type);
  if (!(temperature_C >= range.lowest_C && temperature_C <= range.highest_C)) {
    throw std::domain_error(std::string("Type ") + letter(type) + " has no voltage at " + number_text(temperature_C) + " °C: it goes " +
                            from_to(range.lowest_C, range.highest_C, "°C."));
  }
  const std::span<const EmfPiece> pieces = emf_pieces(type);
  std::size_t at = pieces.size() - 1;
  while (at > 0 && temperature_C < pieces[at].low_C) --at;
  return pieces[at];
}

bool has_bump(ThermocoupleType type, double temperature_C) {
  return type == ThermocoupleType::K && temperature_C >= 0.0;
}

double bump(double temperature_C) {
  return bump_mV * std::exp(bump_per_K2 * (temperature_C - bump_at_C) * (temperature_C - bump_at_C));
}

/// To a tenth of a microvolt, beyond what voltmeters show.
double told_mV(double emf_mV) {
  return std::round(emf_mV * 10000.0) / 10000.0;
}

void check_readable(ThermocoupleType type, double emf_mV, double cold_mV, const ThermocoupleRange& range) {
  const double least_mV = thermocouple_emf_mV(type, range.lowest_read_C), most_mV = thermocouple_emf_mV(type, range.highest_C);
  const double sum_mV = emf_mV + cold_mV, reversed_mV = cold_mV - emf_mV;
  if (sum_mV >= least_mV - rounding_mV && sum_mV <= most_mV + rounding_mV) return;
  if (sum_mV < least_mV && emf_mV < 0.0 && reversed_mV >= least_mV && reversed_mV <= most_mV) {
    throw std::domain_error(std::string("The wires of the type ") + letter(type) +
                            " thermocouple look reversed: with the cold junction it gives " + number_text(told_mV(sum_mV)) +
                            " mV, and it can only give a voltage " + from_to(told_mV(least_mV), told_mV(most_mV), "mV."));
  }
  throw std::domain_error(std::string("Type ") + letter(type) + " cannot give this voltage: with the cold junction it is " +
                          number_text(told_mV(sum_mV)) + " mV, and it must be " + from_to(told_mV(least_mV), told_mV(most_mV), "mV."));
}

struct ToleranceBand {
  ThermocoupleType type;
  int tolerance_class;
  double low_C, high_C;
  double constant_K, share, from_C;  ///< constant + share * abs(t - from)
};

constexpr auto S = ThermocoupleType::S, R = ThermocoupleType::R, B = ThermocoupleType::B, K = ThermocoupleType::K, N = ThermocoupleType::N;
// Standing: measured (a stated limit). source: iec-60584-1
constexpr std::array<ToleranceBand, 23> tolerance_bands = {{
    {S, 1, 0, 1100, 1.0, 0, 0},      {S, 1, 1100, 1600, 1.0, 0.003, 1100}, {S, 2, 0, 600, 1.5, 0, 0},       {S, 2, 600, 1600, 0, 0.0025, 0},
    {R, 1, 0, 1100, 1.0, 0, 0},      {R, 1, 1100, 1600, 1.0, 0.003, 1100}, {R, 2, 0, 600, 1.5, 0, 0},       {R, 2, 600, 1600, 0, 0.0025, 0},
    {B, 2, 600, 1700, 0, 0.0025, 0}, {B, 3, 600, 800, 4.0, 0, 0},          {B, 3, 800, 1700, 0, 0.005, 0},  {K, 1, -40, 375, 1.5, 0, 0},
    {K, 1, 375, 1000, 0, 0.004, 0},  {K, 2, -40, 333, 2.5, 0, 0},          {K, 2, 333, 1200, 0, 0.0075, 0}, {K, 3, -167, 40, 2.5, 0, 0},
    {K, 3, -200, -167, 0, 0.015, 0}, {N, 1, -40, 375, 1.5, 0, 0},          {N, 1, 375, 1000, 0, 0.004, 0},  {N, 2, -40, 333, 2.5, 0, 0},
    {N, 2, 333, 1200, 0, 0.0075, 0}, {N, 3, -167, 40, 2.5, 0, 0},          {N, 3, -200, -167, 0, 0.015, 0},
}};

}  // namespace

ThermocoupleRange thermocouple_range(ThermocoupleType type) {
  const std::span<const EmfPiece> pieces = emf_pieces(type);
  const double low_C = pieces.front().low_C;
  return {low_C, pieces.back().high_C, type == ThermocoupleType::B ? lowest_read_B_C : low_C};
}

double thermocouple_emf_mV(ThermocoupleType type, double temperature_C) {
  const double sum_mV = polynomial(piece_at(type, temperature_C).coefficients, temperature_C);
  return has_bump(type, temperature_C) ? sum_mV + bump(temperature_C) : sum_mV;
}

double thermocouple_slope_mV_per_K(ThermocoupleType type, double temperature_C) {
  const double slope = polynomial_slope(piece_at(type, temperature_C).coefficients, temperature_C);
  if (!has_bump(type, temperature_C)) return slope;
  return slope + 2.0 * bump_per_K2 * (temperature_C - bump_at_C) * bump(temperature_C);
}

double thermocouple_approximate_C(ThermocoupleType type, double emf_mV) {
  const std::span<const InversePiece> pieces = inverse_pieces(type);
  for (const InversePiece& piece : pieces) {
    if (emf_mV >= piece.low_mV && emf_mV <= piece.high_mV) return polynomial(piece.coefficients, emf_mV);
  }
  throw std::domain_error(std::string("The inverse polynomials of type ") + letter(type) + " do not reach " + number_text(emf_mV) +
                          " mV: they go " + from_to(pieces.front().low_mV, pieces.back().high_mV, "mV."));
}

double thermocouple_temperature_C(ThermocoupleType type, double emf_mV, double cold_junction_C) {
  if (!(cold_junction_C >= coldest_junction_C && cold_junction_C <= hottest_junction_C)) {
    throw std::domain_error("The cold junction must be from -20 to 100 °C.");
  }
  const double cold_mV = thermocouple_emf_mV(type, cold_junction_C);
  const ThermocoupleRange range = thermocouple_range(type);
  check_readable(type, emf_mV, cold_mV, range);
  const double sum_mV = emf_mV + cold_mV;
  const std::span<const InversePiece> pieces = inverse_pieces(type);
  double low_C = range.lowest_read_C, high_C = range.highest_C;
  double guess_C = 0.5 * (low_C + high_C);
  if (sum_mV >= pieces.front().low_mV && sum_mV <= pieces.back().high_mV)
    guess_C = std::clamp(thermocouple_approximate_C(type, sum_mV), low_C, high_C);
  for (int step = 0; step < 200; ++step) {  // Newton inside a bracket that halves where a step would leave it
    const double miss_mV = thermocouple_emf_mV(type, guess_C) - sum_mV;
    (miss_mV > 0.0 ? high_C : low_C) = guess_C;
    double next_C = guess_C - miss_mV / thermocouple_slope_mV_per_K(type, guess_C);
    if (!(next_C > low_C && next_C < high_C)) next_C = miss_mV == 0.0 ? guess_C : 0.5 * (low_C + high_C);
    const double moved_K = std::abs(next_C - guess_C);
    guess_C = next_C;
    if (moved_K < 1e-10) break;
  }
  return guess_C;
}

double thermocouple_tolerance_K(ThermocoupleType type, int tolerance_class, double temperature_C) {
  double low_C = HUGE_VAL, high_C = -HUGE_VAL;
  for (const ToleranceBand& band : tolerance_bands) {
    if (band.type != type || band.tolerance_class != tolerance_class) continue;
    if (temperature_C >= band.low_C && temperature_C <= band.high_C)
      return band.constant_K + band.share * std::abs(temperature_C - band.from_C);
    low_C = std::min(low_C, band.low_C);
    high_C = std::max(high_C, band.high_C);
  }
  if (low_C > high_C) {
    throw std::domain_error(std::string("Type ") + letter(type) + " has no tolerance class " + number_text(tolerance_class) + ".");
  }
  throw std::domain_error("Class " + number_text(tolerance_class) + " of type " + letter(type) + " holds " + from_to(low_C, high_C, "°C") +
                          " only; outside it has no tolerance.");
}

}  // namespace heatwork::metrology
