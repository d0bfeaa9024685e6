#include "trade/field_words.h"

#include <fmt/format.h>

#include <map>
#include <utility>

#include "quantity/people_write.h"
#include "trade/alloy.h"
#include "trade/field.h"
#include "trade/firing.h"

namespace heatwork::trade {
namespace {

constexpr std::string_view properties = "properties.";
constexpr std::string_view number_in = "a number in ";

std::optional<std::string> said(const Words& words, const std::string& key) {
  return words.has(key) ? std::optional(words.say(key)) : std::nullopt;
}

/// The last key of a path.
std::string_view last_of(std::string_view path) {
  const auto dot = path.rfind('.');
  return dot == std::string_view::npos ? path : path.substr(dot + 1);
}

/// The value, range, standing or source of a property: the same for all of them.
bool is_of_estimate(std::string_view path) {
  return path.starts_with(properties) && path.find('.', properties.size()) != std::string_view::npos;
}

using Meanings = std::map<std::string, std::string, std::less<>>;

/// Gathers what the fields of a noun mean, in English and in the language of some words.
class MeaningsOf : public Fields {
 public:
  MeaningsOf(const Words& words, Noun noun, Meanings& meanings) : words_(words), noun_(noun), meanings_(meanings) {}
  void value(const FieldInfo& info, Slot&) override { take(info); }
  void group(const Group& group) override {
    group.make({});
    inside(group.info, [&] { group.describe(*this); });
  }
  void list(const List& list) override {
    list.add({});
    inside(list.info, [&] { list.describe(*this, 0); });
  }

 private:
  void take(const FieldInfo& info) {
    if (auto said = field_word(words_, noun_, before_ + std::string(info.key), "meaning"))
      meanings_.emplace(std::string(info.meaning), std::move(*said));
  }
  template <class Inner>
  void inside(const FieldInfo& info, Inner inner) {
    take(info);
    const std::string before = std::exchange(before_, fmt::format("{}{}.", before_, info.key));
    inner();
    before_ = before;
  }

  const Words& words_;
  Noun noun_;
  Meanings& meanings_;
  std::string before_;
};

Meanings meanings_of(const Words& words) {
  Meanings meanings;
  for (std::size_t i = 0; i < noun_words.size(); ++i) {
    with_type_of(static_cast<Noun>(i), [&]<class T>(std::type_identity<T>) {
      T blank{};
      MeaningsOf fields(words, static_cast<Noun>(i), meanings);
      describe(fields, blank);
    });
  }
  return meanings;
}

}  // namespace

std::string word_key(std::string_view phrase) {
  std::string key;
  for (const char c : phrase) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if ((small >= 'a' && small <= 'z') || (small >= '0' && small <= '9'))
      key += small;
    else if (!key.empty() && key.back() != '_')
      key += '_';
  }
  while (!key.empty() && key.back() == '_') key.pop_back();
  return key;
}

std::optional<std::string> field_word(const Words& words, Noun noun, std::string_view path, std::string_view what) {
  if (auto own = said(words, fmt::format("field.{}.{}.{}", table_key(noun), path, what))) return own;
  if (is_of_estimate(path)) return said(words, fmt::format("field.estimate.{}.{}", last_of(path), what));
  return path.find('.') == std::string_view::npos ? said(words, fmt::format("field.every.{}.{}", path, what)) : std::nullopt;
}

std::optional<std::string> meaning_in(const Words& words, std::string_view meaning) {
  static const Meanings german = meanings_of(words_of(Language::german));
  if (&words != &words_of(Language::german)) return std::nullopt;
  const auto found = german.find(meaning);
  return found == german.end() ? std::nullopt : std::optional(found->second);
}

std::string choice_in(const Words& words, Noun noun, std::string_view path, std::string_view word) {
  if (auto own = said(words, fmt::format("choice_of.{}.{}.{}", table_key(noun), path, word_key(word)))) return *own;
  return choice_in(words, word);
}

std::string choice_in(const Words& words, std::string_view word) {
  const std::string key = word_key(word);
  if (auto own = said(words, "choice." + key)) return *own;
  return said(words, "noun." + key).value_or(std::string(word));
}

std::string with_decimal_mark(std::string_view text, const Words& words) {
  return quantity::as_people_write(text, words.say("language.decimal_mark"));
}

std::string noun_in(const Words& words, Noun noun) {
  return said(words, "noun." + table_key(noun)).value_or(std::string(word(noun)));
}

std::string kind_in(const Words& words, std::string_view kind) {
  if (auto own = said(words, "kind." + word_key(kind))) return *own;
  if (kind.starts_with(number_in) && words.has("kind.a_number_in_unit"))
    return words.say("kind.a_number_in_unit", {{"unit", std::string(kind.substr(number_in.size()))}});
  return std::string(kind);
}

}  // namespace heatwork::trade
