#include <fmt/format.h>

#include <optional>
#include <stdexcept>
#include <utility>
#include <variant>

#include "records/copy.h"
#include "records/exchange.h"
#include "records/export_rows.h"
#include "records/export_view.h"
#include "records/hash.h"
#include "records/in_order.h"
#include "records/progress.h"
#include "records/writing.h"

namespace heatwork::records {

namespace {

std::int64_t& counted(ExportEnd& end, std::size_t sort) {
  std::int64_t* const counts[] = {&end.about, &end.documents, &end.entries, &end.personal, &end.photos};
  return *counts[sort];
}

/// Takes the rows of an export one after another, in their order only, and puts them into a new store.
class Taking {
 public:
  explicit Taking(Store::Inside& to) : to_(to), abouts_(to), documents_(to), entries_(to), personals_(to), photos_(to) {}

  /// True at the last row. Errors: std::invalid_argument.
  bool take(ExportRow row) {
    const std::size_t sort = row.index();
    if (sort < sort_) throw std::invalid_argument("its row stands behind rows of another sort; the order of sorts is fixed");
    if (sort > sort_) {
      last_.reset();
      sort_ = sort;
    }
    if (const ExportEnd* end = std::get_if<ExportEnd>(&row)) {
      finish(*end);
      return true;
    }
    std::visit([this](auto& one) { in_order(one); }, row);
    ++counted(counted_, sort);
    std::visit([this](auto& one) { put(std::move(one)); }, row);
    return false;
  }

 private:
  void in_order(const ExportEnd& /*end*/) {}
  template <class Row>
  void in_order(const Row& row) {
    RowKey key = key_of(row);
    if (last_ && !(*last_ < key)) throw std::invalid_argument("its row does not stand in its order, or stands twice");
    last_ = std::move(key);
  }

  void put(ExportEnd&& /*end*/) {}
  void put(AboutRow&& row) { abouts_.put(std::move(row), 0); }
  void put(Entry&& row) { entries_.put(std::move(row), 0); }
  void put(PersonalRow&& row) {
    const std::size_t bytes = row.body.size();
    personals_.put(std::move(row), bytes);
  }
  void put(PhotoRow&& row) {
    const std::size_t bytes = row.bytes_base64.size();
    if (bytes / 4 * 3 > largest_photo + 3) throw std::invalid_argument("its photo is larger than 10 MB");
    photos_.put(std::move(row), bytes);
  }
  void put(Document&& row) {
    if (row.body.size() > largest_document || row.typed.size() > largest_document) {
      throw std::invalid_argument("its text is larger than 8 MB");
    }
    if (newest_ && (newest_->kind != row.kind || newest_->id != row.id)) index();
    newest_ = row;
    const std::size_t bytes = row.body.size() + row.typed.size();
    documents_.put(std::move(row), bytes);
  }

  /// What documents are found by is no part of an export: it is computed from their bytes.
  void index() {
    if (newest_) indexed_.push_back(index_of(to_, *newest_));
    newest_.reset();
    if (indexed_.size() >= 1000) put_indexed();
  }
  void put_indexed() {
    if (!indexed_.empty()) put_index(to_, indexed_);
    indexed_.clear();
  }

  void finish(const ExportEnd& end) {
    if (!(end == counted_)) throw std::invalid_argument("the rows before it are not as many as it says");
    abouts_.end();
    documents_.end();
    entries_.end();
    personals_.end();
    photos_.end();
    index();
    put_indexed();
  }

  Store::Inside& to_;
  Lot<AboutRow> abouts_;
  Lot<Document> documents_;
  Lot<Entry> entries_;
  Lot<PersonalRow> personals_;
  Lot<PhotoRow> photos_;
  std::optional<Document> newest_;
  std::vector<IndexRow> indexed_;
  std::size_t sort_ = 0;
  std::optional<RowKey> last_;
  ExportEnd counted_;
};

[[noreturn]] void refuse(std::int64_t line, const std::string& why) {
  throw StoreError(StoreProblem::bad_value, fmt::format("Line {} of the export cannot be taken: {}. Nothing was kept.", line, why));
}

/// Reads all lines into the store. Returns the hash of the text.
std::string take_lines(const Lines& lines, Store::Inside& to, const Watch& watch) {
  Progress progress(watch, 0);
  Hash hash;
  Taking taking(to);
  bool ended = false;
  std::int64_t number = 0;
  while (std::optional<std::string> line = lines()) {
    ++number;
    hash.bytes(*line).bytes("\n");
    if (ended) refuse(number, "it stands behind the last line");
    try {
      if (number == 1) {
        if (*line != export_opening()) refuse(number, "an export of a store begins with " + export_opening());
      } else {
        ended = taking.take(read_export_line(*line));
      }
    } catch (const std::invalid_argument& error) {
      refuse(number, error.what());
    } catch (const StoreError& error) {
      if (error.problem() != StoreProblem::bad_value || std::string_view(error.what()).starts_with("Line ")) throw;
      throw StoreError(StoreProblem::bad_value, fmt::format("Line {} of the export, or one before it: {}", number, error.what()));
    }
    progress.step();
  }
  if (!ended) refuse(number + 1, "it is missing; an export ends with a line of the row “end”");
  progress.tell();
  return hash.hex();
}

/// Only a store of the current format is made.
void check_format(Store::Inside& inside) {
  const std::string format = inside.about("format").value_or("none");
  const std::string ours = std::to_string(store_format);
  if (format == ours) return;
  const bool newer = format.size() > ours.size() || (format.size() == ours.size() && format > ours);
  throw StoreError(
      newer ? StoreProblem::too_new : StoreProblem::too_old,
      fmt::format("The export is of a store of format {}, and this Heatwork takes exports of format {}. Nothing was kept.", format, ours));
}

}  // namespace

std::string import_json(const Lines& lines, const Address& to, const Opening& opening, const Watch& watch) {
  NewStore made(to, opening);
  const std::string hash = take_lines(lines, made.inside(), watch);
  check_format(made.inside());
  prove_whole(made.store(), "What the export tells", watch);
  if (export_in_view(made.inside(), {}, {}) != hash) {
    throw StoreError(StoreProblem::damaged,
                     "The store that was made gives another export than the one it was made from. Nothing was kept.");
  }
  made.put_in_place();
  return hash;
}

}  // namespace heatwork::records
