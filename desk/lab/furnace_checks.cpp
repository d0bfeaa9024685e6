#include "desk/lab/furnace_checks.h"

#include <algorithm>
#include <map>
#include <mutex>
#include <utility>

#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"

namespace heatwork::desk {
namespace {

constexpr std::string_view check_kind = trade::word(trade::Noun::check);
/// Checks asked for at first: mostly the newest few tell all there is; then as many as there are.
constexpr std::size_t checks_at_first = 16, checks_a_stroke = 250;

/// Checks that were read before, by the hash of their text: an answer while one types reads ten years of them again and again.
std::shared_ptr<const trade::Check> read_check(const records::Document& document) {
  constexpr std::size_t most = 4000;
  static std::mutex guard;
  static std::map<std::string, std::shared_ptr<const trade::Check>> read;
  const std::lock_guard lock(guard);
  if (const auto known = read.find(document.hash); known != read.end()) return known->second;
  if (read.size() >= most) read.clear();
  return read[document.hash] = std::make_shared<const trade::Check>(read_kept<trade::Check>(kept_source(document)));
}

using Rows = std::vector<records::FurnaceRow>;

/// Rows of one moment, newest first, by the order they were kept in: the later kept stands before.
void order_of_one_moment(records::Store& store, Rows& rows) {
  for (auto from = rows.begin(); from != rows.end();) {
    const auto to = std::find_if(from, rows.end(), [&](const records::FurnaceRow& row) { return row.at_ms != from->at_ms; });
    if (to - from > 1) {
      std::vector<std::string> names;
      for (auto row = from; row != to; ++row) names.push_back(row->id);
      const auto kept = store.first_entries(check_kind, names);
      const auto entry = [&](const records::FurnaceRow& row) { return kept.contains(row.id) ? kept.at(row.id) : 0; };
      std::stable_sort(from, to, [&](const auto& one, const auto& other) { return entry(one) > entry(other); });
    }
    from = to;
  }
}

/// The rows from one place to another, read at one stroke; false where nobody wants more.
bool walk_rows(records::Store& store, const Rows& rows, std::size_t from, std::size_t to,
               const std::function<bool(const CheckRead&)>& go_on) {
  std::vector<std::string> names;
  for (std::size_t i = from; i < to; ++i) names.push_back(rows[i].id);
  std::map<std::string, records::Document> documents;
  for (auto& document : store.newest(check_kind, names)) documents.emplace(document.id, std::move(document));
  for (std::size_t i = from; i < to; ++i) {
    const auto document = documents.find(rows[i].id);
    if (document == documents.end()) continue;
    if (!go_on({read_check(document->second), document->second, rows[i].at_ms})) return false;
  }
  return true;
}

}  // namespace

void walk_checks(records::Store& store, const ChecksAsked& asked, const std::function<bool(const CheckRead&)>& go_on) {
  std::size_t stroke = checks_at_first;
  for (int number = 1;; ++number) {
    const auto page = store.of_furnace(asked.furnace, number);
    Rows rows;
    for (const records::FurnaceRow& row : page.rows)
      if (row.kind == check_kind && row.at_ms <= asked.until_ms && (asked.state.empty() || row.state == asked.state)) rows.push_back(row);
    order_of_one_moment(store, rows);
    for (std::size_t from = 0; from < rows.size();) {
      const std::size_t to = std::min(from + stroke, rows.size());
      if (!walk_rows(store, rows, from, to, go_on)) return;
      from = to;
      stroke = checks_a_stroke;
    }
    if (static_cast<std::int64_t>(number) * records::rows_a_page >= page.count) return;
  }
}

std::vector<trade::Check> checks_of_furnace(records::Store& store, const std::string& furnace) {
  std::vector<trade::Check> checks;
  walk_checks(store, {furnace}, [&](const CheckRead& read) {
    if (trade::is_finished(*read.check)) checks.push_back(*read.check);
    return true;
  });
  // Where nothing names it, the name is a slip.
  if (checks.empty() && store.of_furnace(furnace).count == 0) static_cast<void>(newest_document(store, trade::Noun::furnace, furnace));
  std::reverse(checks.begin(), checks.end());
  return checks;
}

}  // namespace heatwork::desk
