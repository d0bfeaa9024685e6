// The care of a lab's store: made, looked at, proven, backed up, restored, moved, exported and taken in again.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "desk/json_value.h"
#include "desk/lab/asked.h"

namespace heatwork::desk {

/// How far long work has come; false ends it cleanly.
using CareWatch = std::function<bool(std::int64_t done, std::int64_t all)>;

/// What a screen shows of a use case.
struct CareAnswer {
  std::string text;    ///< at most 100 columns, but for hashes and paths
  Json json;           ///< keys stay; `format` first
  bool wrong = false;  ///< it was done, and what was looked at is not as it should be
};

// Errors of all: Failure with one sentence that says what, where, and what to do.

/// Makes a store where none stands.
CareAnswer make_store(const AskedLab& asked);

/// Brings a store to where a program that stays can work on it: made where none stands, and one of an earlier format copied and migrated.
/// The text says what was done; empty: it stood ready.
CareAnswer ready_store(const AskedLab& asked);

CareAnswer status_of_store(const AskedLab& asked);

/// `head`: a hash that was printed once; empty: none. Wrong where anything was altered.
CareAnswer verify_store(const AskedLab& asked, const std::string& head, const CareWatch& watch);

struct BackUpWords {
  std::string folder;       ///< empty: the setting
  std::optional<int> keep;  ///< newest copies that stay, 0: all; absent: the setting, else all
  bool if_due = false;      ///< only where the newest copy there is older than `every`
  std::string every;        ///< "24 h"; empty: the setting
};
CareAnswer back_up_store(const AskedLab& asked, const BackUpWords& words, const CareWatch& watch);

/// `backup`: a copy, or a folder, of which the newest copy is taken.
CareAnswer restore_store(const AskedLab& asked, const std::string& backup, const CareWatch& watch);

/// `to`: an address where no store stands.
CareAnswer move_store(const AskedLab& asked, const std::string& to, const CareWatch& watch);

/// One file of JSON; a file that stands there already is never replaced.
CareAnswer export_store(const AskedLab& asked, const std::string& file, const CareWatch& watch);
/// Tables for spreadsheets in a folder that is made or empty of them.
CareAnswer export_tables(const AskedLab& asked, const std::string& folder, const CareWatch& watch);
/// Makes a store of an export, where none stands.
CareAnswer import_store(const AskedLab& asked, const std::string& file, const CareWatch& watch);

/// Takes the bytes of a photo away; that it was kept, and why it went, stays in the trail.
CareAnswer erase_photo(const AskedLab& asked, const std::string& hash, const std::string& reason);

}  // namespace heatwork::desk
