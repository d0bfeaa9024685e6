// The kinds of file there are, and their field tables.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

/// Every kind of noun, once: its type, its enumerator, its word, and the folder of data/ its shipped files stand in.
#define HEATWORK_EVERY_NOUN(EACH)                               \
  EACH(Program, program, "program", "programs")                 \
  EACH(Instruction, instruction, "instruction", "instructions") \
  EACH(Furnace, furnace, "furnace", "furnaces")                 \
  EACH(Tray, tray, "tray", "trays")                             \
  EACH(Support, support, "support", "supports")                 \
  EACH(Material, material, "material", "materials")             \
  EACH(Liquid, liquid, "liquid", "liquids")                     \
  EACH(Piece, piece, "piece", "pieces")                         \
  EACH(Firing, firing, "firing", "firings")                     \
  EACH(Alloy, alloy, "alloy", "alloys")                         \
  EACH(Lot, lot, "lot", "lots")                                 \
  EACH(Case, dental_case, "case", "cases")                      \
  EACH(BenchStep, bench_step, "bench step", "bench-steps")      \
  EACH(Check, check, "check", "checks")                         \
  EACH(Reference, reference, "reference", "references")         \
  EACH(Deviation, deviation, "deviation", "deviations")         \
  EACH(Person, person, "person", "persons")                     \
  EACH(Lock, lock, "lock", "locks")                             \
  EACH(Lab, lab, "lab", "labs")

namespace heatwork::trade {

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) struct type;
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN
class Fields;

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) enumerator,
enum class Noun { HEATWORK_EVERY_NOUN(HEATWORK_NOUN) };
#undef HEATWORK_NOUN

/// As people say them and as a store calls its kinds of document: "bench step".
#define HEATWORK_NOUN(type, enumerator, noun_word, folder) std::string_view(noun_word),
inline constexpr std::array noun_words = {HEATWORK_EVERY_NOUN(HEATWORK_NOUN)};
#undef HEATWORK_NOUN

constexpr std::string_view word(Noun noun) {
  return noun_words[static_cast<std::size_t>(noun)];
}
[[nodiscard]] std::optional<Noun> noun_of(std::string_view word);

/// The table of a noun in its file, where a space cannot stand: "bench_step".
[[nodiscard]] std::string table_key(Noun noun);
[[nodiscard]] std::optional<Noun> noun_of_table(std::string_view key);
/// The same in the name of a file, and on a command line: "bench-step".
[[nodiscard]] std::string file_word(Noun noun);
/// "a bench step", "an alloy"
[[nodiscard]] std::string with_article(Noun noun);
/// The folder of data/ its shipped files stand in, such as "furnaces".
[[nodiscard]] std::string_view shipped_folder(Noun noun);
/// What is wrong with a noun's name: it is letters a to z, digits, - and _, at most 60. Nothing where it is a name.
[[nodiscard]] std::optional<std::string> wrong_name(std::string_view name, std::size_t most = 60);

/// The kind of noun a type is.
template <class T>
struct NounOf;
#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  template <>                                              \
  struct NounOf<type> {                                    \
    static constexpr Noun noun = Noun::enumerator;         \
  };
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

/// Calls `use` with std::type_identity of the type of a noun.
template <class Use>
decltype(auto) with_type_of(Noun noun, Use use) {
#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  case Noun::enumerator:                                   \
    return use(std::type_identity<type>{});
  switch (noun) { HEATWORK_EVERY_NOUN(HEATWORK_NOUN) }
#undef HEATWORK_NOUN
  return use(std::type_identity<Program>{});  // never reached: the switch knows every kind
}

// The field table of each noun: describe(fields, noun). A visitor that only looks must be given a copy.
// What no single field can tell, values that contradict each other: check(noun). Errors: Mistake at the place of the later value.
#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  void describe(Fields& fields, type& noun);               \
  void check(const type& noun);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

}  // namespace heatwork::trade
