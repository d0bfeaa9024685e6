// Coefficients of the thermocouples' reference functions and of their approximate inverses.
#pragma once

#include <span>

#include "metrology/thermocouple.h"

namespace heatwork::metrology {

/// E in mV as a polynomial of t in °C, lowest power first.
struct EmfPiece {
  double low_C, high_C;
  std::span<const double> coefficients;
};

/// t in °C as a polynomial of E in mV, lowest power first.
struct InversePiece {
  double low_C, high_C, low_mV, high_mV;
  std::span<const double> coefficients;
};

/// Pieces of the reference function, rising in temperature.
/// source: nist-srd-60
std::span<const EmfPiece> emf_pieces(ThermocoupleType type);

/// Pieces of the approximate inverse, rising in temperature; the pieces of S and R overlap near 1064 °C.
/// source: nist-srd-60
std::span<const InversePiece> inverse_pieces(ThermocoupleType type);

}  // namespace heatwork::metrology
