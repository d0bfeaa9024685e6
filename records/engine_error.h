// One meaning for the errors of both engines, and the sentence a person reads; the only place that knows engines' codes.
#pragma once

#include <string>
#include <string_view>

#include "records/address.h"
#include "records/store_error.h"

namespace heatwork::records {

/// By SQLite's extended result code.
StoreProblem problem_of_sqlite(int code);
/// By PostgreSQL's SQLSTATE.
StoreProblem problem_of_sqlstate(std::string_view state);
/// What a server, or the way to it, says when a connection is not made; it gives no code then.
StoreProblem problem_of_refused_connection(std::string_view text);

/// What was being done when an engine failed.
struct Doing {
  Address address;
  int busy_ms = 0;
  bool writing = false;
  bool committing = false;
  bool connecting = false;
};

std::string sentence_of(StoreProblem problem, const Doing& doing);

/// Inside a catch: throws what is being handled as a StoreError; what is one already goes through.
[[noreturn]] void throw_as_store_error(const Doing& doing);

}  // namespace heatwork::records
