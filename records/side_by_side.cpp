#include "records/side_by_side.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "records/in_order.h"
#include "records/told_twice.h"

namespace heatwork::records {

namespace {

Name name_of(const PersonalRow& row) {
  return {personal_kind, row.code};
}
Name name_of(const PhotoRow& row) {
  return {photo_kind, row.hash};
}
template <class Row>
Name name_of(const Row& row) {
  return {row.kind, row.id};
}

/// A table with the row it stands at.
template <class Row>
class Cursor {
 public:
  template <class... Key>
  explicit Cursor(Rows<Row> rows, const char* table, Key... key) : rows_(std::move(rows), table, key...) {
    advance();
  }
  const Row* operator->() const { return at_; }
  const Row& operator*() const { return *at_; }
  void advance() {
    at_ = rows_.next();
    if (at_ != nullptr) name_ = name_of(*at_);
  }
  [[nodiscard]] bool in(const Name& name) const { return at_ != nullptr && name_ == name; }
  void lower(std::optional<Name>& least) const {
    if (at_ != nullptr && (!least || name_ < *least)) least = name_;
  }

 private:
  InOrder<Row> rows_;
  const Row* at_ = nullptr;
  Name name_;
};

/// The versions of one document, as far as they were walked through.
struct Walked {
  std::optional<Document> newest;    ///< of the documents
  std::int64_t newest_sequence = 0;  ///< of the entry that kept it
  bool sound = true;                 ///< text and entry of the newest agree
  int entry_version = 0;             ///< of the entries
  std::string entry_hash;
};

class SideBySide {
 public:
  SideBySide(SideRows rows, std::optional<std::int64_t> first_broken, IndexProofs& index_proofs, Findings& findings,
             const Progress& progress)
      : first_broken_(first_broken),
        index_proofs_(index_proofs),
        findings_(findings),
        progress_(progress),
        documents_(std::move(rows.documents), "documents"),
        entries_(std::move(rows.entries), "trail", key_by_document),
        heads_(std::move(rows.heads), "heads"),
        uses_(std::move(rows.uses), "uses"),
        dues_(std::move(rows.dues), "dues"),
        personals_(std::move(rows.personals), "personal"),
        photos_(std::move(rows.photos), "photos") {}

  DocumentProof walk() {
    walk_all();
    return proof_;
  }

 private:
  void walk_all() {
    while (const std::optional<Name> name = least()) {
      if (name->first == personal_kind) {
        walk_personal(*name);
      } else if (name->first == photo_kind) {
        walk_photo(*name);
      }
      if (name->first == store_kind) {
        while (entries_.in(*name)) pass(entries_);
      }
      walk_document(*name);
    }
  }

  [[nodiscard]] std::optional<Name> least() const {
    std::optional<Name> name;
    documents_.lower(name);
    entries_.lower(name);
    heads_.lower(name);
    uses_.lower(name);
    dues_.lower(name);
    personals_.lower(name);
    photos_.lower(name);
    return name;
  }

  template <class Row>
  void pass(Cursor<Row>& cursor) {
    cursor.advance();
    if (++passed_ % 256 == 0) progress_.tell();
  }

  std::optional<Entry> newest_entry(const Name& name) {
    std::optional<Entry> newest;
    for (; entries_.in(name); pass(entries_)) newest = *entries_;
    return newest;
  }

  /// Of what only the newest entry tells: where that one was lost or altered, an older one seems to be the newest.
  void wrong_by_newest(const Entry& entry, std::string sentence) {
    findings_.wrong(std::max(entry.sequence, first_broken_.value_or(0)), std::move(sentence));
  }

  void walk_personal(const Name& name) {
    const std::optional<Entry> entry = newest_entry(name);
    const std::string whose = "The personal data of " + quoted(name.second);
    const bool stands = personals_.in(name);
    if (stands) ++proof_.persons;
    if (!entry) {
      findings_.wrong(without_entry, whose + ": no entry of the trail tells of them.");
    } else if (entry->action == personal_erased) {
      if (stands) wrong_by_newest(*entry, fmt::format("{} are there, and entry {} says that they were erased.", whose, entry->sequence));
    } else if (!stands) {
      wrong_by_newest(*entry, fmt::format("{} are not there, and entry {} says that they were kept.", whose, entry->sequence));
    } else if (personal_hash(*personals_) != entry->document_hash) {
      wrong_by_newest(*entry, fmt::format("{} are not those that were kept (entry {}).", whose, entry->sequence));
    }
    if (stands) pass(personals_);
  }

  void walk_photo(const Name& name) {
    const std::optional<Entry> entry = newest_entry(name);
    const std::string which = "The photo " + quoted(name.second);
    const bool stands = photos_.in(name);
    if (stands) ++proof_.photos;
    if (!entry) {
      findings_.wrong(without_entry, which + ": no entry of the trail tells of it.");
    } else if (entry->action == photo_erased) {
      if (stands) wrong_by_newest(*entry, fmt::format("{} is there, and entry {} says that it was erased.", which, entry->sequence));
    } else if (!stands) {
      wrong_by_newest(*entry, fmt::format("{} is not there, and entry {} says that it was kept.", which, entry->sequence));
    } else if (!is_photo(*photos_) || entry->document_hash != photos_->hash) {
      wrong_by_newest(*entry, fmt::format("{}: its bytes are not those that were kept (entry {}).", which, entry->sequence));
    }
    if (stands) pass(photos_);
  }

  void walk_document(const Name& name) {
    Walked walked;
    while (documents_.in(name) || entries_.in(name)) {
      const bool document = documents_.in(name), entry = entries_.in(name);
      if (document && (!entry || documents_->version < entries_->version)) {
        without_its_entry(walked);
      } else if (!document || entries_->version < documents_->version) {
        without_its_document(walked);
      } else {
        pair(walked);
      }
    }
    IndexRows rows = take_index(name);
    if (!walked.newest) {
      if (rows.head || !rows.uses.empty() || !rows.dues.empty()) {
        findings_.wrong(without_entry, fmt::format("{} can be found, and there is no such document.", named(name.first, name.second)));
      }
    } else if (walked.sound) {
      index_proofs_.add(std::move(*walked.newest), walked.newest_sequence, std::move(rows));
    }
  }

  void take_document(Walked& walked, std::int64_t sequence, bool sound) {
    const int before = walked.newest ? walked.newest->version : 0;
    if (documents_->version != before + 1 && sound) {
      findings_.wrong(sequence, fmt::format("{}: version {} is missing.", named(documents_->kind, documents_->id), before + 1));
    }
    walked.newest = *documents_;
    walked.newest_sequence = sequence;
    walked.sound = sound;
    ++proof_.documents;
    pass(documents_);
  }

  void take_entry(Walked& walked) {
    const Entry& entry = *entries_;
    const std::string what = named(entry.kind, entry.id, entry.version);
    if (entry.version != walked.entry_version + 1) {
      findings_.wrong(entry.sequence, fmt::format("Entry {} tells of {} out of turn: version {} was next.", entry.sequence, what,
                                                  walked.entry_version + 1));
    } else if (entry.replaced_hash != walked.entry_hash) {
      findings_.wrong(entry.sequence, fmt::format("Entry {} tells of {} and names another version before it.", entry.sequence, what));
    }
    walked.entry_version = entry.version;
    walked.entry_hash = entry.document_hash;
    pass(entries_);
  }

  void without_its_entry(Walked& walked) {
    findings_.wrong(without_entry,
                    fmt::format("{}: no entry of the trail tells of it.", named(documents_->kind, documents_->id, documents_->version)));
    take_document(walked, without_entry, false);
  }

  void without_its_document(Walked& walked) {
    const Entry& entry = *entries_;
    findings_.wrong(entry.sequence, fmt::format("{} is not there, and entry {} says that it was kept.",
                                                named(entry.kind, entry.id, entry.version), entry.sequence));
    take_entry(walked);
  }

  void pair(Walked& walked) {
    const std::string what = named(documents_->kind, documents_->id, documents_->version);
    const std::int64_t sequence = entries_->sequence;
    const std::string computed = document_hash(*documents_);
    bool sound = computed == entries_->document_hash;
    if (sound && documents_->hash != computed) {
      findings_.wrong(sequence, fmt::format("{}: the hash beside it was altered (entry {}).", what, sequence));
    } else if (!sound && computed == documents_->hash) {
      findings_.wrong(sequence, fmt::format("{}: it is not the one that was kept (entry {}).", what, sequence));
    } else if (!sound) {
      findings_.wrong(sequence, fmt::format("{}: its text is not the one that was kept (entry {}).", what, sequence));
    }
    take_document(walked, sequence, sound);
    take_entry(walked);
  }

  IndexRows take_index(const Name& name) {
    IndexRows rows;
    for (; heads_.in(name); heads_.advance()) rows.head = *heads_;
    for (; uses_.in(name); uses_.advance()) rows.uses.push_back(*uses_);
    for (; dues_.in(name); dues_.advance()) rows.dues.push_back(*dues_);
    return rows;
  }

  std::optional<std::int64_t> first_broken_;
  IndexProofs& index_proofs_;
  Findings& findings_;
  const Progress& progress_;
  std::int64_t passed_ = 0;
  Cursor<Document> documents_;
  Cursor<Entry> entries_;
  Cursor<HeadRow> heads_;
  Cursor<IndexUse> uses_;
  Cursor<IndexDue> dues_;
  Cursor<PersonalRow> personals_;
  Cursor<PhotoRow> photos_;
  DocumentProof proof_;
};

}  // namespace

DocumentProof walk_side_by_side(SideRows rows, std::optional<std::int64_t> first_broken, IndexProofs& index_proofs, Findings& findings,
                                const Progress& progress) {
  return SideBySide(std::move(rows), first_broken, index_proofs, findings, progress).walk();
}

}  // namespace heatwork::records
