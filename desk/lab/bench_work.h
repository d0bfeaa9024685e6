// "Record a bench step" and "keep a photo": what is done to pieces between firings, and what was seen.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/store_care.h"

namespace heatwork::desk {

// Errors of all: Failure, trade::Mistake, records::StoreError with one sentence; then nothing was kept.

struct StepWords {
  std::string name;
  std::string work;  ///< "grind"
  std::vector<std::string> pieces, lots;
  std::vector<std::string> piece_files;  ///< of pieces that changed in it: each becomes the piece's next version
  std::string note;
  std::string at;  ///< as typed; empty: now
};
CareAnswer record_step(const AskedLab& asked, const StepWords& words);

/// Keeps photos with a firing, each once by its hash. `of`: what they show; may be empty.
CareAnswer keep_photos(const AskedLab& asked, const std::string& firing, const std::vector<std::string>& files, const std::string& of);

/// The same of one, by its bytes.
CareAnswer keep_photo(const AskedLab& asked, const std::string& firing, std::string bytes, const std::string& of);

struct PhotoSeen {
  std::string kind;  ///< "JPEG", as desk/lab/image_kind.h names it
  std::string bytes;
};
PhotoSeen kept_photo(const AskedLab& asked, const std::string& hash);

/// Writes a kept photo into a file that does not stand yet.
CareAnswer write_photo(const AskedLab& asked, const std::string& hash, const std::string& file);

}  // namespace heatwork::desk
