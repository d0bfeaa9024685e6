#include "report/pane_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "report/picture_look.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

constexpr double key_line_px = 16, sample_px = 26, between_px = 16;
constexpr double least_plot_px = 34, temperature_plot_px = 150;

/// Where the next entry of a key goes: beside the one before, or on a line of its own where that has no room.
struct KeyPen {
  double left = 0, right = 0, x = 0, y = 0;
  double place(double width) {
    if (x > left && x + width > right) x = left, y += key_line_px;
    const double at = x;
    x += width + between_px;
    return at;
  }
};

void draw_title(Svg& svg, const Strip& strip, KeyPen& pen) {
  const double title = text_width(strip.title, text_px, true), unit = text_width(strip.unit, small_text_px);
  const double at = pen.place(title + 7 + unit);
  svg.text({at, pen.y}, strip.title, "strong");
  svg.text({at + title + 7, pen.y}, strip.unit, "small soft");
}

void draw_line_key(Svg& svg, const StripLine& line, KeyPen& pen) {
  const double reading = text_width(line.reading, small_text_px, true);
  const std::string name = cut_to_width(line.name, small_text_px, pen.right - pen.left - sample_px - 13 - reading);
  const double named = text_width(name, small_text_px);
  const double at = pen.place(sample_px + 6 + named + 7 + reading);
  svg.path({{at, pen.y - 4}, {at + sample_px, pen.y - 4}}, line.css);
  svg.text({at + sample_px + 6, pen.y}, name, "small soft");
  svg.text({at + sample_px + 13 + named, pen.y}, line.reading, "small strong");
}

void draw_note(Svg& svg, const std::string& note, bool of_band, KeyPen& pen) {
  const double sample = of_band ? sample_px + 6 : 0, room = pen.right - pen.left - sample;
  for (const std::string& words : broken_into_lines(note, small_text_px, room)) {
    const bool first = words.size() <= note.size() && note.rfind(words, 0) == 0;
    const double at = pen.place(sample + text_width(words, small_text_px));
    if (of_band && first) {
      svg.rectangle(at, pen.y - 10, sample_px, 11, "wanted");
      svg.path({{at, pen.y + 1}, {at, pen.y - 10}, {at + sample_px, pen.y - 10}, {at + sample_px, pen.y + 1}}, "wanted-edge");
    }
    svg.text({at + sample, pen.y}, words, "small soft");
  }
}

/// Title, lines with their readings, and notes, on as many lines as they need; returns where they end.
double draw_key(Svg& svg, const Strip& strip, const StripFrame& frame, double top) {
  KeyPen pen{frame.columns.margin, frame.columns.key_right(), frame.columns.margin, top + 12};
  draw_title(svg, strip, pen);
  for (const StripLine& line : strip.lines) draw_line_key(svg, line, pen);
  for (std::size_t i = 0; i < strip.notes.size(); ++i) draw_note(svg, strip.notes[i], i < strip.wanted.size(), pen);
  return pen.y + 5;
}

}  // namespace

PictureColumns pane_columns(double width_px) {
  PictureColumns columns;
  columns.width = std::clamp(width_px, narrowest_pane_px, widest_pane_px);
  columns.margin = 6;
  columns.plot_left = 42;
  columns.plot_right = columns.width - columns.margin;
  columns.key_left = columns.marks_left = columns.margin;
  columns.marks_right = columns.plot_right;
  return columns;
}

namespace {

double plot_px(const Strip& strip, bool first) {
  return first ? temperature_plot_px : std::max(least_plot_px, strip.height_px * 0.62);
}

double draw_strips(Svg& svg, const std::vector<Strip>& strips, const StripFrame& frame, double top, double stretch) {
  double y = top;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    y = draw_key(svg, strips[i], frame, y);
    y = draw_plot(svg, strips[i], frame, y, {plot_px(strips[i], i == 0) * stretch, 0, nullptr}) + 7;
  }
  return y;
}

}  // namespace

double draw_pane(Svg& svg, const std::vector<Strip>& strips, const StripFrame& frame, double top, double height_px) {
  constexpr double time_axis_px = 14, least_stretch = 0.62, most_stretch = 1.8;
  double stretch = 1;
  if (height_px > 0) {
    Svg measured;
    double plots = 0;
    for (std::size_t i = 0; i < strips.size(); ++i) plots += plot_px(strips[i], i == 0);
    const double natural = draw_strips(measured, strips, frame, top, 1) + time_axis_px;
    stretch = std::clamp((height_px - natural + plots) / plots, least_stretch, most_stretch);
  }
  const double y = draw_strips(svg, strips, frame, top, stretch);
  for (const double tick : frame.time_ticks_s)
    svg.text({frame.time.at(tick), y + 8}, fmt::format("{:.0f}", tick / 60.0), "small soft", "middle");
  return y + time_axis_px;
}

}  // namespace heatwork::report
