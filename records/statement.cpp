#include "records/statement.h"

#include <soci/soci.h>

#include <deque>

#include "records/connection.h"

namespace heatwork::records {

namespace {

/// The name a value has for PostgreSQL is its number; SQLite counts question marks itself, and is slow with names.
std::string in_words_of(Engine engine, std::string_view text) {
  if (engine == Engine::sqlite) return std::string(text);
  std::string out;
  int number = 0;
  for (const char letter : text) {
    if (letter == '?')
      out += ":p" + std::to_string(++number);
    else
      out += letter;
  }
  return out;
}

}  // namespace

struct Statement::Parts {
  Parts(Store::Inside& in, std::string_view sql) : inside(in), text(in_words_of(in.address.engine, sql)), statement(in.sql()) {}
  Store::Inside& inside;
  std::string text;
  std::deque<long long> numbers;
  struct Narrow {
    long long read = 0;
    std::int64_t* wide = nullptr;
    int* narrow = nullptr;
  };
  std::deque<Narrow> columns;
  soci::statement statement;
  bool ran = false;

  /// A statement that runs once is not worth preparing at a server: that is a way there and back more.
  void start() {
    if (!ran) {
      statement.alloc();
      statement.prepare(text, soci::details::st_one_time_query);
    }
    statement.define_and_bind();
    ran = true;
  }
};

Statement::Statement(Store::Inside& inside, std::string_view text)
    : parts_(speaking(inside, [&] { return std::make_unique<Parts>(inside, text); })) {}
Statement::~Statement() = default;

Statement& Statement::bind(const std::string& value) {
  parts_->statement.exchange(soci::use(value));
  return *this;
}

Statement& Statement::bind(std::int64_t value) {
  parts_->statement.exchange(soci::use(parts_->numbers.emplace_back(value)));
  return *this;
}

Statement& Statement::into(std::string& column) {
  parts_->statement.exchange(soci::into(column));
  return *this;
}

Statement& Statement::into(std::int64_t& column) {
  parts_->statement.exchange(soci::into(parts_->columns.emplace_back(Parts::Narrow{0, &column, nullptr}).read));
  return *this;
}

Statement& Statement::into(int& column) {
  parts_->statement.exchange(soci::into(parts_->columns.emplace_back(Parts::Narrow{0, nullptr, &column}).read));
  return *this;
}

bool Statement::next() {
  Parts& parts = *parts_;
  const bool row = speaking(parts.inside, [&] {
    if (parts.ran) return parts.statement.fetch();
    parts.start();
    return parts.statement.execute(true);
  });
  for (const Parts::Narrow& column : parts.columns) {
    if (!row) break;
    if (column.wide) *column.wide = column.read;
    if (!column.narrow) continue;
    if (column.read < INT32_MIN || column.read > INT32_MAX)
      throw StoreError(StoreProblem::damaged, sentence_of(StoreProblem::damaged, doing(parts.inside)));
    *column.narrow = static_cast<int>(column.read);
  }
  const Store::Inside::Connection& connection = *parts.inside.connection;
  if (!row && !connection.unlocked.empty() && state_of_file(connection.file) != connection.unlocked)
    throw StoreError(StoreProblem::locked, "The store " + parts.inside.address.shown() +
                                               " was written by another program while it was read without locks. Try again.");
  return row;
}

void Statement::run() {
  speaking(parts_->inside, [&] {
    parts_->start();
    parts_->statement.execute(true);
    parts_->statement.bind_clean_up();
  });
  parts_->numbers.clear();
}

}  // namespace heatwork::records
