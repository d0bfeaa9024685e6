// Thermocouples against the published tables, coefficients, fixed points and tolerance classes.
#include "metrology/thermocouple.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "evidence_row.h"

namespace heatwork {
namespace {

using metrology::ThermocoupleType;
using reference::Evidence;

constexpr std::array<ThermocoupleType, 5> types = {ThermocoupleType::S, ThermocoupleType::R, ThermocoupleType::B, ThermocoupleType::K,
                                                   ThermocoupleType::N};
constexpr std::array<char, 5> letters = {'S', 'R', 'B', 'K', 'N'};

std::string beside(const std::string& name) {
  return std::string(HEATWORK_SOURCE_DIR) + "/../shared/check-values/" + name;
}

struct TableMisses {
  int entries = 0;
  double largest_mV = 0;
};

/// Every entry of a printed table against the polynomial; a row is its first temperature, then one voltage a degree.
TableMisses misses_of(ThermocoupleType type, std::istream& table) {
  TableMisses out;
  bool leftwards = false;
  for (std::string line; std::getline(table, line);) {
    if (line.find("***") != std::string::npos) break;  // the coefficients stand behind the table
    if (line.find('.') == std::string::npos && line.find(" 0 ") != std::string::npos) leftwards = line.find("-1") != std::string::npos;
    std::istringstream cells(line);
    int start = 0;
    if (!(cells >> start) || start % 10 != 0) continue;
    const bool of_the_cold_block = leftwards || start < 0;
    int column = 0;
    for (double printed_mV = 0; cells >> printed_mV; ++column) {
      const double t = of_the_cold_block ? start - column : start + column;
      if (t < metrology::thermocouple_range(type).lowest_C || t > metrology::thermocouple_range(type).highest_C) continue;
      out.largest_mV = std::max(out.largest_mV, std::abs(metrology::thermocouple_emf_mV(type, t) - printed_mV));
      if (t >= 0) ++out.entries;
    }
  }
  return out;
}

TEST(Thermocouples, metrology_P1) {
  Evidence row("nist-srd-60, printed tables at 1 C, largest difference", "mV");
  int entries = 0;
  for (std::size_t i = 0; i < types.size(); ++i) {
    std::ifstream table(beside(std::string("nist_its90_type_") + static_cast<char>(letters[i] - 'A' + 'a') + ".tab"));
    if (!table) GTEST_SKIP() << "the printed tables lie beside the repository where it is worked on, and are not here";
    const TableMisses misses = misses_of(types[i], table);
    entries += misses.entries;
    row.near(misses.largest_mV, 0, 0.00051);
  }
  EXPECT_GE(entries, 8033);
}

TEST(Thermocouples, CoefficientsAreThoseOfTheirFile) {
  std::ifstream file(beside("tc_check_values_SRBKN.csv"));
  if (!file) GTEST_SKIP() << "the check values lie beside the repository where it is worked on, and are not here";
  int rows = 0;
  for (std::string line; std::getline(file, line);) {
    const auto type = std::string("SRBKN").find(line.empty() ? ' ' : line[0]);
    if (type == std::string::npos || line.size() < 3 || line[1] != ',') continue;
    double t = 0, poly = 0, printed = 0, slope = 0;
    ++rows;
    ASSERT_EQ(std::sscanf(line.c_str() + 2, "%lf,%lf,%lf,%lf", &t, &poly, &printed, &slope), 4) << line;
    EXPECT_NEAR(metrology::thermocouple_emf_mV(types[type], t), poly, 1e-6) << line;
    if (t == 0) continue;  // where pieces meet, slopes differ by the piece that is taken
    EXPECT_NEAR(1000 * metrology::thermocouple_slope_mV_per_K(types[type], t), slope, 1e-4) << line;
  }
  EXPECT_GT(rows, 100);
}

// Type by type over 0, 100 ... 1300 °C, six decimals of the polynomials.
constexpr std::array<std::array<double, 5>, 14> by_hundreds = {{{0.000000, 0.000000, 0.000000, 0.000000, 0.000000},
                                                                {0.645913, 0.647396, 0.033204, 4.096230, 2.774124},
                                                                {1.440783, 1.468583, 0.178259, 8.138473, 5.913415},
                                                                {2.323042, 2.400552, 0.430648, 12.208566, 9.341152},
                                                                {3.259357, 3.407685, 0.786532, 16.397142, 12.973686},
                                                                {4.233294, 4.471261, 1.241850, 20.644286, 16.747857},
                                                                {5.238690, 5.583451, 1.791868, 24.905467, 20.613107},
                                                                {6.275247, 6.742725, 2.430626, 29.128974, 24.526652},
                                                                {7.344982, 7.949838, 3.153610, 33.275380, 28.454520},
                                                                {8.449243, 9.204865, 3.956947, 37.325915, 32.371258},
                                                                {9.587098, 10.505958, 4.834339, 41.275606, 36.255538},
                                                                {10.756545, 11.849642, 5.779517, 45.118736, 40.086606},
                                                                {11.950549, 13.227965, 6.786427, 48.838238, 43.846360},
                                                                {13.159068, 14.628716, 7.848240, 52.410275, 47.512772}}};
constexpr std::array<double, 6> fixed_C = {231.928, 419.527, 660.323, 961.78, 1064.18, 1084.62};
constexpr std::array<std::array<double, 5>, 6> at_fixed = {{{1.715002, 1.756229, 0.247364, 9.420532, 6.980894},
                                                            {3.446888, 3.611303, 0.867767, 17.223056, 13.701244},
                                                            {5.860128, 6.277087, 2.167043, 27.460694, 22.970482},
                                                            {9.148382, 10.003433, 4.490666, 39.778119, 34.776132},
                                                            {10.334204, 11.363745, 5.433539, 43.755169, 38.721674},
                                                            {10.574801, 11.640430, 5.629978, 44.535131, 39.501630}}};

TEST(Thermocouples, metrology_P2) {
  Evidence row("nist-srd-60 polynomials at each 100 C and at the fixed points of its-90, largest difference", "mV");
  for (std::size_t i = 0; i < types.size(); ++i) {
    double largest = 0;
    for (std::size_t j = 0; j < by_hundreds.size(); ++j) {
      largest = std::max(largest, std::abs(metrology::thermocouple_emf_mV(types[i], 100.0 * static_cast<double>(j)) - by_hundreds[j][i]));
    }
    for (std::size_t j = 0; j < fixed_C.size(); ++j) {
      largest = std::max(largest, std::abs(metrology::thermocouple_emf_mV(types[i], fixed_C[j]) - at_fixed[j][i]));
    }
    row.near(largest, 0, 1e-6);
  }
}

TEST(Thermocouples, metrology_P3) {
  struct Range {
    ThermocoupleType type;
    double low_C, high_C, below_K, above_K;
  };
  // The stated error of each inverse polynomial, computed minus true, with half of its last digit added.
  constexpr std::array<Range, 5> ranges = {{{ThermocoupleType::S, 250, 1200, 0.015, 0.015},
                                            {ThermocoupleType::R, 250, 1200, 0.0055, 0.0055},
                                            {ThermocoupleType::B, 700, 1820, 0.015, 0.025},
                                            {ThermocoupleType::K, 500, 1372, 0.055, 0.065},
                                            {ThermocoupleType::N, 600, 1300, 0.045, 0.025}}};
  for (const Range& range : ranges) {
    double lowest = 0, highest = 0;
    for (double t = range.low_C + 0.01; t < range.high_C - 0.01; t += 0.1) {
      const double miss = metrology::thermocouple_approximate_C(range.type, metrology::thermocouple_emf_mV(range.type, t)) - t;
      lowest = std::min(lowest, miss);
      highest = std::max(highest, miss);
    }
    Evidence row("nist-srd-60, stated error of the inverse polynomials", "K");
    row.near(lowest, 0, range.below_K);
    row.near(highest, 0, range.above_K);
  }
}

TEST(Thermocouples, metrology_P4) {
  Evidence row("cold junction, computed apart", "C");
  row.near(metrology::thermocouple_temperature_C(ThermocoupleType::S, 9.000, 25), 961.273, 0.002);
  row.near(metrology::thermocouple_temperature_C(ThermocoupleType::K, 39.000, 25), 967.425, 0.002);
}

TEST(Thermocouples, metrology_P5) {
  constexpr std::array<double, 6> at_C = {800, 850, 900, 961.78, 1000, 1200};
  constexpr std::array<std::array<double, 6>, 6> printed = {{{1.00, 2.00, 3.20, 6.00, 2.00, 4.00},
                                                             {1.00, 2.125, 3.40, 6.375, 2.125, 4.25},
                                                             {1.00, 2.25, 3.60, 6.75, 2.25, 4.50},
                                                             {1.00, 2.404, 3.847, 7.213, 2.404, 4.809},
                                                             {1.00, 2.50, 4.00, 7.50, 2.50, 5.00},
                                                             {1.30, 3.00, -1, 9.00, 3.00, 6.00}}};
  constexpr std::array<ThermocoupleType, 6> of = {ThermocoupleType::S, ThermocoupleType::S, ThermocoupleType::K,
                                                  ThermocoupleType::K, ThermocoupleType::B, ThermocoupleType::B};
  constexpr std::array<int, 6> classes = {1, 2, 1, 2, 2, 3};
  Evidence row("iec-60584-1, tolerance classes", "K");
  for (std::size_t i = 0; i < at_C.size(); ++i) {
    for (std::size_t j = 0; j < of.size(); ++j) {
      if (printed[i][j] < 0) {
        EXPECT_THROW(metrology::thermocouple_tolerance_K(of[j], classes[j], at_C[i]), std::domain_error);
      } else {
        row.near(metrology::thermocouple_tolerance_K(of[j], classes[j], at_C[i]), printed[i][j], 0.0005);
      }
    }
  }
}

}  // namespace
}  // namespace heatwork
