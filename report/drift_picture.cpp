#include "report/drift_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/axis.h"
#include "report/lanes.h"
#include "report/picture_look.h"
#include "report/svg.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

constexpr double sheet_width_px = 1000, margin = 24, errors_px = 230, sums_px = 110, lane_px = 16, line_px = 16, sample_px = 26;

/// Where things stand, the same for both strips.
struct Frame {
  double width, left, right;
  Axis days;
  const Numbers* numbers;
};

/// An entry of a key: a line of this look, or a band where `band`.
struct KeyEntry {
  std::string css, words;
  bool band = false, point = false;
};

double draw_head(Svg& svg, const DriftPicture& picture, const Frame& frame, double top) {
  double y = top + 18;
  const double room = frame.width - 2 * margin;
  svg.text({margin, y}, cut_to_width(picture.title, title_px, room, true), "title");
  y += 21;
  for (const std::string& line : broken_into_lines(picture.setting, text_px, room)) {
    svg.text({margin, y}, line, "soft");
    y += line_px;
  }
  const std::string level = picture.level + ": ";
  const auto lines = broken_into_lines(level + picture.sentence, headline_px, room * 0.97);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    y += i == 0 ? 8 : 21;
    const bool begins = i == 0 && lines[i].starts_with(level);
    svg.raw(fmt::format("<text class=\"headline\" xml:space=\"preserve\" x=\"{}\" y=\"{}\">{}{}</text>\n", coordinate(margin),
                        coordinate(y), begins ? "<tspan class=\"strong\">" + escaped(level) + "</tspan>" : "",
                        escaped(begins ? lines[i].substr(level.size()) : lines[i])));
  }
  return y + 12;
}

void draw_sample(Svg& svg, const KeyEntry& entry, Point at) {
  if (entry.point) {
    svg.line({at.x + sample_px / 2, at.y - 11}, {at.x + sample_px / 2, at.y + 2}, "leader");
    svg.circle({at.x + sample_px / 2, at.y - 4.5}, 3.5, entry.css);
  } else if (entry.band) {
    svg.rectangle(at.x, at.y - 10, sample_px, 11, "wanted");
    svg.path({{at.x, at.y + 1}, {at.x, at.y - 10}, {at.x + sample_px, at.y - 10}, {at.x + sample_px, at.y + 1}}, "wanted-edge");
  } else {
    svg.path({{at.x, at.y - 4}, {at.x + sample_px, at.y - 4}}, entry.css);
  }
}

/// Title, unit and entries, on as many lines as they need; returns where they end.
double draw_key(Svg& svg, const std::string& title, const std::string& unit, const std::vector<KeyEntry>& entries, const Frame& frame,
                double top) {
  const double titled = text_width(title, text_px, true);
  double x = margin, y = top + 14;
  svg.text({x, y}, title, "strong");
  svg.text({x + titled + 7, y}, unit, "small soft");
  x += titled + 7 + text_width(unit, small_text_px) + 18;
  for (const KeyEntry& entry : entries) {
    const double width = sample_px + 6 + text_width(entry.words, small_text_px);
    if (x + width > frame.width - margin) x = margin, y += line_px;
    draw_sample(svg, entry, {x, y});
    svg.text({x + sample_px + 6, y}, entry.words, "small soft");
    x += width + 16;
  }
  return y + 6;
}

void draw_ground(Svg& svg, const DriftPicture& picture, const Frame& frame, const Axis& axis, int wanted_ticks) {
  svg.rectangle(frame.left, axis.to_px, frame.right - frame.left, axis.from_px - axis.to_px, "panel");
  for (const DriftTick& tick : picture.ticks)
    svg.line({frame.days.at(tick.day), axis.to_px}, {frame.days.at(tick.day), axis.from_px}, "grid");
  for (const double tick : round_ticks(axis.low, axis.high, wanted_ticks)) {
    svg.line({frame.left, axis.at(tick)}, {frame.right, axis.at(tick)}, "grid");
    svg.text({frame.left - 7, axis.at(tick) + 4.3}, (tick < 0 ? "−" : "") + frame.numbers->tick(std::abs(tick)), "small soft", "end");
  }
  for (const DriftMark& mark : picture.marks)
    svg.line({frame.days.at(mark.day), axis.to_px}, {frame.days.at(mark.day), axis.from_px}, "guide");
}

/// The stretches between two beginnings of a run: first and past the last.
std::vector<std::pair<std::size_t, std::size_t>> stretches(const DriftPicture& picture) {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  std::size_t from = 0;
  for (std::size_t i = 1; i <= picture.points.size(); ++i) {
    const bool ends = i == picture.points.size() || std::any_of(picture.marks.begin(), picture.marks.end(), [&](const DriftMark& mark) {
                        return mark.begins_run && mark.day == picture.points[i].day;
                      });
    if (ends) out.emplace_back(from, i), from = i;
  }
  return out;
}

template <class Value>
std::vector<Point> points_of(const DriftPicture& picture, const Frame& frame, const Axis& axis, std::pair<std::size_t, std::size_t> stretch,
                             Value value) {
  std::vector<Point> points;
  for (std::size_t i = stretch.first; i < stretch.second; ++i)
    points.push_back({frame.days.at(picture.points[i].day), axis.at(value(picture.points[i]))});
  return points;
}

/// The band in which the trend of a sound furnace stays; one check alone gets some width.
void draw_band(Svg& svg, const DriftPicture& picture, const Frame& frame, const Axis& axis, std::pair<std::size_t, std::size_t> stretch) {
  auto high = points_of(picture, frame, axis, stretch, [](const DriftPoint& point) { return point.target_K + point.half_width_K; });
  auto low = points_of(picture, frame, axis, stretch, [](const DriftPoint& point) { return point.target_K - point.half_width_K; });
  if (high.size() == 1) {
    high = {{high[0].x - 3, high[0].y}, {high[0].x + 3, high[0].y}};
    low = {{low[0].x - 3, low[0].y}, {low[0].x + 3, low[0].y}};
  }
  std::vector<Point> whole = high;
  whole.insert(whole.end(), low.rbegin(), low.rend());
  svg.path(whole, "wanted", true);
  svg.path(high, "wanted-edge");
  svg.path(low, "wanted-edge");
}

Axis axis_of_errors(const DriftPicture& picture) {
  double reach = picture.limit_K;
  for (const DriftPoint& point : picture.points) reach = std::max(reach, std::abs(point.error_K) + point.uncertainty_K);
  return {-1.08 * reach, 1.08 * reach, 0, 0, false};
}

double draw_marks(Svg& svg, const DriftPicture& picture, const Frame& frame, double top) {
  std::vector<LaneLabel> labels;
  for (const DriftMark& mark : picture.marks)
    labels.push_back({mark.words, frame.days.at(mark.day), 0, 0, text_width(mark.words, small_text_px)});
  if (labels.empty()) return top;
  const int lanes = place_in_lanes(labels, {frame.left, frame.right});
  const double bottom = top + lane_px * lanes + 4;
  for (const LaneLabel& label : labels) {
    const double base = bottom - 5 - lane_px * label.lane;
    svg.line({label.x, base - 9}, {label.x, bottom}, "leader");
    svg.text({label.left, base}, label.words, "small");
  }
  return bottom;
}

double draw_errors(Svg& svg, const DriftPicture& picture, const Frame& frame, double top) {
  const Numbers& numbers = *frame.numbers;
  top = draw_key(svg, numbers.say("drift.errors"), numbers.unit_of_difference(),
                 {{"mark", numbers.say("drift.check"), false, true},
                  {"line display", numbers.say("drift.trend")},
                  {"", numbers.say("drift.band"), true},
                  {"line core", numbers.say("drift.limit", {{"limit", numbers.limit(picture.limit_K, "K")}})},
                  {"line asked", numbers.say("drift.forecast")}},
                 frame, top);
  top = draw_marks(svg, picture, frame, top);
  Axis axis = axis_of_errors(picture);
  axis.from_px = top + errors_px, axis.to_px = top;
  draw_ground(svg, picture, frame, axis, 6);
  const auto all = stretches(picture);
  for (const auto& stretch : all) draw_band(svg, picture, frame, axis, stretch);
  for (const double limit : {picture.limit_K, -picture.limit_K})
    svg.path({{frame.left, axis.at(limit)}, {frame.right, axis.at(limit)}}, "line core");
  for (const auto& stretch : all)
    svg.path(points_of(picture, frame, axis, stretch, [](const DriftPoint& point) { return point.trend_K; }), "line display");
  if (picture.forecast)
    svg.path({{frame.days.at(picture.forecast->from_day), axis.at(picture.forecast->from_K)},
              {frame.days.at(picture.forecast->to_day), axis.at(picture.forecast->to_K)}},
             "line asked");
  // Where checks stand closer than a few pixels their bars would only be a grey.
  const bool bars = static_cast<double>(picture.points.size()) < (frame.right - frame.left) / 4;
  for (const DriftPoint& point : picture.points) {
    const double x = frame.days.at(point.day);
    if (bars) svg.line({x, axis.at(point.error_K - point.uncertainty_K)}, {x, axis.at(point.error_K + point.uncertainty_K)}, "leader");
    svg.circle({x, axis.at(point.error_K)}, bars ? 3.5 : 1.5, point.set_aside ? "mark asked" : "mark");
  }
  return axis.from_px + 6;
}

double draw_sums(Svg& svg, const DriftPicture& picture, const Frame& frame, double top) {
  const Numbers& numbers = *frame.numbers;
  top = draw_key(svg, numbers.say("drift.sums"), numbers.say("drift.deviations"),
                 {{"line surface p0", numbers.say("drift.above")},
                  {"line surface p1", numbers.say("drift.below")},
                  {"line core", numbers.say("drift.sum_limit", {{"limit", numbers.limit(picture.sum_limit, "")}})}},
                 frame, top);
  double reach = 1.3 * picture.sum_limit;
  for (const DriftPoint& point : picture.points) reach = std::max({reach, 1.05 * point.high, 1.05 * point.low});
  // Sums that run away for years would press all else to the ground.
  reach = std::min(reach, 8 * picture.sum_limit);
  const Axis axis{0, reach, top + sums_px, top, false};
  draw_ground(svg, picture, frame, axis, 4);
  svg.path({{frame.left, axis.at(picture.sum_limit)}, {frame.right, axis.at(picture.sum_limit)}}, "line core");
  for (const auto& stretch : stretches(picture)) {
    svg.path(points_of(picture, frame, axis, stretch, [](const DriftPoint& point) { return point.high; }), "line surface p0");
    svg.path(points_of(picture, frame, axis, stretch, [](const DriftPoint& point) { return point.low; }), "line surface p1");
  }
  for (const DriftTick& tick : picture.ticks) svg.text({frame.days.at(tick.day), axis.from_px + 15}, tick.label, "small soft", "middle");
  return axis.from_px + 24;
}

double draw_foot(Svg& svg, const DriftPicture& picture, const Frame& frame, double top) {
  double y = top + 12;
  std::string all;
  for (const std::string& note : picture.notes) all += note + " ";
  all += frame.numbers->say("safety.disclaimer");
  for (const std::string& line : broken_into_lines(all, small_text_px, frame.width - 2 * margin)) {
    svg.text({margin, y}, line, "small soft");
    y += 15.5;
  }
  return y;
}

Frame frame_of(const DriftPicture& picture, const Numbers& numbers, const PictureOptions& options) {
  const bool in_pane = options.pane_width_px > 0;
  Frame frame{in_pane ? std::clamp(options.pane_width_px, 320.0, 1366.0) : sheet_width_px, 64, 0, {}, &numbers};
  frame.right = frame.width - margin;
  double from = picture.points.front().day, to = picture.points.back().day;
  if (picture.forecast) to = std::max(to, picture.forecast->to_day);
  const double clear = std::max(3.0, 0.02 * (to - from));
  frame.days = {from - clear, to + clear, frame.left, frame.right};
  return frame;
}

}  // namespace

std::string drift_picture(const DriftPicture& picture, const Numbers& numbers, const PictureOptions& options) {
  const Frame frame = frame_of(picture, numbers, options);
  const bool in_pane = options.pane_width_px > 0;
  Svg body;
  double y = in_pane ? 2 : draw_head(body, picture, frame, margin);
  y = draw_errors(body, picture, frame, y);
  y = draw_sums(body, picture, frame, y);
  if (!in_pane) y = draw_foot(body, picture, frame, y);
  y = std::ceil(y + 6);
  Svg svg;
  const std::string width = coordinate(frame.width), height = coordinate(y);
  svg.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"viewBox", "0 0 " + width + " " + height},
                   {"width", width},
                   {"height", height},
                   {"role", "img"},
                   {"aria-labelledby", options.id + "-title " + options.id + "-desc"},
                   {"class", "firing-picture"}});
  svg.words("title", picture.title, {{"id", options.id + "-title"}});
  std::string told = picture.setting + " " + picture.level + ": " + picture.sentence;
  for (const DriftMark& mark : picture.marks) told += " " + mark.words + ".";
  for (const std::string& note : picture.notes) told += " " + note;
  svg.words("desc", told, {{"id", options.id + "-desc"}});
  if (options.own_style) svg.raw("<style>\n" + picture_css(options.shade) + "</style>\n");
  svg.rectangle(0, 0, frame.width, y, "paper");
  svg.raw(body.str());
  svg.close("svg");
  return svg.str();
}

}  // namespace heatwork::report
