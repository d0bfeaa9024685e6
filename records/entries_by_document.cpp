#include "records/entries_by_document.h"

#include <fmt/format.h>

#include "records/entries.h"

namespace heatwork::records {

Rows<Entry> entries_by_document(Store::Inside& inside) {
  return Rows<Entry>([&inside](const Entry* after) {
    Statement statement(inside, fmt::format("select {} from trail{} order by kind, id, sequence limit 1000", entry_columns,
                                            after ? " where (kind, id, sequence) > (?, ?, ?)" : ""));
    Entry row;
    if (after) statement.bind(after->kind).bind(after->id).bind(after->sequence);
    into(statement, row);
    std::vector<Entry> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

}  // namespace heatwork::records
