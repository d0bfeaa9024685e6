// What every work on a store as a whole begins with: where it is, who asks, what the settings say; and what to do when it fails.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "desk/json_value.h"
#include "desk/lab/asked.h"
#include "desk/lab/roles.h"
#include "desk/lab/store_care.h"
#include "records/store.h"
#include "records/store_error.h"
#include "records/verify.h"

namespace heatwork::desk {

struct StorePlace {
  records::Address address;
  records::Opening opening;
  std::string zone;              ///< of this machine
  std::string backups;           ///< folder; empty: the settings name none
  std::string backups_every;     ///< "24 h"; empty: the settings say nothing
  int backups_kept = 0;          ///< 0: all
  bool password_is_due = false;  ///< see AskedLab
  bool nobody_named_it = false;  ///< it is the one a machine has when neither words nor settings name another
};

StorePlace place_of(const AskedLab& asked);

/// Another address than the one asked for, with all else the same.
StorePlace at_address(const StorePlace& place, const std::string& address);

enum class Reading { only, and_writing };
records::Store opened(const StorePlace& place, Reading reading);

/// Who asks, as this store knows him. Errors: trade::Mistake where his document cannot be read.
Asker asker_of(const StorePlace& place, records::Store& store);

/// Opens for setting up: where persons are entered, the one who asks must be one who may. Errors: Failure.
records::Store opened_to_set_up(const StorePlace& place);

records::Watch watch_of(const CareWatch& watch);

/// The copies in a folder by their names, newest first.
struct CopySeen {
  std::string path;
  std::string store;      ///< beginning of the name of the store it is of
  std::int64_t at_s = 0;  ///< seconds since 1970-01-01 UTC
};
std::vector<CopySeen> copies_seen(const std::string& folder);

/// How often backups are asked for, "24 h". [s] Errors: Failure bad_value.
std::int64_t seconds_of_every(const std::string& every);

/// The sentence of a failed store with what to do about it here.
[[noreturn]] void rethrow_with_advice(const StorePlace& place, const records::StoreError& error);

/// Where a store stands that a machine has when nobody names one; false also where another is meant.
bool own_store_stands(const StorePlace& place);
/// The line that tells of its making.
std::string store_was_made(const StorePlace& place);

/// Runs work on a store; what fails says what to do, and an answer tells of a store that was made on the way.
template <class Work>
auto caring(const StorePlace& place, Work&& work) {
  try {
    const bool stood = own_store_stands(place);
    auto answer = work();
    if constexpr (requires { answer.text += std::string(); }) {
      if (!stood && own_store_stands(place)) answer.text += store_was_made(place);
    }
    return answer;
  } catch (const records::StoreError& error) {
    rethrow_with_advice(place, error);
  }
}

/// "Size        1.2 MB" in lines of at most 100 columns.
std::string care_line(std::string_view what, std::string_view says);
std::string bytes_in_words(std::int64_t bytes);
/// "1 document", "12 documents"
std::string counted(std::int64_t count, std::string_view one, std::string_view many);

}  // namespace heatwork::desk
