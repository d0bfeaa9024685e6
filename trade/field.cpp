#include "trade/field.h"

#include <set>

#include "quantity/unit.h"
#include "trade/mistake.h"
#include "trade/slot.h"

namespace heatwork::trade {

using quantity::Reading;
using tl::make_unexpected;

std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\n') {
      out += "\\n";
    } else if (static_cast<unsigned char>(c) < 32 || c == 127) {
      out += fmt::format("\\u{:04X}", static_cast<unsigned>(c));
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string wrong_kind(const Node& node, std::string_view wanted) {
  return fmt::format("{} stands here; allowed is {}", kind_in_words(node.kind), wanted);
}

std::string not_one_of(std::string_view typed, const std::vector<std::string>& allowed) {
  const std::string near = quantity::near_miss(typed, allowed);
  const std::string guess = near.empty() ? std::string() : fmt::format("; did you mean \"{}\"?", near);
  return fmt::format("\"{}\" is not known; allowed are {}{}", for_message(typed), fmt::join(allowed, ", "), guess);
}

std::optional<std::string> wrong_name(std::string_view name, std::size_t most) {
  bool good = !name.empty() && name.size() <= most;
  for (const char c : name)
    good = good && ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_');
  if (good) return std::nullopt;
  return fmt::format("\"{}\" is not a name; allowed are up to {} letters a to z, digits, - and _", for_message(name), most);
}

Reading<double> NumberCodec::read_any(const Node& node) const {
  if (node.kind == Node::Kind::number || node.kind == Node::Kind::whole_number) {
    if (!unit.empty())
      return make_unexpected(fmt::format("{} has no unit; it is written in quotes such as {}", node.text, literal(usual())));
    if (!std::isfinite(node.number)) return make_unexpected(fmt::format("{} is not a finite number; allowed is {}", node.text, in_words()));
    return node.number;
  }
  if (node.kind != Node::Kind::text)
    return make_unexpected(wrong_kind(node, unit.empty() ? std::string("a number") : fmt::format("a number in {}, in quotes", unit)));
  if (unit.empty()) return quantity::read_number(node.text, "it");
  if (unit == "°C") return quantity::read<quantity::Temperature>(node.text).map([](auto t) { return std::round(t.celsius() * 1e9) / 1e9; });
  if (unit.starts_with("ln ")) {
    const std::string plain = quantity::plain_spelling(node.text);
    const std::string plain_unit = quantity::plain_spelling(unit);
    if (!plain.ends_with(plain_unit))
      return make_unexpected(
          fmt::format("\"{}\" does not end in \"{}\", the natural logarithm in that unit", for_message(node.text), unit));
    return quantity::read_number(std::string_view(plain).substr(0, plain.size() - plain_unit.size()),
                                 fmt::format("the part before \"{}\"", unit));
  }
  return quantity::read_in(node.text, unit, "it");
}

Reading<double> NumberCodec::read(const Node& node, const ReadingAid&) const {
  auto reading = read_any(node);
  if (!reading) return reading;
  if ((range.low && *reading < *range.low) || (range.high && *reading > *range.high))
    return make_unexpected(fmt::format("{} is out of range; allowed is {}",
                                       node.kind == Node::Kind::text ? in_quotes(for_message(node.text)) : node.text, in_words()));
  return reading;
}

std::string NumberCodec::literal(double value) const {
  return unit.empty() ? quantity::write_number(value) : in_quotes(quantity::write_in(value, unit));
}

std::string NumberCodec::in_words() const {
  return range_in_words<double>(
      range, [&](const double& value) { return unit.empty() ? quantity::write_number(value) : quantity::write_in(value, unit); });
}

double NumberCodec::usual() const {
  if (!range.low || !range.high) return 1;
  if (*range.low <= 0) return (*range.low + *range.high) / 2;
  const double middle = std::sqrt(*range.low * *range.high);
  const double step = std::pow(10, std::floor(std::log10(middle)) - 1);
  return std::clamp(std::round(middle / step) * step, *range.low, *range.high);
}

Nature NumberCodec::nature() const {
  const double example = usual();
  Nature nature{Nature::Type::number, "a number", quantity::write_number(example), {}, range.low, range.high, in_words()};
  if (!unit.empty())
    nature = {Nature::Type::text, fmt::format("a number in {}", unit), quantity::write_in(example, unit), {}, {}, {}, in_words()};
  const double least = range.low.value_or(-1);
  nature.pattern = pattern_of_unit(unit, least > 0 && unit != "°C" ? Sign::positive : least >= 0 ? Sign::not_negative : Sign::any);
  return nature;
}

Reading<int> WholeCodec::read(const Node& node, const ReadingAid&) const {
  const auto allowed = [&] { return range_in_words<int>(range, [](const int& value) { return fmt::format("{}", value); }); };
  if (node.kind != Node::Kind::whole_number) return make_unexpected(wrong_kind(node, fmt::format("a whole number, {}", allowed())));
  if ((range.low && node.number < *range.low) || (range.high && node.number > *range.high))
    return make_unexpected(fmt::format("{} is out of range; allowed is {}", node.text, allowed()));
  if (std::abs(node.number) > 1e9) return make_unexpected(fmt::format("{} is too large", node.text));
  return static_cast<int>(node.number);
}

Nature WholeCodec::nature() const {
  Nature nature{Nature::Type::whole_number, "a whole number", fmt::format("{}", range.low.value_or(1)), {}, {}, {}, {}};
  if (range.low) nature.low = *range.low;
  if (range.high) nature.high = *range.high;
  nature.range = range_in_words<int>(range, [](const int& value) { return fmt::format("{}", value); });
  return nature;
}

Reading<bool> TruthCodec::read(const Node& node, const ReadingAid&) const {
  if (node.kind != Node::Kind::truth) return make_unexpected(wrong_kind(node, "true or false, without quotes"));
  return node.truth;
}

std::string TextCodec::in_words() const {
  if (is_name) return "a name in quotes";
  return allowed.empty() ? std::string("a text in quotes") : fmt::format("a word in quotes: {}", fmt::join(allowed, ", "));
}

Reading<std::string> TextCodec::read(const Node& node, const ReadingAid&) const {
  if (node.kind != Node::Kind::text) return make_unexpected(wrong_kind(node, in_words()));
  if (is_name)
    if (auto mistake = wrong_name(node.text, longest)) return make_unexpected(*mistake);
  if (node.text.size() > longest) return make_unexpected(fmt::format("the text has {} bytes; allowed are {}", node.text.size(), longest));
  if (!may_be_empty && node.text.find_first_not_of(" \t\n") == std::string::npos)
    return make_unexpected(std::string("the text is empty; at least one letter is needed"));
  if (!allowed.empty() && std::find(allowed.begin(), allowed.end(), node.text) == allowed.end())
    return make_unexpected(not_one_of(node.text, allowed));
  return node.text;
}

Nature TextCodec::nature() const {
  Nature nature{Nature::Type::text, "a text", "", {}, {}, {}, {}};
  if (is_name) {
    nature = {Nature::Type::text, "a name", "window", {}, {}, {}, fmt::format("letters a to z, digits, - and _, at most {}", longest)};
    nature.pattern = fmt::format("^[A-Za-z0-9_-]{{1,{}}}$", longest);
  } else if (!allowed.empty()) {
    nature = {Nature::Type::text, "a word", allowed.front(), allowed, {}, {}, {}};
  } else {
    nature.longest = longest;
    if (!may_be_empty) nature.pattern = "[^ \t\n]";
  }
  return nature;
}

Reading<std::string> HashCodec::read(const Node& node, const ReadingAid& aid) const {
  const auto text = TextCodec{4000}.read(node, aid);
  if (!text) return text;
  if (text->size() != 64 || text->find_first_not_of("0123456789abcdef") != std::string::npos)
    return make_unexpected(fmt::format("\"{}\" is not a hash; it has 64 hexadecimal digits 0 to 9 and a to f", for_message(*text)));
  return text;
}

Nature HashCodec::nature() const {
  Nature nature{Nature::Type::text, "a hash", "", {}, {}, {}, "64 hexadecimal digits"};
  nature.pattern = "^[0-9a-f]{64}$";
  return nature;
}

namespace {

constexpr std::size_t most_names = 40;

/// Teeth by the two-digit notation of ISO 3950: quadrants 1 to 4 with teeth 1 to 8, 5 to 8 with 1 to 5 (milk teeth).
bool is_tooth(double number) {
  const int tooth = static_cast<int>(number);
  const int quadrant = tooth / 10;
  const int place = tooth % 10;
  return number == tooth && quadrant >= 1 && quadrant <= 8 && place >= 1 && place <= (quadrant <= 4 ? 8 : 5);
}

class TeethSlot : public Slot {
 public:
  TeethSlot(std::vector<int>& teeth, std::size_t most) : teeth_(teeth), most_(most) {}
  std::optional<std::string> take(const Node& node, const ReadingAid&) override {
    if (node.kind != Node::Kind::list) return wrong_kind(node, "a list of teeth such as [14, 15]");
    if (node.items.size() > most_) return fmt::format("{} teeth are written; allowed are {}", node.items.size(), most_);
    std::set<int> seen;
    for (const auto& item : node.items) {
      if (item.kind != Node::Kind::whole_number || !is_tooth(item.number))
        return fmt::format(
            "{} is not a tooth of ISO 3950; allowed are 11 to 48 and 51 to 85, such as [14, 15]",
            item.kind == Node::Kind::whole_number || item.kind == Node::Kind::number ? item.text : std::string(kind_in_words(item.kind)));
      if (!seen.insert(static_cast<int>(item.number)).second) return fmt::format("tooth {} is written twice; each stands once", item.text);
      teeth_.push_back(static_cast<int>(item.number));
    }
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override { return !teeth_.empty(); }
  [[nodiscard]] std::string literal() const override { return fmt::format("[{}]", fmt::join(teeth_, ", ")); }
  [[nodiscard]] Nature nature() const override {
    Nature nature{Nature::Type::whole_numbers, "teeth by ISO 3950", "[14, 15]", {}, {}, {}, "11 to 48 and 51 to 85"};
    nature.longest = most_;
    for (int number = 11; number <= 85; ++number)
      if (is_tooth(number)) nature.numbers.push_back(number);
    return nature;
  }

 private:
  std::vector<int>& teeth_;
  std::size_t most_;
};

/// Names in the order written, each once.
class NamesSlot : public Slot {
 public:
  NamesSlot(std::vector<Given<std::string>>& names, std::size_t at_least) : names_(names), at_least_(at_least) {}
  std::optional<std::string> take(const Node& node, const ReadingAid& aid) override {
    if (node.kind != Node::Kind::list) return wrong_kind(node, "a list of names such as [\"first\", \"second\"]");
    if (node.items.size() > most_names) return fmt::format("{} names are written; allowed are {}", node.items.size(), most_names);
    if (node.items.size() < at_least_) return fmt::format("{} names are written; at least {} is needed", node.items.size(), at_least_);
    std::set<std::string> seen;
    for (const auto& item : node.items) {
      const auto name = TextCodec{60, true}.read(item, aid);
      if (!name) return name.error();
      if (!seen.insert(*name).second) return fmt::format("\"{}\" is written twice; each name stands once", *name);
      names_.push_back({*name, item.text, item.place});
    }
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override { return !names_.empty(); }
  [[nodiscard]] std::string literal() const override {
    std::vector<std::string> quoted;
    for (const auto& name : names_) quoted.push_back(in_quotes(name.value));
    return fmt::format("[{}]", fmt::join(quoted, ", "));
  }
  [[nodiscard]] std::vector<std::string> texts() const override {
    std::vector<std::string> all;
    for (const auto& name : names_) all.push_back(name.value);
    return all;
  }
  [[nodiscard]] Nature nature() const override {
    Nature nature{Nature::Type::texts, "a list of names", "[\"first\", \"second\"]", {}, {}, {}, {}};
    nature.pattern = name_pattern;
    nature.shortest = at_least_;
    nature.longest = most_names;
    return nature;
  }

 private:
  std::vector<Given<std::string>>& names_;
  std::size_t at_least_;
};

}  // namespace

void Fields::references(std::string_view key, std::vector<Given<std::string>>& names, Noun to, std::string_view meaning,
                        std::size_t at_least) {
  NamesSlot slot(names, at_least);
  value({key, meaning, at_least > 0, {}, Role::reference, to}, slot);
}

void Fields::required_in(std::string_view key, Given<double>& given, std::string_view unit, std::string_view meaning,
                         Between<double> range) {
  GivenSlot slot(given, NumberCodec{std::string(unit), range});
  value({key, meaning, true}, slot);
}

void Fields::optional_in(std::string_view key, Maybe<double>& maybe, std::string_view unit, std::string_view meaning,
                         Between<double> range) {
  MaybeSlot slot(maybe, NumberCodec{std::string(unit), range});
  value({key, meaning, false}, slot);
}

void Fields::words(std::string_view key, std::string& text, std::vector<std::string> allowed, std::string_view meaning, bool is_required,
                   Role role) {
  PlainSlot slot(text, TextCodec{100, false, std::move(allowed)});
  value({key, meaning, is_required, {}, role}, slot);
}

void Fields::text(std::string_view key, std::string& text, std::string_view meaning, Role role) {
  PlainSlot slot(text, TextCodec{4000});
  value({key, meaning, false, {}, role}, slot);
}

void Fields::text(std::string_view key, Given<std::string>& text, std::string default_text, std::string_view meaning, Role role) {
  GivenSlot slot(text, TextCodec{400});
  value({key, meaning, false, std::move(default_text), role}, slot);
}

void Fields::placed_text(std::string_view key, std::string& text, std::string_view meaning, PlacesByKey* places, bool is_required) {
  PlacedSlot slot(text, places, key, TextCodec{4000, false, {}, !is_required});
  value({key, meaning, is_required, {}, Role::for_people}, slot);
}

void Fields::hash(std::string_view key, std::string& hash, std::string_view meaning, bool is_required) {
  PlainSlot slot(hash, HashCodec{});
  value({key, meaning, is_required, {}, Role::for_people}, slot);
}

void Fields::count(std::string_view key, int& number, std::string_view meaning, Between<int> range, std::string default_text) {
  PlainSlot slot(number, WholeCodec{range});
  value({key, meaning, default_text.empty(), default_text, Role::for_people}, slot);
}

void Fields::needed_truth(std::string_view key, bool& truth, std::string_view meaning) {
  PlainSlot slot(truth, TruthCodec{});
  value({key, meaning, true, {}, Role::for_people}, slot);
}

void Fields::truth(std::string_view key, bool& truth, bool default_truth, std::string_view meaning) {
  PlainSlot slot(truth, TruthCodec{});
  value({key, meaning, false, default_truth ? "true" : "false"}, slot);
}

void Fields::reference(std::string_view key, Given<std::string>& name, Noun to, std::string_view meaning) {
  GivenSlot slot(name, TextCodec{60, true});
  value({key, meaning, true, {}, Role::reference, to}, slot);
}

void Fields::reference(std::string_view key, Maybe<std::string>& name, Noun to, std::string_view meaning) {
  MaybeSlot slot(name, TextCodec{60, true});
  value({key, meaning, false, {}, Role::reference, to}, slot);
}

void Fields::teeth(std::string_view key, std::vector<int>& teeth, std::string_view meaning, std::size_t most) {
  TeethSlot slot(teeth, most);
  value({key, meaning, false, {}, Role::for_people}, slot);
}

void Fields::naming(std::string& name, std::string& label, std::string& note) {
  PlainSlot slot(name, TextCodec{60, true});
  value({"name", "by which other files call it", true, {}, Role::for_people}, slot);
  text("label", label, "what people call it");
  text("note", note, "anything worth keeping");
}

}  // namespace heatwork::trade
