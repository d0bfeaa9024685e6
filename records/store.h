// The store: documents, what they are found by, the trail, personal data and photos, on SQLite or PostgreSQL. One change is one
// transaction: it is there whole once `keep` has returned, or not at all.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/address.h"
#include "records/document.h"
#include "records/trail.h"

namespace heatwork::records {

/// Of the tables; raised by a migration. A store of a later format is refused, one of an earlier format is copied and then migrated.
inline constexpr int store_format = 3;
inline constexpr int rows_a_page = 1000;
/// Largest photo. [byte]
inline constexpr std::size_t largest_photo = 10'000'000;
/// Largest body or typed text of a document. [byte]
inline constexpr std::size_t largest_document = 8'000'000;

/// A version to be kept after the one it was made from.
struct NewVersion {
  std::string kind, id;
  int after = 0;  ///< the version it was made from; 0: there is none yet
  std::string body;
  std::string typed;
  std::string action;  ///< what the trail says of it: "added", "changed", "locked" ...
  std::string reason;
  bool once = false;  ///< where it stands already with these very bytes nothing is kept and nothing is wrong
};

/// Personal data of one person, outside documents and trail so that it can be erased.
struct Personal {
  std::string code;
  std::string body;  ///< text; empty: erase what there is
  std::string reason;
};

struct Photo {
  std::string bytes;
  std::string reason;
};

class Store;

/// All that is kept at one stroke.
struct Change {
  Who who;
  std::vector<NewVersion> documents;
  std::vector<Personal> personal;
  std::vector<Photo> photos;
  std::vector<std::string> erase_photos;  ///< hashes; `reason_to_erase` goes into the trail
  std::string reason_to_erase;
  /// Asked under the writers' lock before anything is written: what it reads stands as it is until the change is whole. What it throws
  /// ends the change with nothing kept, and comes out of `keep` as it is. It must not write.
  std::function<void(Store&)> allow;
};

struct Kept {
  std::vector<Document> documents;  ///< as kept, in the order given
  std::vector<std::string> photos;  ///< hashes, in the order given; a photo that was there already is not kept twice
  std::int64_t sequence = 0;        ///< of the newest entry
  std::string head;                 ///< its hash
};

/// The newest version of a document, without its bytes.
struct Head {
  std::string kind, id;
  int version = 0;
  std::string label, state;
  std::int64_t at_ms = 0;
};

/// A page of an answer: up to `rows_a_page` rows and the exact count of all.
template <class Row>
struct Page {
  std::vector<Row> rows;
  std::int64_t count = 0;
  int page = 1;  ///< from 1
};

struct KindCount {
  std::string kind;
  std::int64_t count = 0;
};

struct HeadQuery {
  std::string kind;   ///< empty: every kind
  std::string word;   ///< empty, or text sought in id, label and words, in any case
  std::string state;  ///< empty: any
  int page = 1;
};

/// Pieces that met a furnace, a program ("name@version", or "name" for every version) or a lot, each piece once.
struct PieceQuery {
  enum class By { furnace, program, lot };
  By by = By::furnace;
  std::string value;
  std::int64_t from_ms = INT64_MIN;  ///< inclusive
  std::int64_t to_ms = INT64_MAX;    ///< exclusive
  int page = 1;
};
struct PieceRow {
  std::string piece;
  std::int64_t first_ms = 0, last_ms = 0;
  std::int64_t times = 0;  ///< documents it met it in
};

/// A document a piece stands in.
struct UseRow {
  std::string kind, id;
  Use use;
};

/// When a program was used last, and in which furnace.
struct LastUse {
  std::int64_t at_ms = 0;
  std::string furnace;
};

/// A document that tells of a furnace and of no piece: a check of it.
struct FurnaceRow {
  std::string kind, id, state;
  std::int64_t at_ms = 0;
};

struct DueRow {
  std::string kind, id, label;
  Due due;
};

struct EntryQuery {
  std::string kind, id;    ///< empty: of everything
  std::int64_t after = 0;  ///< entries beyond this sequence
  bool newest_first = false;
};

struct Status {
  Address address;
  int format = 0;
  std::string store_id;
  std::string made_utc;
  std::int64_t documents = 0, versions = 0, entries = 0, photos = 0, persons_with_data = 0;
  std::int64_t bytes = 0;             ///< on disk
  std::string head;                   ///< hash of the newest entry
  std::string moved_to;               ///< empty: in use
  bool migrated = false;              ///< by this opening
  std::string copy_before_migration;  ///< path of the copy that was made, where one was
};

struct Opening {
  IndexOf index_of;  ///< needed for whatever writes, verifies or migrates
  bool read_only = false;
  bool make = false;          ///< make the store where there is none (SQLite: folder and file, PostgreSQL: tables in an empty database)
  Who who;                    ///< of the entries that making and migrating leave
  int busy_ms = 5000;         ///< how long another program's write is waited for
  std::string copies_folder;  ///< where the copy before a migration of PostgreSQL goes; SQLite's stands beside the file
};

class Store {
 public:
  /// Opens; makes and migrates where asked and needed. Errors: StoreError.
  static Store open(const Address& address, const Opening& opening);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  /// Keeps a change whole. When it returns everything is on the disk. Errors: Conflict, StoreError; then nothing was kept, except that
  /// after `unreachable` the change may have been kept: the sentence says so and the trail tells.
  Kept keep(const Change& change);

  /// The version asked for, or the newest. Errors: StoreError damaged where bytes and hash do not agree.
  [[nodiscard]] std::optional<Document> find(std::string_view kind, std::string_view id, std::optional<int> version = std::nullopt);
  /// The newest versions of several documents of a kind, at one stroke and in no order; names of which there is none are passed over.
  [[nodiscard]] std::vector<Document> newest(std::string_view kind, const std::vector<std::string>& ids);
  /// When the newest versions of several documents of a kind were kept, by name; names of which there is none are passed over. UTC.
  [[nodiscard]] std::map<std::string, std::string> kept_at(std::string_view kind, const std::vector<std::string>& ids);
  /// Documents of a kind among whose words one of these names stands, in order; it may stand there as part of a note.
  [[nodiscard]] std::vector<std::string> naming(std::string_view kind, const std::vector<std::string>& names);
  /// Every version, oldest first.
  [[nodiscard]] std::vector<Document> versions(std::string_view kind, std::string_view id);
  /// How many documents of each kind there are, in order of kind.
  [[nodiscard]] std::vector<KindCount> kinds();
  [[nodiscard]] Page<Head> heads(const HeadQuery& query);
  /// In order of first meeting, then name.
  [[nodiscard]] Page<PieceRow> pieces(const PieceQuery& query);
  /// In order of time, then kind and id.
  [[nodiscard]] Page<UseRow> uses_of(std::string_view piece, int page = 1);
  /// Of documents of a kind: the entry of the trail each was first kept by, lower where it was kept earlier.
  [[nodiscard]] std::map<std::string, std::int64_t> first_entries(std::string_view kind, const std::vector<std::string>& ids);
  /// Of a version of a program, "name@version"; nothing where no piece met it.
  [[nodiscard]] std::optional<LastUse> last_use(std::string_view program);
  /// What tells of a furnace and of no piece, newest first.
  [[nodiscard]] Page<FurnaceRow> of_furnace(std::string_view furnace, int page = 1);
  /// Due up to and including a day, in order of day, kind and id.
  [[nodiscard]] Page<DueRow> dues(std::string_view until, int page = 1);
  [[nodiscard]] Page<Entry> trail(const EntryQuery& query, int page = 1);
  [[nodiscard]] std::optional<std::string> personal(std::string_view code);
  [[nodiscard]] std::optional<std::string> photo(std::string_view hash);
  [[nodiscard]] Status status();

  class Inside;  ///< for this room only
  [[nodiscard]] Inside& inside() { return *inside_; }

 private:
  explicit Store(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace heatwork::records
