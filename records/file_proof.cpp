#include "records/file_proof.h"

#include <fmt/format.h>

#include <algorithm>
#include <compare>
#include <iterator>
#include <string>
#include <vector>

#include "records/schema.h"
#include "records/statement.h"

namespace heatwork::records {

namespace {

constexpr int most_words = 5;

/// SQLite's own walk through every page, and every index against its table.
void prove_pages(Store::Inside& inside, Findings& findings) {
  std::string word;
  Statement check(inside, fmt::format("pragma integrity_check({})", most_words));
  check.into(word);
  while (check.next()) {
    if (word != "ok") findings.wrong(of_the_file, fmt::format("The file {} is damaged: {}.", inside.address.shown(), quoted(word)));
  }
}

struct Described {
  std::string type, name, table, statement;
  auto operator<=>(const Described&) const = default;
};

/// As SQLite keeps a statement that made a table or an index: the first two words in capitals, the rest as it was given.
Described described(const std::string& made_by) {
  const std::size_t first = made_by.find(' '), second = made_by.find(' ', first + 1), third = made_by.find(' ', second + 1);
  Described what;
  what.type = made_by.substr(first + 1, second - first - 1);
  what.name = made_by.substr(second + 1, third - second - 1);
  what.table = what.name;
  if (what.type == "index") {
    const std::size_t on = made_by.find(" on ") + 4;
    what.table = made_by.substr(on, made_by.find(' ', on) - on);
  }
  what.statement = (what.type == "index" ? "CREATE INDEX " : "CREATE TABLE ") + made_by.substr(second + 1);
  return what;
}

std::vector<Described> tables_as_made(int format) {
  std::vector<Described> all;
  for (int step = 1; step <= format; ++step) {
    for (const std::string& statement : statements_of_step(step, Engine::sqlite)) all.push_back(described(statement));
  }
  std::sort(all.begin(), all.end());
  return all;
}

/// One letter of these descriptions decides how values are compared, or what an index leaves out.
void prove_tables(Store::Inside& inside, Findings& findings) {
  std::vector<Described> stands;
  Described one;
  Statement read(inside, "select type, name, tbl_name, sql from sqlite_master where sql is not null order by 1, 2, 3, 4");
  read.into(one.type).into(one.name).into(one.table).into(one.statement);
  while (read.next()) stands.push_back(one);
  std::sort(stands.begin(), stands.end());
  const std::vector<Described> made = tables_as_made(inside.found.format);
  std::vector<Described> only_one;
  std::set_symmetric_difference(stands.begin(), stands.end(), made.begin(), made.end(), std::back_inserter(only_one));
  if (only_one.empty()) return;
  findings.wrong(of_the_file, fmt::format("The file {} is damaged: what it says of its {} {} was altered.", inside.address.shown(),
                                          quoted(only_one.front().type), quoted(only_one.front().name)));
}

}  // namespace

void prove_file(Store::Inside& inside, Findings& findings) {
  if (!inside.sqlite()) return;
  prove_tables(inside, findings);
  prove_pages(inside, findings);
}

}  // namespace heatwork::records
