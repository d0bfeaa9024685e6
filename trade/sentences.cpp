#include "trade/sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "trade/field_words.h"
#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/shipped.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

constexpr int deepest = 5;  ///< clauses within clauses

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// The sort of a gap: its name without the digit that tells it from others.
std::string_view sort_of(std::string_view name) {
  while (!name.empty() && is_digit(name.back())) name.remove_suffix(1);
  return name;
}

/// A number with its unit and no more: nothing else hides behind it.
bool is_amount(std::string_view text) {
  const bool has_digit = std::any_of(text.begin(), text.end(), is_digit);
  return has_digit && text.find(';') == std::string_view::npos && text.find(", ") == std::string_view::npos;
}

/// Words of one sentence: where they go on after a stop there is more to say than a gap holds.
bool is_one_part(std::string_view text) {
  return text.find("; ") == std::string_view::npos && text.find(". ") == std::string_view::npos;
}

std::string range_in(std::string_view text, const Words& words) {
  constexpr std::string_view least = "at least ", most = "at most ", to = " to ";
  const std::string said = with_decimal_mark(text, words);
  if (said.starts_with(least)) return words.say("range.at_least", {{"low", said.substr(least.size())}});
  if (said.starts_with(most)) return words.say("range.at_most", {{"high", said.substr(most.size())}});
  const auto between = said.find(to);
  if (between == std::string::npos) return said;
  return words.say("range.between", {{"low", said.substr(0, between)}, {"high", said.substr(between + to.size())}});
}

std::string with_small_start(std::string_view text) {
  std::string out(text);
  if (!out.empty()) out.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(out.front())));
  return out;
}

/// A word of one table of words; nothing where it is none.
std::optional<std::string> in_table(std::string_view table, std::string_view word, const Words& words) {
  const std::string key = fmt::format("{}.{}", table, word_key(word));
  return words.has(key) && !word.empty() ? std::optional(words.say(key)) : std::nullopt;
}

/// "a bench step" and "bench step" are the same kind of file.
std::optional<std::string> noun_in_table(std::string_view table, std::string_view word, const Words& words) {
  for (const std::string_view article : {"a ", "an "})
    if (word.starts_with(article)) return noun_in_table(table, word.substr(article.size()), words);
  return in_table(table, word, words);
}

/// "program dentine@2": the longest kind of file that the text begins with, then what it is called.
std::optional<std::string> thing_in(std::string_view text, const Words& words) {
  const std::string small = with_small_start(text);
  for (auto blank = small.rfind(' '); blank != std::string::npos && blank > 0; blank = small.rfind(' ', blank - 1))
    if (const auto noun = in_table("noun", small.substr(0, blank), words)) return *noun + small.substr(blank);
  return std::nullopt;
}

std::optional<std::string> list_in(std::string_view text, const Words& words) {
  std::string out;
  while (true) {
    const auto comma = text.find(", ");
    out += choice_in(words, text.substr(0, comma));
    if (comma == std::string_view::npos) return out;
    out += ", ";
    text.remove_prefix(comma + 2);
  }
}

std::optional<std::string> kind_or_nothing(std::string_view text, const Words& words) {
  std::string said = kind_in(words, text);
  return said == text ? std::nullopt : std::optional(std::move(said));
}

}  // namespace

std::vector<Sentences::Piece> Sentences::pieces_of(std::string_view text) {
  std::vector<Piece> pieces;
  while (!text.empty()) {
    const auto open = text.find('{');
    if (open != 0) pieces.push_back({std::string(text.substr(0, open)), false});
    if (open == std::string_view::npos) break;
    const auto close = text.find('}', open);
    pieces.push_back({std::string(text.substr(open + 1, close - open - 1)), true});
    text.remove_prefix(close + 1);
  }
  return pieces;
}

void Sentences::add(std::string_view source_name, std::string_view text) {
  const Node root = parse_toml(source_of(source_name, text));
  const Node* table = root.find("sentences");
  if (table == nullptr || table->kind != Node::Kind::table) throw Mistake(root.place, "a file of sentences has one table [sentences]");
  for (const Entry& entry : table->entries) {
    if (entry.value.kind != Node::Kind::text || entry.value.text.empty())
      throw Mistake(entry.value.place, fmt::format("{} is said by a text in quotes", for_message(entry.key)));
    Pattern pattern{pieces_of(entry.key), pieces_of(entry.value.text), {}, 0};
    for (const Piece& piece : pattern.english) {
      if (piece.is_gap) continue;
      pattern.letters += piece.text.size();
      if (piece.text.size() > pattern.longest.size()) pattern.longest = piece.text;
    }
    for (const Piece& piece : pattern.said)
      if (piece.is_gap && std::none_of(pattern.english.begin(), pattern.english.end(),
                                       [&](const Piece& each) { return each.is_gap && each.text == piece.text; }))
        throw Mistake(entry.value.place, fmt::format("the gap {} stands in no English sentence", piece.text));
    patterns_.push_back(std::move(pattern));
  }
  std::stable_sort(patterns_.begin(), patterns_.end(), [](const Pattern& a, const Pattern& b) { return a.letters > b.letters; });
}

/// One sentence held against the patterns.
class Sentences::Matching {
 public:
  Matching(const Sentences& sentences, const Words& words) : sentences_(sentences), words_(words) {}

  [[nodiscard]] std::optional<std::string> say(std::string_view text, int depth) const {
    if (depth > deepest) return std::nullopt;
    for (const Pattern& pattern : sentences_.patterns_) {
      if (text.find(pattern.longest) == std::string_view::npos) continue;
      std::map<std::string, std::string> gaps;
      if (!fits(pattern, 0, text, gaps, depth)) continue;
      std::string out;
      for (const Piece& piece : pattern.said) out += piece.is_gap ? gaps.at(piece.text) : piece.text;
      return out;
    }
    return std::nullopt;
  }

 private:
  bool fits(const Pattern& pattern, std::size_t at, std::string_view text, std::map<std::string, std::string>& gaps, int depth) const {
    if (at == pattern.english.size()) return text.empty();
    const Piece& piece = pattern.english[at];
    if (!piece.is_gap) return text.starts_with(piece.text) && fits(pattern, at + 1, text.substr(piece.text.size()), gaps, depth);
    const auto take = [&](std::size_t length) {
      if (length == 0) return false;
      const auto said = filled(piece.text, text.substr(0, length), depth);
      if (!said || !fits(pattern, at + 1, text.substr(length), gaps, depth)) return false;
      gaps[piece.text] = *said;
      return true;
    };
    if (at + 1 == pattern.english.size()) return take(text.size());
    // A gap ends where the letters after it begin: at each place they stand, nearest first.
    const std::string& next = pattern.english[at + 1].text;
    for (auto end = text.find(next); end != std::string_view::npos; end = text.find(next, end + 1))
      if (take(end)) return true;
    return false;
  }

  [[nodiscard]] std::optional<std::string> filled(std::string_view gap, std::string_view text, int depth) const {
    const std::string_view sort = sort_of(gap);
    if (sort == "clause") return say(text, depth + 1);
    if (sort == "kind") return kind_or_nothing(text, words_);
    if (sort == "meaning") return meaning_in(words_, text);
    if (sort == "noun") return noun_in_table("noun", text, words_);
    if (sort == "a_noun") return noun_in_table("noun_with_article", text, words_);
    if (sort == "object") return noun_in_table("noun_as_object", text, words_);
    if (sort == "no_noun") {
      const auto noun = noun_in_table("noun_with_article", text, words_);
      return noun ? std::optional("k" + *noun) : std::nullopt;
    }
    if (sort == "thing") return thing_in(text, words_);
    if (sort == "choice") return in_table("choice", text, words_);
    if (sort == "choices") return list_in(text, words_);
    if (sort == "range") return is_amount(text) ? std::optional(range_in(text, words_)) : std::nullopt;
    if (sort == "number") return is_amount(text) ? std::optional(with_decimal_mark(text, words_)) : std::nullopt;
    if (sort == "name" && text.find(' ') != std::string_view::npos) return std::nullopt;
    return sort == "said" || is_one_part(text) ? std::optional(std::string(text)) : std::nullopt;
  }

  const Sentences& sentences_;
  const Words& words_;
};

std::optional<std::string> Sentences::say(std::string_view english, const Words& words) const {
  return Matching(*this, words).say(english, 0);
}

namespace {

Sentences shipped_sentences(Language language) {
  const std::string folder = fmt::format("words/{}/sentences/", word(language));
  Sentences sentences;
  for (const ShippedFile& file : shipped_files())
    if (file.path.starts_with(folder)) sentences.add(fmt::format("shipped:{}", file.path), file.text);
  return sentences;
}

/// Where a sentence begins behind its place, "file.toml:3:5: ", or 0.
std::size_t after_place(std::string_view line) {
  for (auto colon = line.find(':'); colon != std::string_view::npos; colon = line.find(':', colon + 1)) {
    std::size_t at = colon;
    int numbers = 0;
    while (at < line.size() && line[at] == ':' && at + 1 < line.size() && is_digit(line[at + 1])) {
      for (++at; at < line.size() && is_digit(line[at]); ++at) continue;
      ++numbers;
    }
    if (numbers == 2 && line.substr(at, 2) == ": ") return at + 2;
  }
  return 0;
}

}  // namespace

std::string in_language(std::string_view english, Language language) {
  if (language == Language::english) return std::string(english);
  static const Sentences german = shipped_sentences(Language::german);
  const Words& words = words_of(language);
  if (auto whole = german.say(english, words)) return *whole;
  const std::string_view first = english.substr(0, english.find('\n'));
  const std::size_t begin = after_place(first);
  if (begin == 0) return std::string(english);
  const auto sentence = german.say(first.substr(begin), words);
  if (!sentence) return std::string(english);
  return fmt::format("{}{}{}", first.substr(0, begin), *sentence, english.substr(first.size()));
}

std::string in_language(std::string_view english, const Words& words) {
  return in_language(english, &words == &words_of(Language::german) ? Language::german : Language::english);
}

}  // namespace heatwork::trade
