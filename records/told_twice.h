// What a sound store tells twice: documents and the entries that kept them, what documents are found by and what their texts say,
// photos and personal data and the entries that kept or erased them. Both tellings are balanced, in whatever order they are read.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "records/balance.h"
#include "records/newest_versions.h"
#include "records/rows.h"

namespace heatwork::records {

// How entries tell of what is no document.
inline constexpr const char* personal_kind = "personal data";
inline constexpr const char* personal_erased = "personal data erased";
inline constexpr const char* photo_kind = "photo";
inline constexpr const char* photo_erased = "photo erased";
inline constexpr const char* store_kind = "store";

/// The trail's telling. Entries are taken in order of their sequence.
class ToldByTrail {
 public:
  explicit ToldByTrail(const DigestKey& key) : balance_(key) {}
  void take(const Entry& entry);
  [[nodiscard]] const Balance& balance() const { return balance_; }
  [[nodiscard]] const NewestVersions& newest() const { return newest_; }

 private:
  void take_document(const Entry& entry);
  void take_other(const Entry& entry, const char* erased);
  Balance balance_;
  NewestVersions newest_;
};

/// The tables' telling, of some of their rows; in any order.
class ToldByTables {
 public:
  using Tallies = std::map<std::pair<std::string, std::string>, std::int64_t>;  ///< by kind and state

  ToldByTables(const DigestKey& key, const NewestVersions& newest, const IndexOf& index_of)
      : balance_(key), newest_(newest), index_of_(index_of) {}
  void take(const Document& row);
  void take(const HeadRow& row);
  void take(const IndexUse& row);
  void take(const IndexDue& row);
  void take(const PersonalRow& row);
  void take(const PhotoRow& row);
  [[nodiscard]] const Balance& balance() const { return balance_; }
  [[nodiscard]] const Tallies& tallies() const { return tallies_; }

 private:
  void take_index(const Document& newest);
  Balance balance_;
  const NewestVersions& newest_;
  const IndexOf& index_of_;
  Tallies tallies_;
};

/// The photo under this hash is the one that was kept.
bool is_photo(const PhotoRow& row);

}  // namespace heatwork::records
