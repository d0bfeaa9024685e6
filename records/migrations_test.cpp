#include "records/migrations.h"

#include <cstdlib>

#include "records/old_store_for_tests.h"
#include "records/statement.h"
#include "records/verify.h"

namespace heatwork::records::for_tests {
namespace {

namespace fs = std::filesystem;

/// Where a store of every earlier format is kept, as a file of SQLite and as statements for PostgreSQL.
fs::path kept_store(int format, Engine engine) {
  const fs::path folder = fs::path(HEATWORK_SOURCE_DIR) / "tests" / "records" / "formats";
  return folder / ("format-" + std::to_string(format) + (engine == Engine::sqlite ? ".sqlite" : ".postgresql.sql"));
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

class MigrationTest : public OnEachEngine {
 protected:
  [[nodiscard]] Opening migrating() const {
    Opening asked = plain_opening();
    asked.make = false;
    asked.copies_folder = folder_.string();
    asked.who.at_utc = "2027-03-01T08:00:00Z";
    return asked;
  }
  /// Puts the kept store of a format where this test's store stands.
  void lay_out(int format) const {
    if (sqlite()) {
      fs::copy_file(kept_store(format, Engine::sqlite), address_.where);
      fs::permissions(address_.where, fs::perms::owner_read | fs::perms::owner_write);
    } else {
      behind_its_back(text_of(kept_store(format, Engine::postgresql)));
    }
  }
  /// Takes away what stands there.
  void clear() const {
    if (!sqlite()) return behind_its_back("drop schema public cascade; create schema public");
    for (const char* also : {"", "-wal", "-shm"}) fs::remove(address_.where + also);
  }
  [[nodiscard]] int format_that_stands() const {
    Store::Inside inside;
    inside.address = address_;
    return std::stoi(inside.about("format").value());
  }
};
HEATWORK_ON_EACH_ENGINE(MigrationTest);

void expect_small_lab(Store& store) {
  EXPECT_EQ(store.versions("firing", "firing").size(), 3U);
  EXPECT_EQ(store.pieces({PieceQuery::By::furnace, "corner"}).count, 2);
  EXPECT_EQ(store.pieces({PieceQuery::By::lot, "jar-31"}).count, 1);
  EXPECT_EQ(store.uses_of("crown-16").count, 2);
  EXPECT_EQ(store.personal("mk"), "name = \"Made Up\"\n");
  EXPECT_EQ(store.status().photos, 1);
}

TEST_P(MigrationTest, every_earlier_format_that_is_kept_is_brought_to_this_one) {
  for (int format = 1; format < store_format; ++format) {
    ASSERT_TRUE(fs::is_regular_file(kept_store(format, GetParam()))) << "Keep a store of format " << format << " in tests/records/formats.";
    clear();
    lay_out(format);
    ASSERT_EQ(format_that_stands(), format);
    Store store = Store::open(address_, migrating());
    const Status status = store.status();
    EXPECT_TRUE(status.migrated);
    EXPECT_EQ(status.format, store_format);
    expect_small_lab(store);
    EXPECT_EQ(store.of_furnace("corner").count, format == 1 ? 0 : 1) << "checks are found by their furnace";
    EXPECT_EQ(store.heads({"piece", "", "", 1}).count, 2);
    const Verified verified = verify(store);
    EXPECT_TRUE(verified.wrong.empty()) << verified.wrong.front();
    const Entry newest = store.trail({"", "", 0, true}).rows.at(0);
    EXPECT_EQ(newest.action, "migrated");
    EXPECT_EQ(newest.version, store_format);
    EXPECT_EQ(newest.reason, "from format " + std::to_string(store_format - 1) + " to format " + std::to_string(store_format));
    const auto due = store.dues("2027-12-31");
    ASSERT_EQ(due.count, 1);
    EXPECT_EQ(due.rows[0].due, (Due{"2027-08-31", "expires"}));
    EXPECT_FALSE(Store::open(address_, migrating()).status().migrated);
  }
}

TEST_P(MigrationTest, the_copy_made_before_is_the_store_as_it_was) {
  std::string head;
  {
    Store old = make_old(address_, 1, plain_opening());
    fill_small_lab(old);
    head = old.inside().newest_entry()->hash;
  }
  Status status;
  {
    Store store = Store::open(address_, migrating());
    status = store.status();
    EXPECT_NE(status.head, head);
  }
  ASSERT_TRUE(fs::is_regular_file(status.copy_before_migration)) << status.copy_before_migration;
  Store::Inside copy;
  copy.address = {Engine::sqlite, status.copy_before_migration};
  copy.opening.read_only = true;
  EXPECT_EQ(copy.about("format"), "1");
  EXPECT_EQ(copy.newest_entry()->hash, head);
  EXPECT_EQ(copy.count("documents"), 12);
  Store again = Store::open(copy.address, migrating());
  EXPECT_TRUE(again.status().migrated);
  expect_small_lab(again);
  EXPECT_TRUE(verify(again).wrong.empty());
}

TEST_P(MigrationTest, one_that_fails_leaves_the_store_as_it_was) {
  std::string head;
  {
    Store old = make_old(address_, 1, plain_opening());
    fill_small_lab(old);
    head = old.inside().newest_entry()->hash;
  }
  Opening failing = migrating();
  failing.index_of = [](const Document& document) {
    if (document.kind == "piece") throw std::runtime_error("Line 3 cannot be read.");
    return plain_index(document);
  };
  EXPECT_EQ(problem_of([&] { Store::open(address_, failing); }).first, StoreProblem::bad_value);
  EXPECT_EQ(format_that_stands(), 1);
  Store store = Store::open(address_, migrating());
  EXPECT_EQ(store.trail({"", "", 0, true}).rows.at(store_format - 2).previous, head) << "an entry a format";
  expect_small_lab(store);
}

TEST_P(MigrationTest, an_altered_document_stops_it) {
  {
    Store old = make_old(address_, 1, plain_opening());
    fill_small_lab(old);
  }
  behind_its_back("update documents set body = replace(body, 'dentine, second jar', 'dentine, another jar') where kind = 'lot'");
  const auto [problem, sentence] = problem_of([&] { Store::open(address_, migrating()); });
  EXPECT_EQ(problem, StoreProblem::damaged);
  EXPECT_NE(sentence.find("version 1 of the lot \"jar-31\" is damaged"), std::string::npos) << sentence;
  EXPECT_EQ(format_that_stands(), 1);
}

TEST_P(MigrationTest, who_only_reads_is_told_that_it_is_too_old) {
  make_old(address_, 1, plain_opening());
  Opening reading = migrating();
  reading.read_only = true;
  const auto [problem, sentence] = problem_of([&] { Store::open(address_, reading); });
  EXPECT_EQ(problem, StoreProblem::too_old);
  EXPECT_NE(sentence.find("is of format 1 and must be brought to format 3"), std::string::npos) << sentence;
  EXPECT_EQ(format_that_stands(), 1);
}

TEST_P(MigrationTest, a_database_is_not_migrated_without_a_place_for_the_copy) {
  make_old(address_, 1, plain_opening());
  Opening nowhere = migrating();
  nowhere.copies_folder = "";
  if (sqlite()) {
    EXPECT_EQ(Store::open(address_, nowhere).status().copy_before_migration, (folder_ / "lab.before-format-3.sqlite").string());
    return;
  }
  const auto [problem, sentence] = problem_of([&] { Store::open(address_, nowhere); });
  EXPECT_EQ(problem, StoreProblem::too_old);
  EXPECT_NE(sentence.find("no folder is named for the copy that is made before. Nothing was changed."), std::string::npos) << sentence;
  EXPECT_EQ(format_that_stands(), 1);
}

std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char letter : text) out += letter == '\'' ? std::string("''") : std::string(1, letter);
  return out + "'";
}

/// A row of every table as a statement, for the store that is kept for PostgreSQL.
std::string statements_of(Store::Inside& inside, int format) {
  std::string out;
  for (int step = 1; step <= format; ++step)
    for (const std::string& statement : statements_of_step(step, Engine::postgresql)) out += statement + ";\n";
  const auto row = [&](const std::string& table, const std::vector<std::string>& values) {
    out += "insert into " + table + " values (";
    for (std::size_t i = 0; i < values.size(); ++i) out += (i ? ", " : "") + values[i];
    out += ");\n";
  };
  const auto number = [](std::int64_t value) { return std::to_string(value); };
  for (auto rows = inside.abouts(); const auto* r = rows.next();) row("about", {quoted(r->key), quoted(r->value)});
  for (auto rows = inside.documents(); const auto* r = rows.next();)
    row("documents", {quoted(r->kind), quoted(r->id), number(r->version), quoted(r->body), quoted(r->typed), quoted(r->hash)});
  for (auto rows = inside.head_rows(); const auto* r = rows.next();)
    row("heads",
        {quoted(r->kind), quoted(r->id), number(r->version), quoted(r->label), quoted(r->state), quoted(r->words), number(r->at_ms)});
  for (auto rows = inside.index_uses(); const auto* r = rows.next();)
    row("uses", {quoted(r->kind), quoted(r->id), number(r->row), number(r->use.at_ms), quoted(r->use.piece), quoted(r->use.furnace),
                 quoted(r->use.program), quoted(r->use.lot)});
  if (format >= 2)
    for (auto rows = inside.index_dues(); const auto* r = rows.next();)
      row("dues", {quoted(r->kind), quoted(r->id), number(r->row), quoted(r->due.on), quoted(r->due.what)});
  for (auto rows = inside.entries(); const auto* r = rows.next();)
    row("trail", {number(r->sequence), quoted(r->who.at_utc), quoted(r->who.zone), quoted(r->who.person), quoted(r->who.known_by),
                  quoted(r->action), quoted(r->kind), quoted(r->id), number(r->version), quoted(r->document_hash), quoted(r->replaced_hash),
                  quoted(r->reason), quoted(r->previous), quoted(r->hash)});
  for (auto rows = inside.personals(); const auto* r = rows.next();) row("personal", {quoted(r->code), quoted(r->salt), quoted(r->body)});
  for (auto rows = inside.photos(); const auto* r = rows.next();) row("photos", {quoted(r->hash), quoted(r->bytes_base64)});
  return out;
}

/// With HEATWORK_KEEP_FORMATS=FOLDER it also leaves a store of each earlier format there: this is how those in tests/records/formats
/// came to be. They are never made anew: a lab's old store is not made anew either.
TEST_P(MigrationTest, a_store_of_an_earlier_format_can_be_written_out_and_read_in) {
  for (int format = 1; format <= store_format; ++format) {
    const Address address{Engine::sqlite, (folder_ / ("old-" + std::to_string(format) + ".sqlite")).string()};
    if (!sqlite()) {
      if (format == store_format) continue;
      lay_out(format);
      Store::Inside inside;
      inside.address = address_;
      inside.found.format = format;
      EXPECT_EQ(statements_of(inside, format), text_of(kept_store(format, Engine::postgresql)));
      clear();
      continue;
    }
    {
      Store old = make_old(address, format, plain_opening());
      fill_small_lab(old);
    }
    Store::Inside inside;
    inside.address = address;
    inside.found.format = format;
    const std::string statements = statements_of(inside, format);
    EXPECT_NE(statements.find("insert into documents values ('bench step', 'built-up-1', 1, "), std::string::npos);
    if (const char* folder = std::getenv("HEATWORK_KEEP_FORMATS")) {
      const std::string name = "format-" + std::to_string(format);
      inside.vacuum_into((fs::path(folder) / (name + ".sqlite")).string());
      std::ofstream(fs::path(folder) / (name + ".postgresql.sql"), std::ios::binary) << statements;
    }
  }
}

}  // namespace
}  // namespace heatwork::records::for_tests
