#include "trade/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/shipped.h"
#include "trade/toml_text.h"

namespace heatwork::trade {
namespace {

using Texts = std::map<std::string, std::string, std::less<>>;

bool is_key(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
  });
}

/// Every brace of a text opens or closes a gap with a name.
void check_gaps(const Node& text) {
  bool open = false;
  std::string name;
  for (const char c : text.text) {
    if (c == '{' ? open : c == '}' ? !open || !is_key(name) : false) {
      throw Mistake(text.place, fmt::format("\"{}\" has a brace that opens or closes no gap; a gap is a name in braces, such as {{piece}}",
                                            for_message(text.text)));
    }
    if (c == '{') {
      open = true;
      name.clear();
    } else if (c == '}') {
      open = false;
    } else if (open) {
      name += c;
    }
  }
  if (open) throw Mistake(text.place, fmt::format("\"{}\" opens a gap and does not close it", for_message(text.text)));
}

void take(const std::string& path, const Node& table, Texts& texts) {
  for (const Entry& entry : table.entries) {
    if (!is_key(entry.key)) {
      throw Mistake(entry.place, fmt::format("\"{}\" is no key of words; a key is letters, digits and _", for_message(entry.key)));
    }
    const std::string key = path.empty() ? entry.key : path + "." + entry.key;
    if (entry.value.kind == Node::Kind::table) {
      take(key, entry.value, texts);
      continue;
    }
    if (entry.value.kind != Node::Kind::text) {
      throw Mistake(entry.value.place, fmt::format("{} is {}; it is a text in quotes", key, kind_in_words(entry.value.kind)));
    }
    if (entry.value.text.empty()) throw Mistake(entry.value.place, fmt::format("{} is empty; give it words", key));
    check_gaps(entry.value);
    if (!texts.emplace(key, entry.value.text).second)
      throw Mistake(entry.value.place, fmt::format("{} stands in another file of this language already", key));
  }
}

}  // namespace

std::string_view word(Language language) {
  return language == Language::german ? "de" : "en";
}

std::optional<Language> language_of(std::string_view word_of_it) {
  for (const Language each : {Language::english, Language::german})
    if (word(each) == word_of_it) return each;
  return std::nullopt;
}

Words Words::read(std::string_view source_name, std::string_view text) {
  Words words;
  words.add(source_name, text);
  return words;
}

void Words::add(std::string_view source_name, std::string_view text) {
  const auto source = source_of(source_name, text);
  Node root = parse_toml(source);
  const Node* format = root.find("format");
  if (format == nullptr || format->kind != Node::Kind::whole_number || format->number != 1) {
    throw Mistake(format == nullptr ? Place{source, 1, 1} : format->place, "a catalogue of words begins with format = 1");
  }
  root.entries.erase(std::find_if(root.entries.begin(), root.entries.end(), [](const Entry& entry) { return entry.key == "format"; }));
  take("", root, texts_);
}

bool Words::has(std::string_view key) const {
  return texts_.find(key) != texts_.end() || texts_.find(std::string(key) + ".other") != texts_.end();
}

std::string Words::say(std::string_view key, std::initializer_list<std::pair<std::string_view, std::string>> gaps) const {
  const auto filling = [&](std::string_view name) {
    return std::find_if(gaps.begin(), gaps.end(), [name](const auto& gap) { return gap.first == name; });
  };
  auto found = texts_.find(key);
  if (found == texts_.end()) {
    const auto count = filling("count");
    const bool one = count != gaps.end() && count->second == "1";
    found = texts_.find(std::string(key) + (one ? ".one" : ".other"));
  }
  if (found == texts_.end()) throw std::logic_error(fmt::format("The catalogue of words has no \"{}\".", key));
  std::string said;
  std::string_view rest = found->second;
  while (true) {
    const auto open = rest.find('{');
    said += rest.substr(0, open);
    if (open == std::string_view::npos) return said;
    const auto close = rest.find('}', open);
    const std::string_view name = rest.substr(open + 1, close - open - 1);
    const auto gap = filling(name);
    if (gap == gaps.end()) throw std::logic_error(fmt::format("The words \"{}\" have a gap \"{}\" that nothing fills.", key, name));
    said += gap->second;
    rest.remove_prefix(close + 1);
  }
}

namespace {

Words shipped_words(Language language) {
  const std::string folder = fmt::format("words/{}/", word(language));
  Words words;
  for (const ShippedFile& file : shipped_files())
    if (file.path.starts_with(folder) && file.path.find('/', folder.size()) == std::string_view::npos)
      words.add(fmt::format("shipped:{}", file.path), file.text);
  return words;
}

}  // namespace

const Words& words_of(Language language) {
  static const Words english = shipped_words(Language::english);
  if (language == Language::english) return english;
  static const Words german = shipped_words(Language::german);
  return german;
}

}  // namespace heatwork::trade
