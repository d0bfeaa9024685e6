#include "report/strip_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/lanes.h"
#include "report/picture_look.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

constexpr double lane_px = 16, key_line_px = 17, note_line_px = 15.5, sample_px = 34;

std::vector<Point> points_of(const std::vector<double>& time_s, const std::vector<double>& values, const Axis& time, const Axis& axis) {
  std::vector<Point> points;
  const std::size_t count = std::min(time_s.size(), values.size());
  points.reserve(count);
  for (std::size_t i = 0; i < count; ++i) points.push_back({time.at(time_s[i]), axis.at(values[i])});
  return points;
}

void draw_line(Svg& svg, const StripLine& line, const Axis& time, const Axis& axis) {
  std::vector<Point> points = points_of(line.time_s, line.value, time, axis);
  if (line.other_value.empty()) {
    svg.path(points, line.css);
    return;
  }
  std::vector<Point> other = points_of(line.other_time_s, line.other_value, time, axis);
  svg.path(points, line.css);
  svg.path(other, line.css);
  points.insert(points.end(), other.rbegin(), other.rend());
  svg.path(points, "band " + line.css.substr(line.css.rfind(' ') + 1), true);
}

/// Where the firing is over, and a word for what follows where it has room.
void draw_bench(Svg& svg, const Strip& strip, const StripFrame& frame, double top, double bottom) {
  const double left = frame.time.at(*frame.bench_from_s);
  svg.line({left, top}, {left, bottom}, "guide");
  const std::string words = frame.numbers->say("picture.bench");
  if (strip.names_bench && left + 6 + text_width(words, small_text_px) < frame.columns.plot_right)
    svg.text({left + 5, bottom - 6}, words, "small soft");
}

void draw_ground(Svg& svg, const Strip& strip, const StripFrame& frame, const Axis& axis) {
  const PictureColumns& columns = frame.columns;
  const double top = axis.to_px, bottom = axis.from_px;
  svg.rectangle(columns.plot_left, top, columns.plot_right - columns.plot_left, bottom - top, "panel");
  if (strip.shows_sealing) {
    for (const SealingWindow& window : frame.windows) {
      svg.rectangle(frame.time.at(window.from_s), top, std::max(1.0, frame.time.at(window.to_s) - frame.time.at(window.from_s)),
                    bottom - top, "window");
    }
  }
  for (const WantedBand& wanted : strip.wanted) {
    const double left = frame.time.at(wanted.from_s), right = std::max(left + 5, frame.time.at(wanted.to_s));
    const double high = axis.at(wanted.high), low = axis.at(wanted.low);
    svg.rectangle(left, std::min(high, low - 3), right - left, std::max(3.0, low - high), "wanted");
    svg.path({{left, low}, {left, std::min(high, low - 3)}, {right, std::min(high, low - 3)}, {right, low}}, "wanted-edge");
  }
  for (const double tick : frame.time_ticks_s) svg.line({frame.time.at(tick), top}, {frame.time.at(tick), bottom}, "grid");
  for (const double tick : strip.ticks) {
    svg.line({columns.plot_left, axis.at(tick)}, {columns.plot_right, axis.at(tick)}, "grid");
    svg.text({columns.plot_left - 7, axis.at(tick) + 4.3}, frame.numbers->tick(tick), "small soft", "end");
  }
  if (frame.bench_from_s) draw_bench(svg, strip, frame, top, bottom);
  for (const double guide : frame.guides_s) svg.line({frame.time.at(guide), top}, {frame.time.at(guide), bottom}, "guide");
}

void draw_marks(Svg& svg, const Strip& strip, const StripFrame& frame, const Axis& axis, const std::vector<LaneLabel>& labels) {
  for (std::size_t i = 0; i < strip.marks.size(); ++i) {
    const StripMark& mark = strip.marks[i];
    const firing::Moment& moment = frame.rehearsal->moments[mark.moment];
    const LaneLabel& label = labels[i];
    const double base = axis.to_px - 5 - lane_px * label.lane;
    const Point at = {label.x, axis.at(mark.value)};
    svg.open("g", {{"data-moment", std::to_string(mark.moment)},
                   {"data-what", firing::word(moment.what)},
                   {"data-piece", moment.piece},
                   {"data-at-s", fmt::format("{:.10g}", moment.at_s)}});
    svg.line({label.x, base - 9}, {label.x, at.y - 4}, "leader");
    svg.circle(at, 4, mark.css);
    svg.text({label.left, base}, label.words, mark.css == "mark" ? "small" : "small " + mark.css.substr(mark.css.rfind(' ') + 1));
    svg.close("g");
  }
}

double draw_key(Svg& svg, const Strip& strip, const StripFrame& frame, double top) {
  const double left = frame.columns.key_left, right = frame.columns.key_right();
  double y = top + 13;
  for (const StripLine& line : strip.lines) {
    svg.path({{left, y - 4}, {left + sample_px, y - 4}}, line.css);
    const double reading = text_width(line.reading, small_text_px);
    svg.text({left + sample_px + 8, y}, cut_to_width(line.name, small_text_px, right - left - sample_px - 16 - reading), "small");
    svg.text({right, y}, line.reading, "small", "end");
    y += key_line_px;
  }
  for (std::size_t i = 0; i < strip.notes.size(); ++i) {
    const bool wanted = i < strip.wanted.size();
    if (wanted) {
      svg.rectangle(left, y - 10, sample_px, 11, "wanted");
      svg.path({{left, y + 1}, {left, y - 10}, {left + sample_px, y - 10}, {left + sample_px, y + 1}}, "wanted-edge");
    }
    for (const std::string& text : broken_into_lines(strip.notes[i], small_text_px, right - left - sample_px - 8)) {
      svg.text({left + sample_px + 8, y}, text, "small soft");
      y += note_line_px;
    }
  }
  return y;
}

void draw_title(Svg& svg, const Strip& strip, const PictureColumns& columns, double top) {
  double y = top + 12;
  for (const std::string& line : broken_into_lines(strip.title, text_px, 76, true)) {
    svg.text({columns.margin, y}, line, "strong");
    y += 16;
  }
  svg.text({columns.margin, y}, strip.unit, "small soft");
}

}  // namespace

double key_height(const Strip& strip, const StripFrame& frame) {
  double lines = 0;
  for (const std::string& note : strip.notes) {
    lines += static_cast<double>(
        broken_into_lines(note, small_text_px, frame.columns.key_right() - frame.columns.key_left - sample_px - 8).size());
  }
  return static_cast<double>(strip.lines.size()) * key_line_px + lines * note_line_px + 4;
}

double draw_plot(Svg& svg, const Strip& strip, const StripFrame& frame, double top, const PlotHeight& height) {
  std::vector<LaneLabel> labels;
  for (const StripMark& mark : strip.marks)
    labels.push_back({mark.words, frame.time.at(mark.at_s), 0, 0, text_width(mark.words, small_text_px)});
  const int lanes = place_in_lanes(labels, {frame.columns.marks_left, frame.columns.marks_right});
  const double plot_top = top + lane_px * lanes + (lanes > 0 ? 3 : 0);
  const double plot_bottom = plot_top + std::max(height.plot, height.with_marks - (plot_top - top));
  const Axis axis = {strip.low, strip.high, plot_bottom, plot_top, strip.logarithmic};
  draw_ground(svg, strip, frame, axis);
  for (const StripLine& line : strip.lines) draw_line(svg, line, frame.time, axis);
  svg.rectangle(frame.columns.plot_left, plot_top, frame.columns.plot_right - frame.columns.plot_left, plot_bottom - plot_top, "frame");
  draw_marks(svg, strip, frame, axis, labels);
  if (height.plot_top) *height.plot_top = plot_top;
  return plot_bottom;
}

double draw_strip(Svg& svg, const Strip& strip, const StripFrame& frame, double top) {
  double plot_top = top;
  const double plot_bottom = draw_plot(svg, strip, frame, top, {strip.height_px, key_height(strip, frame), &plot_top});
  draw_title(svg, strip, frame.columns, plot_top);
  draw_key(svg, strip, frame, top);
  return plot_bottom;
}

double draw_close_up(Svg& svg, const Strip& temperature, const StripFrame& frame, double top, double height) {
  const firing::Rehearsal& rehearsal = *frame.rehearsal;
  const auto top_moment = find_moment(rehearsal, firing::MomentKind::top), ends = find_moment(rehearsal, firing::MomentKind::hold_ends);
  if (!top_moment || height < 90) return top;
  const double top_s = rehearsal.moments[*top_moment].at_s, ends_s = ends ? rehearsal.moments[*ends].at_s : top_s;
  const double around_s = std::max(20.0, 0.35 * (ends_s - top_s));
  const Axis time = {std::max(0.0, top_s - around_s), ends_s + around_s, frame.columns.key_left + 40, frame.columns.key_right(), false};
  double high = 0, low = 1e9;
  for (const StripLine& line : temperature.lines) {
    const double peak = line.value.empty() ? 0 : *std::max_element(line.value.begin(), line.value.end());
    high = std::max(high, peak);
    low = std::min(low, peak);
    if (!line.other_value.empty()) low = std::min(low, *std::max_element(line.other_value.begin(), line.other_value.end()));
  }
  const double span = std::max(12.0, high - low);
  const double y0 = top + 20, y1 = top + height - 18;
  const Axis axis = {low - 0.45 * span, high + 0.12 * span, y1, y0, false};
  svg.text({frame.columns.key_left, top + 12}, frame.numbers->say("picture.close_up"), "small strong");
  svg.raw(fmt::format("<clipPath id=\"{}-close-up\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>\n", frame.id,
                      coordinate(time.from_px), coordinate(y0), coordinate(time.to_px - time.from_px), coordinate(y1 - y0)));
  svg.rectangle(time.from_px, y0, time.to_px - time.from_px, y1 - y0, "panel");
  for (const double tick : round_ticks(axis.low, axis.high, 4)) {
    svg.line({time.from_px, axis.at(tick)}, {time.to_px, axis.at(tick)}, "grid");
    svg.text({time.from_px - 6, axis.at(tick) + 4.3}, frame.numbers->tick(tick), "small soft", "end");
  }
  svg.open("g", {{"clip-path", "url(#" + frame.id + "-close-up)"}});
  for (const double moment_s : {top_s, ends_s}) svg.line({time.at(moment_s), y0}, {time.at(moment_s), y1}, "guide");
  for (const StripLine& line : temperature.lines) draw_line(svg, line, time.unbounded(), axis.unbounded());
  svg.close("g");
  svg.rectangle(time.from_px, y0, time.to_px - time.from_px, y1 - y0, "frame");
  svg.text({time.at(top_s), y1 + 14}, mark_word(firing::MomentKind::top, *frame.numbers), "small soft", "middle");
  if (time.at(ends_s) - time.at(top_s) > 60)
    svg.text({time.at(ends_s), y1 + 14}, mark_word(firing::MomentKind::hold_ends, *frame.numbers), "small soft", "middle");
  return top + height;
}

}  // namespace heatwork::report
