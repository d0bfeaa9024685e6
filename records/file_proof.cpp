#include "records/file_proof.h"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

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

struct Columns {
  std::string_view table, texts, numbers;
};
constexpr std::array<Columns, 8> tables = {{
    {"about", "key value", ""},
    {"documents", "kind id body typed hash", "version"},
    {"heads", "kind id label state words", "version at_ms"},
    {"uses", "kind id piece furnace program lot", "row at_ms"},
    {"dues", "kind id due_on what", "row"},
    {"trail", "at_utc zone person known_by action kind id document_hash replaced_hash reason previous hash", "sequence version"},
    {"personal", "code salt body", ""},
    {"photos", "hash bytes_base64", ""},
}};

std::string without_sort(std::string_view columns, std::string_view sort) {
  std::string condition;
  while (!columns.empty()) {
    const std::string_view column = columns.substr(0, columns.find(' '));
    columns.remove_prefix(std::min(columns.size(), column.size() + 1));
    condition += fmt::format("{}typeof({}) <> '{}'", condition.empty() ? "" : " or ", column, sort);
  }
  return condition;
}

/// A value of another sort than its column's is read as the same text and yet never found by comparing.
void prove_sorts(Store::Inside& inside, const Columns& columns, Findings& findings) {
  std::string condition = without_sort(columns.texts, "text");
  if (!columns.numbers.empty()) condition += " or " + without_sort(columns.numbers, "integer");
  std::int64_t wrong = 0;
  Statement count(inside, fmt::format("select count(*) from {} where {}", columns.table, condition));
  if (count.into(wrong).next() && wrong > 0) {
    findings.wrong(of_the_file,
                   fmt::format("The file {} is damaged: in {} rows of its table “{}” a value is of another sort than its column.",
                               inside.address.shown(), wrong, columns.table));
  }
}

}  // namespace

void prove_file(Store::Inside& inside, Findings& findings) {
  if (!inside.sqlite()) return;
  prove_pages(inside, findings);
  for (const Columns& columns : tables) prove_sorts(inside, columns, findings);
}

}  // namespace heatwork::records
