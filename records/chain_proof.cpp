#include "records/chain_proof.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "records/in_order.h"
#include "records/statement.h"

namespace heatwork::records {

namespace {

const std::string nothing_before(64, '0');

/// The entry before, as far as the next one needs it.
struct Before {
  std::int64_t sequence = 0;
  std::string hash = nothing_before;
  bool sound = true;
};

/// What the trail says of the store itself.
struct SaidOfStore {
  std::optional<Entry> made, migrated, moved;
};

/// False where it is altered, or one is missing before it.
bool prove_entry(const Entry& entry, Before& before, Findings& findings) {
  if (entry.sequence < 1) {
    findings.wrong(entry.sequence, fmt::format("Entry {} ({}) was altered: no entry is kept under this number.", entry.sequence,
                                               named(entry.kind, entry.id, entry.version)));
    return false;
  }
  const bool follows = entry.sequence == before.sequence + 1;
  if (!follows) {
    findings.wrong(before.sequence + 1, fmt::format("Entry {} is missing: after entry {} comes entry {}.", before.sequence + 1,
                                                    before.sequence, entry.sequence));
  }
  const bool sound = entry_hash(entry) == entry.hash;
  if (!sound) {
    findings.wrong(entry.sequence, fmt::format("Entry {} ({}) was altered: its hash is not the hash of what it says.", entry.sequence,
                                               named(entry.kind, entry.id, entry.version)));
  } else if (follows && before.sound && entry.previous != before.hash) {
    // The seal of the later entry is whole, so it is the earlier one that is not what it was.
    findings.wrong(before.sequence, before.sequence == 0 ? std::string("Entry 1 is not the first of its trail: it names one before it.")
                                                         : fmt::format("Entry {} was rewritten: entry {} was kept after another one.",
                                                                       before.sequence, entry.sequence));
  }
  before = {entry.sequence, entry.hash, sound};
  return follows && sound;
}

void note_store(const Entry& entry, SaidOfStore& said) {
  if (entry.kind != "store") return;
  if (!said.made) said.made = entry;
  if (entry.action == "migrated") said.migrated = entry;
  if (entry.action == "moved") said.moved = entry;
}

/// One row of `about` against what the trail says.
class AboutProof {
 public:
  AboutProof(Store::Inside& inside, Findings& findings) : findings_(findings) {
    InOrder<AboutRow> rows(inside.abouts(), "about");
    while (const AboutRow* row = rows.next()) read(*row);
  }

  void equals(const char* key, const std::string& should, std::int64_t sequence) {
    const auto found = texts_.find(key);
    if (found == texts_.end()) {
      if (damaged_) return;
      findings_.wrong(sequence, fmt::format("What the store says of itself lacks its “{}”.", key));
    } else if (found->second != should) {
      findings_.wrong(sequence, fmt::format("What the store says of itself was altered: its “{}” is {}, and entry {} says {}.", key,
                                            quoted(found->second), sequence, quoted(should)));
    }
  }
  void is_absent(const char* key) {
    if (texts_.contains(key))
      findings_.wrong(of_the_file, fmt::format("What the store says of itself was altered: no entry tells of its “{}”.", key));
  }

 private:
  void read(const AboutRow& row) {
    const bool known = row.key == "format" || row.key == "store_id" || row.key == "made_utc" || row.key == "moved_to";
    if (!known) {
      findings_.wrong(of_the_file, fmt::format("What the store says of itself was altered: {} is nothing a store says.", quoted(row.key)));
      return;
    }
    try {
      texts_[row.key] = unsealed(row);
    } catch (const StoreError& error) {
      damaged_ = true;
      findings_.wrong(of_the_file, error.what());
    }
  }

  Findings& findings_;
  std::map<std::string, std::string> texts_;
  bool damaged_ = false;
};

void prove_about(Store::Inside& inside, const SaidOfStore& said, Findings& findings) {
  AboutProof about(inside, findings);
  if (!said.made || said.made->sequence != 1 || said.made->action != "store made") {
    findings.wrong(1, "The trail does not begin with the making of the store.");
    return;
  }
  const Entry& format = said.migrated ? *said.migrated : *said.made;
  about.equals("store_id", said.made->id, said.made->sequence);
  about.equals("made_utc", said.made->who.at_utc, said.made->sequence);
  about.equals("format", std::to_string(format.version), format.sequence);
  constexpr std::string_view to = "to ";
  if (said.moved) {
    const std::string& reason = said.moved->reason;
    about.equals("moved_to", reason.starts_with(to) ? reason.substr(to.size()) : reason, said.moved->sequence);
  } else {
    about.is_absent("moved_to");
  }
}

}  // namespace

ChainProof prove_chain(Store::Inside& inside, const std::string& head_sought, const std::function<void(const Entry&)>& take,
                       Findings& findings, Progress& progress) {
  ChainProof proof;
  Before before;
  SaidOfStore said;
  InOrder<Entry> entries(inside.entries(), "trail");
  while (const Entry* entry = entries.next()) {
    const std::int64_t expected = before.sequence + 1;
    if (!prove_entry(*entry, before, findings) && !proof.first_broken) proof.first_broken = std::min(expected, entry->sequence);
    note_store(*entry, said);
    if (before.sound && entry->hash == head_sought) proof.head_found = true;
    take(*entry);
    ++proof.entries;
    progress.step();
  }
  proof.head = before.hash;
  prove_about(inside, said, findings);
  return proof;
}

bool stands_in_chain(Store::Inside& inside, std::int64_t sequence, const std::string& hash) {
  std::string found;
  Statement statement(inside, "select hash from trail where sequence = ?");
  return statement.bind(sequence).into(found).next() && found == hash;
}

}  // namespace heatwork::records
