#include "desk/lab/lab_settings.h"

#include <fmt/format.h>

#include <utility>

#include "desk/errors.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_difference.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "trade/records.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

constexpr std::string_view kind = "lab";

/// The one lab of a store; the rules of keeping let none stand beside it.
std::optional<records::Document> document_of(records::Store& store) {
  records::HeadQuery query;
  query.kind = kind;
  const auto page = store.heads(query);
  if (page.rows.empty()) return std::nullopt;
  return store.find(kind, page.rows.front().id);
}

void say(std::string& value, std::string& from, const std::string& said, std::string_view by) {
  if (said.empty()) return;
  value = said;
  from = by;
}

LabSettings of_machine(const Settings& machine, LabSettings settings = {}) {
  say(settings.language, settings.language_from, machine.language, "setting");
  say(settings.units, settings.units_from, machine.units, "setting");
  return settings;
}

std::string lines_of(const LabSettings& settings) {
  const auto said = [](const std::string& value, const std::string& from) {
    return from == "lab"       ? fmt::format("{}, as the lab says", value)
           : from == "setting" ? fmt::format("{}, by the settings of this machine", value)
                               : fmt::format("{}, as nothing else is said", value);
  };
  const std::string called =
      settings.document.empty()
          ? "none is kept in this store yet"
          : fmt::format("{}, version {}", settings.called.empty() ? settings.document : settings.called, settings.version);
  return care_line("Lab", called) + care_line("Language", said(settings.language, settings.language_from)) +
         care_line("Units", said(settings.units, settings.units_from)) +
         (settings.demo ? care_line("Demo", "yes: nothing in this store happened") : "");
}

JsonObject as_json(const LabSettings& settings) {
  const bool kept = !settings.document.empty();
  return {{"format", 1},
          {"kept", kept},
          {"document", kept ? Json(settings.document) : Json()},
          {"version", kept ? Json(settings.version) : Json()},
          {"name", settings.called},
          {"language", settings.language},
          {"language_from", settings.language_from},
          {"lab_language", text_or_null(settings.says_language)},
          {"units", settings.units},
          {"units_from", settings.units_from},
          {"lab_units", text_or_null(settings.says_units)},
          {"demo", settings.demo}};
}

records::NewVersion version_of(const trade::Lab& lab, int after, const std::string& reason) {
  records::NewVersion version;
  version.kind = kind;
  version.id = lab.name;
  version.after = after;
  version.body = kept_text(trade::source_of("the lab", trade::write_noun(lab))).body;
  version.action = after == 0 ? "added" : "changed";
  version.reason = reason;
  return version;
}

}  // namespace

LabSettings lab_settings(records::Store& store, const Settings& machine) {
  LabSettings settings;
  const auto document = document_of(store);
  if (!document) return of_machine(machine);
  const auto lab = read_kept<trade::Lab>(kept_source(*document));
  settings.document = document->id;
  settings.version = document->version;
  settings.called = lab.label;
  settings.demo = lab.demo;
  settings.says_language = lab.language;
  settings.says_units = lab.units;
  say(settings.language, settings.language_from, lab.language, kind);
  say(settings.units, settings.units_from, lab.units, kind);
  return of_machine(machine, std::move(settings));
}

LabSettings lab_settings(const AskedLab& asked) {
  const Settings machine = settings_of(variables_of_process());
  try {
    records::Store store = opened(place_of(asked), Reading::only);
    return lab_settings(store, machine);
  } catch (const records::StoreError&) {
    return of_machine(machine);
  }
}

CareAnswer show_lab(const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    const Settings machine = settings_of(variables_of_process());
    try {
      records::Store store = opened(place, Reading::only);
      const LabSettings settings = lab_settings(store, machine);
      return CareAnswer{lines_of(settings), as_json(settings), false};
    } catch (const records::StoreError& error) {
      if (error.problem() != records::StoreProblem::no_store || !place.nobody_named_it) throw;
      const LabSettings settings = of_machine(machine);
      return CareAnswer{lines_of(settings), as_json(settings), false};
    }
  });
}

CareAnswer set_lab(const AskedLab& asked, const LabWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    const auto newest = document_of(store);
    auto base = newest;
    if (newest && words.from > 0 && words.from != newest->version) base = store.find(kind, newest->id, words.from);
    if (!base && words.from > 0)
      throw Failure(ErrorWord::unknown_name, fmt::format("There is no version {} of the lab; {}.", words.from,
                                                         newest ? fmt::format("the newest is {}", newest->version) : "none is kept yet"));
    trade::Lab lab;
    lab.name = usual_lab_document;
    if (base) lab = read_kept<trade::Lab>(kept_source(*base));
    if (words.called) lab.label = *words.called;
    if (words.language) lab.language = *words.language;
    if (words.units) lab.units = *words.units;
    records::Change change;
    change.documents = {version_of(lab, base ? base->version : 0, words.reason)};
    if (base && change.documents.front().body == base->body)
      throw Failure(ErrorWord::bad_value, fmt::format("That is what version {} of the lab says already; nothing was kept.", base->version));
    const records::Kept kept = keep(place, store, std::move(change));
    const LabSettings settings = lab_settings(store, settings_of(variables_of_process()));
    JsonObject json = as_json(settings);
    json.push_back({"head", kept.head});
    return CareAnswer{lines_of(settings) + care_line("Head hash", kept.head), json, false};
  });
}

}  // namespace heatwork::desk
