#include "records/transaction.h"

#include <fmt/format.h>

#include "records/connection.h"
#include "records/inside.h"

namespace heatwork::records {

namespace {

// Any number will do, as long as every Heatwork takes the same one.
constexpr std::int64_t writers_lock = 4'851'029'376;

/// Nobody may write a store that was moved away or migrated since it was opened.
void still_ours(Store::Inside& inside) {
  const auto format = inside.about("format");
  if (format != std::to_string(inside.found.format))
    throw StoreError(
        StoreProblem::too_new,
        fmt::format("The store {} was changed to format {} by another Heatwork since it was opened. Nothing was kept. Open it anew.",
                    inside.address.shown(), format.value_or("none")));
  const auto moved_to = inside.about("moved_to");
  if (moved_to)
    throw StoreError(StoreProblem::closed, fmt::format("The store {} was moved to {} and takes nothing any more. Nothing was kept.",
                                                       inside.address.shown(), *moved_to));
}

/// A connection that was cut while nothing was going on, by a server's restart for instance, is made again.
void begin(Store::Inside& inside, const std::string& statement) {
  try {
    inside.run(statement);
  } catch (const StoreError& error) {
    if (error.problem() != StoreProblem::unreachable || !inside.connection->session) throw;
    inside.run(statement);
  }
}

}  // namespace

void begin_writing(Store::Inside& inside) {
  Store::Inside::Connection& connection = *inside.connection;
  if (connection.depth > 0)
    throw StoreError(StoreProblem::mistake_of_ours, "A change was begun inside another: a mistake of ours. Nothing was kept.");
  if (inside.opening.read_only)
    throw StoreError(StoreProblem::refused, fmt::format("The store {} was opened for reading only.", inside.address.shown()));
  static_cast<void>(inside.sql());
  connection.writing = true;
  try {
    if (inside.sqlite())
      begin(inside, "begin immediate");
    else
      begin(inside, fmt::format("begin; select pg_advisory_xact_lock({})", writers_lock));
  } catch (...) {
    roll_back(inside);
    throw;
  }
  connection.depth = 1;
}

void commit(Store::Inside& inside) {
  Store::Inside::Connection& connection = *inside.connection;
  connection.committing = true;
  try {
    inside.run("commit");
  } catch (...) {
    roll_back(inside);
    throw;
  }
  connection.depth = 0;
  connection.writing = connection.committing = false;
}

void forget_erased(Store::Inside& inside) {
  try {
    if (inside.sqlite())
      inside.run("pragma wal_checkpoint(truncate)");
    else
      inside.run("vacuum personal, photos");
  } catch (const StoreError&) {
    // Another program reads, or the server does not let us: the engine does it in its own time.
  }
}

void roll_back(Store::Inside& inside) {
  Store::Inside::Connection& connection = *inside.connection;
  // Where even this fails the connection is gone, and the change with it.
  try {
    inside.run("rollback");
  } catch (const StoreError&) {
    if (!inside.sqlite()) connection.broken = true;
  }
  connection.depth = 0;
  connection.writing = connection.committing = false;
}

ReadingView::ReadingView(Store::Inside& inside) : inside_(inside) {
  Store::Inside::Connection& connection = *inside_.connection;
  static_cast<void>(inside_.sql());
  if (connection.depth == 0) begin(inside_, inside_.sqlite() ? "begin" : "begin isolation level repeatable read read only");
  ++connection.depth;
  // The moment is that of the first reading.
  try {
    if (connection.depth == 1) (void)inside_.about("format");
  } catch (...) {
    if (--connection.depth == 0) roll_back(inside_);
    throw;
  }
}

ReadingView::~ReadingView() {
  if (--inside_.connection->depth == 0) roll_back(inside_);
}

WriteTransaction::WriteTransaction(Store::Inside& inside) : inside_(inside) {
  begin_writing(inside_);
  try {
    still_ours(inside_);
  } catch (...) {
    roll_back(inside_);
    throw;
  }
}

WriteTransaction::~WriteTransaction() {
  if (open_) roll_back(inside_);
}

void WriteTransaction::commit() {
  open_ = false;
  records::commit(inside_);
}

}  // namespace heatwork::records
