#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "trade/difference.h"
#include "trade/field_words.h"

namespace heatwork::trade {
namespace {

std::vector<std::string> parts_of(std::string_view text, std::string_view between) {
  std::vector<std::string> parts;
  while (true) {
    const auto end = text.find(between);
    parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + between.size());
  }
}

/// "crown-16" of "piece crown-16", "2" of "heating stage 2", where one of them is called so.
std::string which(const std::string& where, const std::string& one) {
  return where.starts_with(one + " ") ? where.substr(one.size() + 1) : where.substr(where.rfind(' ') + 1);
}

class Telling {
 public:
  Telling(const Difference& difference, Noun noun, const Words& words) : difference_(difference), noun_(noun), words_(words) {}

  /// Nothing where a part of the place has no word.
  [[nodiscard]] std::optional<ToldDifference> told() {
    const std::vector<std::string> keys = parts_of(difference_.key, "."), places = parts_of(difference_.where, ", ");
    if (keys.size() != places.size()) return std::nullopt;
    ToldDifference told;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      const auto word = place(keys[i], places[i]);
      if (!word) return std::nullopt;
      told.where += (i == 0 ? "" : ", ") + *word;
    }
    is_whole_ = keys.back().ends_with(']') || is_table();
    told.before = value(difference_.before);
    told.after = value(difference_.after);
    told.words = sentence(told);
    return told;
  }

 private:
  [[nodiscard]] std::optional<std::string> place(const std::string& key, const std::string& place) {
    const auto bracket = key.find('[');
    const std::string plain = key.substr(0, bracket);
    path_ += (path_.empty() ? "" : ".") + plain;
    if (bracket != std::string::npos) {
      const auto one = field_word(words_, noun_, path_, "one");
      return one ? std::optional(fmt::format("{} {}", *one, which(place, in_english(plain)))) : std::nullopt;
    }
    const auto label = field_word(words_, noun_, path_, "label");
    if (!label || !place.starts_with("order of each ")) return label;
    return words_.say("difference.order", {{"list", *label}});
  }

  /// What one of the list at the path is called in English.
  [[nodiscard]] std::string in_english(std::string key) const {
    std::replace(key.begin(), key.end(), '_', ' ');
    return field_word(words_of(Language::english), noun_, path_, "one").value_or(key);
  }

  /// Whether fields stand below this one.
  [[nodiscard]] bool is_table() const {
    if (path_.starts_with("properties.")) return path_.find('.', path_.find('.') + 1) == std::string::npos;
    const std::string below = fmt::format("field.{}.{}.", table_key(noun_), path_);
    for (auto each = words_.all().lower_bound(below); each != words_.all().end() && each->first.starts_with(below); ++each)
      if (each->first.find('.', below.size()) != std::string::npos) return true;
    return false;
  }

  [[nodiscard]] std::string value(const std::string& text) const {
    if (is_whole_) return whole(text);
    return simple(path_, text);
  }

  /// A value of one field: a word to choose from, or a number with its decimal mark.
  [[nodiscard]] std::string simple(const std::string& path, const std::string& text) const {
    static constexpr std::array<std::string_view, 18> chosen{
        "stage", "kind", "outcome", "state",    "place", "shape",       "work",      "decision", "role",
        "gauge", "form", "inside",  "standing", "of",    "hold_starts", "mains_cut", "language", "correction_convention"};
    const std::string key = path.substr(path.rfind('.') + 1);
    if (text == "true" || text == "false") return choice_in(words_, text);
    if (std::find(chosen.begin(), chosen.end(), key) != chosen.end()) return choice_in(words_, noun_, path, text);
    return with_decimal_mark(text, words_);
  }

  /// "to 600 °C, opening 0 %" by the labels of its fields; empty where one has none.
  [[nodiscard]] std::string whole(const std::string& text) const {
    std::string out;
    for (const std::string& part : text.empty() ? std::vector<std::string>{} : parts_of(text, ", ")) {
      const std::string said = labelled(part);
      if (said.empty()) return {};
      out += (out.empty() ? "" : ", ") + said;
    }
    return out;
  }

  [[nodiscard]] std::string labelled(const std::string& part) const {
    for (auto blank = part.rfind(' '); blank != std::string::npos && blank > 0; blank = part.rfind(' ', blank - 1)) {
      std::string path = path_ + "." + part.substr(0, blank);
      std::replace(path.begin(), path.end(), ' ', '_');
      if (const auto label = field_word(words_, noun_, path, "label")) return *label + " " + simple(path, part.substr(blank + 1));
    }
    return {};
  }

  [[nodiscard]] std::string sentence(const ToldDifference& told) const {
    if (difference_.before.empty())
      return told.after.empty() ? words_.say("difference.only_added", {{"where", told.where}})
                                : words_.say("difference.added", {{"where", told.where}, {"after", told.after}});
    if (difference_.after.empty())
      return told.before.empty() ? words_.say("difference.only_taken_away", {{"where", told.where}})
                                 : words_.say("difference.taken_away", {{"where", told.where}, {"before", told.before}});
    return words_.say("difference.instead", {{"where", told.where}, {"before", told.before}, {"after", told.after}});
  }

  const Difference& difference_;
  Noun noun_;
  const Words& words_;
  std::string path_;
  bool is_whole_ = false;
};

}  // namespace

ToldDifference told(const Difference& difference, Noun noun, const Words& words) {
  const bool english = &words == &words_of(Language::english);
  if (!english)
    if (auto said = Telling(difference, noun, words).told()) return *said;
  return {difference.where, difference.before, difference.after, in_words(difference)};
}

}  // namespace heatwork::trade
