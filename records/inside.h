// What the files of this room share of an open store: its connection, views and changes over it, its rows as they are.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/rows.h"
#include "records/store.h"
#include "records/store_error.h"

namespace soci {
class session;
}

namespace heatwork::records {

/// The rows of `about`: "format", "store_id", "made_utc" and, where the store was moved, "moved_to". A value stands there as
/// "TEXT SEAL" with SEAL = BLAKE2b-256 over key and text, each with its length before it, so that a byte changed in key, text or seal
/// shows. That nobody wrote a whole sealed row anew is seen by the trail: its first entry ("store made", kind "store", id = store_id,
/// version = format, at_utc = made_utc) and its entries "migrated" (version = the format after it) and "moved" (id = store_id,
/// reason = "to " + moved_to).
std::string sealed(std::string_view key, std::string_view text);
/// The text of a row of `about`. Errors: StoreError damaged where seal and text do not agree.
std::string unsealed(const AboutRow& row);

/// Salted hash of personal data as the trail carries it: BLAKE2b-256 over salt, code and body, each with its length before it.
std::string personal_hash(const PersonalRow& row);
/// Name of a photo: BLAKE2b-256 over its bytes.
std::string photo_hash(std::string_view bytes);
/// Errors: StoreError damaged.
std::string bytes_of(const PhotoRow& row);

class Store::Inside {
 public:
  Inside();
  ~Inside();
  static Store opened(std::unique_ptr<Inside> inside) { return Store(std::move(inside)); }
  Inside(const Inside&) = delete;
  Inside& operator=(const Inside&) = delete;

  Address address;
  Opening opening;
  Status found;  ///< format, store_id, made_utc, migrated, copy_before_migration as of the opening

  [[nodiscard]] bool sqlite() const { return address.engine == Engine::sqlite; }
  [[nodiscard]] soci::session& sql();

  // Whole tables in their fixed order, by bytes and not by an engine's rules of sorting. A row that cannot be read as what it should be
  // (null, text in place of a number) is StoreError damaged.
  [[nodiscard]] Rows<AboutRow> abouts();        ///< key
  [[nodiscard]] Rows<Document> documents();     ///< kind, id, version
  [[nodiscard]] Rows<HeadRow> head_rows();      ///< kind, id
  [[nodiscard]] Rows<IndexUse> index_uses();    ///< kind, id, row
  [[nodiscard]] Rows<IndexDue> index_dues();    ///< kind, id, row
  [[nodiscard]] Rows<TallyRow> tallies();       ///< kind, state
  [[nodiscard]] Rows<Entry> entries();          ///< sequence
  [[nodiscard]] Rows<PersonalRow> personals();  ///< code
  [[nodiscard]] Rows<PhotoRow> photos();        ///< hash

  // Rows put in as they are, many at a stroke; inside a WriteTransaction or a NewStore.
  void insert(const std::vector<AboutRow>& rows);
  void insert(const std::vector<Document>& rows);
  void insert(const std::vector<HeadRow>& rows);
  void insert(const std::vector<IndexUse>& rows);
  void insert(const std::vector<IndexDue>& rows);
  void insert(const std::vector<TallyRow>& rows);
  void insert(const std::vector<Entry>& rows);
  void insert(const std::vector<PersonalRow>& rows);
  void insert(const std::vector<PhotoRow>& rows);

  /// Text of a row of `about` without its seal. Errors: StoreError damaged.
  [[nodiscard]] std::optional<std::string> about(std::string_view key);
  void set_about(std::string_view key, std::string_view text);

  /// Newest entry of the trail, if there is one.
  [[nodiscard]] std::optional<Entry> newest_entry();
  /// Puts an entry behind the newest: sequence, previous and hash are filled in. Inside a WriteTransaction.
  Entry append(Entry entry);
  [[nodiscard]] std::int64_t count(std::string_view table);

  /// Writes the whole store, an SQLite one, as one file that must not exist yet: consistent while others write. Not inside a transaction.
  void vacuum_into(const std::string& path);
  /// Runs a statement without values. Errors: StoreError.
  void run(const std::string& statement);

  struct Connection;
  std::unique_ptr<Connection> connection;
};

class NewFile;

/// Everything read while this lives is of one moment. Inside one, do not open another.
class ReadingView {
 public:
  explicit ReadingView(Store::Inside& inside);
  ~ReadingView();
  ReadingView(const ReadingView&) = delete;
  ReadingView& operator=(const ReadingView&) = delete;

 private:
  Store::Inside& inside_;
};

/// The only writer while it lives; gone without trace unless committed. Errors: StoreError locked, closed ...
class WriteTransaction {
 public:
  explicit WriteTransaction(Store::Inside& inside);
  ~WriteTransaction();
  WriteTransaction(const WriteTransaction&) = delete;
  WriteTransaction& operator=(const WriteTransaction&) = delete;
  /// On the disk when it returns.
  void commit();

 private:
  Store::Inside& inside_;
  bool open_ = true;
};

/// A store being made where none stands, with the tables of the current format and no row in them. Nobody sees it until it is put in
/// place; without that nothing is left. For copies and imports: insert rows as they are, in large lots.
class NewStore {
 public:
  /// Errors: StoreError already_there, no folder, refused ...
  NewStore(const Address& address, const Opening& opening);
  ~NewStore();
  NewStore(const NewStore&) = delete;
  NewStore& operator=(const NewStore&) = delete;
  [[nodiscard]] Store::Inside& inside() { return *inside_; }
  /// It can be read back (verify) through this before it is put in place.
  [[nodiscard]] Store& store() { return *store_; }
  /// Everything is on the disk and under its name when it returns.
  void put_in_place();

 private:
  std::unique_ptr<NewFile> file_;  ///< of SQLite
  std::unique_ptr<Store> store_;
  Store::Inside* inside_ = nullptr;
  bool placed_ = false;
};

}  // namespace heatwork::records
