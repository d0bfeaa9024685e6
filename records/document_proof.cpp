#include "records/document_proof.h"

#include <fmt/format.h>

#include <exception>
#include <memory>
#include <set>
#include <utility>
#include <vector>

#include "records/index_proofs.h"
#include "records/proof_crew.h"
#include "records/side_by_side.h"
#include "records/side_rows.h"
#include "records/stored_pages.h"

namespace heatwork::records {

namespace {

constexpr std::size_t most_workers = 4;
/// Where more names than these are suspicious, all are walked through.
constexpr std::size_t most_names = 100'000;

/// The pass through the tables as they lie.
class Pass {
 public:
  Pass(Store::Inside& inside, const TrailRead& trail, Progress& progress)
      : inside_(inside),
        progress_(progress),
        balance_(trail.told.balance()),
        crew_(std::make_unique<ProofCrew>(most_workers)),
        told_(crew_->workers(), ToldByTables(trail.key, trail.told.newest(), inside.opening.index_of)) {}
  ~Pass() { crew_.reset(); }
  Pass(const Pass&) = delete;
  Pass& operator=(const Pass&) = delete;

  DocumentProof run() {
    DocumentProof proof;
    proof.documents = take(stored_documents(inside_), true);
    take(stored_heads(inside_), false);
    take(stored_uses(inside_), false);
    take(stored_dues(inside_), false);
    proof.persons = take(stored_personals(inside_), true);
    proof.photos = take(stored_photos(inside_), true);
    crew_->end();
    for (const ToldByTables& told : told_) {
      balance_.join(told.balance());
      for (const auto& [of, documents] : told.tallies()) tallies_[of] += documents;
    }
    return proof;
  }

  [[nodiscard]] const Balance& balance() const { return balance_; }
  [[nodiscard]] const ToldByTables::Tallies& tallies() const { return tallies_; }

 private:
  template <class Row>
  std::int64_t take(StoredPages<Row> pages, bool counted) {
    std::int64_t rows = 0;
    for (auto page = pages.next(); !page.empty(); page = pages.next()) {
      rows += static_cast<std::int64_t>(page.size());
      const auto shared = std::make_shared<const std::vector<Row>>(std::move(page));
      crew_->add([this, shared](std::size_t worker) {
        for (const Row& row : *shared) told_[worker].take(row);
      });
      for (std::size_t i = 0; counted && i < shared->size(); ++i) progress_.step();
      progress_.tell();
    }
    return rows;
  }

  Store::Inside& inside_;
  Progress& progress_;
  Balance balance_;
  std::unique_ptr<ProofCrew> crew_;
  std::vector<ToldByTables> told_;  ///< one a worker
  ToldByTables::Tallies tallies_;
};

/// Whatever the index says is read on a thread of its own meanwhile.
template <class Walk>
void walking(Store::Inside& inside, Findings& findings, Walk&& walk) {
  IndexProofs index_proofs(inside.opening.index_of);
  try {
    walk(index_proofs);
  } catch (...) {
    // What was found before the damage that ends the walk counts.
    index_proofs.end(findings);
    throw;
  }
  index_proofs.end(findings);
}

DocumentProof walk_all(Store::Inside& inside, const TrailRead& trail, Findings& findings, Progress& progress) {
  DocumentProof proof;
  walking(inside, findings, [&](IndexProofs& index_proofs) {
    proof = walk_side_by_side(all_rows(inside), trail.first_broken, index_proofs, findings, progress);
  });
  return proof;
}

std::int64_t walk_suspicious(Store::Inside& inside, const Balance& balance, const TrailRead& trail, Findings& findings,
                             Progress& progress) {
  std::set<Name> names;
  for_every_name(inside, [&](const Name& name) {
    if (names.size() <= most_names && balance.suspicious(name.first, name.second)) names.insert(name);
  });
  if (names.size() > most_names) {
    walk_all(inside, trail, findings, progress);
    return static_cast<std::int64_t>(names.size());
  }
  walking(inside, findings, [&](IndexProofs& index_proofs) {
    for (const Name& name : names) walk_side_by_side(rows_of(inside, name), trail.first_broken, index_proofs, findings, progress);
  });
  return static_cast<std::int64_t>(names.size());
}

void prove_tallies(Store::Inside& inside, ToldByTables::Tallies stands, Findings& findings) {
  ToldByTables::Tallies said;
  for (auto rows = inside.tallies(); const TallyRow* row = rows.next();) said[{row->kind, row->state}] = row->documents;
  const auto differ = [&](const std::pair<std::string, std::string>& of, std::int64_t says, std::int64_t should) {
    findings.wrong(without_entry, fmt::format("The count of {}{} was altered: it is {}, and {} stand.", named(of.first, of.second),
                                              of.second.empty() ? "(without a state)" : "", says, should));
  };
  for (const auto& [of, should] : stands) {
    const auto found = said.find(of);
    if (found == said.end() || found->second != should) differ(of, found == said.end() ? 0 : found->second, should);
  }
  for (const auto& [of, says] : said)
    if (stands.find(of) == stands.end()) differ(of, says, 0);
}

}  // namespace

DocumentProof prove_documents(Store::Inside& inside, const TrailRead& trail, Findings& findings, Progress& progress) {
  std::exception_ptr damage;
  try {
    if (trail.whole) {
      Pass pass(inside, trail, progress);
      DocumentProof proof = pass.run();
      if (!pass.balance().even()) proof.one_by_one = walk_suspicious(inside, pass.balance(), trail, findings, progress);
      prove_tallies(inside, pass.tallies(), findings);
      return proof;
    }
  } catch (const Progress::Stopped&) {
    throw;
  } catch (const StoreError&) {
    // A server answers nothing more after an error.
    if (!inside.sqlite()) throw;
    damage = std::current_exception();
  }
  // Where a table cannot be read as it lies, what its keys still lead to is looked at one by one.
  const DocumentProof proof = walk_all(inside, trail, findings, progress);
  if (damage) std::rethrow_exception(damage);
  return proof;
}

}  // namespace heatwork::records
