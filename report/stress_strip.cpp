#include "report/stress_strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "report/axis.h"
#include "report/stress_readings.h"

namespace heatwork::report {
namespace {

constexpr double MPa = 1e6;

Strip empty_strip(const Numbers& numbers) {
  Strip strip;
  strip.title = numbers.say("picture.strip.stress");
  strip.unit = numbers.say("picture.strip.stress_unit");
  strip.height_px = 66;
  strip.high = 30;
  return strip;
}

/// The highest tension of the glass over time, up to where the picture ends; without traces what stays alone is told, and no line.
StripLine line_of(const GlassStress& worst, double until_s) {
  StripLine line;
  if (worst.section->glass >= worst.form->highest_trace_Pa.size()) return line;
  const std::vector<double>& time_s = worst.section->time_s;
  const std::vector<double>& trace_Pa = worst.form->highest_trace_Pa[worst.section->glass];
  for (std::size_t i = 0; i < std::min(time_s.size(), trace_Pa.size()) && time_s[i] < until_s; ++i) {
    line.time_s.push_back(time_s[i]);
    line.value.push_back(trace_Pa[i] / MPa);
  }
  if (!line.time_s.empty() && time_s.back() > until_s) {
    line.time_s.push_back(until_s);
    line.value.push_back(value_at(time_s, trace_Pa, until_s) / MPa);
  }
  return line;
}

void add_piece(Strip& strip, const firing::Rehearsal& rehearsal, std::size_t index, const std::string& name, double until_s,
               const Numbers& numbers) {
  const auto worst = worst_glass(rehearsal.firing.pieces[index]);
  if (!worst) return;
  const physics::LayerCooling& glass = worst->glass();
  StripLine line = line_of(*worst, until_s);
  line.name = name;
  line.css = fmt::format("line surface p{}", index % 4);
  line.reading = numbers.say("picture.line.tension",
                             {{"way", stress(glass.transient_highest_Pa, numbers)}, {"stays", stress(glass.highest_hoop_Pa, numbers)}});
  if (rehearsal.heaviest && index < rehearsal.heaviest->pieces.size()) {
    if (const auto heavy = worst_glass(rehearsal.heaviest->pieces[index])) {
      StripLine other = line_of(*heavy, until_s);
      line.other_time_s = std::move(other.time_s);
      line.other_value = std::move(other.value);
    }
  }
  strip.lines.push_back(std::move(line));
}

/// What may be there on the way, till the piece has lain on the bench for a while; then what may stay.
void add_wanted(Strip& strip, const trade::Limits& limits, double firing_ends_s, double until_s, const Numbers& numbers) {
  double from_s = until_s;
  for (const StripLine& line : strip.lines)
    if (!line.time_s.empty()) from_s = std::min(from_s, line.time_s.front());
  const double cool_s = 0.5 * (firing_ends_s + until_s);
  const auto add = [&](const char* limit, const char* note, double from, double to) {
    const auto found = limits.by_name.find(limit);
    if (found == limits.by_name.end() || !(to > from)) return;
    strip.wanted.push_back({strip.low, found->second.first, from, to});
    strip.notes.push_back(numbers.say(note, {{"limit", numbers.limit(found->second.first, "MPa")}}));
  };
  add("transient_tension", "picture.note.tension_on_the_way", from_s, cool_s);
  add("veneer_tension", "picture.note.tension_that_stays", cool_s, until_s);
}

/// From the lowest value to the highest, limits among them.
void add_scale(Strip& strip, const trade::Limits& limits) {
  double low = 0, high = 10;
  for (const StripLine& line : strip.lines)
    for (const auto* values : {&line.value, &line.other_value})
      for (const double value : *values) {
        low = std::min(low, value);
        high = std::max(high, value);
      }
  for (const char* name : {"transient_tension", "veneer_tension"}) {
    const auto limit = limits.by_name.find(name);
    if (limit != limits.by_name.end()) high = std::max(high, limit->second.first);
  }
  strip.high = round_up(high * 1.1);
  strip.low = low < 0 ? -round_up(-low * 1.1) : 0;
  strip.ticks = round_ticks(strip.low, strip.high, 3);
}

}  // namespace

std::optional<Strip> stress_strip(const firing::Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                  const Numbers& numbers) {
  if (!tells_stress(rehearsal)) return std::nullopt;
  Strip strip = empty_strip(numbers);
  const double ends_s = firing_ends_s(rehearsal), until_s = shown_until_s(ends_s);
  for (std::size_t i = 0; i < names.size(); ++i) add_piece(strip, rehearsal, i, names[i], until_s, numbers);
  add_scale(strip, limits);
  if (!strip.lines.empty()) {
    add_wanted(strip, limits, ends_s, until_s, numbers);
    strip.notes.push_back(numbers.say("picture.note.tension_read"));
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    const firing::PieceResult& piece = rehearsal.firing.pieces[i];
    if (worst_glass(piece)) continue;
    for (const std::string& why : why_no_stress(piece, numbers.words())) {
      const bool said = std::find(strip.notes.begin(), strip.notes.end(), why) != strip.notes.end();
      if (!said) strip.notes.push_back(why);
    }
  }
  if (strip.lines.empty()) strip.ticks.clear();
  return strip;
}

Strip stress_follows(const Numbers& numbers) {
  Strip strip = empty_strip(numbers);
  strip.notes.push_back(numbers.say("picture.note.stress_follows"));
  return strip;
}

}  // namespace heatwork::report
