#include "records/firings.h"

#include "records/connection.h"
#include "records/inside.h"
#include "records/statement.h"

namespace heatwork::records {

std::vector<FiringRow> firings_in(Store& store, std::string_view furnace, std::int64_t from_ms, std::int64_t most_pieces) {
  const std::string of(furnace);
  Statement statement(store.inside(),
                      "select id, at_ms from uses where furnace = ? and furnace <> '' and piece <> '' and at_ms >= ? and kind = 'firing' "
                      "order by at_ms desc, piece desc limit ?");
  FiringRow row;
  statement.bind(of).bind(from_ms).bind(most_pieces).into(row.id).into(row.at_ms);
  std::vector<FiringRow> all;
  // Pieces of one tray stand together, but for trays of other firings at the very same moment.
  while (statement.next()) {
    bool told = false;
    for (auto each = all.rbegin(); each != all.rend() && each->at_ms == row.at_ms && !told; ++each) told = each->id == row.id;
    if (!told) all.push_back(row);
  }
  return all;
}

std::int64_t count_firings_in(Store& store, std::string_view furnace, std::int64_t from_ms) {
  const std::string of(furnace);
  Statement statement(store.inside(),
                      "select count(distinct id) from uses where furnace = ? and furnace <> '' and piece <> '' and at_ms >= ? and "
                      "kind = 'firing'");
  std::int64_t count = 0;
  statement.bind(of).bind(from_ms).into(count);
  statement.next();
  return count;
}

}  // namespace heatwork::records
