#include "trade/toml_text.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <utility>

#include "trade/mistake.h"
#include "trade/utf8.h"

namespace heatwork::trade {
namespace {

using SourcePtr = std::shared_ptr<const Source>;

Place place_at(const SourcePtr& source, const toml::source_position& position) {
  return {source, static_cast<int>(position.line), static_cast<int>(position.column)};
}

/// Line and column of a byte.
Place place_of_byte(const SourcePtr& source, std::size_t byte) {
  const std::string_view before = std::string_view(source->text).substr(0, byte);
  const auto line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  return {source, static_cast<int>(line), static_cast<int>(1 + count_letters(before.substr(line_start)))};
}

bool comes_before(const Place& a, const Place& b) {
  return std::pair(a.line, a.column) < std::pair(b.line, b.column);
}

Node node_of(const SourcePtr& source, const toml::node& from);

Node table_of(const SourcePtr& source, const toml::table& from) {
  Node node;
  for (const auto& [key, value] : from)
    node.entries.push_back({std::string(key.str()), place_at(source, key.source().begin), node_of(source, value)});
  std::stable_sort(node.entries.begin(), node.entries.end(), [](const Entry& a, const Entry& b) { return comes_before(a.place, b.place); });
  return node;
}

Node node_of(const SourcePtr& source, const toml::node& from) {
  Node node;
  if (const auto* table = from.as_table()) {
    node = table_of(source, *table);
  } else if (const auto* list = from.as_array()) {
    node.kind = Node::Kind::list;
    for (const auto& item : *list) node.items.push_back(node_of(source, item));
  } else if (const auto text = from.value_exact<std::string>()) {
    node.kind = Node::Kind::text;
    node.text = *text;
  } else if (const auto whole = from.value_exact<std::int64_t>()) {
    node.kind = Node::Kind::whole_number;
    node.number = static_cast<double>(*whole);
    node.text = fmt::format("{}", *whole);
  } else if (const auto number = from.value_exact<double>()) {
    node.kind = Node::Kind::number;
    node.number = *number;
    node.text = fmt::format("{}", *number);
  } else if (const auto truth = from.value_exact<bool>()) {
    node.kind = Node::Kind::truth;
    node.truth = *truth;
    node.text = *truth ? "true" : "false";
  } else {
    node.kind = Node::Kind::time;
  }
  node.place = place_at(source, from.source().begin);
  return node;
}

/// The parser says what it expected in its own terms; here in the user's. Checked from the top, first match wins.
constexpr std::array<std::pair<std::string_view, std::string_view>, 19> rewordings{{
    {"cannot insert", "this key is written both as a value and as a table; it can be one of them"},
    {"nested value depth", "tables and lists stand too deep inside one another; no file here needs more than six levels"},
    {"escape sequence", "a backslash in quotes starts a special letter; write \\\\ for a backslash, or use single quotes"},
    {"expected hex digit", "a backslash in quotes starts a special letter; write \\\\ for a backslash, or use single quotes"},
    {"inline table", "a table in braces is written on one line, with a comma between two keys and none at the end"},
    {"representable", "this number is too large; a quantity is written in quotes with its unit, such as \"55 K/min\""},
    {"could not be interpreted", "this number is too large; a quantity is written in quotes with its unit, such as \"55 K/min\""},
    {"leading zeroes", "a number without quotes does not begin with a zero"},
    {"expected decimal digit", "a digit is missing in this number; a quantity is written in quotes with its unit, such as \"55 K/min\""},
    {"parsing boolean", "a word is written in quotes, such as \"glaze\"; only true and false stand without, in small letters"},
    {"parsing date", "there is no such day; a date is written in quotes, such as \"2026-03-17\""},
    {"control character", "there is an invisible control character here; retype the line"},
    {"encountered end-of-file", "the file ends in the middle of something; close what was opened: quotes, ] or }"},
    {"expected '='", "a key is followed by = and its value, such as entry = \"437 °C\""},
    {"expected value-terminator", "something stands after the value; a quantity is written in quotes, such as \"55 K/min\""},
    {"could not determine value type",
     "a quantity or a word is written in quotes, such as \"55 K/min\" or \"glaze\"; numbers, true and false without"},
    {"expected value", "the value is missing; a quantity or a word is written in quotes, such as \"55 K/min\""},
    {"expected bare key", "a line begins with a key, a [TABLE] or a # for a note"},
    {"expected ']'", "the name of a table is closed by ], that of a list of tables by ]]"},
}};

constexpr std::string_view quotes_of_print[] = {"“", "”", "„", "‘", "’", "«", "»"};

/// The name a message of the parser quotes last, such as the key that stands twice.
std::string quoted_name(std::string_view theirs) {
  const auto end = theirs.rfind('\'');
  if (end == std::string_view::npos || end == 0) return {};
  const auto start = theirs.rfind('\'', end - 1);
  return start == std::string_view::npos ? std::string() : for_message(theirs.substr(start + 1, end - start - 1));
}

/// The user's line up to the place of the mistake, and whether the line ends there.
struct LineSoFar {
  std::string text;
  bool at_end = false;
};

LineSoFar line_before(const Place& place) {
  LineSoFar line;
  int number = 1;
  int column = 1;
  for (const char c : place.source->text) {
    if (number == place.line && column >= place.column) {
      line.at_end = c == '\n' || c == '\r';
      return line;
    }
    if (number == place.line) line.text += c;
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++column;
    if (c != '\n') continue;
    if (number == place.line) break;
    ++number;
    column = 1;
  }
  line.at_end = true;
  return line;
}

/// The user's line from the place of the mistake on.
std::string_view line_after(const Place& place, const LineSoFar& before) {
  std::string_view text = place.source->text;
  for (int line = 1; line < place.line; ++line) text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  text = text.substr(0, text.find_first_of("\r\n"));
  return text.substr(std::min(before.text.size(), text.size()));
}

/// What stands twice, said as the user wrote it: as a [TABLE], a [[TABLE]] or a key.
std::string written_twice(std::string_view theirs, const Place& place) {
  const std::string name = quoted_name(theirs);
  const LineSoFar before = line_before(place);
  const std::string line = before.text + std::string(line_after(place, before));
  if (theirs.find("dotted") != std::string_view::npos)
    return "this key goes on from one that holds a value already; a key holds a value or a table, not both";
  if (line.starts_with("[["))
    return fmt::format("[[{0}]] follows a [{0}] or what belongs inside it; each of them is written [[{0}]], before its own tables", name);
  if (theirs.find("existing array") != std::string_view::npos && line.starts_with("["))
    return fmt::format("[{0}] is a list of tables further up; each of them is written [[{0}]]", name);
  if (theirs.find("existing table") != std::string_view::npos && line.starts_with("["))
    return fmt::format("[{}] is written twice; each [TABLE] stands once, a list of them is written [[TABLE]]", name);
  if (theirs.find(" as ") != std::string_view::npos && place.source->text.find(fmt::format("[{}]", name)) != std::string::npos)
    return fmt::format("\"{}\" is written both as a value and as a table; it can be one of them", name);
  return fmt::format("\"{}\" is written twice; each key stands once in its table", name);
}

std::string reworded(std::string_view theirs, const Place& place) {
  if (theirs.find("cannot redefine") != std::string_view::npos) return written_twice(theirs, place);
  const LineSoFar line = line_before(place);
  const std::string_view rest = line_after(place, line);
  for (const auto quote : quotes_of_print)
    if (rest.starts_with(quote)) return "quotes are written \" at both ends here, not as a printed book has them";
  const bool has_triple = place.source->text.find("\"\"\"") != std::string::npos || place.source->text.find("'''") != std::string::npos;
  if (theirs.find("string: encountered end-of-file") != std::string_view::npos && has_triple)
    return "a text in three quotes is opened and never closed; a text on one line has one quote at each end";
  if (theirs.find("string") != std::string_view::npos && line.at_end) return "a text in quotes ends on its own line; close the quotes";
  for (const auto& [part, ours] : rewordings)
    if (theirs.find(part) != std::string_view::npos) return std::string(ours);
  if (line.text.find('=') != std::string::npos)
    return "this is no value; a quantity or a word is written in quotes and nothing after it, such as \"55 K/min\" or \"glaze\"";
  return "this is not written as a file should be; allowed are lines KEY = \"VALUE\", [TABLE], [[TABLE]] and # for a note";
}

void check_letters(const SourcePtr& source) {
  const std::string_view text = source->text;
  if (text.size() > largest_text)
    throw Mistake({source, 1, 1}, fmt::format("the file has {:.1f} MB; files up to {} MB are read",
                                              static_cast<double>(text.size()) / 1048576.0, largest_text >> 20U));
  const std::size_t wrong = first_wrong_byte(text);
  if (wrong == std::string_view::npos) return;
  const auto byte = static_cast<unsigned char>(text[wrong]);
  throw Mistake(place_of_byte(source, wrong),
                fmt::format("byte 0x{:02X} is not UTF-8; save the file as UTF-8 (a degree sign may also be left out: \"850 C\")", byte));
}

constexpr int most_dots = 8;

/// Refuses keys such as a.a.a.a... before the parser makes a table of every part: a long enough one would exhaust its stack.
class KeyDepth {
 public:
  explicit KeyDepth(const SourcePtr& source) : source_(source), text_(source->text) {}

  void check() {
    int dots = 0;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '#') {
        at_ = std::min(text_.find('\n', at_), text_.size());
      } else if (c == '"' || c == '\'') {
        skip_quotes(c);
      } else {
        if (c == '.' && ++dots > most_dots)
          throw Mistake(place_of_byte(source_, at_),
                        "tables and lists stand too deep inside one another; no file here needs more than six levels");
        if (std::string_view("\n,={}[]").find(c) != std::string_view::npos) dots = 0;
        ++at_;
      }
    }
  }

 private:
  /// To the end of a text in one or three quotes; what is never closed is left to the parser.
  void skip_quotes(char quote) {
    const std::string three(3, quote);
    const bool is_long = text_.substr(at_, 3) == three;
    at_ += is_long ? 3 : 1;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '\n' && !is_long) return;
      if (c == '\\' && quote == '"') {
        at_ += 2;
        continue;
      }
      if (is_long ? text_.substr(at_, 3) == three : c == quote) {
        at_ += is_long ? 3 : 1;
        return;
      }
      ++at_;
    }
  }

  const SourcePtr& source_;
  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

const Node* Node::find(std::string_view key) const {
  for (const auto& entry : entries)
    if (entry.key == key) return &entry.value;
  return nullptr;
}

Node parse_toml(const SourcePtr& source) {
  check_letters(source);
  KeyDepth(source).check();
  try {
    Node node = table_of(source, toml::parse(std::string_view(source->text)));
    node.place = {source, 1, 1};
    return node;
  } catch (const toml::parse_error& error) {
    const Place place = place_at(source, error.source().begin);
    throw Mistake(place, reworded(error.description(), place));
  }
}

std::string_view kind_in_words(Node::Kind kind) {
  switch (kind) {
    case Node::Kind::table:
      return "a table";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::text:
      return "a text in quotes";
    case Node::Kind::whole_number:
      return "a whole number";
    case Node::Kind::number:
      return "a number";
    case Node::Kind::truth:
      return "true or false";
    case Node::Kind::time:
      return "a date or time";
  }
  return "something else";
}

}  // namespace heatwork::trade
