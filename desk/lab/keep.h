// One way into a lab's store: whatever is kept passes roles, locks and signatures.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/store_place.h"
#include "records/store.h"

namespace heatwork::desk {

/// What stands is not what a change was made from.
class ChangedMeanwhile : public Failure {
 public:
  struct Versions {
    std::string kind, name;
    int from = 0;    ///< the version it was made from; 0: from none, as it was to be a new one
    int newest = 0;  ///< the one that stands
  };
  ChangedMeanwhile(Versions versions, const std::string& sentence)
      : Failure(ErrorWord::conflict, sentence), versions_(std::move(versions)) {}
  [[nodiscard]] const Versions& versions() const { return versions_; }

 private:
  Versions versions_;
};

/// Opens the lab's store for what begins something new there. Where nobody named one, neither in words nor in settings, and none stands, it
/// is made.
records::Store opened_to_keep(const StorePlace& place);

/// Keeps a change in the name of the one who asks; `change.who` is filled in here, `change.allow` is asked after the rules of all. Errors:
/// Failure not_allowed or bad_value, ChangedMeanwhile, records::StoreError; then nothing was kept.
records::Kept keep(const StorePlace& place, records::Store& store, records::Change change);

}  // namespace heatwork::desk
