#include "desk/lab/list_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <type_traits>
#include <utility>

#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "metrology/display_limits.h"
#include "trade/choice_words.h"
#include "trade/firing.h"
#include "trade/instruction.h"
#include "trade/records.h"
#include "trade/shipped.h"

namespace heatwork::desk {
namespace {

Json name_or_null(const trade::Maybe<std::string>& name) {
  return name ? Json(name->value) : Json();
}

JsonList teeth_of(const std::vector<int>& teeth) {
  JsonList list;
  for (const int tooth : teeth) list.push_back(tooth);
  return list;
}

JsonList names_of(const std::vector<trade::Given<std::string>>& names) {
  JsonList list;
  for (const auto& name : names) list.push_back(name.value);
  return list;
}

// What each kind shows beside; nothing where it is not told here.
template <class T>
JsonObject shown(const T&) {
  return {};
}
JsonObject shown(const trade::Piece& piece) {
  return {{"case", name_or_null(piece.of_case)}, {"teeth", teeth_of(piece.teeth)}};
}
JsonObject shown(const trade::Case& one) {
  return {{"teeth", teeth_of(one.teeth)},
          {"pieces", names_of(one.pieces)},
          {"wanted", text_or_null(one.wanted)},
          {"next_step", text_or_null(one.next_step)}};
}
JsonObject shown(const trade::Lot& lot) {
  return {{"material", name_or_null(lot.material)},
          {"liquid", name_or_null(lot.liquid)},
          {"code", text_or_null(lot.code)},
          {"expires", text_or_null(lot.expires)}};
}
JsonObject shown(const trade::Firing& firing) {
  JsonList pieces;
  for (const auto& on : firing.pieces) pieces.push_back(on.piece.value);
  return {{"stage", trade::choice_word(firing.stage.value)},
          {"furnace", firing.furnace.value},
          {"program", firing.program.value},
          {"pieces", std::move(pieces)}};
}
std::size_t readings_in(const trade::Check& check) {
  std::size_t count = check.trials.size() + check.compared.size() + check.map.size();
  if (check.vacuum) count += check.vacuum->pump_down.size() + check.vacuum->rise.size();
  if (check.heating_run) count += check.heating_run->samples.size();
  return count;
}

/// What the error that a check found was judged by.
Json limit_of(const trade::Check& check) {
  if (!check.error) return {};
  return check.limit ? check.limit->value.si() : metrology::usual_display_limit_K;
}

JsonObject shown(const trade::Check& check) {
  return {{"furnace", check.furnace.value},
          {"of", trade::choice_word(check.of.value)},
          {"next", text_or_null(check.next)},
          {"readings", static_cast<double>(readings_in(check))},
          {"error_K", check.error ? Json(check.error->value.si()) : Json()},
          {"standard_uncertainty_K", check.standard_uncertainty ? Json(check.standard_uncertainty->value.si()) : Json()},
          {"limit_K", limit_of(check)}};
}
JsonObject shown(const trade::Instruction& sheet) {
  return {{"material", sheet.material.value}, {"stage", trade::choice_word(sheet.stage.value)}, {"program", sheet.program.value}};
}

template <class T>
constexpr bool tells_more = std::is_same_v<T, trade::Piece> || std::is_same_v<T, trade::Case> || std::is_same_v<T, trade::Lot> ||
                            std::is_same_v<T, trade::Firing> || std::is_same_v<T, trade::Check> || std::is_same_v<T, trade::Instruction>;

/// A program itself tells neither material nor stage of work: the makers' sheets that name it do.
Columns of_programs(records::Store& store) {
  struct For {
    std::set<std::string> materials, stages;
  };
  std::map<std::string, For> programs;
  records::HeadQuery query;
  query.kind = trade::word(trade::Noun::instruction);
  for (bool more = true; more; ++query.page) {
    const auto page = store.heads(query);
    std::vector<std::string> names;
    for (const auto& head : page.rows) names.push_back(head.id);
    for (const auto& document : store.newest(query.kind, names)) {
      const auto sheet = read_kept<trade::Instruction>(kept_source(document));
      programs[sheet.program.value].materials.insert(sheet.material.value);
      programs[sheet.program.value].stages.insert(std::string(trade::choice_word(sheet.stage.value)));
    }
    more = page.rows.size() == records::rows_a_page;
  }
  Columns columns;
  for (const auto& [name, used] : programs)
    columns[name] = {{"materials", JsonList(used.materials.begin(), used.materials.end())},
                     {"stages", JsonList(used.stages.begin(), used.stages.end())}};
  return columns;
}

/// Over all its versions: when it was used last, and in which furnace.
JsonObject last_use_of(records::Store& store, const records::Head& program) {
  std::optional<records::LastUse> newest;
  for (int version = 1; version <= program.version; ++version) {
    const auto use = store.last_use(fmt::format("{}@{}", program.id, version));
    if (use && (!newest || use->at_ms >= newest->at_ms)) newest = use;
  }
  return {{"last_used", newest ? Json(utc_text(newest->at_ms)) : Json()},
          {"last_furnace", newest ? text_or_null(newest->furnace) : Json()}};
}

}  // namespace

Columns columns_of(records::Store& store, trade::Noun noun, const std::vector<records::Head>& rows) {
  if (noun == trade::Noun::program) {
    Columns columns = of_programs(store);
    for (const auto& head : rows) {
      JsonObject& shown = columns.try_emplace(head.id, JsonObject{{"materials", JsonList{}}, {"stages", JsonList{}}}).first->second;
      for (JsonMember& member : last_use_of(store, head)) shown.push_back(std::move(member));
    }
    return columns;
  }
  return trade::with_type_of(noun, [&]<class T>(std::type_identity<T>) {
    Columns columns;
    if constexpr (tells_more<T>) {
      std::vector<std::string> names;
      for (const auto& head : rows) names.push_back(head.id);
      for (const auto& document : store.newest(trade::word(noun), names)) columns[document.id] = shown(read_kept<T>(kept_source(document)));
    }
    return columns;
  });
}

Json with_columns(const Json& row, JsonObject columns) {
  JsonObject whole = *row.object();
  for (JsonMember& member : columns) whole.push_back(std::move(member));
  return whole;
}

namespace {

struct Shipped {
  std::string name, label;
};

std::string in_lower_case(std::string text) {
  for (char& letter : text)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return text;
}

std::vector<Shipped> read_shipped(trade::Noun noun) {
  const std::string folder = std::string(trade::shipped_folder(noun)) + "/";
  std::vector<Shipped> all;
  for (const trade::ShippedFile& file : trade::shipped_files()) {
    if (!file.path.starts_with(folder)) continue;
    const KeptText read = kept_text(trade::source_of(fmt::format("shipped:{}", file.path), file.text));
    all.push_back({read.name, read.label});
  }
  return all;
}

/// Of every kind; read once.
const std::map<trade::Noun, std::vector<Shipped>>& all_shipped() {
  static const auto all = [] {
    std::map<trade::Noun, std::vector<Shipped>> read;
    for (std::size_t i = 0; i < trade::noun_words.size(); ++i)
      read[static_cast<trade::Noun>(i)] = read_shipped(static_cast<trade::Noun>(i));
    return read;
  }();
  return all;
}

}  // namespace

JsonList shipped_of(trade::Noun noun, const std::string& word) {
  const std::string sought = in_lower_case(word);
  JsonList list;
  for (const auto& [name, label] : all_shipped().at(noun))
    if (in_lower_case(name + " " + label).find(sought) != std::string::npos) list.push_back(JsonObject{{"name", name}, {"label", label}});
  return list;
}

}  // namespace heatwork::desk
