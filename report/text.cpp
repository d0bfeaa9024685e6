#include "report/text.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/numbers_table.h"
#include "report/plain_ascii.h"
#include "report/readings.h"
#include "report/terminal_strip.h"
#include "report/text_width.h"
#include "trade/sentences.h"

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

/// "19 K (17 to 22 K), limit 10 K (the maker's instruction)"; empty where there is no number.
std::string number_of(const Finding& finding, const Numbers& numbers) {
  std::string text;
  if (finding.number) text = numbers.shown(*finding.number, finding.unit);
  if (finding.number && finding.low && finding.high) {
    const std::string low = numbers.shown(*finding.low, finding.unit), high = numbers.shown(*finding.high, finding.unit);
    // A band too narrow to be seen says nothing that the number does not.
    if (low != text || high != text)
      text = numbers.say("text.number", {{"number", text}, {"range", numbers.say("numbers.range", {{"from", low}, {"to", high}})}});
  }
  if (!finding.limit) return text;
  std::string limit = numbers.say("text.limit", {{"limit", numbers.limit(*finding.limit, finding.unit)}});
  if (finding.limit_from != verdict::LimitFrom::none)
    limit = numbers.say(fmt::format("text.whose.{}", verdict::word(finding.limit_from)), {{"limit", limit}});
  return text.empty() ? limit : numbers.say("text.number_and_limit", {{"number", text}, {"limit", limit}});
}

/// "degree of firing, crown-16, thickest"
std::string about(const Finding& finding, const Numbers& numbers) {
  std::string text = numbers.say(verdict::word_key(finding.aspect));
  if (!finding.piece.empty()) text += ", " + finding.piece;
  if (!finding.where.empty()) text += ", " + finding.where;
  return text;
}

void add_headline(Sheet& sheet, const Finding& first, const Numbers& numbers) {
  const std::string level = sheet.spelt(numbers.say(verdict::word_key(first.level)));
  sheet.wrapped(sheet.strong(level) + ": ", first.sentence, signs(level) + 2);
  std::string under = about(first, numbers);
  const std::string number = number_of(first, numbers);
  if (!number.empty()) under += ": " + number;
  sheet.wrapped("  ", under, 2);
  const std::string to_change = sheet.spelt(numbers.say("text.to_change"));
  if (!first.change.empty()) sheet.wrapped("  " + sheet.strong(to_change) + " ", first.change, signs(to_change) + 3);
}

void add_findings(Sheet& sheet, const verdict::Verdict& verdict, const Numbers& numbers) {
  if (verdict.findings.size() < 2) return;
  std::size_t level_columns = 15;
  for (const Finding& finding : verdict.findings)
    level_columns = std::max(level_columns, signs(sheet.spelt(numbers.say(verdict::word_key(finding.level)))) + 1);
  sheet.blank();
  sheet.line(sheet.strong(sheet.spelt(numbers.say("text.also_found"))));
  for (std::size_t i = 1; i < verdict.findings.size(); ++i) {
    const Finding& finding = verdict.findings[i];
    const std::string level = padded_to(sheet.spelt(numbers.say(verdict::word_key(finding.level))), level_columns);
    sheet.wrapped("  " + sheet.strong(level) + " ", about(finding, numbers) + ": " + finding.sentence, level_columns + 3);
    const std::string number = number_of(finding, numbers);
    if (!number.empty() || !finding.change.empty()) {
      sheet.wrapped(std::string(level_columns + 3, ' '), number + (number.empty() || finding.change.empty() ? "" : ". ") + finding.change,
                    level_columns + 3, true);
    }
  }
}

void add_table(Sheet& sheet, const Rehearsal& rehearsal, const Numbers& numbers) {
  const auto rows = numbers_of(rehearsal, numbers);
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
      std::string line = padded_to("  " + sheet.spelt(row.what), first);
      for (std::size_t i = from; i < to; ++i) line += padded_to(sheet.spelt(row.by_piece[i]), column);
      sheet.line(line.substr(0, line.find_last_not_of(' ') + 1));
    }
  }
  if (rehearsal.heaviest) sheet.line("  " + sheet.spelt(numbers.say("text.tray_unknown")));
}

void add_list(Sheet& sheet, const std::string& title, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  sheet.blank();
  sheet.line(sheet.strong(sheet.spelt(title)));
  for (const std::string& line : lines) sheet.wrapped("  ", line, 2, true);
}

std::string title_of(const Rehearsal& rehearsal) {
  const trade::Firing& firing = rehearsal.request.firing;
  return firing.label.empty() ? firing.name : firing.label;
}

}  // namespace

std::string rehearsal_text(const Rehearsal& rehearsal, const verdict::Verdict& verdict, const trade::Words& words,
                           const TextOptions& options) {
  const Numbers numbers(words, options.scale);
  Sheet sheet(options);
  if (!verdict.findings.empty()) add_headline(sheet, verdict.findings.front(), numbers);
  add_findings(sheet, verdict, numbers);
  if (rehearsal.impossible) {
    sheet.blank();
    sheet.wrapped(
        "", numbers.say("text.not_rehearsed", {{"title", title_of(rehearsal)}, {"why", trade::in_language(*rehearsal.impossible, words)}}),
        0);
  }
  if (options.strip && !rehearsal.impossible) {
    sheet.blank();
    TerminalStripOptions strip;
    strip.plain_ascii = options.plain_ascii;
    sheet.line(sheet.strong(cut_to_columns(sheet.spelt(title_of(rehearsal)), width)));
    std::string picture = terminal_strip(rehearsal, numbers, strip);
    picture.pop_back();
    sheet.line(picture);
  }
  if (!rehearsal.impossible) add_table(sheet, rehearsal, numbers);
  std::vector<std::string> compared;
  for (const std::string& assumption : rehearsal.assumptions) compared.push_back(trade::in_language(assumption, words));
  if (!rehearsal.reference_tray.empty())
    compared.insert(compared.begin(), numbers.say("text.tray_of_comparison", {{"tray", rehearsal.reference_tray}}));
  add_list(sheet, numbers.say("text.comparison_takes"), compared);
  std::vector<std::string> from_shape;
  for (const std::string& taken : rehearsal.taken_from_shape) from_shape.push_back(trade::in_language(taken, words));
  add_list(sheet, numbers.say("text.from_shape"), from_shape);
  std::vector<std::string> from_checks;
  for (const trade::SaidOfCheck& said : rehearsal.request.furnace_known.said)
    from_checks.push_back(trade::in_language(said.sentence, words));
  add_list(sheet, numbers.say("text.from_checks"), from_checks);
  std::vector<std::string> places;
  for (const auto& [name, place] : rehearsal.request.came_from) places.push_back(name + ": " + place);
  add_list(sheet, numbers.say("text.came_from"), places);
  sheet.blank();
  sheet.wrapped("", numbers.say("safety.disclaimer"), 0, true);
  return options.plain_ascii ? in_plain_ascii(sheet.str()) : sheet.str();
}

}  // namespace heatwork::report
