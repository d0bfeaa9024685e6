#include "tests/store/bulk_load.h"

#include <fmt/format.h>

#include "records/inside.h"
#include "records/statement.h"

namespace heatwork::store_proof {

namespace {

constexpr const char* for_sqlite[] = {"pragma synchronous = off", "pragma cache_size = -1500000", "pragma wal_autocheckpoint = 50000"};
constexpr const char* for_postgresql[] = {"set synchronous_commit = off", "set maintenance_work_mem = '1GB'"};

}  // namespace

BulkLoad::BulkLoad(records::Store& store) : store_(store) {
  records::Store::Inside& inside = store_.inside();
  if (inside.sqlite())
    for (const char* setting : for_sqlite) inside.run(setting);
  else
    for (const char* setting : for_postgresql) inside.run(setting);
  std::vector<std::string> names;
  {
    std::string name, made_by;
    records::Statement statement(inside, inside.sqlite() ? "select name, sql from sqlite_master where type = 'index' and sql is not null"
                                                         : "select indexname::text, indexdef from pg_indexes where schemaname = "
                                                           "current_schema() and right(indexname, 5) <> '_pkey'");
    statement.into(name).into(made_by);
    while (statement.next()) names.push_back(name), indexes_.push_back(made_by);
  }
  for (const std::string& name : names) inside.run(fmt::format("drop index {}", name));
}

void BulkLoad::finish() {
  records::Store::Inside& inside = store_.inside();
  for (const std::string& made_by : indexes_) inside.run(made_by);
  if (!inside.sqlite()) return inside.run("vacuum analyze");
  inside.run("pragma wal_checkpoint(truncate)");
}

void fill(const records::Address& address, ManyYears& years) {
  records::Store store =
      records::Store::open(address, opening_of_many([&](const records::Document& document) { return years.index_of(document); }));
  BulkLoad bulk(store);
  while (const auto change = years.next()) store.keep(*change);
  bulk.finish();
}

}  // namespace heatwork::store_proof
