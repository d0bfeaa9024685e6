// Making a store where none stands: a file gets its name only when it is whole, a database its tables in one transaction.
#pragma once

#include <memory>
#include <string>

#include "records/inside.h"

namespace heatwork::records {

/// A file of SQLite being written under another name beside its own, without syncs and log: it is nobody's until it is put in place.
class NewFile {
 public:
  /// Makes the folder too. Errors: StoreError already_there, refused, full, network_folder.
  NewFile(const Address& address, const Opening& opening);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  [[nodiscard]] Store::Inside& inside() { return *inside_; }
  /// On the disk under its name when it returns, with the log switched on. Errors: StoreError already_there, full.
  void put_in_place();
  /// Hands the connection over, to be read through `inside()` all the same.
  [[nodiscard]] std::unique_ptr<Store::Inside> take() { return std::move(owned_); }

 private:
  std::string final_, making_;
  std::unique_ptr<Store::Inside> owned_;
  Store::Inside* inside_ = nullptr;
  bool placed_ = false;
};

/// The first rows: what the store says of itself, and the entry "store made".
void begin_trail(Store::Inside& inside, const Who& who);

/// What else stands in a database of PostgreSQL.
enum class Ground { empty, store, other };
Ground ground_of(Store::Inside& inside);

}  // namespace heatwork::records
