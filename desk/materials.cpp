#include "desk/materials.h"

#include <fmt/core.h>

#include <algorithm>

#include "desk/columns.h"
#include "desk/errors.h"
#include "desk/files.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/choice.h"
#include "trade/mistake.h"
#include "trade/property.h"
#include "trade/reader.h"
#include "trade/relaxation.h"
#include "trade/shipped.h"

namespace heatwork::desk {
namespace {

constexpr std::string_view shipped_materials_folder = "materials/";

std::vector<trade::Material> read_shipped() {
  std::vector<trade::Material> materials;
  for (const trade::ShippedFile& file : trade::shipped_files()) {
    if (!file.path.starts_with(shipped_materials_folder)) continue;
    materials.push_back(trade::read_noun<trade::Material>(trade::source_of(fmt::format("shipped:{}", file.path), file.text)));
  }
  std::sort(materials.begin(), materials.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
  return materials;
}

template <class E>
std::string_view word_of(E value) {
  return trade::choices<E>()[static_cast<std::size_t>(value)];
}

std::string calibrated_in_words(const trade::Calibrated& calibrated) {
  return fmt::format("calibrated by a trial firing in furnace {} on tray {}, where it is known to {}; the display of that furnace {}",
                     calibrated.furnace, calibrated.tray, quantity::write(calibrated.within.value),
                     calibrated.display_error_u
                         ? fmt::format("was known with a standard uncertainty of {}", quantity::write(calibrated.display_error_u->value))
                         : std::string("was never checked"));
}

Json calibrated_as_json(const trade::Material& material) {
  if (!material.calibrated) return {};
  const trade::Calibrated& calibrated = *material.calibrated;
  return JsonObject{{"furnace", calibrated.furnace},
                    {"tray", calibrated.tray},
                    {"within_K", calibrated.within.value.si()},
                    {"display_error_u_K", calibrated.display_error_u ? Json(calibrated.display_error_u->value.si()) : Json()}};
}

std::string number_in(double value, std::string_view unit) {
  return unit.empty() ? quantity::write_number(value) : quantity::write_in(value, unit);
}

}  // namespace

const std::vector<trade::Material>& shipped_materials() {
  static const std::vector<trade::Material> materials = read_shipped();
  return materials;
}

const trade::Material& shipped_material(std::string_view name) {
  std::vector<std::string> names;
  for (const trade::Material& each : shipped_materials()) {
    if (each.name == name) return each;
    names.push_back(each.name);
  }
  const std::string meant = quantity::near_miss(name, names);
  throw Failure(ErrorWord::unknown_name,
                fmt::format("There is no material \"{}\"{}; \"heatwork material list\" shows all that ship.", trade::for_message(name, 40),
                            meant.empty() ? "" : fmt::format(" (did you mean \"{}\"?)", meant)));
}

trade::Material find_material(const std::string& name_or_file) {
  if (!name_or_file.ends_with(".toml")) return shipped_material(name_or_file);
  return trade::read_noun<trade::Material>(trade::source_of(name_or_file, read_whole(name_or_file)));
}

std::string materials_as_text() {
  std::size_t longest = 0;
  for (const trade::Material& each : shipped_materials()) longest = std::max(longest, each.name.size());
  std::string out;
  for (const trade::Material& each : shipped_materials()) {
    out += fmt::format("{:<{}}  {}\n", each.name, longest, each.label.empty() ? std::string(word_of(each.kind)) : each.label);
  }
  return out;
}

std::string material_as_text(const trade::Material& material) {
  std::string out = wrapped(material.label.empty() ? material.name : fmt::format("{}: {}", material.name, material.label), 2, 0);
  out += wrapped(fmt::format("{}{}{}", word_of(material.kind), material.family.empty() ? "" : ", ", material.family), 2, 2);
  if (!material.note.empty()) out += wrapped(material.note, 2, 2);
  if (material.calibrated) out += wrapped(calibrated_in_words(*material.calibrated), 2, 2);
  if (const trade::Relaxation* relaxes = trade::relaxation(material.relaxation))
    out += wrapped(
        fmt::format("relaxes as {} ({}): {}; source: {}", relaxes->name, word_of(relaxes->standing), relaxes->meaning, relaxes->source), 2,
        2);
  for (const trade::PropertyName& property : trade::material_properties()) {
    const trade::Estimate* found = material.find(std::string(property.name));
    if (found == nullptr) continue;
    const bool known = found->standing != trade::Standing::none_found;
    out += "\n" + wrapped(known ? fmt::format("{} = {}, from {} to {} ({})", property.name, number_in(found->value, property.unit),
                                              number_in(found->low, property.unit), number_in(found->high, property.unit),
                                              word_of(found->standing))
                                : fmt::format("{}: {}", property.name, word_of(found->standing)),
                          4, 2);
    out += wrapped(std::string(property.meaning), 4, 4);
    out += wrapped(fmt::format("source: {}", found->source), 4, 4);
  }
  return out;
}

Json materials_as_json() {
  JsonList list;
  for (const trade::Material& each : shipped_materials()) {
    list.push_back(JsonObject{{"name", each.name}, {"label", each.label}, {"kind", word_of(each.kind)}, {"family", each.family}});
  }
  return JsonObject{{"format", 1}, {"materials", list}};
}

Json material_as_json(const trade::Material& material) {
  JsonList properties;
  for (const trade::PropertyName& property : trade::material_properties()) {
    const trade::Estimate* found = material.find(std::string(property.name));
    if (found == nullptr) continue;
    const bool known = found->standing != trade::Standing::none_found;
    const auto number = [&](double value) { return known ? Json(value) : Json(); };
    properties.push_back(JsonObject{{"property", property.name},
                                    {"meaning", property.meaning},
                                    {"unit", property.unit},
                                    {"value", number(found->value)},
                                    {"low", number(found->low)},
                                    {"high", number(found->high)},
                                    {"standing", word_of(found->standing)},
                                    {"source", found->source}});
  }
  return JsonObject{{"format", 1},
                    {"name", material.name},
                    {"label", material.label},
                    {"note", material.note},
                    {"kind", word_of(material.kind)},
                    {"family", material.family},
                    {"relaxation", material.relaxation.empty() ? Json() : Json(material.relaxation)},
                    {"calibrated", calibrated_as_json(material)},
                    {"properties", properties}};
}

}  // namespace heatwork::desk
