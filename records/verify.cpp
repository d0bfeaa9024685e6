#include "records/verify.h"

#include <algorithm>
#include <cctype>
#include <exception>
#include <functional>

#include "records/chain_proof.h"
#include "records/document_proof.h"
#include "records/file_proof.h"
#include "records/findings.h"
#include "records/inside.h"
#include "records/progress.h"

namespace heatwork::records {

namespace {

std::string read_head(const std::string& asked) {
  std::string head = asked;
  std::transform(head.begin(), head.end(), head.begin(), [](unsigned char sign) { return static_cast<char>(std::tolower(sign)); });
  const bool hexadecimal = head.find_first_not_of("0123456789abcdef") == std::string::npos;
  if (!head.empty() && (head.size() != 64 || !hexadecimal)) {
    throw StoreError(StoreProblem::bad_value, "The hash of an entry has 64 digits from 0 to 9 and a to f; " + quoted(asked) + " is none.");
  }
  return head;
}

/// Damage that ends one part of the proof is a finding; the other parts go on.
void part(Findings& findings, const std::function<void()>& proof) {
  try {
    proof();
  } catch (const Progress::Stopped&) {
    throw;
  } catch (const StoreError& error) {
    // Without a connection, or while another holds it, nothing was read and nothing is said of it.
    switch (error.problem()) {
      case StoreProblem::damaged:
      case StoreProblem::not_a_store:
      case StoreProblem::bad_value:
        findings.wrong(of_the_file, error.what());
        break;
      case StoreProblem::mistake_of_ours:
        findings.wrong(of_the_file, std::string("The store cannot be read as stores are. ") + error.what());
        break;
      default:
        throw;
    }
  }
}

void prove(Store::Inside& inside, const VerifyAsked& asked, const std::string& head, Findings& findings, Verified& verified) {
  std::int64_t all = 0;
  // Nearly every entry tells of a document: two rows an entry.
  part(findings, [&] {
    const auto newest = asked.watch ? inside.newest_entry() : std::nullopt;
    all = newest ? 2 * newest->sequence : 0;
  });
  Progress progress(asked.watch, all);
  part(findings, [&] { prove_file(inside, findings); });
  progress.tell();
  TrailRead trail(drawn_key());
  part(findings, [&] {
    const auto take = [&](const Entry& entry) { trail.told.take(entry); };
    const ChainProof chain = prove_chain(inside, head, take, findings, progress);
    trail.whole = true;
    trail.first_broken = chain.first_broken;
    verified.entries = chain.entries;
    verified.head = chain.head;
    if (!head.empty() && !chain.head_found) {
      findings.wrong(chain.entries + 1, "No entry has the hash " + head + ": the trail was cut or rewritten after it was printed.");
    }
  });
  part(findings, [&] {
    const DocumentProof documents = prove_documents(inside, trail, findings, progress);
    verified.documents = documents.documents;
    verified.photos = documents.photos;
    verified.persons = documents.persons;
    verified.one_by_one = documents.one_by_one;
  });
  progress.tell();
}

}  // namespace

Verified verify(Store& store, const VerifyAsked& asked) {
  Store::Inside& inside = store.inside();
  if (!inside.opening.index_of) {
    throw StoreError(StoreProblem::mistake_of_ours,
                     "A store was opened for a proof without the reader of its documents: a mistake of ours.");
  }
  const std::string head = read_head(asked.head);
  Verified verified;
  Findings findings;
  try {
    part(findings, [&] {
      const ReadingView view(inside);
      prove(inside, asked, head, findings, verified);
    });
  } catch (const Progress::Stopped&) {
    verified.stopped = true;
  }
  verified.wrong = findings.sentences();
  return verified;
}

}  // namespace heatwork::records
