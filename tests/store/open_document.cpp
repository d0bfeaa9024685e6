#include "tests/store/open_document.h"

#include <stdexcept>
#include <utility>

#include "desk/lab/local_time.h"

namespace heatwork::store_proof {

namespace {

constexpr std::array<std::string_view, Open::places> words = {
    "open-name", "open-case", "open-firing", "open-furnace", "open-program", "open-powder", "open-water", "open-piece-1", "open-piece-2",
    "open-piece-3", "open-piece-4", "open-piece-5",
    // Numbers, moments and days must be such where they stand.
    "900001", "900002", "900003", "2001-01-01T00:00:01Z", "2001-01-01T00:00:02Z", "2001-01-01T00:00:03Z", "2002-02-01", "2002-02-02",
    "open-code", "432 \u00b0C", "eeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeeee"};

std::string in_capital(std::string_view word) {
  std::string text(word);
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// The place a moment stands for; none for 0.
Open::At moment(std::int64_t at_ms) {
  if (at_ms == 0) return Open::places;
  for (const Open::At open : {Open::planned_for, Open::started, Open::ended})
    if (desk::utc_ms(open_word(open)) == at_ms) return open;
  throw std::logic_error("A moment in an index is none that was left open.");
}

std::int64_t moment_ms(Open::At open, const Fillings& with) {
  return open == Open::places ? 0 : desk::utc_ms(with[open]);
}

records::Index index_of_open(const std::string& kind, std::string_view id, const std::string& body, const records::IndexOf& index_of) {
  records::Document document;
  document.kind = kind;
  document.id = id;
  document.version = 1;
  document.body = body;
  return index_of(document);
}

}  // namespace

std::string_view open_word(Open::At open) {
  return words.at(open);
}

OpenText::OpenText(std::string_view text) {
  while (true) {
    std::size_t next = std::string_view::npos;
    Part part;
    for (std::size_t open = 0; open < Open::places; ++open)
      for (const bool capital : {false, true})
        if (const std::size_t at = text.find(capital ? in_capital(words[open]) : words[open]); at < next)
          next = at, part.open = static_cast<Open::At>(open), part.capital = capital;
    part.before = text.substr(0, next);
    parts_.push_back(part);
    if (part.open == Open::places) return;
    text.remove_prefix(next + words[part.open].size());
  }
}

std::string OpenText::filled(const Fillings& with) const {
  std::size_t size = 0;
  for (const Part& part : parts_) size += part.before.size() + 64;
  std::string text;
  text.reserve(size);
  for (const Part& part : parts_) {
    text += part.before;
    if (part.open != Open::places) text += part.capital ? in_capital(with[part.open]) : with[part.open];
  }
  return text;
}

OpenDocument::OpenDocument(std::string kind, const std::string& body, const records::IndexOf& index_of, std::string_view id)
    : kind_(std::move(kind)), body_(body), label_(""), words_("") {
  const records::Index index = index_of_open(kind_, id, body, index_of);
  label_ = OpenText(index.label);
  words_ = OpenText(index.words);
  state_ = index.state;
  at_ = moment(index.at_ms);
  for (const records::Use& use : index.uses)
    uses_.push_back({moment(use.at_ms), OpenText(use.piece), OpenText(use.furnace), OpenText(use.program), OpenText(use.lot)});
  for (const records::Due& due : index.dues) dues_.push_back({OpenText(due.on), OpenText(due.what)});
}

records::Index OpenDocument::index(const Fillings& with) const {
  records::Index index;
  index.label = label_.filled(with);
  index.state = state_;
  index.words = words_.filled(with);
  index.at_ms = moment_ms(at_, with);
  for (const OpenUse& use : uses_)
    index.uses.push_back(
        {moment_ms(use.at, with), use.piece.filled(with), use.furnace.filled(with), use.program.filled(with), use.lot.filled(with)});
  for (const OpenDue& due : dues_) index.dues.push_back({due.on.filled(with), due.what.filled(with)});
  return index;
}

}  // namespace heatwork::store_proof
