#include "records/entries.h"

#include <fmt/format.h>

#include "records/connection.h"

namespace heatwork::records {

void into(Statement& statement, Entry& entry) {
  Who& who = entry.who;
  statement.into(entry.sequence).into(who.at_utc).into(who.zone).into(who.person).into(who.known_by);
  statement.into(entry.action).into(entry.kind).into(entry.id).into(entry.version).into(entry.document_hash);
  statement.into(entry.replaced_hash).into(entry.reason).into(entry.previous).into(entry.hash);
}

Rows<Entry> Store::Inside::entries() {
  return Rows<Entry>([this](const Entry* after) {
    Statement statement(
        *this, fmt::format("select {} from trail{} order by sequence limit 1000", entry_columns, after ? " where sequence > ?" : ""));
    Entry row;
    if (after) statement.bind(after->sequence);
    into(statement, row);
    std::vector<Entry> page;
    while (statement.next()) page.push_back(row);
    return page;
  });
}

std::optional<Entry> Store::Inside::newest_entry() {
  Statement statement(*this, fmt::format("select {} from trail order by sequence desc limit 1", entry_columns));
  Entry entry;
  into(statement, entry);
  return statement.next() ? std::optional(entry) : std::nullopt;
}

Entry Store::Inside::append(Entry entry) {
  const auto newest = newest_entry();
  entry.sequence = newest ? newest->sequence + 1 : 1;
  entry.previous = newest ? newest->hash : std::string(64, '0');
  entry.hash = entry_hash(entry);
  insert(std::vector<Entry>{entry});
  return entry;
}

}  // namespace heatwork::records
