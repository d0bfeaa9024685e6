#include "report/terminal_strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "report/lanes.h"
#include "report/plain_ascii.h"
#include "report/readings.h"
#include "report/stress_readings.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

using firing::Rehearsal;

constexpr std::size_t gutter = 9;  // columns left of the plot, for temperatures

/// Dots of Braille, two across and four down a sign; or one letter a sign in plain ASCII.
class Canvas {
 public:
  Canvas(std::size_t columns, std::size_t rows, bool plain)
      : columns_(columns), rows_(rows), plain_(plain), cells_(columns * rows, plain ? ' ' : 0U) {}
  [[nodiscard]] std::size_t across() const { return plain_ ? columns_ : 2 * columns_; }
  [[nodiscard]] std::size_t down() const { return plain_ ? rows_ : 4 * rows_; }
  void dot(std::size_t x, std::size_t y, char letter) {
    if (plain_) {
      unsigned& cell = cells_[y * columns_ + x];
      if (cell == ' ') cell = static_cast<unsigned char>(letter);
      return;
    }
    static constexpr std::array<std::array<unsigned, 4>, 2> bits = {{{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}}};
    cells_[y / 4 * columns_ + x / 2] |= bits[x % 2][y % 4];
  }
  [[nodiscard]] std::string row(std::size_t index) const {
    std::string line;
    for (std::size_t x = 0; x < columns_; ++x) {
      const unsigned cell = cells_[index * columns_ + x];
      if (plain_) {
        line += static_cast<char>(cell);
      } else if (cell == 0) {
        line += ' ';
      } else {
        const unsigned code = 0x2800U + cell;
        line += {static_cast<char>(0xE0U | code >> 12U), static_cast<char>(0x80U | (code >> 6U & 0x3FU)),
                 static_cast<char>(0x80U | (code & 0x3FU))};
      }
    }
    return line;
  }

 private:
  std::size_t columns_, rows_;
  bool plain_;
  std::vector<unsigned> cells_;
};

/// From one end to the other.
struct Span {
  double low = 0, high = 1;
  [[nodiscard]] double at(double share) const { return low + share * (high - low); }
  [[nodiscard]] double share(double value) const { return (value - low) / (high - low); }
};

void draw(Canvas& canvas, const std::vector<double>& time_s, const std::vector<double>& values, const Span& shown_s, const Span& scale,
          std::size_t every, char letter) {
  if (time_s.empty() || values.empty()) return;
  for (std::size_t x = 0; x < canvas.across(); x += every) {
    const double at_s = shown_s.at(static_cast<double>(x) / static_cast<double>(canvas.across() - 1));
    const double share = std::clamp(scale.share(value_at(time_s, values, at_s)), 0.0, 1.0);
    const auto y = static_cast<std::size_t>(std::lround((1.0 - share) * static_cast<double>(canvas.down() - 1)));
    canvas.dot(x, y, letter);
  }
}

std::string padded(const std::string& text, std::size_t width) {
  const std::size_t have = signs(text);
  return have < width ? std::string(width - have, ' ') + text : text;
}

/// The words of the moments, in lanes under the plot; the leader of each comes down from its column.
std::vector<std::string> moment_lines(const Rehearsal& rehearsal, const Numbers& numbers, double end_s, std::size_t columns, bool plain) {
  const auto names = piece_names(rehearsal);
  std::vector<LaneLabel> labels;
  for (const firing::Moment& moment : rehearsal.moments) {
    std::string who;
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (names.size() > 1 && rehearsal.firing.pieces[i].piece == moment.piece) who = names[i] + ": ";
    }
    std::string words = who + mark_word(moment.what, numbers) + " " + clock(moment.at_s);
    if (plain) words = in_plain_ascii(words);
    const double x = std::round(moment.at_s / end_s * static_cast<double>(columns - 1));
    labels.push_back({words, x, 0, 0, static_cast<double>(signs(words))});
  }
  const int lanes = place_in_lanes(labels, {0, static_cast<double>(columns), 2, 2});
  const std::string upright = plain ? "|" : "│", corner = plain ? "|" : "╰", corner_left = plain ? "|" : "╯";
  std::vector<std::vector<std::string>> grid(static_cast<std::size_t>(lanes), std::vector<std::string>(columns, " "));
  for (const LaneLabel& label : labels) {
    const auto x = static_cast<std::size_t>(label.x);
    const auto lane = static_cast<std::size_t>(label.lane);
    for (std::size_t i = 0; i < lane; ++i) grid[i][x] = upright;
    grid[lane][x] = label.left > label.x ? corner : corner_left;
  }
  for (const LaneLabel& label : labels) {
    std::size_t x = static_cast<std::size_t>(label.left);
    for (std::size_t at = 0; at < label.words.size() && x < columns; ++x) {
      std::size_t end = at + 1;
      while (end < label.words.size() && (static_cast<unsigned char>(label.words[end]) & 0xC0U) == 0x80U) ++end;
      grid[static_cast<std::size_t>(label.lane)][x] = label.words.substr(at, end - at);
      at = end;
    }
  }
  std::vector<std::string> lines;
  for (const auto& cells : grid) {
    std::string line;
    for (const std::string& cell : cells) line += cell;
    lines.push_back(line.substr(0, line.find_last_not_of(' ') + 1));
  }
  return lines;
}

/// The rows of a plot, with what its ends stand for.
std::string rows_of(const Canvas& canvas, std::size_t rows, const std::string& high, const std::string& low) {
  std::string out;
  for (std::size_t i = 0; i < rows; ++i) {
    std::string label;
    if (i == 0) label = high;
    if (i + 1 == rows && rows > 1) label = low;
    std::string line = padded(label, gutter - 1) + " " + canvas.row(i);
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

/// Highest tension of the glass of the first piece whose stress is known, from its hot state till it is cold; empty where there is none.
std::string tension_strip(const Rehearsal& rehearsal, const Numbers& numbers, const TerminalStripOptions& options) {
  constexpr std::size_t rows = 4;
  for (const firing::PieceResult& piece : rehearsal.firing.pieces) {
    const auto worst = worst_glass(piece);
    if (!worst || worst->section->time_s.empty() || worst->section->glass >= worst->form->highest_trace_Pa.size()) continue;
    const auto& time_s = worst->section->time_s;
    const auto& trace_Pa = worst->form->highest_trace_Pa[worst->section->glass];
    if (trace_Pa.empty()) continue;
    const auto [lowest, highest] = std::minmax_element(trace_Pa.begin(), trace_Pa.end());
    const Span scale{std::min(0.0, *lowest), std::max(1e6, *highest)};
    Canvas canvas(options.columns - gutter, rows, options.plain_ascii);
    const std::vector<double> none = {0, 0}, ends_s = {time_s.front(), time_s.back()};
    const Span shown_s{time_s.front(), time_s.back()};
    if (scale.low < 0) draw(canvas, ends_s, none, shown_s, scale, options.plain_ascii ? 4 : 6, '-');
    draw(canvas, time_s, trace_Pa, shown_s, scale, 1, '*');
    const std::string title =
        numbers.say("text.tension_strip", {{"piece", piece.piece}, {"from", clock(time_s.front())}, {"to", clock(time_s.back())}});
    return cut_to_columns(title, options.columns) + "\n" + rows_of(canvas, rows, stress(scale.high, numbers), stress(scale.low, numbers));
  }
  return "";
}

}  // namespace

std::string terminal_strip(const Rehearsal& rehearsal, const Numbers& numbers, const TerminalStripOptions& options) {
  if (options.columns < 40 || options.rows < 1)
    throw std::invalid_argument("a strip for the terminal needs at least 40 columns and one row");
  const firing::ChamberHistory& chamber = rehearsal.firing.chamber;
  const double end_s = std::max(1.0, chamber.time_s.empty() ? 1.0 : chamber.time_s.back());
  const double high_C =
      std::max(1.0, chamber.display_C.empty() ? 1.0 : *std::max_element(chamber.display_C.begin(), chamber.display_C.end()));
  Canvas canvas(options.columns - gutter, options.rows, options.plain_ascii);
  draw(canvas, chamber.time_s, chamber.display_C, {0, end_s}, {0, high_C}, 1, '*');
  const auto names = piece_names(rehearsal);
  const firing::SectionResult* section = rehearsal.firing.pieces.empty() ? nullptr : deciding_section(rehearsal.firing.pieces.front());
  if (section) draw(canvas, rehearsal.firing.time_s, section->core_C, {0, end_s}, {0, high_C}, options.plain_ascii ? 2 : 3, '.');

  const std::string line_word = options.plain_ascii ? "*" : numbers.say("text.line");
  std::string title = numbers.say("text.strip", {{"line", line_word}, {"duration", numbers.duration(end_s)}});
  if (section) {
    title = numbers.say("text.strip_and_core", {{"line", line_word},
                                                {"piece", names.front()},
                                                {"dots", options.plain_ascii ? "." : numbers.say("text.dots")},
                                                {"duration", numbers.duration(end_s)}});
  }
  std::string out = cut_to_columns(title, options.columns) + "\n";
  out += rows_of(canvas, options.rows, numbers.temperature(high_C), numbers.temperature(0));
  for (const std::string& line : moment_lines(rehearsal, numbers, end_s, options.columns - gutter, options.plain_ascii))
    out += std::string(gutter, ' ') + line + "\n";
  out += tension_strip(rehearsal, numbers, options);
  return options.plain_ascii ? in_plain_ascii(out) : out;
}

}  // namespace heatwork::report
