#include "report/text.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/numbers_table.h"
#include "report/plain_ascii.h"
#include "report/readings.h"
#include "report/standing_words.h"
#include "report/terminal_strip.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

using firing::Rehearsal;
using verdict::Finding;

constexpr std::size_t width = 100;

/// Lays text out in columns; strong and faint are escape codes only where asked for.
class Sheet {
 public:
  explicit Sheet(const TextOptions& options) : colour_(options.colour), plain_(options.plain_ascii) {}
  void line(const std::string& text) { out_ += text + "\n"; }
  /// Spelt before it is measured: what ASCII lacks may take two signs.
  [[nodiscard]] std::string spelt(const std::string& text) const { return plain_ ? in_plain_ascii(text) : text; }
  void blank() { out_ += "\n"; }
  [[nodiscard]] std::string strong(const std::string& text) const { return colour_ ? "\x1b[1m" + text + "\x1b[0m" : text; }
  [[nodiscard]] std::string faint(const std::string& text) const { return colour_ ? "\x1b[2m" + text + "\x1b[0m" : text; }
  /// Wrapped text; the first line begins with `first`, the others with as many blanks as `indent`.
  void wrapped(const std::string& first, const std::string& text, std::size_t indent, bool faint_text = false) {
    const auto lines = broken_into_columns(spelt(text), width - indent);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      line((i == 0 ? first : std::string(indent, ' ')) + (faint_text ? faint(lines[i]) : lines[i]));
    }
  }
  [[nodiscard]] const std::string& str() const { return out_; }

 private:
  bool colour_;
  bool plain_;
  std::string out_;
};

std::string padded_to(const std::string& text, std::size_t columns) {
  const std::size_t have = signs(text);
  return have < columns ? text + std::string(columns - have, ' ') : text;
}

std::string whose(verdict::LimitFrom from) {
  switch (from) {
    case verdict::LimitFrom::instruction:
      return " (the maker's instruction)";
    case verdict::LimitFrom::lab:
      return " (the lab's own)";
    case verdict::LimitFrom::heatwork:
      return " (set by Heatwork)";
    case verdict::LimitFrom::none:
      break;
  }
  return "";
}

/// "number 19 K (17 to 22 K), limit 10 K of the maker's instruction"; empty where there is no number.
std::string number_of(const Finding& finding, TemperatureScale scale) {
  std::string text;
  if (finding.number) text = shown(*finding.number, finding.unit, scale);
  if (finding.number && finding.low && finding.high) {
    const std::string low = shown(*finding.low, finding.unit, scale), high = shown(*finding.high, finding.unit, scale);
    // A band too narrow to be seen says nothing that the number does not.
    if (low != text || high != text) text += fmt::format(" ({} to {})", low, high);
  }
  if (finding.limit)
    text += (text.empty() ? "limit " : ", limit ") + limit(*finding.limit, finding.unit, scale) + whose(finding.limit_from);
  return text;
}

void add_headline(Sheet& sheet, const Finding& first, TemperatureScale scale) {
  const std::string level(verdict::word(first.level));
  sheet.wrapped(sheet.strong(level) + ": ", first.sentence, signs(level) + 2);
  std::string under(verdict::word(first.aspect));
  if (!first.piece.empty()) under += ", " + first.piece;
  if (!first.where.empty()) under += ", " + first.where;
  const std::string number = number_of(first, scale);
  if (!number.empty()) under += ": " + number;
  sheet.wrapped("  ", under, 2);
  if (!first.change.empty()) sheet.wrapped("  " + sheet.strong("To change:") + " ", first.change, 13);
}

void add_findings(Sheet& sheet, const verdict::Verdict& verdict, TemperatureScale scale) {
  if (verdict.findings.size() < 2) return;
  sheet.blank();
  sheet.line(sheet.strong("Also found"));
  for (std::size_t i = 1; i < verdict.findings.size(); ++i) {
    const Finding& finding = verdict.findings[i];
    const std::string level = padded_to(std::string(verdict::word(finding.level)), 15);
    std::string text(verdict::word(finding.aspect));
    if (!finding.piece.empty()) text += ", " + finding.piece;
    if (!finding.where.empty()) text += ", " + finding.where;
    sheet.wrapped("  " + sheet.strong(level) + " ", text + ": " + finding.sentence, 18);
    const std::string number = number_of(finding, scale);
    if (!number.empty() || !finding.change.empty()) {
      sheet.wrapped(std::string(18, ' '), number + (number.empty() || finding.change.empty() ? "" : ". ") + finding.change, 18, true);
    }
  }
}

void add_table(Sheet& sheet, const Rehearsal& rehearsal, TemperatureScale scale) {
  const auto rows = numbers_of(rehearsal, scale);
  const auto names = piece_names(rehearsal);
  constexpr std::size_t first = 30;
  const std::size_t at_once = rehearsal.heaviest ? 2 : 3;  // a band needs the wider column
  const std::size_t column = (width - first) / at_once;
  for (std::size_t from = 0; from < names.size(); from += at_once) {
    const std::size_t to = std::min(names.size(), from + at_once);
    sheet.blank();
    std::string head = padded_to("", first);
    for (std::size_t i = from; i < to; ++i) head += padded_to(cut_to_columns(sheet.spelt(names[i]), column - 2), column);
    sheet.line(sheet.strong(head.substr(0, head.find_last_not_of(' ') + 1)));
    for (const TableRow& row : rows) {
      std::string line = padded_to("  " + row.what, first);
      for (std::size_t i = from; i < to; ++i) line += padded_to(sheet.spelt(row.by_piece[i]), column);
      sheet.line(line.substr(0, line.find_last_not_of(' ') + 1));
    }
  }
  if (rehearsal.heaviest) sheet.line("  The tray's mass is not known: first the lightest tray, then the heaviest.");
}

void add_list(Sheet& sheet, const std::string& title, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  sheet.blank();
  sheet.line(sheet.strong(title));
  for (const std::string& line : lines) sheet.wrapped("  ", line, 2, true);
}

std::string title_of(const Rehearsal& rehearsal) {
  const trade::Firing& firing = rehearsal.request.firing;
  return firing.label.empty() ? firing.name : firing.label;
}

}  // namespace

std::string rehearsal_text(const Rehearsal& rehearsal, const verdict::Verdict& verdict, const TextOptions& options) {
  Sheet sheet(options);
  if (!verdict.findings.empty()) add_headline(sheet, verdict.findings.front(), options.scale);
  add_findings(sheet, verdict, options.scale);
  if (rehearsal.impossible) {
    sheet.blank();
    sheet.wrapped("", title_of(rehearsal) + " was not rehearsed, so there are no numbers and no picture: " + *rehearsal.impossible, 0);
  }
  if (options.strip && !rehearsal.impossible) {
    sheet.blank();
    TerminalStripOptions strip;
    strip.plain_ascii = options.plain_ascii;
    strip.scale = options.scale;
    sheet.line(sheet.strong(cut_to_columns(sheet.spelt(title_of(rehearsal)), width)));
    std::string picture = terminal_strip(rehearsal, strip);
    picture.pop_back();
    sheet.line(picture);
  }
  if (!rehearsal.impossible) add_table(sheet, rehearsal, options.scale);
  std::vector<std::string> compared = rehearsal.assumptions;
  if (!rehearsal.reference_tray.empty())
    compared.insert(compared.begin(), "The tray of the comparison is " + rehearsal.reference_tray + ".");
  add_list(sheet, "The comparison takes", compared);
  add_list(sheet, "Not given, so taken from the shape", rehearsal.taken_from_shape);
  std::vector<std::string> places;
  for (const auto& [name, place] : rehearsal.request.came_from) places.push_back(name + ": " + place);
  add_list(sheet, "Where each name was found", places);
  sheet.blank();
  sheet.wrapped("", std::string(standing_words), 0, true);
  return options.plain_ascii ? in_plain_ascii(sheet.str()) : sheet.str();
}

}  // namespace heatwork::report
