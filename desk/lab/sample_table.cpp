#include "desk/lab/sample_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

#include "desk/errors.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t no_column = std::string_view::npos;

std::string trimmed(std::string_view text) {
  while (!text.empty() && (std::isspace(static_cast<unsigned char>(text.front())) != 0 || text.front() == '"')) text.remove_prefix(1);
  while (!text.empty() && (std::isspace(static_cast<unsigned char>(text.back())) != 0 || text.back() == '"')) text.remove_suffix(1);
  return std::string(text);
}

std::vector<std::string> cells_of(std::string_view line, char between) {
  std::vector<std::string> cells;
  for (std::size_t at = 0; at <= line.size();) {
    const std::size_t end = std::min(line.find(between, at), line.size());
    cells.push_back(trimmed(line.substr(at, end - at)));
    at = end + 1;
  }
  return cells;
}

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return text;
}

/// "s" of "time (s)" and "time [s]"; empty: none.
std::string unit_in(const std::string& title) {
  const auto open = title.find_first_of("([");
  const auto close = title.find_last_of(")]");
  return open == std::string::npos || close == std::string::npos || close < open ? "" : trimmed(title.substr(open + 1, close - open - 1));
}

struct Columns {
  char between = ',';
  std::size_t time = no_column, shown = no_column, furnace = no_column;
  std::string time_unit, shown_unit;
};

[[noreturn]] void refuse_line(std::string_view name, std::size_t line, const std::string& what) {
  throw Failure(ErrorWord::bad_file, fmt::format("{}, line {}: {}.", name, line, what));
}

Columns columns_of(std::string_view name, std::string_view header) {
  Columns columns;
  for (const char between : {';', '\t'}) {
    if (header.find(between) != std::string_view::npos) columns.between = between;
  }
  const std::vector<std::string> titles = cells_of(header, columns.between);
  for (std::size_t i = 0; i < titles.size(); ++i) {
    const std::string title = lower(titles[i]);
    if (title.starts_with("time") || title.starts_with("zeit")) {
      columns.time = i;
      columns.time_unit = unit_in(titles[i]);
    } else if (title == "furnace" || title == "ofen") {
      columns.furnace = i;
    } else if (columns.shown == no_column) {
      columns.shown = i;
      columns.shown_unit = unit_in(titles[i]);
    } else {
      refuse_line(name, 1,
                  fmt::format("\"{}\" is one column too many; there are a time, what was shown, and the furnace where it is named",
                              trade::for_message(titles[i])));
    }
  }
  if (columns.time == no_column || columns.shown == no_column)
    refuse_line(name, 1, "the first line names the columns, such as \"time (s),pressure (mbar)\" or \"time (s),temperature (°C)\"");
  return columns;
}

std::string with_unit(const std::string& cell, const std::string& unit) {
  const bool is_number = cell.find_first_of("0123456789") != std::string::npos;
  const bool has_one = is_number && cell.find_first_not_of("+-.,0123456789") != std::string::npos;
  return unit.empty() || has_one ? cell : fmt::format("{} {}", cell, unit);
}

/// A file of a table as it is read line by line.
class Reader {
 public:
  Reader(std::string_view name, std::string_view text) : name_(name), rest_(text) {
    if (rest_.starts_with(byte_order_mark)) rest_.remove_prefix(byte_order_mark.size());
  }
  /// The next line that holds something.
  std::optional<std::string> line() {
    while (!rest_.empty()) {
      const std::size_t end = std::min(rest_.find('\n'), rest_.size());
      const std::string line = trimmed(rest_.substr(0, end)).empty() ? "" : std::string(rest_.substr(0, end));
      rest_.remove_prefix(std::min(end + 1, rest_.size()));
      ++number_;
      if (!line.empty()) return line;
    }
    return std::nullopt;
  }
  [[nodiscard]] std::size_t number() const { return number_; }
  [[nodiscard]] std::string_view name() const { return name_; }

 private:
  std::string_view name_, rest_;
  std::size_t number_ = 0;
};

void take_furnace(const Reader& reader, const std::string& said, SampleTable& table) {
  if (said.empty()) return;
  if (!table.furnace.empty() && table.furnace != said)
    refuse_line(reader.name(), reader.number(),
                fmt::format("the furnace is \"{}\" here and \"{}\" above; a record is of one furnace", trade::for_message(said),
                            trade::for_message(table.furnace)));
  table.furnace = said;
}

}  // namespace

SampleTable read_sample_table(std::string_view name, std::string_view text) {
  Reader reader(name, text);
  const auto header = reader.line();
  if (!header) throw Failure(ErrorWord::bad_file, fmt::format("{} is empty; a record has a line of titles and a row a reading.", name));
  const Columns columns = columns_of(name, *header);
  SampleTable table;
  std::optional<double> first_s;
  while (const auto line = reader.line()) {
    const std::vector<std::string> cells = cells_of(*line, columns.between);
    if (cells.size() <= std::max(columns.time, columns.shown))
      refuse_line(name, reader.number(), "the row has fewer cells than there are titles");
    const auto after = quantity::read<quantity::Duration>(with_unit(cells[columns.time], columns.time_unit));
    if (!after) refuse_line(name, reader.number(), after.error());
    if (!first_s) first_s = after->si();
    if (after->si() < *first_s)
      refuse_line(name, reader.number(), "the clock went back before the first reading; rows stand in the order of time");
    if (columns.furnace != no_column && columns.furnace < cells.size()) take_furnace(reader, cells[columns.furnace], table);
    table.samples.push_back(fmt::format("{}, {}", quantity::write(quantity::seconds(after->si() - *first_s)),
                                        with_unit(cells[columns.shown], columns.shown_unit)));
  }
  if (table.samples.empty()) throw Failure(ErrorWord::bad_file, fmt::format("{} holds titles and no reading.", name));
  return table;
}

}  // namespace heatwork::desk
