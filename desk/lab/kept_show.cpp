#include "desk/lab/kept_show.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include "desk/columns.h"
#include "desk/errors.h"
#include "desk/lab/before_check.h"
#include "desk/lab/kept_difference.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/list_columns.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "desk/lab/trail_entry.h"
#include "desk/lab/values_of.h"
#include "records/trail.h"
#include "trade/library.h"
#include "trade/lock_name.h"
#include "trade/reader.h"

namespace heatwork::desk {
namespace {

using trade::Noun;

/// What the trail says of each version of one document.
std::map<int, records::Entry> entries_of(records::Store& store, const std::string& kind, const std::string& name) {
  std::map<int, records::Entry> entries;
  records::EntryQuery query{kind, name, 0, false};
  for (int page = 1;; ++page) {
    const auto found = store.trail(query, page);
    for (const auto& entry : found.rows) entries[entry.version] = entry;
    if (static_cast<std::int64_t>(page) * records::rows_a_page >= found.count) return entries;
  }
}

Json or_null(const std::optional<std::string>& text) {
  return text ? Json(*text) : Json();
}

/// Names of what is locked among the documents of one kind.
std::vector<std::string> locked_names(records::Store& store) {
  std::vector<std::string> names;
  records::HeadQuery query;
  query.kind = "lock";
  query.state = "locked";
  for (;; ++query.page) {
    const auto page = store.heads(query);
    for (const auto& head : page.rows) names.push_back(head.id);
    if (page.rows.size() < records::rows_a_page) return names;  // in order of name, as the store gives them
  }
}

struct Row {
  std::string name, state, label;
  bool locked = false;
  std::string mark;  ///< of its kept rehearsal; may be empty
};

std::string as_table(const std::vector<Row>& rows) {
  std::size_t name = 0, state = 0;
  for (const Row& row : rows) {
    name = std::max(name, row.name.size());
    state = std::max(state, row.state.size());
  }
  std::string text;
  for (const Row& row : rows) {
    std::string says = row.label;
    const auto also = [&says](const std::string& more) { says += (says.empty() ? "" : ", ") + more; };
    if (row.locked) also("locked");
    if (!row.mark.empty()) also("rehearsal " + row.mark);
    std::string line = fmt::format("{:<{}}  {:<{}}{}{}", row.name, name, row.state, state, state > 0 ? "  " : "", says);
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

/// The firings of a page whose kept rehearsals were made before a check of their furnace.
std::map<std::string, BeforeCheck> marks_of(records::Store& store, Noun noun, const std::string& zone,
                                            const std::vector<records::Head>& rows) {
  if (noun != Noun::firing || rows.empty() || store.heads({std::string(trade::word(Noun::check)), "", "", 1}).count == 0) return {};
  std::vector<std::string> names;
  for (const auto& head : rows) names.push_back(head.id);
  std::vector<trade::Firing> firings;
  for (const auto& document : store.newest(trade::word(noun), names)) firings.push_back(firing_of(document));
  return made_before_check(store, zone, firings);
}

std::optional<BeforeCheck> mark_in(const std::map<std::string, BeforeCheck>& marks, const std::string& firing) {
  const auto mark = marks.find(firing);
  return mark == marks.end() ? std::nullopt : std::optional(mark->second);
}

/// One side of a difference, with what it is called.
struct Side {
  std::string called;
  std::shared_ptr<const trade::Source> source;
};

Side side_of(records::Store& store, Noun noun, const std::string& typed) {
  if (typed.ends_with(".toml")) return {typed, trade::source_from_file(typed)};
  const records::Document document = kept_document(store, noun, read_asked_version(noun, typed));
  return {fmt::format("{}@{}", document.id, document.version), kept_source(document)};
}

}  // namespace

CareAnswer show_kept(const AskedLab& asked, Noun noun, const std::string& name) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const records::Document document = kept_document(store, noun, read_asked_version(noun, name));
    const auto locked = locked_because(store, document.kind, document.id);
    const auto entries = entries_of(store, document.kind, document.id);
    const int newest = entries.empty() ? document.version : entries.rbegin()->first;
    std::string text =
        care_line("Kept", fmt::format("{}, version {}{}", titled(noun, document.id), document.version,
                                      newest == document.version ? "" : fmt::format(", not the newest: that is {}", newest)));
    JsonObject json{{"format", 1},      {"kind", document.kind}, {"name", document.id}, {"version", document.version},
                    {"newest", newest}, {"hash", document.hash}};
    if (const auto entry = entries.find(document.version); entry != entries.end()) {
      text += care_line("By", fmt::format("{}, {} {}", entry->second.who.person, local_time_of(entry->second, place.zone), place.zone));
      if (!entry->second.reason.empty()) text += care_line("Because", entry->second.reason);
      for (auto& member : entry_as_json(entry->second)) json.push_back(std::move(member));
    }
    if (locked) text += care_line("Locked", *locked);
    if (noun == Noun::firing) {
      const auto mark = mark_in(made_before_check(store, place.zone, {firing_of(document)}), document.id);
      if (mark) text += care_line("Rehearsal", mark->in_words());
      for (auto& member : as_json(mark)) json.push_back(std::move(member));
    }
    json.push_back({"locked_because", or_null(locked)});
    json.push_back({"text", document.body});
    json.push_back({"values", values_of(noun, document)});
    return CareAnswer{text + care_line("Hash", document.hash) + "\n" + document.body, json, false};
  });
}

CareAnswer list_kept(const AskedLab& asked, Noun noun, const ListWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    records::HeadQuery query{std::string(trade::word(noun)), words.word, words.state, words.page};
    const auto page = store.heads(query);
    const std::vector<std::string> locked = locked_names(store);
    std::vector<Row> rows;
    JsonList json;
    const auto marks = marks_of(store, noun, place.zone, page.rows);
    auto columns = words.more ? columns_of(store, noun, page.rows) : Columns{};
    for (const auto& head : page.rows) {
      const bool is_locked = std::binary_search(locked.begin(), locked.end(), trade::lock_name(head.kind, head.id));
      const auto mark = mark_in(marks, head.id);
      rows.push_back({fmt::format("{}@{}", head.id, head.version), head.state, head.label, is_locked, mark ? mark->in_words() : ""});
      json.push_back(JsonObject{{"name", head.id},
                                {"version", head.version},
                                {"label", head.label},
                                {"state", head.state},
                                {"at", head.at_ms == 0 ? Json() : Json(utc_text(head.at_ms))},
                                {"locked", is_locked}});
      if (noun == Noun::firing) json.back() = with_columns(json.back(), as_json(mark));
      if (const auto also = columns.find(head.id); also != columns.end()) json.back() = with_columns(json.back(), std::move(also->second));
    }
    std::string text = as_table(rows);
    if (page.count == 0)
      text = words.word.empty() && words.state.empty() ? fmt::format("No {} is kept yet.\n", trade::word(noun))
                                                       : fmt::format("No {} was found.\n", trade::word(noun));
    else if (static_cast<std::size_t>(page.count) != page.rows.size())
      text += fmt::format("{} of {}, page {}\n", page.rows.size(), page.count, page.page);
    JsonObject whole{
        {"format", 1}, {"kind", trade::word(noun)}, {"count", static_cast<double>(page.count)}, {"page", page.page}, {"rows", json}};
    if (words.more) whole.push_back({"shipped", shipped_of(noun, words.word)});
    return CareAnswer{text, std::move(whole), false};
  });
}

CareAnswer history_of_kept(const AskedLab& asked, Noun noun, const std::string& name) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const records::Document newest = newest_document(store, noun, name);
    const auto entries = entries_of(store, newest.kind, newest.id);
    std::string text = fmt::format("{}, times of {}\n", titled(noun, newest.id), place.zone);
    JsonList json;
    std::shared_ptr<const trade::Source> before;
    for (const auto& document : store.versions(newest.kind, newest.id)) {
      const auto source = kept_source(document);
      const auto changes = before ? difference_of(noun, before, source) : std::vector<trade::Difference>{};
      JsonObject one{{"version", document.version}, {"hash", document.hash}};
      std::string line = fmt::format("@{}", document.version);
      if (const auto entry = entries.find(document.version); entry != entries.end()) {
        const records::Entry& kept = entry->second;
        line += fmt::format("  {}  {}  {}{}", local_time_of(kept, place.zone), kept.who.person, kept.action,
                            kept.reason.empty() ? "" : ": " + kept.reason);
        for (auto& member : entry_as_json(kept)) one.push_back(std::move(member));
      }
      text += wrapped(line, 6, 0) + as_lines(changes, 6);
      one.push_back({"changes", as_json(changes)});
      json.push_back(std::move(one));
      before = source;
    }
    return CareAnswer{text, JsonObject{{"format", 1}, {"kind", newest.kind}, {"name", newest.id}, {"versions", json}}, false};
  });
}

CareAnswer difference_of_kept(const AskedLab& asked, Noun noun, const std::string& before, const std::string& after) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const Side one = side_of(store, noun, before), other = side_of(store, noun, after);
    const auto changes = difference_of(noun, one.source, other.source);
    const std::string text = changes.empty() ? fmt::format("{} and {} are alike in every value.\n", one.called, other.called)
                                             : fmt::format("{} against {}\n", other.called, one.called) + as_lines(changes, 2);
    return CareAnswer{
        text,
        JsonObject{
            {"format", 1}, {"kind", trade::word(noun)}, {"before", one.called}, {"after", other.called}, {"changes", as_json(changes)}},
        false};
  });
}

}  // namespace heatwork::desk
