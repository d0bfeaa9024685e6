// What the firing picture shows, before anything is drawn: one strip a phenomenon with lines, wanted bands, windows and marks.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "report/number.h"
#include "report/readings.h"
#include "trade/limits.h"

namespace heatwork::report {

/// One line of a strip. Where the tray's mass is unknown the line is one edge of a band and `other_*` is the other.
struct StripLine {
  std::string name;
  std::string css;      ///< classes that give it dash and shade
  std::string reading;  ///< the number beside its name in the key
  std::vector<double> time_s, value;
  std::vector<double> other_time_s, other_value;
};

/// A moment of the rehearsal, marked on a line.
struct StripMark {
  std::size_t moment = 0;  ///< index into Rehearsal.moments
  std::string words;
  double at_s = 0;
  double value = 0;
  std::string css;
};

/// The band a value should keep to, over the time it matters.
struct WantedBand {
  double low = 0, high = 0;
  double from_s = 0, to_s = 0;
};

struct Strip {
  std::string title;
  std::string unit;
  bool logarithmic = false;
  double low = 0, high = 1;
  std::vector<double> ticks;
  double height_px = 60;
  bool names_bench = false;    ///< says where the time on the bench begins, where the picture shows any
  bool shows_sealing = false;  ///< the time in which pores seal is shaded
  std::vector<StripLine> lines;
  std::vector<WantedBand> wanted;
  std::vector<StripMark> marks;
  std::vector<std::string> notes;  ///< plain words under the key
};

/// At most so many pieces are drawn; the numbers of all stand in the text and the file.
inline constexpr std::size_t pieces_drawn = 4;

/// All strips that apply to this firing, top strip first; `stress_follows`: the place of the stress that is still being computed.
std::vector<Strip> strips_of(const firing::Rehearsal& rehearsal, const trade::Limits& limits, const Numbers& numbers,
                             bool stress_follows = false);

}  // namespace heatwork::report
