#include "desk/lab/furnace_checks.h"

#include <algorithm>
#include <tuple>

#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/store_shelf.h"

namespace heatwork::desk {

std::vector<trade::Check> checks_of_furnace(records::Store& store, const std::string& furnace) {
  std::vector<std::string> names;
  bool is_named = false;
  for (int number = 1;; ++number) {
    const auto page = store.of_furnace(furnace, number);
    is_named = is_named || page.count > 0;
    for (const records::FurnaceRow& row : page.rows)
      if (row.kind == trade::word(trade::Noun::check)) names.push_back(row.id);
    if (page.rows.size() < records::rows_a_page) break;
  }
  // Where nothing names it, the name is a slip.
  if (!is_named) static_cast<void>(newest_document(store, trade::Noun::furnace, furnace));
  std::vector<trade::Check> checks;
  for (std::size_t from = 0; from < names.size(); from += records::rows_a_page) {
    const auto to = std::min(names.size(), from + records::rows_a_page);
    const std::vector<std::string> some(names.begin() + static_cast<std::ptrdiff_t>(from), names.begin() + static_cast<std::ptrdiff_t>(to));
    for (const records::Document& document : store.newest(trade::word(trade::Noun::check), some))
      if (trade::Check check = read_kept<trade::Check>(kept_source(document)); trade::is_finished(check))
        checks.push_back(std::move(check));
  }
  std::sort(checks.begin(), checks.end(),
            [](const trade::Check& one, const trade::Check& other) { return std::tie(one.at, one.name) < std::tie(other.at, other.name); });
  return checks;
}

}  // namespace heatwork::desk
