#include "desk/errors.h"

#include <fmt/core.h>

#include <array>
#include <filesystem>
#include <new>
#include <system_error>

#include "desk/lab/told_in_units.h"
#include "records/store_error.h"
#include "report/raster.h"
#include "trade/mistake.h"
#include "trade/sentences.h"

namespace heatwork::desk {
namespace {

using enum ErrorWord;
constexpr std::array<ErrorRow, 32> table{{
    {wrong_use, "wrong use", ErrorKind::yours, 2, 400, "The command or request cannot be understood."},
    {bad_json, "bad json", ErrorKind::yours, 2, 400, "The text is not JSON as Heatwork reads it."},
    {bad_file, "bad file", ErrorKind::yours, 2, 422, "A file of the lab holds a mistake; the sentence names its line and column."},
    {bad_value, "bad value", ErrorKind::yours, 2, 422, "A value is missing, of the wrong kind or outside its range."},
    {unknown_name, "unknown name", ErrorKind::yours, 2, 404, "Nothing goes by this name."},
    {no_answer, "no answer", ErrorKind::yours, 2, 422, "The model has no answer for these inputs."},
    {file_not_found, "file not found", ErrorKind::yours, 2, 404, "There is no such file or folder."},
    {already_there, "already there", ErrorKind::yours, 2, 409, "Something else stands where this would be written; nothing was written."},
    {no_store, "no store", ErrorKind::yours, 2, 404, "There is no store where one is sought, or something else stands there."},
    {store_moved, "store moved", ErrorKind::yours, 2, 410, "The store was moved; the sentence says where to. Nothing was kept."},
    {conflict, "conflict", ErrorKind::yours, 2, 409, "Somebody else kept another version meanwhile; nothing was kept."},
    {not_allowed, "not allowed", ErrorKind::yours, 2, 403, "The person who asks may not do this; nothing was kept."},
    {sign_in_needed, "sign in needed", ErrorKind::yours, 2, 401, "Nobody is signed in; nothing was shown and nothing kept."},
    {password_needed, "password needed", ErrorKind::yours, 2, 403, "The password must be said again before a release or setting up."},
    {too_often, "too often", ErrorKind::yours, 2, 429, "It was tried too often; the sentence says when it may be tried again."},
    {too_large, "too large", ErrorKind::yours, 2, 413, "The request is larger than is read."},
    {superseded, "superseded", ErrorKind::yours, 2, 409, "A newer question of the same page came meanwhile; this one was not answered."},
    {cannot_read, "cannot read", ErrorKind::machine, 3, 500, "The machine does not let a file be read."},
    {cannot_write, "cannot write", ErrorKind::machine, 3, 507, "The machine does not let a file or an output be written."},
    {disk_full, "disk full", ErrorKind::machine, 3, 507, "There is no room left to keep this; nothing was kept."},
    {store_damaged, "store damaged", ErrorKind::machine, 3, 500, "What is read from the store contradicts itself."},
    {store_locked, "store locked", ErrorKind::machine, 3, 503,
     "Another program holds the store and did not let go in time; nothing was kept."},
    {store_unreachable, "store unreachable", ErrorKind::machine, 3, 503, "No connection to the store, or it was cut."},
    {store_refused, "store refused", ErrorKind::machine, 3, 500, "The machine or the server does not let the store be opened or written."},
    {network_folder, "network folder", ErrorKind::machine, 3, 500,
     "A store as a file would lie on a file system of a network, where it is not safe."},
    {other_format, "other format", ErrorKind::machine, 3, 503,
     "The store was made by another Heatwork and cannot be used by this one as it is."},
    {no_memory, "no memory", ErrorKind::machine, 3, 503, "The machine has no memory left for this."},
    {part_missing, "part missing", ErrorKind::machine, 3, 501, "A part of Heatwork that this needs is not installed."},
    {cannot_listen, "cannot listen", ErrorKind::machine, 3, 500, "The machine does not let the server listen there."},
    {busy, "busy", ErrorKind::machine, 3, 503, "Too much is asked at once; try again."},
    {stopped, "stopped", ErrorKind::stopped, 130, 503, "Stopped before the end; nothing half-done was left."},
    {mistake_of_ours, "mistake of ours", ErrorKind::ours, 4, 500,
     "This is a mistake in Heatwork itself; please report it with the command and the files that led to it."},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (static_cast<std::size_t>(table[i].error) != i) return false;
  }
  return true;
}
static_assert(table.size() == static_cast<std::size_t>(mistake_of_ours) + 1 && in_order(), "one row an error word, in order");

Shown shown(ErrorWord error, std::string sentence = {}) {
  const ErrorRow& found = row(error);
  return {error, found.exit_code, found.http_status, sentence.empty() ? std::string(found.sentence) : std::move(sentence), {}};
}

ErrorWord of_system(const std::error_code& code) {
  if (code == std::errc::no_such_file_or_directory) return file_not_found;
  if (code == std::errc::not_enough_memory) return no_memory;
  return cannot_write;
}

ErrorWord of_store(records::StoreProblem problem) {
  using enum records::StoreProblem;
  switch (problem) {
    case no_store:
    case not_a_store:
      return ErrorWord::no_store;
    case already_there:
      return ErrorWord::already_there;
    case too_new:
    case too_old:
      return other_format;
    case damaged:
      return store_damaged;
    case locked:
      return store_locked;
    case full:
      return disk_full;
    case unreachable:
      return store_unreachable;
    case refused:
      return store_refused;
    case network_folder:
      return ErrorWord::network_folder;
    case bad_address:
      return wrong_use;
    case conflict:
      return ErrorWord::conflict;
    case closed:
      return store_moved;
    case bad_value:
      return ErrorWord::bad_value;
    case mistake_of_ours:
      break;
  }
  return ErrorWord::mistake_of_ours;
}

Shown of_store(const records::StoreError& error) {
  const ErrorWord word = of_store(error.problem());
  return word == mistake_of_ours ? shown(word) : shown(word, error.what());
}

}  // namespace

std::string_view word(ErrorKind kind) {
  constexpr std::array<std::string_view, 4> words = {"your input", "the machine", "Heatwork", "stopped"};
  return words.at(static_cast<std::size_t>(kind));
}

std::span<const ErrorRow> error_table() {
  return table;
}

const ErrorRow& row(ErrorWord error) {
  return table.at(static_cast<std::size_t>(error));
}

Shown explain(const std::exception_ptr& thrown) {
  try {
    std::rethrow_exception(thrown);
  } catch (const Failure& failure) {
    Shown told = failure.error() == mistake_of_ours ? shown(mistake_of_ours) : shown(failure.error(), failure.what());
    told.scale = failure.scale();
    return told;
  } catch (const records::StoreError& failed) {
    return of_store(failed);
  } catch (const trade::Mistake& mistake) {  // already located, with the line and a caret
    return shown(bad_file, mistake.what());
  } catch (const std::domain_error& refused) {  // what a model says of an input outside its range
    return shown(bad_value, refused.what());
  } catch (const std::invalid_argument& refused) {
    return shown(bad_value, refused.what());
  } catch (const std::filesystem::filesystem_error& failed) {
    return shown(of_system(failed.code()), fmt::format("{}: {}.", failed.path1().string(), failed.code().message()));
  } catch (const report::RasterUnavailable& missing) {
    return shown(part_missing, missing.what());
  } catch (const std::bad_alloc&) {
    return shown(no_memory);
  } catch (...) {
    return shown(mistake_of_ours);
  }
}

Shown explain_in(const std::exception_ptr& thrown, trade::Language language, report::TemperatureScale scale) {
  Shown shown = explain(thrown);
  if (scale != report::TemperatureScale::celsius) shown.scale = scale;
  shown.sentence = told_in_units(shown.scale, trade::in_language(shown.sentence, language));
  return shown;
}

std::string errors_page() {
  std::string page =
      "# Errors\n\n"
      "Every way in which Heatwork can fail. The exit code is that of the command line, the status that of HTTP; both show the same "
      "sentence.\n"
      "A mistake in a file is shown as `file:line:column: what is wrong, what is allowed` with the line itself and a caret.\n"
      "A fault of a *firing* is no error: `rehearse` then ends with 1, and with 0 where nothing is expected to go wrong or nobody can "
      "tell.\n\n"
      "| word | whose | exit code | HTTP status | meaning |\n|---|---|---|---|---|\n";
  for (const ErrorRow& each : table) {
    page += fmt::format("| {} | {} | {} | {} | {} |\n", each.word, word(each.kind), each.exit_code, each.http_status, each.sentence);
  }
  return page + "\nThis page is made from the table in `desk/errors.cpp`; a test compares the two.\n";
}

}  // namespace heatwork::desk
