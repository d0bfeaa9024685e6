#include "records/exchange.h"

#include "records/export_rows.h"
#include "records/export_view.h"
#include "records/hash.h"
#include "records/in_order.h"
#include "records/progress.h"

namespace heatwork::records {

namespace {

/// Hashes what it hands on, in pieces large enough for files and small enough for memory.
class Text {
 public:
  explicit Text(const Sink& sink) : sink_(sink) {}

  void line(const std::string& text) {
    waiting_ += text;
    waiting_ += '\n';
    if (waiting_.size() >= 1U << 16U) hand_on();
  }
  std::string end() {
    hand_on();
    return hash_.hex();
  }

 private:
  void hand_on() {
    hash_.bytes(waiting_);
    if (sink_) sink_(waiting_);
    waiting_.clear();
  }

  const Sink& sink_;
  std::string waiting_;
  Hash hash_;
};

template <class Row>
std::int64_t write_table(Rows<Row> table, const char* name, Text& text, Progress& progress) {
  std::int64_t count = 0;
  InOrder<Row> rows(std::move(table), name);
  while (const Row* row = rows.next()) {
    text.line(export_line(*row));
    progress.step();
    ++count;
  }
  return count;
}

}  // namespace

std::int64_t rows_to_export(Store::Inside& inside) {
  std::int64_t rows = 0;
  for (const char* table : {"about", "documents", "trail", "personal", "photos"}) rows += inside.count(table);
  return rows;
}

std::string export_in_view(Store::Inside& inside, const Sink& sink, const Watch& watch) {
  Progress progress(watch, watch ? rows_to_export(inside) : 0);
  Text text(sink);
  text.line(export_opening());
  ExportEnd end;
  end.about = write_table(inside.abouts(), "about", text, progress);
  end.documents = write_table(inside.documents(), "documents", text, progress);
  end.entries = write_table(inside.entries(), "trail", text, progress);
  end.personal = write_table(inside.personals(), "personal", text, progress);
  end.photos = write_table(inside.photos(), "photos", text, progress);
  text.line(export_line(end));
  progress.tell();
  return text.end();
}

std::string export_json(Store& store, const Sink& sink, const Watch& watch) {
  const ReadingView view(store.inside());
  return export_in_view(store.inside(), sink, watch);
}

std::string export_hash(Store& store, const Watch& watch) {
  return export_json(store, {}, watch);
}

}  // namespace heatwork::records
