#include "desk/lab/today.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "desk/lab/expected_open.h"
#include "desk/lab/kept_firing.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_questions.h"
#include "desk/lab/store_shelf.h"
#include "trade/choice_words.h"
#include "trade/mistake.h"
#include "trade/records.h"

namespace heatwork::desk {
namespace {

/// The newest versions of a kind in one state, each read; with the exact count of all. Beyond `most_read` the store tells how many more.
template <class T>
struct Found {
  std::vector<T> all;
  std::int64_t count = 0;
};

template <class T>
Found<T> in_state(records::Store& store, trade::Noun noun, std::string_view state) {
  records::HeadQuery query{std::string(trade::word(noun)), "", std::string(state), 1};
  const auto page = store.heads(query);
  std::vector<std::string> names;
  for (const auto& head : page.rows) names.push_back(head.id);
  Found<T> found;
  found.count = page.count;
  for (const records::Document& document : store.newest(query.kind, names)) found.all.push_back(read_kept<T>(kept_source(document)));
  std::sort(found.all.begin(), found.all.end(), [](const T& one, const T& other) { return one.name < other.name; });
  return found;
}

template <class T>
void keep_first(std::vector<T>& all) {
  if (all.size() > rows_of_today) all.resize(rows_of_today);
}

Json open_as_json(const std::optional<ExpectedOpen>& open) {
  if (!open) return {};
  return JsonObject{{"expected", open->expected}, {"earliest", open->earliest}, {"latest", open->latest}};
}

Json firing_as_json(const trade::Firing& firing, const std::optional<ExpectedOpen>& open) {
  JsonList pieces;
  for (const auto& on : firing.pieces)
    pieces.push_back(JsonObject{{"piece", on.piece.value}, {"place", trade::choice_word(on.place.value)}});
  const trade::FiringRecord blank;
  const trade::FiringRecord& record = firing.record ? *firing.record : blank;
  return JsonObject{{"name", firing.name},
                    {"label", firing.label},
                    {"state", word(state_of(firing))},
                    {"stage", trade::choice_word(firing.stage.value)},
                    {"furnace", firing.furnace.value},
                    {"program", firing.program.value},
                    {"pieces", std::move(pieces)},
                    {"planned_for", text_or_null(record.planned_for)},
                    {"started", text_or_null(record.started)},
                    {"started_by", text_or_null(record.started_by)},
                    {"interrupted", text_or_null(record.interrupted)},
                    {"interruption", text_or_null(record.interruption)},
                    {"open", open_as_json(open)}};
}

struct Firings {
  std::vector<trade::Firing> shown;
  std::vector<std::optional<ExpectedOpen>> open;  ///< one each
  std::int64_t count = 0;
};

Firings firings_of_today(records::Store& store) {
  Firings firings;
  for (const auto state : {trade::FiringState::started, trade::FiringState::interrupted, trade::FiringState::planned}) {
    auto found = in_state<trade::Firing>(store, trade::Noun::firing, trade::choice_word(state));
    const auto when = [&](const trade::Firing& firing) {
      const std::string& at = state == trade::FiringState::planned ? firing.record->planned_for : firing.record->started;
      return std::tuple(at.empty(), at);  // what is planned for no time stands last
    };
    std::stable_sort(found.all.begin(), found.all.end(), [&](const auto& one, const auto& other) { return when(one) < when(other); });
    firings.count += found.count;
    std::move(found.all.begin(), found.all.end(), std::back_inserter(firings.shown));
  }
  keep_first(firings.shown);
  for (const trade::Firing& firing : firings.shown) firings.open.push_back(expected_open(store, firing));
  return firings;
}

/// The first of today's firings a piece stands in: that is what comes next for it.
const trade::Firing* next_firing(const std::vector<trade::Firing>& firings, const std::string& piece) {
  for (const trade::Firing& firing : firings)
    for (const auto& on : firing.pieces)
      if (on.piece.value == piece || (on.was && on.was->value == piece)) return &firing;
  return nullptr;
}

/// Labels of the pieces of some cases, read at one stroke.
std::map<std::string, std::string> labels_of_pieces(records::Store& store, const std::vector<trade::Case>& cases) {
  std::vector<std::string> names;
  for (const trade::Case& one : cases)
    for (const auto& piece : one.pieces) names.push_back(piece.value);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  std::map<std::string, std::string> labels;
  for (const records::Document& document : store.newest(trade::word(trade::Noun::piece), names))
    labels[document.id] = read_kept<trade::Piece>(kept_source(document)).label;
  return labels;
}

Json case_as_json(const trade::Case& one, const std::map<std::string, std::string>& labels, const std::vector<trade::Firing>& firings) {
  JsonList teeth, pieces;
  for (const int tooth : one.teeth) teeth.push_back(tooth);
  for (const auto& piece : one.pieces) {
    Json next;
    if (const trade::Firing* firing = next_firing(firings, piece.value)) {
      next = JsonObject{{"firing", firing->name},
                        {"stage", trade::choice_word(firing->stage.value)},
                        {"state", word(state_of(*firing))},
                        {"planned_for", text_or_null(firing->record ? firing->record->planned_for : "")}};
    }
    const auto label = labels.find(piece.value);
    pieces.push_back(JsonObject{{"piece", piece.value},
                                {"label", label == labels.end() ? "" : label->second},
                                {"kept", label != labels.end()},
                                {"next", std::move(next)}});
  }
  return JsonObject{{"name", one.name},
                    {"label", one.label},
                    {"teeth", std::move(teeth)},
                    {"ordered", text_or_null(one.ordered)},
                    {"wanted", text_or_null(one.wanted)},
                    {"next_step", text_or_null(one.next_step)},
                    {"pieces", std::move(pieces)}};
}

Found<trade::Case> open_cases(records::Store& store) {
  auto cases = in_state<trade::Case>(store, trade::Noun::dental_case, "open");
  const auto when = [](const trade::Case& one) { return std::tuple(one.wanted.empty(), one.wanted); };
  std::stable_sort(cases.all.begin(), cases.all.end(), [&](const auto& one, const auto& other) { return when(one) < when(other); });
  keep_first(cases.all);
  return cases;
}

/// ", expected open between 14:32 and 14:38"; with the days where either is another than the start's.
std::string open_in_words(const StorePlace& place, const std::string& started, const std::optional<ExpectedOpen>& open) {
  if (!open) return "";
  const auto told = [&](const std::string& utc) {
    const std::string text = local_text(utc_ms(utc), place.zone);
    return local_day(utc_ms(utc), place.zone) == local_day(utc_ms(started), place.zone) ? text.substr(text.find(' ') + 1) : text;
  };
  return fmt::format(", expected open between {} and {}", told(open->earliest), told(open->latest));
}

std::string in_words(const StorePlace& place, const Firings& of_today, const std::vector<trade::Case>& cases) {
  std::string text;
  for (std::size_t i = 0; i < of_today.shown.size(); ++i) {
    const trade::Firing& firing = of_today.shown[i];
    const std::string& at = !firing.record ? "" : firing.record->started.empty() ? firing.record->planned_for : firing.record->started;
    text += care_line(std::string(word(state_of(firing))),
                      fmt::format("{}, {}, furnace {}, program {}{}", firing.name, trade::choice_word(firing.stage.value),
                                  firing.furnace.value, firing.program.value, at.empty() ? "" : ", " + shown_moment(place, at)) +
                          open_in_words(place, at, of_today.open[i]));
  }
  for (const trade::Case& one : cases)
    text += care_line("case", fmt::format("{}{}{}", one.name, one.wanted.empty() ? "" : ", wanted " + one.wanted,
                                          one.next_step.empty() ? "" : ": " + one.next_step));
  return text;
}

}  // namespace

CareAnswer today_in_lab(const AskedLab& asked, const TodayWords& words, const Clock& clock) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    DueWords due_words;
    due_words.within = words.within;
    const CareAnswer due = due_in_store(asked, due_words, clock);
    records::Store store = opened(place, Reading::only);
    const Firings firings = firings_of_today(store);
    const auto cases = open_cases(store);
    const auto labels = labels_of_pieces(store, cases.all);
    JsonList firing_rows, case_rows;
    for (std::size_t i = 0; i < firings.shown.size(); ++i) firing_rows.push_back(firing_as_json(firings.shown[i], firings.open[i]));
    for (const trade::Case& one : cases.all) case_rows.push_back(case_as_json(one, labels, firings.shown));
    return CareAnswer{due.text + in_words(place, firings, cases.all),
                      JsonObject{{"format", 1},
                                 {"today", *due.json.find("today")},
                                 {"zone", place.zone},
                                 {"firings", std::move(firing_rows)},
                                 {"firings_count", static_cast<double>(firings.count)},
                                 {"cases", std::move(case_rows)},
                                 {"cases_count", static_cast<double>(cases.count)},
                                 {"due", *due.json.find("due")},
                                 {"due_count", *due.json.find("count")},
                                 {"overdue", *due.json.find("overdue")}},
                      false};
  });
}

}  // namespace heatwork::desk
