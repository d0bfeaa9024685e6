#include "records/engine_error.h"

#include <fmt/format.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <array>
#include <exception>

namespace heatwork::records {

namespace {

// SOCI's engines are loaded at run time, so that who keeps a file does not load the client of a server; what their errors carry is
// therefore read from the objects and not through functions that would have to be linked.
template <class Tag, typename Tag::type member>
struct Reads {
  friend typename Tag::type reader(Tag) { return member; }
};
struct SqliteCode {
  using type = int soci::sqlite3_soci_error::*;
  friend type reader(SqliteCode);
};
template struct Reads<SqliteCode, &soci::sqlite3_soci_error::result_>;
struct SqlState {
  using type = char (soci::postgresql_soci_error::*)[5];
  friend type reader(SqlState);
};
template struct Reads<SqlState, &soci::postgresql_soci_error::sqlstate_>;

bool begins(std::string_view text, std::string_view with) {
  return text.substr(0, with.size()) == with;
}
bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

StoreProblem problem_of_sqlite_io(int code) {
  switch (code) {
    case SQLITE_IOERR_WRITE:
    case SQLITE_IOERR_FSYNC:
    case SQLITE_IOERR_DIR_FSYNC:
    case SQLITE_IOERR_TRUNCATE:
    case SQLITE_IOERR_CLOSE:
    case SQLITE_IOERR_SHMSIZE:
    case SQLITE_IOERR_SHMMAP:
    case SQLITE_IOERR_BEGIN_ATOMIC:
    case SQLITE_IOERR_COMMIT_ATOMIC:
      return StoreProblem::full;
    case SQLITE_IOERR_ACCESS:
    case SQLITE_IOERR_LOCK:
    case SQLITE_IOERR_RDLOCK:
    case SQLITE_IOERR_UNLOCK:
    case SQLITE_IOERR_SHMOPEN:
    case SQLITE_IOERR_SHMLOCK:
    case SQLITE_IOERR_NOMEM:
    case SQLITE_IOERR_DELETE:
    case SQLITE_IOERR_GETTEMPPATH:
      return StoreProblem::refused;
    default:
      return StoreProblem::damaged;
  }
}

[[noreturn]] void fail(StoreProblem problem, const Doing& doing, std::string_view own_words = {}) {
  std::string sentence = sentence_of(problem, doing);
  if (problem == StoreProblem::mistake_of_ours && !own_words.empty()) sentence += fmt::format(" It says: {}", own_words);
  throw StoreError(problem, sentence);
}

}  // namespace

StoreProblem problem_of_sqlite(int code) {
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
      return StoreProblem::locked;
    case SQLITE_FULL:
      return StoreProblem::full;
    case SQLITE_IOERR:
      return problem_of_sqlite_io(code);
    case SQLITE_NOTADB:
      return StoreProblem::not_a_store;
    case SQLITE_CORRUPT:
    case SQLITE_FORMAT:
    case SQLITE_MISMATCH:
    case SQLITE_NOTFOUND:
      return StoreProblem::damaged;
    case SQLITE_CONSTRAINT:
      // The newest version is known under the lock, so a row in the way is one that contradicts it.
      return code == SQLITE_CONSTRAINT_PRIMARYKEY || code == SQLITE_CONSTRAINT_UNIQUE || code == SQLITE_CONSTRAINT
                 ? StoreProblem::damaged
                 : StoreProblem::mistake_of_ours;
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
    case SQLITE_CANTOPEN:
    case SQLITE_NOMEM:
    case SQLITE_NOLFS:
      return StoreProblem::refused;
    case SQLITE_TOOBIG:
      return StoreProblem::bad_value;
    default:
      return StoreProblem::mistake_of_ours;
  }
}

StoreProblem problem_of_sqlstate(std::string_view state) {
  struct Meaning {
    std::string_view begins;
    StoreProblem problem;
  };
  static constexpr std::array meanings = {
      Meaning{"08", StoreProblem::unreachable},  Meaning{"57P0", StoreProblem::unreachable}, Meaning{"53300", StoreProblem::unreachable},
      Meaning{"53100", StoreProblem::full},      Meaning{"53", StoreProblem::refused},       Meaning{"58030", StoreProblem::full},
      Meaning{"55P03", StoreProblem::locked},    Meaning{"57014", StoreProblem::locked},     Meaning{"40001", StoreProblem::locked},
      Meaning{"40P01", StoreProblem::locked},    Meaning{"23505", StoreProblem::damaged},    Meaning{"42P01", StoreProblem::damaged},
      Meaning{"42703", StoreProblem::damaged},   Meaning{"42804", StoreProblem::damaged},    Meaning{"XX001", StoreProblem::damaged},
      Meaning{"XX002", StoreProblem::damaged},   Meaning{"58", StoreProblem::damaged},       Meaning{"22P02", StoreProblem::damaged},
      Meaning{"22003", StoreProblem::damaged},   Meaning{"42501", StoreProblem::refused},    Meaning{"28", StoreProblem::refused},
      Meaning{"25006", StoreProblem::refused},   Meaning{"0LP", StoreProblem::refused},      Meaning{"3D000", StoreProblem::no_store},
      Meaning{"22021", StoreProblem::bad_value}, Meaning{"54000", StoreProblem::bad_value},
  };
  for (const Meaning& meaning : meanings)
    if (begins(state, meaning.begins)) return meaning.problem;
  return StoreProblem::mistake_of_ours;
}

StoreProblem problem_of_refused_connection(std::string_view text) {
  // Before a connection stands libpq hands on words only. What they do not tell is called unreachable, which is true of all of them.
  if (has(text, "database \"") && has(text, "does not exist")) return StoreProblem::no_store;
  for (const std::string_view part : {"authentication failed", "no password supplied", "pg_hba.conf", "permission denied", "role \""})
    if (has(text, part)) return StoreProblem::refused;
  for (const std::string_view part : {"invalid URI", "invalid connection option", "invalid port", "invalid integer", "URI query parameter",
                                      "invalid percent-encoded", "forbidden value"})
    if (has(text, part)) return StoreProblem::bad_address;
  return StoreProblem::unreachable;
}

std::string sentence_of(StoreProblem problem, const Doing& doing) {
  const std::string store = fmt::format("The store {}", doing.address.shown());
  const std::string nothing = doing.writing ? " Nothing was kept." : "";
  switch (problem) {
    case StoreProblem::locked:
      return fmt::format("{} is held by another program, which did not let go within {:g} s.{} Try again.", store, doing.busy_ms / 1000.0,
                         nothing);
    case StoreProblem::full:
      return fmt::format(
          "{} cannot be written: the disk is full, a limit of size is reached, or the disk fails.{} Make room and try again.", store,
          nothing);
    case StoreProblem::damaged:
      return fmt::format("{} is damaged: what is read contradicts itself.{} \"store verify\" tells where; restore a backup.", store,
                         nothing);
    case StoreProblem::not_a_store:
      return fmt::format("{} is no store of Heatwork: something else stands there.", store);
    case StoreProblem::no_store:
      return fmt::format("There is no store at {}.", doing.address.shown());
    case StoreProblem::unreachable:
      if (doing.committing)
        return fmt::format(
            "{} was cut off while it was being written: the change may have been kept or not, whole in either case; look into its trail "
            "before keeping it again.",
            store);
      if (doing.connecting) return fmt::format("{} cannot be reached: no server answers there, or it takes no more connections.", store);
      return fmt::format("{} cannot be reached any more: the connection was cut.{}", store, nothing);
    case StoreProblem::refused:
      return fmt::format("{} may not be {}: the {} refuses it.{}", store, doing.writing ? "written" : "opened",
                         doing.address.engine == Engine::sqlite ? "machine" : "server", nothing);
    case StoreProblem::bad_address:
      return fmt::format("{} has an address that cannot be read; allowed is postgresql://user@host:port/database.", store);
    case StoreProblem::bad_value:
      return fmt::format("{} cannot keep a value that was handed in: it is too large or no UTF-8.{}", store, nothing);
    default:
      return fmt::format("{} did not understand what Heatwork asked: a mistake of ours.{}", store, nothing);
  }
}

void throw_as_store_error(const Doing& doing) {
  try {
    throw;
  } catch (const StoreError&) {
    throw;
  } catch (const soci::sqlite3_soci_error& error) {
    const std::string_view text = error.what();
    const int code = error.*reader(SqliteCode());
    const bool tables_lack = has(text, "no such table") || has(text, "no such column");
    fail(tables_lack ? StoreProblem::damaged : problem_of_sqlite(code), doing, text);
  } catch (const soci::postgresql_soci_error& error) {
    const auto& state = error.*reader(SqlState());
    fail(problem_of_sqlstate(std::string_view(state, sizeof state)), doing, error.what());
  } catch (const soci::soci_error& error) {
    const std::string_view text = error.what();
    if (doing.connecting) fail(problem_of_refused_connection(text), doing, text);
    // A column without a value where every column has one; a number that is none.
    if (has(text, "Null value") || has(text, "Cannot convert")) fail(StoreProblem::damaged, doing);
    fail(StoreProblem::mistake_of_ours, doing, text);
  }
}

}  // namespace heatwork::records
