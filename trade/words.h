// All words shown to people, by key and language, with {named} gaps and plural forms.
#pragma once

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace heatwork::trade {

enum class Language { english, german };
/// "en", "de", as folders of data/words/ are named.
std::string_view word(Language language);
/// Nothing where no language is named so.
std::optional<Language> language_of(std::string_view word);

class Words {
 public:
  /// Reads a catalogue (TOML, `format = 1`, tables of key = "text with {gaps}"). Errors: located sentence as every reader's.
  static Words read(std::string_view source_name, std::string_view text);
  /// Takes the texts of one more file in. Errors: as reading; a key that stands already.
  void add(std::string_view source_name, std::string_view text);

  /// The text of a key with its gaps filled; a gap not filled or a key not found is a bug and throws std::logic_error naming it.
  /// Where a key holds `one` and `other`, the gap `count` chooses between them.
  [[nodiscard]] std::string say(std::string_view key, std::initializer_list<std::pair<std::string_view, std::string>> gaps = {}) const;
  [[nodiscard]] bool has(std::string_view key) const;
  [[nodiscard]] const std::map<std::string, std::string, std::less<>>& all() const { return texts_; }

 private:
  std::map<std::string, std::string, std::less<>> texts_;
};

/// The shipped words of a language, all its files joined; read when first asked for, once a process.
const Words& words_of(Language language);

}  // namespace heatwork::trade
