// The lab itself: what it is called, in which language and units it is spoken to, and whether it is there to play with.
#pragma once

#include <optional>
#include <string>

#include "desk/lab/asked.h"
#include "desk/lab/settings.h"
#include "desk/lab/store_care.h"
#include "records/store.h"

namespace heatwork::desk {

/// Under which name the page keeps it.
inline constexpr std::string_view usual_lab_document = "lab";

/// What a request asks for comes first; then what the settings of the machine say, then the lab's own document, then English and celsius.
struct LabSettings {
  std::string document;  ///< name it is kept under; empty: none is kept
  int version = 0;
  std::string called;
  std::string says_language, says_units;  ///< what the document itself says; empty: nothing
  std::string language = "en", units = "celsius";
  std::string language_from = "nothing", units_from = "nothing";  ///< "setting", "lab", or "nothing": then it is as above
  bool demo = false;
};

/// Errors: trade::Mistake where the document cannot be read.
LabSettings lab_settings(records::Store& store, const Settings& machine);
/// Of a lab whose store does not stand, or cannot be opened, what the machine says.
LabSettings lab_settings(const AskedLab& asked);

/// As JSON: kept, document, version, name, language, units, each with where it is from and what the document says, demo.
CareAnswer show_lab(const AskedLab& asked);

/// What is absent stays; empty takes it away, so that the machine's setting is used.
struct LabWords {
  std::optional<std::string> called, language, units;
  int from = 0;  ///< version the change was made from; 0: the newest
  std::string reason;
};
/// Keeps the lab's document, the first or the next. Errors: Failure, trade::Mistake, records::Conflict; then nothing was kept.
CareAnswer set_lab(const AskedLab& asked, const LabWords& words);

}  // namespace heatwork::desk
