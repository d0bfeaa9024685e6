#include "records/index_proof.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <string_view>

namespace heatwork::records {

namespace {

/// Compares the columns of one row and names the first that differs.
class Columns {
 public:
  explicit Columns(std::string where) : where_(std::move(where)) {}

  Columns& text(std::string_view column, const std::string& stands, const std::string& should) {
    if (stands != should && wrong_.empty()) {
      wrong_ = fmt::format("{}: its “{}” is {} and by its text it is {}", where_, column, quoted(stands), quoted(should));
    }
    return *this;
  }
  Columns& number(std::string_view column, std::int64_t stands, std::int64_t should) {
    if (stands != should && wrong_.empty()) {
      wrong_ = fmt::format("{}: its “{}” is {} and by its text it is {}", where_, column, stands, should);
    }
    return *this;
  }
  void tell(std::int64_t sequence, Findings& findings) {
    if (!wrong_.empty()) findings.wrong(sequence, wrong_ + ".");
  }

 private:
  std::string where_, wrong_;
};

struct Place {
  std::string document;
  std::int64_t sequence;
};

void prove_head(const Document& newest, const Place& place, const std::optional<HeadRow>& head, const Index& index, Findings& findings) {
  if (!head) {
    findings.wrong(place.sequence, fmt::format("{} cannot be found: its row of what it is found by is missing.", place.document));
    return;
  }
  Columns(place.document + ", in what it is found by")
      .number("version", head->version, newest.version)
      .text("label", head->label, index.label)
      .text("state", head->state, index.state)
      .text("words", head->words, index.words)
      .number("at_ms", head->at_ms, index.at_ms)
      .tell(place.sequence, findings);
}

void prove_use(const Place& place, const IndexUse& stands, int row, const Use& should, Findings& findings) {
  Columns(fmt::format("{}, in row {} of what it is found by", place.document, row))
      .number("row", stands.row, row)
      .number("at_ms", stands.use.at_ms, should.at_ms)
      .text("piece", stands.use.piece, should.piece)
      .text("furnace", stands.use.furnace, should.furnace)
      .text("program", stands.use.program, should.program)
      .text("lot", stands.use.lot, should.lot)
      .tell(place.sequence, findings);
}

void prove_due(const Place& place, const IndexDue& stands, int row, const Due& should, Findings& findings) {
  Columns(fmt::format("{}, in row {} of what falls due", place.document, row))
      .number("row", stands.row, row)
      .text("due_on", stands.due.on, should.on)
      .text("what", stands.due.what, should.what)
      .tell(place.sequence, findings);
}

void prove_count(const Place& place, std::string_view what, std::size_t stands, std::size_t should, Findings& findings) {
  if (stands == should) return;
  findings.wrong(place.sequence, fmt::format("{} has {} rows of {} and by its text it has {}.", place.document, stands, what, should));
}

}  // namespace

void prove_index(const Document& newest, std::int64_t sequence, const IndexRows& rows, const IndexOf& index_of, Findings& findings) {
  const Place place{named(newest.kind, newest.id), sequence};
  Index index;
  try {
    index = index_of(newest);
  } catch (const std::exception&) {
    findings.wrong(sequence, fmt::format("{}: its text cannot be read, so what it is found by cannot be proven.",
                                         named(newest.kind, newest.id, newest.version)));
    return;
  }
  prove_head(newest, place, rows.head, index, findings);
  prove_count(place, "what it is found by", rows.uses.size(), index.uses.size(), findings);
  prove_count(place, "what falls due", rows.dues.size(), index.dues.size(), findings);
  for (std::size_t at = 0; at < std::min(rows.uses.size(), index.uses.size()); ++at) {
    prove_use(place, rows.uses[at], static_cast<int>(at) + 1, index.uses[at], findings);
  }
  for (std::size_t at = 0; at < std::min(rows.dues.size(), index.dues.size()); ++at) {
    prove_due(place, rows.dues[at], static_cast<int>(at) + 1, index.dues[at], findings);
  }
}

}  // namespace heatwork::records
