// The functions of the part that draws PNG and PDF, in plain C so that they can be looked up by name.
#pragma once

#include <cstddef>

extern "C" {

/// Takes the bytes as they come.
using heatwork_raster_sink = void (*)(void* context, const unsigned char* bytes, std::size_t count);

/// Draws `svg`; `pdf` 0 is PNG. Returns 0, or 1 with a sentence in `sentence` (cut at `room`).
int heatwork_raster(const char* svg, std::size_t length, int pdf, double scale, heatwork_raster_sink sink, void* context, char* sentence,
                    std::size_t room);

/// Draws a PDF, each SVG (ended by a zero) filling an upright page. Returns as above.
int heatwork_raster_pages(const char* const* svgs, std::size_t count, double across_pt, double down_pt, const char* title,
                          heatwork_raster_sink sink, void* context, char* sentence, std::size_t room);
}

using HeatworkRaster = decltype(&heatwork_raster);
using HeatworkRasterPages = decltype(&heatwork_raster_pages);
inline constexpr const char* heatwork_raster_pages_name = "heatwork_raster_pages";
inline constexpr const char* heatwork_raster_name = "heatwork_raster";
inline constexpr const char* heatwork_raster_file = "heatwork_raster.so";
