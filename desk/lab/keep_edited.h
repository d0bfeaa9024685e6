// "Keep what was typed": the firing with its changed documents, its rehearsal, and every text it hangs on, at one stroke.
#pragma once

#include <string>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/keep_rehearsal.h"
#include "desk/lab/rehearse_edited.h"

namespace heatwork::desk {

/// What was typed holds mistakes, so nothing was kept.
class MistakesTyped : public Failure {
 public:
  explicit MistakesTyped(std::vector<EditMistake> mistakes);
  [[nodiscard]] const std::vector<EditMistake>& mistakes() const { return mistakes_; }

 private:
  std::vector<EditMistake> mistakes_;
};

/// A document that was typed over gets its next version, or is new where it goes by another name. `name`: of the firing; empty: its own;
/// never another's. Errors: MistakesTyped; ChangedMeanwhile where what was typed over is no longer the newest; as rehearse_and_keep.
KeptRehearsal keep_edited(const EditedFiring& typed, const AskedLab& asked, const std::string& name, const std::string& reason);

}  // namespace heatwork::desk
