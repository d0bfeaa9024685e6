// The kinds of file there are, and their field tables.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace heatwork::trade {

struct Program;
struct Instruction;
struct Furnace;
struct Tray;
struct Support;
struct Material;
struct Liquid;
struct Piece;
struct Firing;
class Fields;

enum class Noun { program, instruction, furnace, tray, support, material, liquid, piece, firing };

inline constexpr std::array<std::string_view, 9> noun_words = {"program",  "instruction", "furnace", "tray",  "support",
                                                               "material", "liquid",      "piece",   "firing"};

constexpr std::string_view word(Noun noun) {
  return noun_words[static_cast<std::size_t>(noun)];
}
[[nodiscard]] std::optional<Noun> noun_of(std::string_view word);
/// The folder of data/ its shipped files stand in, such as "furnaces".
[[nodiscard]] std::string_view shipped_folder(Noun noun);
/// What is wrong with a noun's name: it is letters a to z, digits, - and _, at most 60. Nothing where it is a name.
[[nodiscard]] std::optional<std::string> wrong_name(std::string_view name);

// The field tables. A visitor that only looks must be given a copy.
void describe(Fields& fields, Program& program);
void describe(Fields& fields, Instruction& instruction);
void describe(Fields& fields, Furnace& furnace);
void describe(Fields& fields, Tray& tray);
void describe(Fields& fields, Support& support);
void describe(Fields& fields, Material& material);
void describe(Fields& fields, Liquid& liquid);
void describe(Fields& fields, Piece& piece);
void describe(Fields& fields, Firing& firing);

// What no single field can tell: values that contradict each other. Errors: Mistake at the place of the later value.
void check(const Program& program);
void check(const Instruction& instruction);
void check(const Furnace& furnace);
void check(const Tray& tray);
void check(const Support& support);
void check(const Material& material);
void check(const Liquid& liquid);
void check(const Piece& piece);
void check(const Firing& firing);

}  // namespace heatwork::trade
