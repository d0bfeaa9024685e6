// Every way in which Heatwork can fail, in one table: whose fault, exit code, HTTP status, sentence. Screens map exceptions here and
// nowhere else, so that the same bad request gives the same sentence everywhere.
#pragma once

#include <exception>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>

#include "report/number.h"
#include "trade/words.h"

namespace heatwork::desk {

enum class ErrorKind {
  yours,    ///< bad input or use
  machine,  ///< disk, memory, a part that is not installed
  ours,     ///< a mistake in Heatwork
  stopped   ///< by the person
};
std::string_view word(ErrorKind kind);

/// In the order of the table. A word is never reused for another meaning.
enum class ErrorWord {
  wrong_use,
  bad_json,
  bad_file,
  bad_value,
  unknown_name,
  no_answer,
  file_not_found,
  already_there,
  no_store,
  store_moved,
  conflict,
  not_allowed,
  sign_in_needed,
  password_needed,
  too_often,
  too_large,
  superseded,
  cannot_read,
  cannot_write,
  disk_full,
  store_damaged,
  store_locked,
  store_unreachable,
  store_refused,
  network_folder,
  other_format,
  no_memory,
  part_missing,
  cannot_listen,
  busy,
  stopped,
  mistake_of_ours
};

struct ErrorRow {
  ErrorWord error{};
  std::string_view word;
  ErrorKind kind{};
  int exit_code = 0;
  int http_status = 0;
  std::string_view sentence;  ///< what it means; shown as it is where nothing particular may or can be said
};

/// The whole table, one row a word.
std::span<const ErrorRow> error_table();
const ErrorRow& row(ErrorWord error);

/// A failure with its word and one sentence: what, where, what is allowed.
class Failure : public std::runtime_error {
 public:
  Failure(ErrorWord error, const std::string& sentence, report::TemperatureScale scale = report::TemperatureScale::celsius)
      : std::runtime_error(sentence), error_(error), scale_(scale) {}
  [[nodiscard]] ErrorWord error() const { return error_; }
  /// In which the temperatures of its sentence are told; the sentence itself stands in degrees Celsius and kelvin.
  [[nodiscard]] report::TemperatureScale scale() const { return scale_; }

 private:
  ErrorWord error_;
  report::TemperatureScale scale_;
};

/// What a screen shows of an exception.
struct Shown {
  ErrorWord error{};
  int exit_code = 0;
  int http_status = 0;
  std::string sentence;
  report::TemperatureScale scale = report::TemperatureScale::celsius;  ///< the sentence is to be told in
};

/// Maps any exception to its row and sentence. What is not known here is a mistake of ours, and nothing of it is shown.
Shown explain(const std::exception_ptr& thrown);
/// The same with its sentence in the asked language: whole in it, or whole in English where it has no such sentence; and its temperatures
/// in the scale the reader chose, or in that of the failure.
Shown explain_in(const std::exception_ptr& thrown, trade::Language language,
                 report::TemperatureScale scale = report::TemperatureScale::celsius);

/// docs/errors.md as the table gives it.
std::string errors_page();

}  // namespace heatwork::desk
