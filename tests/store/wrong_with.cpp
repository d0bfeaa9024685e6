#include <map>
#include <sstream>
#include <tuple>

#include "records/hash.h"
#include "records/inside.h"
#include "records/verify.h"
#include "tests/store/mixed_load.h"

namespace heatwork::store_proof {

namespace {

using Name = std::tuple<std::string, std::string, int>;

/// All that stands, read in one view.
struct Standing {
  std::map<Name, records::Document> documents;
  std::map<std::int64_t, records::Entry> entries;
  std::map<std::string, std::int64_t> newest_of_person;  ///< sequence of the newest entry of a person's data
};

Standing standing_in(records::Store& store) {
  records::Store::Inside& inside = store.inside();
  const records::ReadingView view(inside);
  Standing standing;
  for (auto rows = inside.documents(); const records::Document* row = rows.next();)
    standing.documents[{row->kind, row->id, row->version}] = *row;
  for (auto rows = inside.entries(); const records::Entry* row = rows.next();) {
    standing.entries[row->sequence] = *row;
    if (row->kind == "personal data") standing.newest_of_person[row->id] = row->sequence;
  }
  return standing;
}

std::string complaint_about(const KeptLine& line, const Standing& standing, records::Store& store) {
  if (line.sequence > 0) {
    const auto entry = standing.entries.find(line.sequence);
    if (entry == standing.entries.end()) return "its entry is missing";
    if (entry->second.kind != line.kind || entry->second.id != line.id || entry->second.version != line.version)
      return "its entry is of something else";
    if (line.kind != "personal data" && entry->second.document_hash != line.hash) return "its entry has another hash";
  }
  if (line.kind == "photo") {
    const auto bytes = store.photo(line.hash);
    return bytes && records::photo_hash(*bytes) == line.hash ? "" : "the photo is missing or another";
  }
  if (line.kind == "personal data") {
    if (standing.newest_of_person.at(line.id) != line.sequence) return "";
    return records::hash_of_bytes(store.personal(line.id).value_or("")) == line.hash ? "" : "the personal data are missing or others";
  }
  const auto found = standing.documents.find({line.kind, line.id, line.version});
  if (found == standing.documents.end()) return "the document is missing";
  return found->second.hash == line.hash && records::document_hash(found->second) == line.hash ? "" : "the document is another";
}

/// A document names what was kept with it; and a piece the firing it came out of.
void find_halves(const Standing& standing, records::Store& store, std::vector<std::string>& wrong) {
  for (const auto& [name, document] : standing.documents) {
    std::istringstream lines(document.body);
    for (std::string line; std::getline(lines, line);) {
      std::istringstream words(line);
      std::string first, kind, id;
      int version = 0;
      words >> first >> kind >> id >> version;
      const std::string of = document.kind + " " + document.id + " " + std::to_string(document.version);
      if (first == "with" && (kind == "photo" ? !store.photo(id) : standing.documents.count({kind, id, version}) == 0))
        wrong.push_back("Half: " + of + " stands without its " + kind + " " + id + ".");
      if (first == "fired" && standing.documents.count({"firing", id, 3}) == 0)
        wrong.push_back("Half: " + of + " stands without the end of its firing " + id + ".");
    }
  }
}

}  // namespace

std::vector<std::string> wrong_with(records::Store& store, const std::vector<KeptLine>& called_kept) {
  std::vector<std::string> wrong;
  const Standing standing = standing_in(store);
  for (const KeptLine& line : called_kept) {
    const std::string complaint = complaint_about(line, standing, store);
    if (!complaint.empty()) wrong.push_back("Called kept, and " + complaint + ": " + line.text());
  }
  find_halves(standing, store, wrong);
  for (const std::string& sentence : records::verify(store).wrong) wrong.push_back("Verify: " + sentence);
  return wrong;
}

}  // namespace heatwork::store_proof
