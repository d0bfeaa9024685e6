#include "desk/lab/materials_in_lab.h"

#include <algorithm>

#include "desk/lab/kept_names.h"
#include "desk/lab/kept_show.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/lab/store_place.h"
#include "desk/materials.h"

namespace heatwork::desk {
namespace {

constexpr trade::Noun noun = trade::Noun::material;

bool ships(const std::string& name) {
  const auto& all = shipped_materials();
  return std::any_of(all.begin(), all.end(), [&](const trade::Material& each) { return each.name == name; });
}

/// It is kept, or a name that is kept is nearer to it than none: then the store answers.
bool is_for_the_store(records::Store& store, const std::string& name) {
  if (name.find('@') != std::string::npos) return true;
  if (store.find(trade::word(noun), name)) return true;
  if (ships(name)) return false;
  return !near_kept_name(store, trade::word(noun), name).empty();
}

}  // namespace

CareAnswer list_materials(const AskedLab& asked, int page) {
  std::string text = materials_as_text();
  JsonObject json = *materials_as_json().object();
  const StorePlace place = place_of(asked);
  const bool stands = caring(place, [&] { return store_that_stands(place).has_value(); });
  JsonList rows;
  double count = 0;
  if (stands) {
    const CareAnswer kept = list_kept(asked, noun, {"", "", page});
    count = *kept.json.find("count")->number();
    rows = *kept.json.find("rows")->list();
    if (count > 0) text += "\nKept in the lab's store:\n" + kept.text;
  }
  json.push_back({"kept", rows});
  json.push_back({"kept_count", count});
  json.push_back({"page", page});
  return {text, json, false};
}

CareAnswer show_material(const AskedLab& asked, const std::string& name_or_file) {
  if (!name_or_file.ends_with(".toml")) {
    const StorePlace place = place_of(asked);
    const bool kept = caring(place, [&] {
      auto store = store_that_stands(place);
      return store && is_for_the_store(*store, name_or_file);
    });
    if (kept) return show_kept(asked, noun, name_or_file);
  }
  const trade::Material material = find_material(name_or_file);
  return {material_as_text(material), material_as_json(material), false};
}

}  // namespace heatwork::desk
