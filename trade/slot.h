// The kinds of value a field may hold, each as a Slot. Included by the field tables' own sources only.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/field.h"
#include "trade/pattern.h"

namespace heatwork::trade {

/// A text between quotes as TOML writes it.
[[nodiscard]] std::string in_quotes(std::string_view text);
/// "entry is a whole number; it is ...": the sentence for a value of the wrong kind.
[[nodiscard]] std::string wrong_kind(const Node& node, std::string_view wanted);
/// Allowed words, and the nearest where there is one.
[[nodiscard]] std::string not_one_of(std::string_view typed, const std::vector<std::string>& allowed);

/// Name, example and example range of a kind of quantity, for schema and sentences.
template <class T>
struct KindWords;
#define HEATWORK_KIND(type, kind_text, example_text, never_negative) \
  template <>                                                        \
  struct KindWords<quantity::type> {                                 \
    static constexpr std::string_view kind = kind_text;              \
    static constexpr std::string_view example = example_text;        \
    static constexpr bool is_never_negative = never_negative;        \
  }
HEATWORK_KIND(Temperature, "a temperature", "850 °C", false);
HEATWORK_KIND(TemperatureDifference, "a temperature difference", "12 K", false);
HEATWORK_KIND(HeatingRate, "a heating rate", "55 K/min", false);
HEATWORK_KIND(Duration, "a duration", "1 min 30 s", true);
HEATWORK_KIND(Pressure, "a pressure", "50 mbar", true);
HEATWORK_KIND(PressureRate, "a rate of pressure", "0.02 mbar/s", false);
HEATWORK_KIND(Length, "a length", "0.7 mm", false);
HEATWORK_KIND(Area, "an area", "2.4 cm2", true);
HEATWORK_KIND(Volume, "a volume", "1.3 l", true);
HEATWORK_KIND(Mass, "a mass", "31 g", true);
HEATWORK_KIND(Voltage, "a voltage", "230 V", true);
HEATWORK_KIND(Fraction, "a share", "70 %", false);
HEATWORK_KIND(Frequency, "a rate per time", "0.004 /s", false);
#undef HEATWORK_KIND

template <class T>
std::string range_in_words(const Between<T>& range, const std::function<std::string(const T&)>& written) {
  if (range.low && range.high) return fmt::format("{} to {}", written(*range.low), written(*range.high));
  if (range.low) return fmt::format("at least {}", written(*range.low));
  if (range.high) return fmt::format("at most {}", written(*range.high));
  return {};
}

/// Reading and writing of one type of quantity.
template <class T>
struct QuantityCodec {
  Between<T> range;
  Kept kept = Kept::rounded;

  [[nodiscard]] quantity::Reading<T> read(const Node& node, const ReadingAid& aid) const {
    if (node.kind == Node::Kind::whole_number || node.kind == Node::Kind::number)
      return tl::make_unexpected(fmt::format("{} has no unit; {} is written in quotes such as \"{}\"", for_numbers(node),
                                             KindWords<T>::kind, KindWords<T>::example));
    if (node.kind != Node::Kind::text)
      return tl::make_unexpected(wrong_kind(node, fmt::format("{} in quotes, such as \"{}\"", KindWords<T>::kind, KindWords<T>::example)));
    quantity::Reading<T> reading = read_text(node.text, aid);
    if (!reading) return reading;
    if ((range.low && *reading < *range.low) || (range.high && *reading > *range.high))
      return tl::make_unexpected(fmt::format("\"{}\" is out of range; allowed is {}", node.text, in_words()));
    if (kept == Kept::exact) return reading;
    const T rounded = quantity::canonical(*reading);
    if (rounded == T{} && *reading != T{})
      return tl::make_unexpected(
          fmt::format("\"{}\" is finer than what is kept here; the smallest step is {}", node.text, smallest_step()));
    return rounded;
  }
  [[nodiscard]] std::string literal(const T& value) const { return in_quotes(quantity::write(value)); }
  [[nodiscard]] std::string in_words() const {
    return range_in_words<T>(range, [&](const T& value) {
      if constexpr (std::is_same_v<T, quantity::Length>) {
        if (range.high && range.high->si() > 100) return quantity::write_in(value.si(), "m");  // a place on the earth, not a tooth
      }
      return quantity::write(value);
    });
  }
  [[nodiscard]] Nature nature() const {
    Nature nature{Nature::Type::text, std::string(KindWords<T>::kind), std::string(KindWords<T>::example), {}, {}, {}, in_words()};
    nature.pattern = pattern_of_kind(KindWords<T>::kind, sign());
    return nature;
  }

 private:
  [[nodiscard]] Sign sign() const {
    const Sign least = KindWords<T>::is_never_negative ? Sign::not_negative : Sign::any;
    if (!range.low) return least;
    if constexpr (std::is_same_v<T, quantity::Temperature>) {
      return range.low->celsius() >= 0 ? Sign::not_negative : least;  // 0 °F is a temperature like any other
    } else {
      return range.low->si() > 0 ? Sign::positive : range.low->si() >= 0 ? Sign::not_negative : least;
    }
  }
  static std::string for_numbers(const Node& node) { return node.text; }
  static quantity::Reading<T> read_text(const std::string& text, const ReadingAid& aid) {
    if constexpr (std::is_same_v<T, quantity::Pressure>) {
      return quantity::read_pressure(text, aid.ambient);
    } else {
      return quantity::read<T>(text);
    }
  }
  static std::string smallest_step() {
    if constexpr (std::is_same_v<T, quantity::Duration>) return "1 s";
    if constexpr (std::is_same_v<T, quantity::Pressure>) return "0.1 mbar";
    if constexpr (std::is_same_v<T, quantity::HeatingRate>) return "0.01 K/min";
    return "0.01 K";
  }
};

/// A number with a unit that has no type of its own, or without unit.
struct NumberCodec {
  std::string unit;
  Between<double> range;
  bool whole = false;

  [[nodiscard]] quantity::Reading<double> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(double value) const;
  [[nodiscard]] Nature nature() const;
  [[nodiscard]] std::string in_words() const;

 private:
  [[nodiscard]] quantity::Reading<double> read_any(const Node& node) const;
  /// A round number in the middle of the range, for examples.
  [[nodiscard]] double usual() const;
};

struct WholeCodec {
  Between<int> range;
  [[nodiscard]] quantity::Reading<int> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(int value) const { return fmt::format("{}", value); }
  [[nodiscard]] Nature nature() const;
};

struct TruthCodec {
  [[nodiscard]] quantity::Reading<bool> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(bool value) const { return value ? "true" : "false"; }
  [[nodiscard]] Nature nature() const { return {Nature::Type::truth, "true or false", "true", {}, {}, {}, {}}; }
};

/// Free text, a name, or one of some words.
struct TextCodec {
  std::size_t longest = 400;
  bool is_name = false;
  std::vector<std::string> allowed = {};
  bool may_be_empty = true;
  [[nodiscard]] quantity::Reading<std::string> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(const std::string& value) const { return in_quotes(value); }
  [[nodiscard]] Nature nature() const;

 private:
  [[nodiscard]] std::string in_words() const;
};

/// A day of the calendar such as 2026-03-17.
struct DateCodec {
  [[nodiscard]] quantity::Reading<std::string> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(const std::string& value) const { return in_quotes(value); }
  [[nodiscard]] Nature nature() const;
};

/// A moment in UTC such as 2026-11-25T17:11:04Z; thousandths of a second may follow.
struct TimeCodec {
  [[nodiscard]] quantity::Reading<std::string> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(const std::string& value) const { return in_quotes(value); }
  [[nodiscard]] Nature nature() const;
};

/// Whether the first moment, as TimeCodec keeps it, lies before the second.
[[nodiscard]] bool is_before(const std::string& first, const std::string& second);

/// The code a person goes by, also a log-in name of a machine.
struct PersonCodec {
  [[nodiscard]] quantity::Reading<std::string> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(const std::string& value) const { return in_quotes(value); }
  [[nodiscard]] Nature nature() const;
};

/// 64 hexadecimal digits.
struct HashCodec {
  [[nodiscard]] quantity::Reading<std::string> read(const Node& node, const ReadingAid& aid) const;
  [[nodiscard]] std::string literal(const std::string& value) const { return in_quotes(value); }
  [[nodiscard]] Nature nature() const;
};

template <class E>
struct ChoiceCodec {
  [[nodiscard]] quantity::Reading<E> read(const Node& node, const ReadingAid& aid) const {
    const auto words = choices<E>();
    return TextCodec{60, false, {words.begin(), words.end()}}.read(node, aid).map(
        [&](const std::string& text) { return static_cast<E>(std::find(words.begin(), words.end(), text) - words.begin()); });
  }
  [[nodiscard]] std::string literal(E value) const { return in_quotes(choices<E>()[static_cast<std::size_t>(value)]); }
  [[nodiscard]] Nature nature() const {
    const auto words = choices<E>();
    return TextCodec{60, false, {words.begin(), words.end()}}.nature();
  }
};

/// Of a quantity its number in SI; nothing of anything else.
template <class T>
std::optional<double> si_of(const T& value) {
  if constexpr (requires { value.si(); }) {
    return value.si();
  } else if constexpr (std::is_same_v<T, quantity::Temperature>) {
    return value.kelvin();
  } else {
    return std::nullopt;
  }
}

/// The slot of a value that keeps its place.
template <class T, class Codec>
class GivenSlot : public Slot {
 public:
  GivenSlot(Given<T>& given, Codec codec) : given_(given), codec_(std::move(codec)) {}
  std::optional<std::string> take(const Node& node, const ReadingAid& aid) override {
    auto reading = codec_.read(node, aid);
    if (!reading) return reading.error();
    given_ = {*reading, node.text, node.place};
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override { return true; }
  [[nodiscard]] std::string literal() const override { return codec_.literal(given_.value); }
  [[nodiscard]] std::string text() const override {
    if constexpr (std::is_same_v<T, std::string>) return given_.value;
    return {};
  }
  [[nodiscard]] std::string typed() const override { return given_.typed; }
  [[nodiscard]] std::optional<double> si() const override { return si_of(given_.value); }
  [[nodiscard]] Nature nature() const override { return codec_.nature(); }

 private:
  Given<T>& given_;
  Codec codec_;
};

/// The slot of a value that may be absent.
template <class T, class Codec>
class MaybeSlot : public Slot {
 public:
  MaybeSlot(Maybe<T>& maybe, Codec codec) : maybe_(maybe), codec_(std::move(codec)) {}
  std::optional<std::string> take(const Node& node, const ReadingAid& aid) override {
    auto reading = codec_.read(node, aid);
    if (!reading) return reading.error();
    maybe_ = Given<T>{*reading, node.text, node.place};
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override { return maybe_.has_value(); }
  [[nodiscard]] std::string literal() const override { return codec_.literal(maybe_->value); }
  [[nodiscard]] std::string text() const override {
    if constexpr (std::is_same_v<T, std::string>) return maybe_->value;
    return {};
  }
  [[nodiscard]] std::string typed() const override { return maybe_ ? maybe_->typed : std::string(); }
  [[nodiscard]] std::optional<double> si() const override { return maybe_ ? si_of(maybe_->value) : std::nullopt; }
  [[nodiscard]] Nature nature() const override { return codec_.nature(); }

 private:
  Maybe<T>& maybe_;
  Codec codec_;
};

/// The slot of a plain value without a place.
template <class T, class Codec>
class PlainSlot : public Slot {
 public:
  PlainSlot(T& plain, Codec codec) : plain_(plain), codec_(std::move(codec)) {}
  std::optional<std::string> take(const Node& node, const ReadingAid& aid) override {
    auto reading = codec_.read(node, aid);
    if (!reading) return reading.error();
    plain_ = *reading;
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override {
    if constexpr (std::is_same_v<T, std::string>) return !plain_.empty();
    return true;
  }
  [[nodiscard]] std::string literal() const override { return codec_.literal(plain_); }
  [[nodiscard]] std::string text() const override {
    if constexpr (std::is_same_v<T, std::string>) return plain_;
    return {};
  }
  [[nodiscard]] Nature nature() const override { return codec_.nature(); }

 private:
  T& plain_;
  Codec codec_;
};

/// The slot of a plain text whose place may be kept beside it.
template <class Codec>
class PlacedSlot : public PlainSlot<std::string, Codec> {
 public:
  PlacedSlot(std::string& plain, PlacesByKey* places, std::string_view key, Codec codec)
      : PlainSlot<std::string, Codec>(plain, std::move(codec)), places_(places), key_(key) {}
  std::optional<std::string> take(const Node& node, const ReadingAid& aid) override {
    if (places_ != nullptr) (*places_)[key_] = node.place;
    return PlainSlot<std::string, Codec>::take(node, aid);
  }

 private:
  PlacesByKey* places_;
  std::string key_;
};

template <class T>
auto codec_of(const Between<T>& range, Kept kept) {
  if constexpr (std::is_same_v<T, bool>) {
    return TruthCodec{};
  } else if constexpr (std::is_same_v<T, int>) {
    return WholeCodec{range};
  } else if constexpr (std::is_same_v<T, double>) {
    return NumberCodec{{}, range};
  } else {
    return QuantityCodec<T>{range, kept};
  }
}

template <class T>
void Fields::required(std::string_view key, Given<T>& given, std::string_view meaning, Between<T> range, Kept kept) {
  GivenSlot slot(given, codec_of<T>(range, kept));
  value({key, meaning, true}, slot);
}

template <class T>
void Fields::otherwise(std::string_view key, Given<T>& given, std::string default_text, std::string_view meaning, Between<T> range,
                       Kept kept) {
  GivenSlot slot(given, codec_of<T>(range, kept));
  value({key, meaning, false, std::move(default_text)}, slot);
}

template <class T>
void Fields::optional(std::string_view key, Maybe<T>& maybe, std::string_view meaning, Between<T> range, Kept kept) {
  MaybeSlot slot(maybe, codec_of<T>(range, kept));
  value({key, meaning, false}, slot);
}

template <class E>
void Fields::choice(std::string_view key, Given<E>& given, std::string default_text, std::string_view meaning) {
  GivenSlot slot(given, ChoiceCodec<E>{});
  value({key, meaning, default_text.empty(), default_text}, slot);
}

template <class E>
void Fields::choice(std::string_view key, Maybe<E>& maybe, std::string_view meaning) {
  MaybeSlot slot(maybe, ChoiceCodec<E>{});
  value({key, meaning, false}, slot);
}

template <class E>
void Fields::choice(std::string_view key, E& plain, std::string default_text, std::string_view meaning) {
  PlainSlot slot(plain, ChoiceCodec<E>{});
  value({key, meaning, default_text.empty(), default_text}, slot);
}

}  // namespace heatwork::trade
