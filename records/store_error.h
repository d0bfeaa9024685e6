// Every way in which a store refuses or fails, one sentence each; no engine's own words, no password.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>

#include "records/document.h"

namespace heatwork::records {

enum class StoreProblem {
  no_store,        ///< nothing stands at the address
  already_there,   ///< something stands where a store would be made
  not_a_store,     ///< a file or database that holds something else
  too_new,         ///< made by a later Heatwork; names both formats
  too_old,         ///< opened for reading only, and it needs a migration
  damaged,         ///< what is read contradicts itself
  locked,          ///< another program holds it, and did not let go in time
  full,            ///< no room on the disk
  unreachable,     ///< no connection, or it was cut; what was being kept was not kept unless it is found there
  refused,         ///< the machine or server does not let it be opened or written
  network_folder,  ///< SQLite on a file system of a network
  bad_address,
  conflict,   ///< somebody else kept another version meanwhile; see Conflict
  closed,     ///< the store was moved; names where to
  bad_value,  ///< what was handed in cannot be kept (NUL, too large, not UTF-8, unknown name)
  mistake_of_ours
};

class StoreError : public std::runtime_error {
 public:
  StoreError(StoreProblem problem, const std::string& sentence) : std::runtime_error(sentence), problem_(problem) {}
  [[nodiscard]] StoreProblem problem() const { return problem_; }

 private:
  StoreProblem problem_;
};

/// A change that began from another version than the newest. Nothing was kept; both versions are at hand.
class Conflict : public StoreError {
 public:
  Conflict(const std::string& sentence, Document stands, std::string yours)
      : StoreError(StoreProblem::conflict, sentence), stands_(std::move(stands)), yours_(std::move(yours)) {}
  [[nodiscard]] const Document& stands() const { return stands_; }   ///< the newest version
  [[nodiscard]] const std::string& yours() const { return yours_; }  ///< the body that was to be kept

 private:
  Document stands_;
  std::string yours_;
};

}  // namespace heatwork::records
