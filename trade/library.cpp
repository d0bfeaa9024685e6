#include "trade/library.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "quantity/read.h"
#include "trade/mistake.h"

namespace heatwork::trade {

Found Library::find(Noun noun, std::string_view name, const Place& asked) const {
  for (const auto& shelf : shelves_) {
    const auto found = shelf->find(noun, name);
    if (found.size() > 1)
      throw Mistake(asked, fmt::format("{} \"{}\" stands twice {}, in {} and in {}; a name may stand once in a place", word(noun), name,
                                       shelf->in_words(), found[0].source->name, found[1].source->name));
    if (found.size() == 1) return found.front();
  }
  std::vector<std::string_view> places;
  for (const auto& shelf : shelves_) places.push_back(shelf->in_words());
  const auto known = names(noun);
  const std::string near = quantity::near_miss(name, known);
  std::string hint;
  if (!near.empty()) {
    hint = fmt::format("; did you mean \"{}\"?", near);
  } else if (!known.empty() && known.size() <= 20) {
    hint = fmt::format("; known are {}", fmt::join(known, ", "));
  }
  throw Mistake(asked, fmt::format("{} \"{}\" is found neither {}{}", word(noun), for_message(name), fmt::join(places, " nor "), hint));
}

template <class T>
T Library::get(Noun noun, std::string_view name, const Place& asked, const ReadingContext& context) const {
  return read_noun<T>(find(noun, name, asked).source, context);
}

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  template type Library::get(Noun, std::string_view, const Place&, const ReadingContext&) const;
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

std::vector<std::string> Library::names(Noun noun) const {
  std::set<std::string> all;
  for (const auto& shelf : shelves_)
    for (auto& name : shelf->names(noun)) all.insert(std::move(name));
  return {all.begin(), all.end()};
}

std::vector<std::pair<Tray, Found>> Library::lab_trays() const {
  std::vector<std::pair<Tray, Found>> trays;
  for (const auto& shelf : shelves_) {
    for (const auto& name : shelf->names(Noun::tray)) {
      const auto found = shelf->find(Noun::tray, name);
      if (found.size() != 1) continue;  // refused where it is named
      Tray tray = read_noun<Tray>(found.front().source);
      if (tray.mass) trays.emplace_back(std::move(tray), found.front());
    }
    if (!trays.empty()) break;
  }
  std::stable_sort(trays.begin(), trays.end(), [](const auto& a, const auto& b) { return a.first.mass->value < b.first.mass->value; });
  return trays;
}

/// Gathers what a firing names, each thing once, and keeps where it came from.
class Resolver {
 public:
  Resolver(const Library& library, const Firing& firing, const FiringOfThePast& of_the_past)
      : library_(library), of_the_past_(of_the_past) {
    out_.firing = firing;
  }

  ResolvedFiring resolve() {
    const Firing& firing = out_.firing;
    context_.ambient_of_altitude = library_.ambient_of_altitude_;
    if (firing.barometer) context_.ambient = firing.barometer->value;
    out_.furnace = get<Furnace>(Noun::furnace, firing.furnace);
    if (!context_.ambient && library_.ambient_of_altitude_ != nullptr)
      context_.ambient = library_.ambient_of_altitude_(out_.furnace.altitude.value);
    out_.program = get<Program>(Noun::program, firing.program);
    out_.tray = get<Tray>(Noun::tray, firing.tray);
    material(out_.tray.material);
    for (const auto& piece : firing.pieces) {
      out_.pieces.push_back(get<Piece>(Noun::piece, piece.piece));
      out_.places.push_back(piece.place.value);
      stock(out_.pieces.back());
    }
    lab_trays();
    if (firing.instruction) instruction(*firing.instruction);
    earlier_firings();
    return std::move(out_);
  }

 private:
  template <class T>
  T get(Noun noun, const Given<std::string>& name) {
    const Found found = library_.find(noun, name.value, name.place);
    came(noun, name.value, found);
    return read_noun<T>(found.source, context_);
  }

  void came(Noun noun, std::string_view name, const Found& found) {
    uses(noun, name, found);
    const std::string what = fmt::format("{} {}", word(noun), name);
    for (const auto& [known, where] : out_.came_from)
      if (known == what) return;
    out_.came_from.emplace_back(what, found.place);
  }

  void uses(Noun noun, std::string_view name, const Found& found) {
    for (const auto& known : out_.used)
      if (known.kind == word(noun) && known.name == name) return;
    out_.used.push_back({std::string(word(noun)), std::string(name), found.source, found.version});
  }

  /// Where this firing's tray has no mass the lab's others bound it, and every one of them counts.
  void lab_trays() {
    for (auto& [tray, found] : library_.lab_trays()) {
      if (!out_.tray.mass) uses(Noun::tray, tray.name, found);
      out_.lab_trays.push_back(std::move(tray));
    }
  }

  void material(const Given<std::string>& name) {
    if (!out_.materials.contains(name.value)) out_.materials[name.value] = get<Material>(Noun::material, name);
  }

  void stock(const Piece& piece) {
    for (const auto& section : piece.sections)
      for (const auto& layer : section.layers) {
        material(layer.material);
        if (layer.liquid && !out_.liquids.contains(layer.liquid->value))
          out_.liquids[layer.liquid->value] = get<Liquid>(Noun::liquid, *layer.liquid);
      }
    if (!piece.support || out_.supports.contains(piece.support->value)) return;
    const Support support = get<Support>(Noun::support, *piece.support);
    material(support.material);
    out_.supports[piece.support->value] = support;
  }

  void instruction(const Given<std::string>& name) {
    out_.instruction = get<Instruction>(Noun::instruction, name);
    material(out_.instruction->material);
    out_.instruction_program = get<Program>(Noun::program, out_.instruction->program);
    if (out_.instruction->tray) {
      out_.instruction_tray = get<Tray>(Noun::tray, *out_.instruction->tray);
    } else if (!out_.lab_trays.empty()) {
      out_.instruction_tray = out_.lab_trays.front();
      out_.instruction_tray_is_lightest = true;
      came(Noun::tray, out_.instruction_tray->name, library_.find(Noun::tray, out_.instruction_tray->name, name.place));
    }
    if (out_.instruction_tray) material(out_.instruction_tray->material);
  }

  /// An earlier firing may itself name what came before it, but only what stands before it here: one history, told once.
  void earlier_firings() {
    std::vector<std::string> before;
    for (const auto& name : out_.firing.after) {
      if (name.value == out_.firing.name)
        throw Mistake(name.place, fmt::format("after: firing \"{}\" cannot come before itself", name.value));
      Firing firing = get<Firing>(Noun::firing, name);
      for (const auto& its : firing.after)
        if (std::find(before.begin(), before.end(), its.value) == before.end())
          throw Mistake(name.place, fmt::format("after: firing \"{}\" came after \"{}\", which must stand before it in this list",
                                                name.value, its.value));
      firing.after.clear();
      std::optional<ResolvedFiring> known = of_the_past_ ? of_the_past_(firing) : std::nullopt;
      out_.earlier.push_back(known ? std::move(*known) : found_now(firing));
      before.push_back(name.value);
    }
  }

  ResolvedFiring found_now(const Firing& firing) {
    ResolvedFiring resolved = library_.resolve(firing);
    for (const auto& [what, where] : resolved.came_from)
      if (std::none_of(out_.came_from.begin(), out_.came_from.end(), [&asked = what](const auto& known) { return known.first == asked; }))
        out_.came_from.emplace_back(what, where);
    for (const auto& text : resolved.used)
      if (std::none_of(out_.used.begin(), out_.used.end(),
                       [&](const auto& known) { return known.kind == text.kind && known.name == text.name; }))
        out_.used.push_back(text);
    return resolved;
  }

  const Library& library_;
  const FiringOfThePast& of_the_past_;
  ReadingContext context_;
  ResolvedFiring out_;
};

ResolvedFiring Library::resolve(const Firing& firing, const FiringOfThePast& of_the_past) const {
  return Resolver(*this, firing, of_the_past).resolve();
}

ResolvedFiring load_firing(const std::filesystem::path& path, AmbientOfAltitude ambient_of_altitude) {
  const auto source = source_from_file(path);
  Library library(ambient_of_altitude);
  library.add(folder_shelf(path.parent_path()));
  library.add(shipped_shelf());
  return library.resolve(read_noun<Firing>(source, {}));
}

}  // namespace heatwork::trade
