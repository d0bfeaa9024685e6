#include <string>

#include "records/exchange.h"
#include "records/in_order.h"
#include "records/inside.h"
#include "records/progress.h"

namespace heatwork::records {

namespace {

/// One table: its lines go to the file of its name, a field in quotes where it must be.
class Table {
 public:
  Table(std::string file, const FolderSink& sink) : file_(std::move(file)), sink_(sink) {}
  ~Table() = default;
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;

  Table& field(const std::string& text) {
    if (begun_) waiting_ += ',';
    begun_ = true;
    if (text.find_first_of(",\"\r\n") == std::string::npos) {
      waiting_ += text;
      return *this;
    }
    waiting_ += '"';
    for (const char sign : text) waiting_ += sign == '"' ? std::string("\"\"") : std::string(1, sign);
    waiting_ += '"';
    return *this;
  }
  Table& field(std::int64_t number) { return field(std::to_string(number)); }
  void end_line() {
    waiting_ += "\r\n";
    begun_ = false;
    if (waiting_.size() >= 1U << 16U) hand_on();
  }
  void hand_on() {
    sink_(file_, waiting_);
    waiting_.clear();
  }

 private:
  std::string file_;
  const FolderSink& sink_;
  std::string waiting_;
  bool begun_ = false;
};

void names(Table& table, std::initializer_list<const char*> columns) {
  for (const char* column : columns) table.field(column);
  table.end_line();
}

void write(Table& table, const HeadRow& row) {
  table.field(row.kind).field(row.id).field(row.version).field(row.label).field(row.state).field(row.words).field(row.at_ms).end_line();
}

void write(Table& table, const IndexUse& row) {
  table.field(row.kind).field(row.id).field(row.row).field(row.use.at_ms).field(row.use.piece).field(row.use.furnace);
  table.field(row.use.program).field(row.use.lot).end_line();
}

void write(Table& table, const IndexDue& row) {
  table.field(row.kind).field(row.id).field(row.row).field(row.due.on).field(row.due.what).end_line();
}

void write(Table& table, const Entry& row) {
  table.field(row.sequence).field(row.who.at_utc).field(row.who.zone).field(row.who.person).field(row.who.known_by).field(row.action);
  table.field(row.kind).field(row.id).field(row.version).field(row.document_hash).field(row.replaced_hash).field(row.reason);
  table.field(row.previous).field(row.hash).end_line();
}

template <class Row>
void write_rows(Table& table, Rows<Row> all, const char* name, Progress& progress) {
  InOrder<Row> rows(std::move(all), name);
  while (const Row* row = rows.next()) {
    write(table, *row);
    progress.step();
  }
  table.hand_on();
}

std::int64_t rows_of(Store::Inside& inside) {
  std::int64_t rows = 0;
  for (const char* table : {"heads", "uses", "dues", "trail"}) rows += inside.count(table);
  return rows;
}

}  // namespace

void export_csv(Store& store, const FolderSink& sink, const Watch& watch) {
  Store::Inside& inside = store.inside();
  const ReadingView view(inside);
  Progress progress(watch, watch ? rows_of(inside) : 0);
  Table heads("heads.csv", sink);
  names(heads, {"kind", "id", "version", "label", "state", "words", "at_ms"});
  write_rows(heads, inside.head_rows(), "heads", progress);
  Table uses("uses.csv", sink);
  names(uses, {"kind", "id", "row", "at_ms", "piece", "furnace", "program", "lot"});
  write_rows(uses, inside.index_uses(), "uses", progress);
  Table dues("dues.csv", sink);
  names(dues, {"kind", "id", "row", "due_on", "what"});
  write_rows(dues, inside.index_dues(), "dues", progress);
  Table trail("trail.csv", sink);
  names(trail, {"sequence", "at_utc", "zone", "person", "known_by", "action", "kind", "id", "version", "document_hash", "replaced_hash",
                "reason", "previous", "hash"});
  write_rows(trail, inside.entries(), "trail", progress);
  progress.tell();
}

}  // namespace heatwork::records
