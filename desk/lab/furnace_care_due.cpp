#include "desk/lab/furnace_care_due.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>

#include "desk/lab/furnace_history.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "furnace_care/certificate.h"
#include "trade/choice_words.h"
#include "trade/noun.h"
#include "trade/records.h"

namespace heatwork::desk {
namespace {

using furnace_care::DueItem;
using furnace_care::DueList;
using furnace_care::Upkeep;
using furnace_care::UpkeepInterval;

constexpr const char* maker_first = "The furnace maker's instruction comes first, then what the lab sets, then common practice.";

std::string standing(const std::string& on, const std::string& today) {
  return on < today ? "overdue" : on == today ? "today" : "";
}

/// Works whose day a document states, so that it is found without their interval: by hand, or by the newest check.
bool stated_by_document(const FurnaceKept& kept, const DueItem& item) {
  if (item.work && kept.history.next_by_check.contains(*item.work)) return true;
  return std::any_of(kept.furnace.dues.begin(), kept.furnace.dues.end(),
                     [&](const trade::FurnaceDue& due) { return !due.on.empty() && due.what == item.what; });
}

/// Checks that state a next day although a newer one of their kind stands.
std::set<std::string> outdated_checks(const FurnaceKept& kept) {
  std::set<std::string> names;
  std::map<trade::CheckOf, std::string> newest;
  for (const trade::Check& check : kept.checks) newest[check.of.value] = check.name;
  for (const trade::Check& check : kept.checks)
    if (!check.next.empty() && newest[check.of.value] != check.name) names.insert(check.name);
  return names;
}

std::vector<records::DueRow> rows_of_documents(records::Store& store, const std::string& until) {
  std::vector<records::DueRow> rows;
  for (int number = 1;; ++number) {
    auto page = store.dues(until, number);
    std::move(page.rows.begin(), page.rows.end(), std::back_inserter(rows));
    if (static_cast<std::int64_t>(rows.size()) >= page.count) return rows;
  }
}

Json count_or_null(const std::optional<int>& count) {
  return count ? Json(*count) : Json();
}

Json done_as_json(const std::optional<furnace_care::UpkeepDone>& last) {
  if (!last) return {};
  const std::string on = furnace_care::day_text(last->day);
  return JsonObject{{"on", on}, {"by", last->by}, {"sentence", fmt::format("Last done on {} by {}.", on, last->by)}};
}

/// How often, and whose word that is; all null where nobody says.
void add_interval(JsonObject& json, const std::optional<UpkeepInterval>& interval) {
  const bool is_said = interval && !in_words(*interval).empty();
  const UpkeepInterval said = is_said ? *interval : UpkeepInterval{};
  json.push_back({"interval", text_or_null(in_words(said))});
  json.push_back({"every_days", count_or_null(said.every_days)});
  json.push_back({"after_firings", count_or_null(said.after_firings)});
  json.push_back({"after_hours", said.after_hours ? Json(*said.after_hours) : Json()});
  json.push_back({"set_by", is_said ? Json(std::string(word(said.by))) : Json()});
  json.push_back({"stated_in", text_or_null(said.stated_in)});
  json.push_back({"person", text_or_null(said.person)});
}

/// Whose word it is, also where that is no interval.
void set_by(JsonObject& json, furnace_care::SetBy by) {
  *std::find_if(json.begin(), json.end(), [](const JsonMember& member) { return member.key == "set_by"; }) = {"set_by",
                                                                                                              std::string(word(by))};
}

/// The guided check that does a work, as paths name it; empty: none does.
std::string check_that_does(const std::optional<Upkeep>& work) {
  if (work == Upkeep::temperature) return "temperature";
  if (work == Upkeep::vacuum) return "vacuum";
  if (work == Upkeep::heating) return "heating";
  if (work == Upkeep::chamber_map) return "chamber-map";
  return "";
}

/// Whether it may be marked as done by hand, and else by which check it is done.
void add_doing(JsonObject& json, const std::optional<Upkeep>& work) {
  json.push_back({"by_hand", !work || !furnace_care::is_done_by_check(*work)});
  json.push_back({"check", text_or_null(check_that_does(work))});
}

Json item_as_json(const DueItem& item, const std::string& today) {
  const std::string on = furnace_care::day_text(item.day);
  JsonObject json{
      {"what", item.what}, {"work", item.what}, {"on", on}, {"overdue", on < today}, {"reason", JsonObject{{"sentence", item.sentence}}}};
  add_interval(json, item.interval);
  set_by(json, item.by);
  json.push_back({"last", done_as_json(item.last)});
  add_doing(json, item.work);
  return json;
}

std::string item_in_words(const DueItem& item, const std::string& today) {
  const std::string on = furnace_care::day_text(item.day);
  const std::string whose = item.interval ? who_says(*item.interval) : std::string(word(item.by));
  const std::string how_often = item.interval ? fmt::format("{} Due {} ({}).", item.sentence, in_words(*item.interval), whose)
                                              : fmt::format("{} ({}).", item.sentence.substr(0, item.sentence.size() - 1), whose);
  return fmt::format("{}  {:<7}  {}\n", on, standing(on, today), item.what) + care_line("", how_often);
}

struct Shown {
  std::string text;
  JsonObject json;
};

/// Days stated by hand in the furnace's file stand among the rest, until they are marked as done.
void take_hand_days(DueList& list, const FurnaceKept& kept) {
  for (const trade::FurnaceDue& due : kept.furnace.dues) {
    if (due.on.empty()) continue;
    std::erase_if(list.items, [&](const DueItem& item) { return item.what == due.what; });
    if (!due.done.empty()) continue;
    const bool maker = due.by && due.by->value == trade::IntervalBy::furnace_maker;
    list.items.push_back({furnace_care::upkeep_of(due.what),
                          furnace_care::day_number(due.on).value_or(0),
                          "The furnace's file states this day.",
                          maker ? furnace_care::SetBy::furnace_maker : furnace_care::SetBy::lab,
                          {},
                          {},
                          due.what});
  }
  std::stable_sort(list.items.begin(), list.items.end(), [](const DueItem& one, const DueItem& other) { return one.day < other.day; });
}

/// Every work with how often it is due, also where nobody says so.
JsonList works_as_json(const FurnaceKept& kept) {
  JsonList works;
  const auto add = [&](const std::string& what, const std::optional<Upkeep>& work, const std::optional<UpkeepInterval>& interval,
                       const std::optional<furnace_care::UpkeepDone>& last) {
    JsonObject json{{"work", what}, {"every_furnace_has_it", work.has_value()}};
    add_interval(json, interval);
    const std::string event(work ? called_for_by(*work) : "");
    json.push_back({"called_for_by", event.empty() ? Json() : Json(JsonObject{{"sentence", event}})});
    json.push_back({"last", done_as_json(last)});
    add_doing(json, work);
    works.push_back(std::move(json));
  };
  const auto in = [](const auto& all, const auto& of) {
    const auto found = all.find(of);
    return found == all.end() ? std::nullopt : std::optional(found->second);
  };
  const auto intervals = furnace_care::intervals_of(kept.set, kept.history);
  for (std::size_t i = 0; i < furnace_care::upkeep_works; ++i) {
    const auto work = static_cast<Upkeep>(i);
    add(std::string(word(work)), work, in(intervals, work), in(kept.history.done, work));
  }
  for (const auto& [what, interval] : kept.set.own) add(what, std::nullopt, interval, in(kept.set.own_done, what));
  return works;
}

/// Works with an interval that use alone ends, and not within a year.
std::string later_in_words(const FurnaceKept& kept, const DueList& list) {
  std::string text;
  for (const auto& [work, interval] : furnace_care::intervals_of(kept.set, kept.history)) {
    const bool told =
        work == Upkeep::start_of_day || in_words(interval).empty() ||
        std::any_of(list.items.begin(), list.items.end(), [name = word(work)](const DueItem& item) { return item.what == name; });
    if (!told)
      text += care_line("Later", fmt::format("{}, {} ({}): not within a year.", word(work), in_words(interval), who_says(interval)));
  }
  return text;
}

Shown furnace_shown(const FurnaceKept& kept, const std::string& today) {
  DueList list = furnace_care::due_of_furnace(kept.history, kept.set);
  take_hand_days(list, kept);
  Shown out;
  const std::string& label = kept.furnace.label;
  out.text = "\n" + care_line("Furnace", kept.furnace.name + (label.empty() ? "" : fmt::format(" ({})", label)));
  JsonList items, without;
  for (const DueItem& item : list.items) {
    out.text += item_in_words(item, today);
    items.push_back(item_as_json(item, today));
  }
  out.text += later_in_words(kept, list);
  for (const Upkeep work : list.without_interval) {
    const std::string sentence = fmt::format("Nobody says how often the {} is due: the furnace maker's instruction must.", word(work));
    out.text += care_line("Not set", sentence);
    without.push_back(JsonObject{{"work", std::string(word(work))}, {"sentence", sentence}});
  }
  out.json = {{"furnace", kept.furnace.name}, {"label", label},
              {"version", kept.version},      {"due", std::move(items)},
              {"works", works_as_json(kept)}, {"without_interval", std::move(without)}};
  return out;
}

/// How often works are due at every furnace whose own file says nothing of them.
Json every_furnace_as_json(records::Store& store) {
  JsonList works;
  for (const trade::LabDue& due : dues_of_lab(store)) {
    JsonObject json{{"work", due.what}};
    add_interval(json, interval_of_lab(due));
    works.push_back(std::move(json));
  }
  const LabSettings lab = lab_settings(store, settings_of(variables_of_process()));
  return JsonObject{{"version", lab.document.empty() ? Json() : Json(lab.version)}, {"works", std::move(works)}};
}

/// A reference whose certificate comes to its end, or is to be made anew.
struct ReferenceFallsDue {
  trade::Reference reference;
  furnace_care::CertificateDue due;
};

std::string what_falls_due(const furnace_care::CertificateDue& due) {
  return due.interval ? "certified anew" : "expires";
}

/// In order of day, then name.
std::vector<ReferenceFallsDue> references_due(records::Store& store, const std::string& today) {
  std::vector<ReferenceFallsDue> all;
  records::HeadQuery query;
  query.kind = trade::word(trade::Noun::reference);
  for (bool more = true; more; ++query.page) {
    const auto page = store.heads(query);
    std::vector<std::string> names;
    for (const records::Head& head : page.rows) names.push_back(head.id);
    for (const records::Document& document : store.newest(query.kind, names)) {
      auto reference = read_kept<trade::Reference>(kept_source(document));
      const auto due = furnace_care::certificate_due(reference, furnace_care::day_number(today).value_or(0));
      if (due) all.push_back({std::move(reference), *due});
    }
    more = page.rows.size() == records::rows_a_page;
  }
  std::sort(all.begin(), all.end(), [](const ReferenceFallsDue& one, const ReferenceFallsDue& other) {
    return std::tie(one.due.day, one.reference.name) < std::tie(other.due.day, other.reference.name);
  });
  return all;
}

/// Certificates of what furnaces are checked with.
Shown references_shown(records::Store& store, const std::string& today) {
  Shown out;
  JsonList rows;
  for (const auto& [reference, due] : references_due(store, today)) {
    if (rows.empty()) out.text = "\n" + care_line("References", "certificates of what furnaces are checked with");
    const std::string on = furnace_care::day_text(due.day);
    const std::string how =
        due.interval ? fmt::format("{} Again {} ({}).", due.sentence, in_words(*due.interval), who_says(*due.interval)) : due.sentence;
    out.text += fmt::format("{}  {:<7}  {}: {}\n", on, standing(on, today), reference.name, trade::choice_word(reference.of.value)) +
                care_line("", how);
    JsonObject json{{"reference", reference.name},
                    {"label", reference.label},
                    {"of", trade::choice_word(reference.of.value)},
                    {"what", what_falls_due(due)},
                    {"on", on},
                    {"overdue", on < today},
                    {"reason", JsonObject{{"sentence", due.sentence}}}};
    add_interval(json, due.interval);
    set_by(json, due.by);
    rows.push_back(std::move(json));
  }
  out.json = {{"references", std::move(rows)}};
  return out;
}

}  // namespace

std::vector<FallsDue> all_that_falls_due(records::Store& store, const StorePlace& place, const std::string& today,
                                         const std::string& until) {
  std::vector<FallsDue> all;
  std::set<std::string> outdated;
  for (const std::string& name : furnaces_kept(store)) {
    const FurnaceKept kept = furnace_kept(store, place, name, today);
    outdated.merge(outdated_checks(kept));
    for (const DueItem& item : furnace_care::due_of_furnace(kept.history, kept.set).items) {
      const std::string on = furnace_care::day_text(item.day);
      if (on <= until && !stated_by_document(kept, item))
        all.push_back({on, std::string(trade::word(trade::Noun::furnace)), name, kept.furnace.label, item.what});
    }
  }
  for (const auto& [reference, due] : references_due(store, today))
    if (const std::string on = furnace_care::day_text(due.day); on <= until)
      all.push_back({on, std::string(trade::word(trade::Noun::reference)), reference.name, reference.label, what_falls_due(due)});
  for (const records::DueRow& row : rows_of_documents(store, until)) {
    const bool told_above = row.kind == trade::word(trade::Noun::reference);
    if (!told_above && (row.kind != trade::word(trade::Noun::check) || !outdated.contains(row.id)))
      all.push_back({row.due.on, row.kind, row.id, row.label, row.due.what});
  }
  std::stable_sort(all.begin(), all.end(), [](const FallsDue& one, const FallsDue& other) {
    return std::tie(one.on, one.kind, one.name) < std::tie(other.on, other.kind, other.name);
  });
  return all;
}

CareAnswer due_of_furnaces(const AskedLab& asked, const FurnaceDueWords& words, const Clock& clock) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    const std::string today = local_day(clock.now_ms(), place.zone);
    records::Store store = opened(place, Reading::only);
    const std::vector<std::string> names = words.furnace.empty() ? furnaces_kept(store) : std::vector<std::string>{words.furnace};
    std::string text = care_line("Today", fmt::format("{} in the zone {}", today, place.zone)) + care_line("First", maker_first);
    if (names.empty()) text += care_line("Furnaces", "none is kept");
    JsonList furnaces;
    for (const std::string& name : names) {
      Shown shown = furnace_shown(furnace_kept(store, place, name, today), today);
      text += shown.text;
      furnaces.push_back(std::move(shown.json));
    }
    Shown references = references_shown(store, today);
    return CareAnswer{text + references.text,
                      JsonObject{{"format", 1},
                                 {"today", today},
                                 {"zone", place.zone},
                                 {"first", JsonObject{{"sentence", maker_first}}},
                                 {"furnaces", std::move(furnaces)},
                                 {"every_furnace", every_furnace_as_json(store)},
                                 {"references", std::move(references.json.front().value)}},
                      false};
  });
}

}  // namespace heatwork::desk
