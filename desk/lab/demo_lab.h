// A lab to play with: a store of its own, filled by the same work a real lab's is, marked demo, at times about now.
#pragma once

#include <optional>
#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/store_care.h"
#include "trade/words.h"

namespace heatwork::desk {

/// Where the demo lab of a lab stands: demo.sqlite beside the lab's own file, else (PostgreSQL) among the person's data.
/// Errors: records::StoreError bad_address; Failure.
std::string demo_store_of(const AskedLab& asked);

/// Makes it at an address where no store stands: what ships as demo files, with firings rehearsed and kept, one ended, one started, others
/// planned, cases with next steps, bench steps, a photo drawn by us, a locked program of two versions, deviations and checks. Nothing in it
/// happened. Labels, notes and reasons stand in it in the language. `asked.person` does all of it; empty: "demo". The same but for times,
/// which lie about `clock`. Errors: Failure.
CareAnswer make_demo_lab(const AskedLab& asked, trade::Language language = trade::Language::english,
                         const Clock& clock = clock_of_machine());

/// The same where a demo lab stands already: it goes, and a new one stands in its place, spoken to in the language and units as before.
/// Errors: Failure not_allowed where what stands is no demo lab, or is no file; then nothing was changed.
CareAnswer make_demo_lab_anew(const AskedLab& asked, trade::Language language = trade::Language::english,
                              const Clock& clock = clock_of_machine());

/// The language its labels, notes and reasons are in, whatever was changed in it since. Nothing where no demo lab of ours can be read.
std::optional<trade::Language> language_of_demo_lab(const AskedLab& asked);

}  // namespace heatwork::desk
