// Strict reading of what a request carries: each key once asked for by its kind, an unknown key refused with the near miss.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/json_value.h"
#include "server/values.h"

namespace heatwork::server {

/// A page or a version beyond these is a slip.
inline constexpr int most_pages = 1'000'000, most_versions = 1'000'000;

// Errors of all: Failure bad_value (bad_json where there is no object), one sentence that names the key and what is allowed.

/// The members of a JSON object. `of` is what sentences call it: "the body", or "\"set\"" of one inside it.
class Body {
 public:
  Body(std::string_view of, const desk::Json& json, std::vector<std::string_view> keys);
  /// Any key is allowed: values by names that are not known beforehand.
  Body(std::string_view of, const desk::Json& json);

  [[nodiscard]] bool has(std::string_view key) const;  ///< given, and not null

  [[nodiscard]] std::string text(std::string_view key) const;
  [[nodiscard]] std::string text_or(std::string_view key, std::string otherwise) const;
  [[nodiscard]] std::optional<std::string> text_if(std::string_view key) const;
  /// One of a few words.
  [[nodiscard]] std::string word(std::string_view key, const std::vector<std::string_view>& allowed) const;
  [[nodiscard]] double number(std::string_view key) const;
  [[nodiscard]] int whole(std::string_view key, int least, int most) const;
  [[nodiscard]] std::optional<int> whole_if(std::string_view key, int least, int most) const;
  [[nodiscard]] bool truth(std::string_view key) const;
  [[nodiscard]] bool truth_or(std::string_view key, bool otherwise) const;
  [[nodiscard]] std::optional<bool> truth_if(std::string_view key) const;
  /// Empty where it is absent.
  [[nodiscard]] std::vector<std::string> texts(std::string_view key) const;
  /// A list of anything; empty where it is absent.
  [[nodiscard]] const desk::JsonList& list(std::string_view key) const;
  /// An object inside; an empty one where it is absent.
  [[nodiscard]] Body object(std::string_view key, std::vector<std::string_view> keys) const;
  [[nodiscard]] Body object(std::string_view key) const;
  /// {"hold": "1 min"} as pairs, in order; empty where it is absent.
  [[nodiscard]] std::vector<Values::Pair> texts_by_name(std::string_view key) const;
  [[nodiscard]] const desk::Json& json() const { return json_; }

 private:
  [[nodiscard]] const desk::Json& at(std::string_view key) const;
  [[nodiscard]] std::string named(std::string_view key) const;
  [[noreturn]] void wrong(std::string_view key, const desk::Json& given, std::string_view allowed) const;

  std::string of_;
  desk::Json json_;
};

/// What follows the "?" of an address.
class Query {
 public:
  Query(const Values& values, std::vector<std::string_view> names);

  [[nodiscard]] std::string text(std::string_view name) const;
  [[nodiscard]] std::string text_or(std::string_view name, std::string otherwise) const;
  [[nodiscard]] int whole_or(std::string_view name, int otherwise, int least, int most) const;
  [[nodiscard]] std::optional<int> whole_if(std::string_view name, int least, int most) const;
  /// "page", from 1; the first where it is absent.
  [[nodiscard]] int page() const { return whole_or("page", 1, 1, most_pages); }
  /// "true" or "false"
  [[nodiscard]] bool truth_or(std::string_view name, bool otherwise) const;

 private:
  Values values_;
};

}  // namespace heatwork::server
