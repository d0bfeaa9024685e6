#include <fmt/format.h>
#include <sodium.h>

#include <array>
#include <map>
#include <set>
#include <utility>

#include "quantity/write.h"
#include "trade/field.h"
#include "trade/writer.h"

namespace heatwork::trade {
namespace {

/// Hashes of the nouns a firing names, by kind and name, and whether what decides nothing but stress took part.
struct Hashes {
  bool stress = false;
  std::map<std::pair<Noun, std::string>, std::string> by_name = {};

  std::string& operator[](const std::pair<Noun, std::string>& noun) { return by_name[noun]; }
};

/// Lines "path=value" of the values that change a number.
class CanonicalLines : public Fields {
 public:
  CanonicalLines(std::string path, const Hashes& hashes) : path_(std::move(path)), hashes_(hashes) {}

  void value(const FieldInfo& info, Slot& slot) override {
    if (!takes_part(info.role) || !slot.present()) return;
    if (info.role != Role::reference) {
      text += fmt::format("{}.{}={}\n", path_, info.key, slot.literal());
      return;
    }
    for (const auto& name : slot.texts()) {
      const auto found = hashes_.by_name.find({info.refers_to, name});
      if (found != hashes_.by_name.end()) text += fmt::format("{}.{}={}\n", path_, info.key, found->second);
    }
  }

  void group(const Group& group) override {
    if (!takes_part(group.info.role) || !group.present()) return;
    CanonicalLines inner(fmt::format("{}.{}", path_, group.info.key), hashes_);
    group.describe(inner);
    text += inner.text;
  }

  void list(const List& list) override {
    if (!takes_part(list.info.role)) return;
    for (std::size_t i = 0; i < list.size(); ++i) {
      CanonicalLines inner(fmt::format("{}.{}[{}]", path_, list.info.key, i), hashes_);
      list.describe(inner, i);
      text += inner.text;
    }
  }

  std::string text;

 private:
  [[nodiscard]] bool takes_part(Role role) const { return role != Role::for_people && (hashes_.stress || role != Role::decides_stress); }

  std::string path_;
  const Hashes& hashes_;
};

template <class T>
std::string lines_of(const T& noun, std::string_view path, const Hashes& hashes) {
  T copy = noun;
  CanonicalLines lines(std::string(path), hashes);
  describe(lines, copy);
  return lines.text;
}

template <class T>
void add(Hashes& hashes, Noun kind, const T& noun) {
  hashes[{kind, noun.name}] = blake2b_256(lines_of(noun, word(kind), hashes));
}

/// The place of each piece in the chain, in place of its name: which piece of an earlier firing it was.
std::string chain_of(const ResolvedFiring& firing) {
  std::string text;
  for (std::size_t i = 0; i < firing.firing.pieces.size(); ++i) {
    const auto& on_tray = firing.firing.pieces[i];
    const std::string& was = on_tray.was ? on_tray.was->value : on_tray.piece.value;
    for (std::size_t e = 0; e < firing.earlier.size(); ++e)
      for (std::size_t p = 0; p < firing.earlier[e].firing.pieces.size(); ++p) {
        const auto& then = firing.earlier[e].firing.pieces[p].piece.value;
        if (then == was || then == on_tray.piece.value) text += fmt::format("firing.piece[{}].earlier[{}]={}\n", i, e, p);
      }
  }
  return text;
}

/// Which materials were calibrated in this very furnace, or on this very tray: that widens or narrows their ranges.
std::string calibrated_here(const ResolvedFiring& firing, const Hashes& hashes) {
  std::set<std::string> lines;  // in order of the hashes, so that renaming a material changes nothing
  for (const auto& [name, material] : firing.materials) {
    if (!material.calibrated) continue;
    lines.insert(fmt::format("calibrated.{}={} {}\n", hashes.by_name.at({Noun::material, name}),
                             material.calibrated->furnace == firing.furnace.name, material.calibrated->tray == firing.tray.name));
  }
  return fmt::format("{}", fmt::join(lines, ""));
}

/// How sure the checks of the furnace are: that sets the ranges of its deciding inputs. Nothing where none of them is kept.
std::string known_of(const FurnaceKnown& known) {
  std::string text;
  const auto line = [&text](std::string_view what, const auto& uncertainty) {
    if (uncertainty) text += fmt::format("furnace_known.{}={}\n", what, quantity::write(*uncertainty));
  };
  line("gain_u", known.gain_u);
  line("pump_time_constant_u", known.pump_time_constant_u);
  line("ultimate_u", known.ultimate_u);
  line("leak_u", known.leak_u);
  return text;
}

}  // namespace

std::string blake2b_256(std::string_view bytes) {
  std::array<unsigned char, 32> hash{};
  crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(), nullptr, 0);
  std::string text;
  for (const auto byte : hash) text += fmt::format("{:02x}", byte);
  return text;
}

std::string canonical_text(const ResolvedFiring& firing, bool stress) {
  Hashes hashes{stress};
  for (const auto& [name, material] : firing.materials) add(hashes, Noun::material, material);
  for (const auto& [name, liquid] : firing.liquids) add(hashes, Noun::liquid, liquid);
  for (const auto& [name, support] : firing.supports) add(hashes, Noun::support, support);
  for (const auto& piece : firing.pieces) add(hashes, Noun::piece, piece);
  add(hashes, Noun::tray, firing.tray);
  add(hashes, Noun::furnace, firing.furnace);
  add(hashes, Noun::program, firing.program);
  std::string text = calibrated_here(firing, hashes) + known_of(firing.furnace_known);
  // The maker's program and tray may go by the names of this firing's and yet be other versions: they have hashes of their own.
  Hashes of_maker = hashes;
  if (firing.instruction_program) add(of_maker, Noun::program, *firing.instruction_program);
  if (firing.instruction_tray) {
    add(of_maker, Noun::tray, *firing.instruction_tray);
    text += fmt::format("instruction.tray_used={}\n", of_maker[{Noun::tray, firing.instruction_tray->name}]);
  }
  if (firing.instruction) {
    add(of_maker, Noun::instruction, *firing.instruction);
    hashes[{Noun::instruction, firing.instruction->name}] = of_maker[{Noun::instruction, firing.instruction->name}];
  }
  if (!firing.tray.mass)
    for (const auto& tray : firing.lab_trays) text += fmt::format("lab_tray={}\n", blake2b_256(lines_of(tray, "tray", hashes)));
  for (std::size_t i = 0; i < firing.earlier.size(); ++i)
    text += fmt::format("earlier[{}]={}\n", i, blake2b_256(canonical_text(firing.earlier[i], stress)));
  return lines_of(firing.firing, "firing", hashes) + text + chain_of(firing);
}

}  // namespace heatwork::trade
