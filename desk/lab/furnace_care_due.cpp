#include "desk/lab/furnace_care_due.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>

#include "desk/lab/furnace_history.h"
#include "desk/lab/local_time.h"
#include "trade/noun.h"

namespace heatwork::desk {
namespace {

using furnace_care::DueItem;
using furnace_care::DueList;
using furnace_care::Upkeep;

constexpr const char* furthest_day = "9999-12-31";
constexpr const char* maker_first = "The furnace maker's instruction comes first; these days stand in for what it does not say.";

std::string standing(const std::string& on, const std::string& today) {
  return on < today ? "overdue" : on == today ? "today" : "";
}

/// Works whose day a document states, so that it is found without their interval: by hand, or by the newest check.
bool stated_by_document(const FurnaceKept& kept, const DueItem& item) {
  if (item.what == word(item.work) && kept.history.next_by_check.contains(item.work)) return true;
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

Json last_as_json(const DueItem& item) {
  if (!item.last) return {};
  return JsonObject{{"on", furnace_care::day_text(item.last->day)}, {"by", item.last->by}};
}

Json item_as_json(const DueItem& item, const std::string& today) {
  const std::string on = furnace_care::day_text(item.day);
  return JsonObject{{"what", item.what},
                    {"on", on},
                    {"overdue", on < today},
                    {"reason", JsonObject{{"sentence", item.sentence}}},
                    {"set_by", std::string(word(item.by))},
                    {"interval", text_or_null(item.interval)},
                    {"last", last_as_json(item)}};
}

std::string item_in_words(const DueItem& item, const std::string& today) {
  const std::string on = furnace_care::day_text(item.day);
  const std::string how_often =
      item.interval.empty() ? fmt::format(" ({}).", word(item.by)) : fmt::format(" Due {} ({}).", item.interval, word(item.by));
  return fmt::format("{}  {:<7}  {}\n", on, standing(on, today), item.what) +
         care_line("", item.interval.empty() ? item.sentence.substr(0, item.sentence.size() - 1) + how_often : item.sentence + how_often);
}

struct Shown {
  std::string text;
  JsonObject json;
};

/// Days stated by hand in the furnace's file stand among the rest.
void take_hand_days(DueList& list, const FurnaceKept& kept) {
  for (const trade::FurnaceDue& due : kept.furnace.dues) {
    if (due.on.empty()) continue;
    std::erase_if(list.items, [&](const DueItem& item) { return item.what == due.what; });
    list.items.push_back({{},
                          furnace_care::day_number(due.on).value_or(0),
                          "The furnace's file states this day.",
                          furnace_care::SetBy::lab,
                          "",
                          {},
                          due.what});
  }
  std::stable_sort(list.items.begin(), list.items.end(), [](const DueItem& one, const DueItem& other) { return one.day < other.day; });
}

Shown furnace_shown(const FurnaceKept& kept, const std::string& today) {
  DueList list = furnace_care::due_of_furnace(kept.history, {});
  take_hand_days(list, kept);
  Shown out;
  const std::string& label = kept.furnace.label;
  out.text = "\n" + care_line("Furnace", kept.furnace.name + (label.empty() ? "" : fmt::format(" ({})", label)));
  JsonList items, without;
  for (const DueItem& item : list.items) {
    out.text += item_in_words(item, today);
    items.push_back(item_as_json(item, today));
  }
  for (const Upkeep work : list.without_interval) {
    const std::string sentence = fmt::format("Nobody says how often the {} is due: the furnace maker's instruction must.", word(work));
    out.text += care_line("Not set", sentence);
    without.push_back(JsonObject{{"work", std::string(word(work))}, {"sentence", sentence}});
  }
  out.json = {{"furnace", kept.furnace.name}, {"label", label}, {"due", std::move(items)}, {"without_interval", std::move(without)}};
  return out;
}

/// Certificates of what furnaces are checked with.
Shown references_shown(records::Store& store, const std::string& today) {
  Shown out;
  JsonList rows;
  for (const records::DueRow& row : rows_of_documents(store, furthest_day)) {
    if (row.kind != trade::word(trade::Noun::reference)) continue;
    if (rows.empty()) out.text = "\n" + care_line("References", "certificates of what furnaces are checked with");
    out.text += fmt::format("{}  {:<7}  {}: {}\n", row.due.on, standing(row.due.on, today), row.id, row.due.what);
    rows.push_back(JsonObject{
        {"reference", row.id}, {"label", row.label}, {"what", row.due.what}, {"on", row.due.on}, {"overdue", row.due.on < today}});
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
    for (const DueItem& item : furnace_care::due_of_furnace(kept.history, {}).items) {
      const std::string on = furnace_care::day_text(item.day);
      if (on <= until && !stated_by_document(kept, item))
        all.push_back({on, std::string(trade::word(trade::Noun::furnace)), name, kept.furnace.label, item.what});
    }
  }
  for (const records::DueRow& row : rows_of_documents(store, until))
    if (row.kind != trade::word(trade::Noun::check) || !outdated.contains(row.id))
      all.push_back({row.due.on, row.kind, row.id, row.label, row.due.what});
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
                                 {"references", std::move(references.json.front().value)}},
                      false};
  });
}

}  // namespace heatwork::desk
