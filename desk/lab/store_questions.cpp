#include "desk/lab/store_questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/errors.h"
#include "desk/lab/furnace_care_due.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/local_time.h"
#include "desk/lab/pages.h"
#include "desk/lab/store_place.h"
#include "desk/lab/trail_entry.h"
#include "quantity/quantity.h"
#include "quantity/read.h"
#include "trade/noun.h"

namespace heatwork::desk {
namespace {

constexpr const char* last_day = "9999-12-31";
constexpr int longest_within = 36'525;  ///< a hundred years [day]

int days_of(const std::string& within) {
  const auto number_ends = within.find_first_not_of("0123456789");
  const std::string number = within.substr(0, number_ends), unit = number_ends == std::string::npos ? "" : within.substr(number_ends);
  const bool days = unit == " days" || unit == " day" || unit == "days" || unit == " d";
  if (number.empty() || number.size() > 5 || !days || std::stoi(number) > longest_within)
    throw Failure(ErrorWord::bad_value,
                  fmt::format("\"{}\" is no number of days such as \"30 days\", at most {} of them.", within, longest_within));
  return std::stoi(number);
}

std::string standing(const std::string& on, const std::string& today) {
  return on < today ? "overdue" : on == today ? "today" : "";
}

/// The kind as a store calls it, of "bench step" or "bench-step".
std::string kind_of(const std::string& typed) {
  for (const auto word : trade::noun_words)
    if (word == typed || trade::file_word(*trade::noun_of(word)) == typed) return std::string(word);
  for (const char* other : {"store", "personal data", "photo", "rehearsal", "snapshot"})
    if (typed == other) return typed;
  std::string all;
  for (const auto word : trade::noun_words) all += fmt::format("{}, ", trade::file_word(*trade::noun_of(word)));
  throw Failure(ErrorWord::bad_value,
                fmt::format("There is no kind \"{}\"; there are: {}rehearsal, snapshot, photo, personal data, store.", typed, all));
}

std::string of_what(const records::Entry& entry) {
  if (entry.kind == "photo") return fmt::format("photo {}", entry.id.substr(0, 8));
  if (entry.version == 0) return fmt::format("{} {}", entry.kind, entry.id);
  if (entry.kind == "store") return fmt::format("store, format {}", entry.version);
  // What is named by a hash of 64 digits is told by the first of them, as hashes are; --json has all.
  const bool by_hash = entry.id.size() == 64 && entry.id.find_first_not_of("0123456789abcdef") == std::string::npos;
  return fmt::format("{} {}@{}", entry.kind, by_hash ? entry.id.substr(0, 12) : entry.id, entry.version);
}

std::string entry_in_words(const records::Entry& entry, const StorePlace& place) {
  const std::string line = fmt::format("{:>6}  {}  {:<12}  {}: {}  {}", entry.sequence, local_time_of(entry, place.zone), entry.who.person,
                                       entry.action, of_what(entry), entry.hash.substr(0, 12));
  return line + "\n" + (entry.reason.empty() ? "" : fmt::format("        because {}\n", entry.reason));
}

JsonObject whole_entry(const records::Entry& entry) {
  JsonObject json = entry_as_json(entry);
  for (JsonMember& member : JsonObject{{"kind", entry.kind},
                                       {"name", entry.id},
                                       {"version", entry.version},
                                       {"document_hash", entry.document_hash},
                                       {"replaced_hash", entry.replaced_hash},
                                       {"previous", entry.previous},
                                       {"hash", entry.hash}})
    json.push_back(std::move(member));
  return json;
}

}  // namespace

CareAnswer due_in_store(const AskedLab& asked, const DueWords& words, const Clock& clock) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    const std::string today = local_day(clock.now_ms(), place.zone);
    std::string until = last_day;
    if (!words.until.empty()) {
      day_begins_ms(words.until, place.zone);
      until = words.until;
    } else if (!words.within.empty()) {
      until = day_after(today, days_of(words.within));
    }
    records::Store store = opened(place, Reading::only);
    const std::vector<FallsDue> all = all_that_falls_due(store, place, today, until);
    static_cast<void>(store.dues(today, words.page));  // refuses a page that is none, as every answer in pages does
    const auto count = static_cast<std::int64_t>(all.size());
    const std::int64_t shown_overdue = std::count_if(all.begin(), all.end(), [&](const FallsDue& due) { return due.on < today; });
    const std::int64_t from = std::min(count, std::int64_t{words.page - 1} * records::rows_a_page);
    const std::int64_t to = std::min(count, from + records::rows_a_page);
    std::string text = care_line("Today", fmt::format("{} in the zone {}", today, place.zone));
    text +=
        care_line("Due", fmt::format("{}{}", until == last_day ? "" : fmt::format("until {}: ", until), page_in_words(count, words.page)));
    if (shown_overdue > 0) text += care_line("Overdue", std::to_string(shown_overdue));
    JsonList json;
    if (from < to) text += "\n";
    for (std::int64_t i = from; i < to; ++i) {
      const FallsDue& row = all[static_cast<std::size_t>(i)];
      text += fmt::format("{}  {:<7}  {} {}: {}{}\n", row.on, standing(row.on, today), row.kind, row.name, row.what,
                          row.label.empty() ? "" : fmt::format(" ({})", row.label));
      json.push_back(JsonObject{
          {"on", row.on}, {"overdue", row.on < today}, {"kind", row.kind}, {"name", row.name}, {"label", row.label}, {"what", row.what}});
    }
    return CareAnswer{text,
                      JsonObject{{"format", 1},
                                 {"today", today},
                                 {"zone", place.zone},
                                 {"until", until == last_day ? Json(nullptr) : Json(until)},
                                 {"count", static_cast<double>(count)},
                                 {"overdue", static_cast<double>(shown_overdue)},
                                 {"page", words.page},
                                 {"pages", static_cast<double>(pages_of(count))},
                                 {"due", json}},
                      false};
  });
}

CareAnswer trail_of_store(const AskedLab& asked, const TrailWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::EntryQuery query;
    if (!words.kind.empty()) query.kind = kind_of(words.kind);
    query.id = words.name;
    query.after = std::int64_t{words.from} - 1;
    query.newest_first = words.newest_first;
    records::Store store = opened(place, Reading::only);
    const auto page = store.trail(query, words.page);
    const auto noun = trade::noun_of(query.kind);
    // One that never stood is a slip; one that only was before the entry asked for is none.
    if (page.count == 0 && noun && !query.id.empty()) static_cast<void>(newest_document(store, *noun, query.id));
    const std::string head = store.status().head;
    std::string text = care_line("Entries", fmt::format("{}, times in the zone {}", page_in_words(page.count, words.page), place.zone));
    if (!page.rows.empty()) text += "\n";
    JsonList json;
    for (const records::Entry& entry : page.rows) {
      text += entry_in_words(entry, place);
      json.push_back(whole_entry(entry));
    }
    text += (page.rows.empty() ? "" : "\n") + care_line("Head hash", head);
    return CareAnswer{text,
                      JsonObject{{"format", 1},
                                 {"zone", place.zone},
                                 {"count", static_cast<double>(page.count)},
                                 {"page", words.page},
                                 {"pages", static_cast<double>(pages_of(page.count))},
                                 {"entries", json},
                                 {"head", head}},
                      false};
  });
}

}  // namespace heatwork::desk
