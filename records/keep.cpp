#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "records/hash.h"
#include "records/inside.h"
#include "records/statement.h"
#include "records/store.h"
#include "records/transaction.h"
#include "records/values.h"
#include "records/writing.h"

namespace heatwork::records {

namespace {

/// A change on its way into the store: what it comes to, worked out against what stands, before anything is written.
class Keeping {
 public:
  Keeping(Store& store, const Change& change) : store_(store), inside_(store.inside()), change_(change) {}

  /// Before the lock, as nobody should wait for it: what the documents are found by, where they are kept as they are meant to be.
  void read_ahead() {
    for (const NewVersion& version : change_.documents) {
      const Document document{version.kind, version.id, version.after + 1, version.body, version.typed, ""};
      // Of several versions of one document only the last is found by anything.
      if (!version.once) ahead_[{version.kind, version.id}] = index_of(inside_, document);
    }
  }

  /// Under the writers' lock. False: there is nothing to write.
  bool work_out() {
    std::vector<Key> keys;
    for (const NewVersion& version : change_.documents) keys.emplace_back(version.kind, version.id);
    std::sort(keys.begin(), keys.end());
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    stood_ = stands_ = what_stands(inside_, keys);
    for (const NewVersion& version : change_.documents) take(version);
    for (const Personal& personal : change_.personal) take(personal);
    for (const Photo& photo : change_.photos) take(photo);
    for (const std::string& hash : change_.erase_photos) erase(hash);
    return !entries_.empty();
  }

  void write() {
    inside_.insert(documents_);
    write_index();
    write_personal();
    inside_.insert(photos_);
    for (const std::string& hash : erased_photos_) Statement(inside_, "delete from photos where hash = ?").bind(hash).run();
    write_trail();
  }

  [[nodiscard]] bool erases() const {
    return !erased_photos_.empty() ||
           std::any_of(personal_.begin(), personal_.end(), [](const auto& row) { return row.second.body.empty(); });
  }

  Kept kept() {
    if (entries_.empty()) {
      const auto newest = inside_.newest_entry();
      kept_.sequence = newest ? newest->sequence : 0;
      kept_.head = newest ? newest->hash : "";
    }
    return std::move(kept_);
  }

 private:
  void take(const NewVersion& version) {
    Stands& stands = stands_[{version.kind, version.id}];
    Document document{version.kind, version.id, version.after + 1, version.body, version.typed, ""};
    if (version.once && stands.version > 0) {
      document.version = stands.version;
      document.hash = document_hash(document);
      if (document.hash != stands.hash) conflict(version, stands);
      kept_.documents.push_back(std::move(document));
      return;
    }
    if (version.after != stands.version) conflict(version, stands);
    document.hash = document_hash(document);
    entries_.push_back(
        {0, change_.who, version.action, version.kind, version.id, document.version, document.hash, stands.hash, version.reason, "", ""});
    stands = {document.version, document.hash};
    documents_.push_back(document);
    kept_.documents.push_back(std::move(document));
  }

  [[noreturn]] void conflict(const NewVersion& version, const Stands& stands) {
    const std::string name = fmt::format("The {} \"{}\"", version.kind, version.id);
    std::string sentence;
    if (stands.version == 0)
      sentence = fmt::format("{} was to follow version {}, and none stands.", name, version.after);
    else if (version.once)
      sentence = fmt::format("{} stands already, with other bytes.", name);
    else if (version.after == 0)
      sentence = fmt::format("{} stands already, in version {}.", name, stands.version);
    else
      sentence =
          fmt::format("{} was changed meanwhile: version {} stands, yours was made from version {}.", name, stands.version, version.after);
    const auto mine = std::find_if(documents_.rbegin(), documents_.rend(),
                                   [&](const Document& document) { return document.kind == version.kind && document.id == version.id; });
    Document standing;
    if (mine != documents_.rend())
      standing = *mine;
    else if (stands.version > 0)
      standing = store_.find(version.kind, version.id, stands.version).value_or(Document{});
    throw Conflict(sentence + " Nothing was kept.", standing, version.body);
  }

  void take(const Personal& personal) {
    PersonalRow before{personal.code, "", ""};
    const auto planned = personal_.find(personal.code);
    bool there = false;
    if (planned != personal_.end()) {
      before = planned->second;
      there = !before.body.empty();
    } else {
      Statement statement(inside_, "select salt, body from personal where code = ?");
      there = statement.bind(personal.code).into(before.salt).into(before.body).next();
    }
    if (personal.body.empty() && !there)
      throw StoreError(StoreProblem::bad_value, fmt::format("There is no personal data of {} to erase. Nothing was kept.", personal.code));
    PersonalRow row{personal.code, personal.body.empty() ? "" : random_hex(32), personal.body};
    entries_.push_back({0, change_.who, personal.body.empty() ? "personal data erased" : "personal data kept", "personal data",
                        personal.code, 0, personal.body.empty() ? "" : personal_hash(row), there ? personal_hash(before) : "",
                        personal.reason, "", ""});
    personal_[personal.code] = row;
  }

  [[nodiscard]] bool photo_stands(const std::string& hash) {
    std::string found;
    return Statement(inside_, "select hash from photos where hash = ?").bind(hash).into(found).next();
  }

  void take(const Photo& photo) {
    const std::string hash = photo_hash(photo.bytes);
    kept_.photos.push_back(hash);
    const bool planned = std::any_of(photos_.begin(), photos_.end(), [&](const PhotoRow& row) { return row.hash == hash; });
    if (planned || photo_stands(hash)) return;
    entries_.push_back({0, change_.who, "photo kept", "photo", hash, 0, hash, "", photo.reason, "", ""});
    photos_.push_back({hash, base64(photo.bytes)});
  }

  void erase(const std::string& hash) {
    if (!photo_stands(hash) || !erased_photos_.insert(hash).second)
      throw StoreError(StoreProblem::bad_value, fmt::format("There is no photo {} to erase. Nothing was kept.", hash));
    entries_.push_back({0, change_.who, "photo erased", "photo", hash, 0, "", hash, change_.reason_to_erase, "", ""});
  }

  void write_index() {
    std::map<Key, const Document*> newest;
    for (const Document& document : documents_) newest[{document.kind, document.id}] = &document;
    std::vector<IndexRow> rows;
    std::vector<Key> replaced;
    for (const auto& [key, document] : newest) {
      const auto ahead = ahead_.find(key);
      const bool read = ahead != ahead_.end() && ahead->second.version == document->version;
      rows.push_back(read ? std::move(ahead->second) : index_of(inside_, *document));
      if (stood_.count(key) > 0) replaced.push_back(key);
    }
    drop_index(inside_, replaced);
    put_index(inside_, rows);
  }

  void write_personal() {
    for (const auto& [code, row] : personal_) {
      Statement(inside_, "delete from personal where code = ?").bind(code).run();
      if (!row.body.empty()) inside_.insert(std::vector{row});
    }
  }

  void write_trail() {
    const auto newest = inside_.newest_entry();
    if (!newest)
      throw StoreError(StoreProblem::damaged, fmt::format("The store {} is damaged: its trail is empty.", inside_.address.shown()));
    kept_.sequence = newest->sequence;
    kept_.head = newest->hash;
    for (Entry& entry : entries_) {
      entry.sequence = ++kept_.sequence;
      entry.previous = kept_.head;
      entry.hash = kept_.head = entry_hash(entry);
    }
    inside_.insert(entries_);
  }

  Store& store_;
  Store::Inside& inside_;
  const Change& change_;
  std::map<Key, Stands> stood_, stands_;  ///< before the change, and with what of it is worked out
  std::map<Key, IndexRow> ahead_;
  std::vector<Document> documents_;
  std::map<std::string, PersonalRow> personal_;
  std::vector<PhotoRow> photos_;
  std::set<std::string> erased_photos_;
  std::vector<Entry> entries_;
  Kept kept_;
};

}  // namespace

Kept Store::keep(const Change& change) {
  check(change);
  Keeping keeping(*this, change);
  keeping.read_ahead();
  WriteTransaction writing(*inside_);
  if (change.allow) change.allow(*this);
  if (!keeping.work_out()) return keeping.kept();
  keeping.write();
  writing.commit();
  if (keeping.erases()) forget_erased(*inside_);
  return keeping.kept();
}

}  // namespace heatwork::records
