// How far apart two colours look, from their lightness and two axes of hue (CIELAB).
#pragma once

namespace heatwork::metrology {

/// A colour in CIELAB: L from 0 (black) to 100 (white), a green to red, b blue to yellow.
struct Lab {
  double L, a, b;
};

/// Difference as the straight distance in CIELAB [1].
/// source: cie-15 theory: (colour.1)
double colour_difference_1976(const Lab& first, const Lab& second);

/// Difference weighed by how eyes judge lightness, chroma and hue, all parametric factors 1 [1].
/// Range: finite values, L from 0 to 100, a and b from -200 to 200; else std::domain_error. Where the hues lie exactly opposite the formula
/// jumps, as published. source: sharma-wu-dalal-2005 theory: (colour.2) (colour.3)
double colour_difference_2000(const Lab& first, const Lab& second);

}  // namespace heatwork::metrology
