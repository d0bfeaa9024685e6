#include "tests/store/mixed_load.h"

#include <algorithm>
#include <sstream>
#include <utility>

#include "records/hash.h"
#include "records/inside.h"
#include "records/writing.h"

namespace heatwork::store_proof {

using records::Change;
using records::Document;
using records::NewVersion;

namespace {

constexpr std::int64_t began_ms = 1'764'000'000'000;
constexpr const char* personal_kind = "personal data";

records::Who hand() {
  return {"mk", "named", "2026-11-25T17:11:04.123Z", "Europe/Berlin"};
}

Change change_of(std::vector<NewVersion> documents) {
  Change change;
  change.who = hand();
  change.documents = std::move(documents);
  return change;
}

NewVersion version(std::string kind, std::string id, int after, std::string body, std::string action) {
  NewVersion made;
  made.kind = std::move(kind);
  made.id = std::move(id);
  made.after = after;
  made.body = std::move(body);
  made.action = std::move(action);
  return made;
}

/// "bench step" is one word in a line.
std::string joined(std::string kind) {
  std::replace(kind.begin(), kind.end(), ' ', '_');
  return kind;
}
std::string parted(std::string kind) {
  std::replace(kind.begin(), kind.end(), '_', ' ');
  return kind;
}

}  // namespace

std::string KeptLine::text() const {
  return "kept " + joined(kind) + " " + id + " " + std::to_string(version) + " " + hash + " " + std::to_string(sequence);
}

bool KeptLine::read(const std::string& text, KeptLine& line) {
  std::istringstream words(text);
  std::string first;
  if (!(words >> first >> line.kind >> line.id >> line.version >> line.hash >> line.sequence) || first != "kept") return false;
  line.kind = parted(line.kind);
  return true;
}

records::Index index_of(const Document& document) {
  records::Index index;
  index.label = document.id;
  std::istringstream lines(document.body);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string first;
    words >> first;
    if (first == "state") {
      words >> index.state;
    } else if (first == "at") {
      words >> index.at_ms;
    } else if (first == "use") {
      records::Use use;
      words >> use.at_ms >> use.piece >> use.furnace >> use.program >> use.lot;
      for (std::string* text : {&use.piece, &use.furnace, &use.program, &use.lot})
        if (*text == "-") text->clear();
      index.uses.push_back(use);
    } else if (first == "due") {
      records::Due due;
      words >> due.on >> std::ws;
      std::getline(words, due.what);
      index.dues.push_back(due);
    } else if (first != "with") {
      index.words += line + " ";
    }
  }
  return index;
}

records::Opening opening_to_load() {
  records::Opening opening;
  opening.index_of = index_of;
  opening.make = true;
  opening.who = hand();
  return opening;
}

MixedLoad::MixedLoad(records::Store& store, std::uint64_t seed, std::string run, Wrong wrong, Say say)
    : store_(store), random_(seed), run_(std::move(run)), wrong_(wrong), say_(std::move(say)) {}

std::string MixedLoad::name(const std::string& kind) {
  return kind + "-" + run_ + "-" + std::to_string(++number_);
}

/// What no engine can pack much.
std::string MixedLoad::filler(std::uint64_t size) {
  std::string text(size, ' ');
  for (char& letter : text) letter = static_cast<char>('0' + draw(75));
  std::replace(text.begin(), text.end(), '"', '\'');
  return text;
}

int MixedLoad::newest(const std::string& kind, const std::string& id) {
  const auto found = store_.find(kind, id);
  return found ? found->version : 0;
}

void MixedLoad::step() {
  const std::uint64_t which = draw(100);
  if (pieces_.empty() || which < 8) return new_case();
  if (lots_.empty() || which < 16) return new_lot();
  if (which < 36) return bench_step();
  if (which < 40) return personal();
  if (which < 46) return change_furnace();
  if (!started_.empty() && which < 66) return end();
  if (!planned_.empty() && which < 84) return start();
  plan();
}

void MixedLoad::new_case() {
  const std::string code = name("case");
  std::vector<NewVersion> documents;
  std::string body = "label Case " + code + "\n";
  for (std::uint64_t i = 0; i < 1 + draw(4); ++i) {
    const std::string piece = name("piece");
    documents.push_back(version("piece", piece, 0, "label Crown " + piece + "\nof " + code + "\n", "added"));
    body += "with piece " + piece + " 1\n";
    pieces_.push_back(piece);
  }
  documents.push_back(version("case", code, 0, body, "added"));
  keep(change_of(std::move(documents)));
}

void MixedLoad::new_lot() {
  const std::string lot = name("lot");
  keep(change_of({version("lot", lot, 0, "label Jar " + lot + "\ndue 2027-0" + std::to_string(1 + draw(9)) + "-17 use up\n", "added")}));
  lots_.push_back(lot);
}

void MixedLoad::bench_step() {
  const std::string& piece = pieces_[draw(pieces_.size())];
  const std::string at = std::to_string(began_ms + number_ * 60'000);
  const std::string body = "label build-up\nat " + at + "\nuse " + at + " " + piece + " - - " + lots_[draw(lots_.size())] + "\n";
  keep(change_of({version("bench step", name("step"), 0, body, "added")}));
}

void MixedLoad::plan() {
  Open firing{name("firing"), 1, {}};
  for (std::uint64_t i = 0; i < 1 + draw(3); ++i) {
    const std::string& piece = pieces_[draw(pieces_.size())];
    if (std::find(firing.pieces.begin(), firing.pieces.end(), piece) == firing.pieces.end()) firing.pieces.push_back(piece);
  }
  keep(change_of({version("firing", firing.name, 0, "state planned\nnotes " + filler(draw(3000)) + "\n", "planned")}));
  planned_.push_back(std::move(firing));
}

void MixedLoad::start() {
  const std::size_t which = draw(planned_.size());
  Open firing = planned_[which];
  std::vector<NewVersion> documents;
  const std::string at = std::to_string(began_ms + number_ * 60'000);
  std::string body = "state started\nat " + at + "\n";
  for (const std::string& piece : firing.pieces) body += "use " + at + " " + piece + " corner dentine@1 -\n";
  NewVersion snapshot = version("snapshot", "material-" + std::to_string(draw(5)), 0, "glaze as it ships\n", "kept");
  snapshot.once = true;
  body += "with snapshot " + snapshot.id + " 1\n";
  documents.push_back(std::move(snapshot));
  documents.push_back(version("firing", firing.name, 1, body, "started"));
  keep(change_of(std::move(documents)));
  firing.version = 2;
  planned_.erase(planned_.begin() + static_cast<std::ptrdiff_t>(which));
  started_.push_back(std::move(firing));
}

void MixedLoad::end() {
  const std::size_t which = draw(started_.size());
  const Open firing = started_[which];
  const std::string at = std::to_string(began_ms + number_ * 60'000);
  Change change = change_of({});
  std::string body = "state ended\nat " + at + "\n";
  for (const std::string& piece : firing.pieces) {
    body += "use " + at + " " + piece + " corner dentine@1 -\n";
    const int stands = newest("piece", piece);
    change.documents.push_back(version("piece", piece, stands, "label Crown " + piece + "\nfired in " + firing.name + "\n", "changed"));
    body += "with piece " + piece + " " + std::to_string(stands + 1) + "\n";
  }
  change.documents.push_back(version("rehearsal", firing.name, 0, "{\"states\":\"" + filler(draw(9000)) + "\"}\n", "kept"));
  body += "with rehearsal " + firing.name + " 1\n";
  if (draw(4) == 0) {
    change.photos.push_back({"\xff\xd8\xff photo of " + firing.name + filler(draw(200'000)), ""});
    body += "with photo " + records::photo_hash(change.photos.front().bytes) + " 0\n";
  }
  change.documents.push_back(version("firing", firing.name, 2, body, "ended"));
  keep(change);
  started_.erase(started_.begin() + static_cast<std::ptrdiff_t>(which));
}

void MixedLoad::personal() {
  Change change = change_of({});
  const std::string code = "p" + std::to_string(draw(6));
  const bool erase = draw(3) == 0 && store_.personal(code);
  change.personal = {{code, erase ? "" : "Name of " + code + ", told " + name("time") + "\n", "asked for"}};
  keep(change);
}

void MixedLoad::change_furnace() {
  const int stands = newest("furnace", "corner");
  keep(change_of({version("furnace", "corner", stands, "label Corner\ndue 2027-01-1" + std::to_string(draw(9)) + " check\n", "changed")}));
}

std::vector<KeptLine> MixedLoad::lines_of(const Change& change, std::int64_t newest) const {
  // In the order of their entries; what stood already "once" is told without one.
  std::vector<KeptLine> lines;
  for (const NewVersion& made : change.documents) {
    Document document{made.kind, made.id, made.after + 1, made.body, made.typed, ""};
    lines.push_back({made.kind, made.id, document.version, records::document_hash(document), made.once ? -1 : 0});
  }
  for (const records::Personal& made : change.personal)
    lines.push_back({personal_kind, made.code, 0, records::hash_of_bytes(made.body), 0});
  for (const records::Photo& made : change.photos) {
    const std::string hash = records::photo_hash(made.bytes);
    lines.push_back({"photo", hash, 0, hash, 0});
  }
  for (auto line = lines.rbegin(); line != lines.rend(); ++line)
    if (line->sequence == 0) line->sequence = newest--;
  return lines;
}

void MixedLoad::keep(const Change& change) {
  if (wrong_ == Wrong::print_first) {
    const auto entries = std::count_if(change.documents.begin(), change.documents.end(),
                                       [&](const auto& made) { return !made.once || newest(made.kind, made.id) == 0; });
    const std::int64_t newest = store_.inside().newest_entry().value().sequence + entries +
                                static_cast<std::int64_t>(change.personal.size() + change.photos.size());
    for (const KeptLine& line : lines_of(change, newest)) say_(line);
    store_.keep(change);
    return;
  }
  if (wrong_ == Wrong::split && change.personal.empty() && change.photos.empty()) return keep_in_two(change);
  const records::Kept kept = store_.keep(change);
  for (const KeptLine& line : lines_of(change, kept.sequence)) say_(line);
}

void MixedLoad::keep_in_two(const Change& change) {
  records::Store::Inside& inside = store_.inside();
  std::vector<Document> documents;
  {
    records::WriteTransaction writing(inside);
    for (const NewVersion& made : change.documents) {
      Document document{made.kind, made.id, made.after + 1, made.body, made.typed, ""};
      document.hash = records::document_hash(document);
      if (made.once && newest(made.kind, made.id) > 0) continue;
      inside.insert(std::vector<Document>{document});
      records::drop_index(inside, {{made.kind, made.id}});
      records::put_index(inside, {records::index_of(inside, document)});
      documents.push_back(document);
    }
    writing.commit();
  }
  std::int64_t sequence = 0;
  {
    records::WriteTransaction writing(inside);
    for (const Document& document : documents) {
      const auto before = document.version > 1 ? store_.find(document.kind, document.id, document.version - 1) : std::nullopt;
      sequence = inside
                     .append({0, hand(), "kept", document.kind, document.id, document.version, document.hash, before ? before->hash : "",
                              "", "", ""})
                     .sequence;
    }
    writing.commit();
  }
  for (const KeptLine& line : lines_of(change, sequence)) say_(line);
}

}  // namespace heatwork::store_proof
