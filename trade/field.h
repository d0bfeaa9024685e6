// The field table of a noun: each key with its meaning, kind, range and default, stated once. Reader, writer, schema, canonical
// bytes, near-miss lists and the format pages are visitors of the same table.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/quantity.h"
#include "trade/choice.h"
#include "trade/noun.h"
#include "trade/place.h"
#include "trade/toml_text.h"

namespace heatwork::trade {

/// What a field is for: it changes a number, it changes numbers of cooling stress alone, it is for people only, or it names another noun.
enum class Role { decides, decides_stress, for_people, reference };

struct FieldInfo {
  std::string_view key;
  std::string_view meaning;
  bool required = true;
  std::string default_text = {};  ///< as a file would say it; empty where there is none
  Role role = Role::decides;
  Noun refers_to = Noun::program;  ///< where the role is reference
};

/// What may stand in a field, for schema and sentences.
struct Nature {
  enum class Type { text, whole_number, number, truth, whole_numbers, texts };
  Type type = Type::text;
  std::string kind;                 ///< "a heating rate"
  std::string example;              ///< as it stands in a file, without quotes
  std::vector<std::string> words;   ///< where only these are allowed
  std::optional<double> low, high;  ///< of plain numbers
  std::string range;                ///< in words, with units
  std::string pattern = {};         ///< how a text is spelled, where it has a form
  std::size_t shortest = 0;         ///< letters of a text, or items of a list
  std::size_t longest = 0;          ///< of the same; 0: no bound is stated
  std::vector<int> numbers = {};    ///< where a list holds only these
  char between = ',';               ///< what parts the items of a list of texts where they are typed on one line
};

/// Knowledge a value may need beyond its own text.
struct ReadingAid {
  std::optional<quantity::Pressure> ambient;
};

/// One value of a noun, whatever its type: taken from a node, or written out.
class Slot {
 public:
  Slot() = default;
  Slot(const Slot&) = delete;
  Slot& operator=(const Slot&) = delete;
  virtual ~Slot() = default;
  /// Takes a value; the sentence of the mistake where it cannot.
  virtual std::optional<std::string> take(const Node& node, const ReadingAid& aid) = 0;
  [[nodiscard]] virtual bool present() const = 0;
  /// Canonical value as a TOML literal: "55 K/min" with its quotes, 4, true.
  [[nodiscard]] virtual std::string literal() const = 0;
  /// What the field refers to or says, without quotes; for references.
  [[nodiscard]] virtual std::string text() const { return {}; }
  /// The names a list of references holds, in order.
  [[nodiscard]] virtual std::vector<std::string> texts() const { return {text()}; }
  /// As the person typed it, where that is kept; of a quantity its number in SI.
  [[nodiscard]] virtual std::string typed() const { return {}; }
  [[nodiscard]] virtual std::optional<double> si() const { return std::nullopt; }
  [[nodiscard]] virtual Nature nature() const = 0;
};

class Fields;

/// A table inside a table.
struct Group {
  FieldInfo info;
  bool on_one_line = false;
  std::function<bool()> present;
  std::function<void(const Place&)> make;
  std::function<void(Fields&)> describe;
};

/// What people call one of a list.
struct OneOf {
  std::string_view word = {};     ///< where that is not the key: "heating stage"
  std::string_view told_by = {};  ///< the key whose value tells it from the others, where there is one: "piece"
};

/// A list of tables.
struct List {
  FieldInfo info;
  std::size_t at_least = 0;
  std::size_t at_most = 0;
  std::function<std::size_t()> size;
  std::function<void(const Place&)> add;
  std::function<void(Fields&, std::size_t)> describe;
  OneOf one = {};
};

/// Inclusive range of a value; an end left out is open.
template <class T>
struct Between {
  std::optional<T> low, high;
};

/// Stored rounded to the resolution of files (0.01 K, 1 s, 0.1 mbar), or as typed: constants of a furnace.
enum class Kept { rounded, exact };

/// A visitor of a field table.
class Fields {
 public:
  virtual ~Fields() = default;
  virtual void value(const FieldInfo& info, Slot& slot) = 0;
  virtual void group(const Group& group) = 0;
  virtual void list(const List& list) = 0;
  /// From here on dial readings below ambient are counted from the pressure at this altitude.
  virtual void ambient_at(const Given<quantity::Length>& /*altitude*/) {}

  template <class T>
  void required(std::string_view key, Given<T>& given, std::string_view meaning, Between<T> range = {}, Kept kept = Kept::rounded);
  template <class T>
  void otherwise(std::string_view key, Given<T>& given, std::string default_text, std::string_view meaning, Between<T> range = {},
                 Kept kept = Kept::rounded);
  template <class T>
  void optional(std::string_view key, Maybe<T>& maybe, std::string_view meaning, Between<T> range = {}, Kept kept = Kept::rounded);
  /// A number with a unit that has no type of its own; `given` holds it in `unit`.
  void required_in(std::string_view key, Given<double>& given, std::string_view unit, std::string_view meaning, Between<double> range);
  void optional_in(std::string_view key, Maybe<double>& maybe, std::string_view unit, std::string_view meaning, Between<double> range);
  template <class E>
  void choice(std::string_view key, Given<E>& given, std::string default_text, std::string_view meaning);
  template <class E>
  void choice(std::string_view key, E& plain, std::string default_text, std::string_view meaning);
  template <class E>
  void choice(std::string_view key, Maybe<E>& maybe, std::string_view meaning);
  void words(std::string_view key, std::string& text, std::vector<std::string> allowed, std::string_view meaning, bool is_required = true,
             Role role = Role::decides);
  void text(std::string_view key, std::string& text, std::string_view meaning, Role role = Role::for_people);
  void text(std::string_view key, Given<std::string>& text, std::string default_text, std::string_view meaning, Role role);
  void truth(std::string_view key, bool& truth, bool default_truth, std::string_view meaning);
  void reference(std::string_view key, Given<std::string>& name, Noun to, std::string_view meaning);
  void reference(std::string_view key, Maybe<std::string>& name, Noun to, std::string_view meaning);
  /// A list of names, each with its own place.
  void references(std::string_view key, std::vector<Given<std::string>>& names, Noun to, std::string_view meaning,
                  std::size_t at_least = 0);
  void teeth(std::string_view key, std::vector<int>& teeth, std::string_view meaning, std::size_t most = 16);
  // A day of the calendar, a moment in UTC, the code of a person, a hash, a text; for people, empty where absent. `places` keeps where
  // each was written.
  void day(std::string_view key, std::string& day, std::string_view meaning, PlacesByKey* places = nullptr);
  void moment(std::string_view key, std::string& moment, std::string_view meaning, PlacesByKey* places = nullptr, bool is_required = false);
  void person(std::string_view key, std::string& code, std::string_view meaning, PlacesByKey* places = nullptr);
  void hash(std::string_view key, std::string& hash, std::string_view meaning, bool is_required = false);
  void placed_text(std::string_view key, std::string& text, std::string_view meaning, PlacesByKey* places, bool is_required = false);
  /// A truth that has no default.
  void needed_truth(std::string_view key, bool& truth, std::string_view meaning);
  void count(std::string_view key, int& number, std::string_view meaning, Between<int> range, std::string default_text = {});
  /// The name every noun has, and its label and note.
  void naming(std::string& name, std::string& label, std::string& note);

  template <class T, class Describe>
  void table(std::string_view key, T& table, std::string_view meaning, Describe describe);
  template <class T, class Describe>
  void optional_table(std::string_view key, std::optional<T>& table, std::string_view meaning, Describe describe,
                      Role role = Role::decides);
  /// Of a table or list that is for people nothing changes a number, whatever is in it.
  template <class T, class Describe>
  void tables(std::string_view key, std::vector<T>& items, std::size_t at_least, std::size_t at_most, std::string_view meaning,
              Describe describe, OneOf one = {}, Role role = Role::decides);
};

template <class T, class Describe>
void Fields::table(std::string_view key, T& table, std::string_view meaning, Describe describe) {
  group({{key, meaning}, false, [] { return true; }, [](const Place&) {}, [&table, describe](Fields& fields) { describe(fields, table); }});
}

template <class T, class Describe>
void Fields::optional_table(std::string_view key, std::optional<T>& table, std::string_view meaning, Describe describe, Role role) {
  group({{key, meaning, false, {}, role},
         false,
         [&table] { return table.has_value(); },
         [&table](const Place&) { table.emplace(); },
         [&table, describe](Fields& fields) { describe(fields, *table); }});
}

template <class T, class Describe>
void Fields::tables(std::string_view key, std::vector<T>& items, std::size_t at_least, std::size_t at_most, std::string_view meaning,
                    Describe describe, OneOf one, Role role) {
  list({{key, meaning, at_least > 0, {}, role},
        at_least,
        at_most,
        [&items] { return items.size(); },
        [&items](const Place& place) {
          items.emplace_back();
          if constexpr (requires { items.back().place = place; }) {
            if constexpr (std::is_same_v<decltype(items.back().place), Place>) items.back().place = place;
          }
        },
        [&items, describe](Fields& fields, std::size_t i) { describe(fields, items[i]); },
        one});
}

}  // namespace heatwork::trade
