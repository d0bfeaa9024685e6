#include <algorithm>
#include <cstdlib>
#include <random>

#include "records/sample_store_for_tests.h"
#include "records/statement.h"
#include "records/verify.h"

namespace heatwork::records::for_tests {
namespace {

struct Column {
  std::string table, name;
  bool number;
};

std::vector<Column> every_column() {
  const std::vector<std::pair<std::string, std::string>> tables = {
      {"about", "key value"},
      {"documents", "kind id #version body typed hash"},
      {"heads", "kind id #version label state words #at_ms"},
      {"uses", "kind id #row #at_ms piece furnace program lot"},
      {"dues", "kind id #row due_on what"},
      {"tallies", "kind state #documents"},
      {"trail", "#sequence at_utc zone person known_by action kind id #version document_hash replaced_hash reason previous hash"},
      {"personal", "code salt body"},
      {"photos", "hash bytes_base64"},
  };
  std::vector<Column> columns;
  for (const auto& [table, names] : tables) {
    std::istringstream words(names);
    for (std::string name; words >> name;) {
      const bool number = name.front() == '#';
      columns.push_back({table, number ? name.substr(1) : name, number});
    }
  }
  return columns;
}

/// Another text or number, one byte of it altered, put in or taken out.
std::string altered(const std::string& value, bool number, std::mt19937_64& random) {
  std::string other = value;
  if (number) {
    const std::size_t at = random() % other.size();
    do {
      other[at] = static_cast<char>('0' + random() % 10);
    } while (other == value);
    return std::to_string(std::stoll(other));
  }
  const char sign = static_cast<char>('!' + random() % 90);
  const std::size_t at = random() % (other.size() + 1);
  const std::uint64_t how = random() % 3;
  if (how == 0 || at == other.size()) {
    other.insert(other.begin() + static_cast<std::ptrdiff_t>(at), sign);
  } else if (how == 1) {
    other.erase(at, 1);
  } else {
    other[at] = other[at] == sign ? '~' : sign;
  }
  return other;
}

/// How a sentence names what a row is of.
std::string named_by(const std::string& table) {
  if (table == "about") return "'says of itself'";
  if (table == "trail") return "'ntry ' || cast(sequence as text)";
  if (table == "personal") return "code";
  if (table == "photos") return "hash";
  if (table == "tallies") return "kind || ' ' || state";
  return "kind || ' ' || id";
}

class AlterationTest : public OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (IsSkipped()) return;
    Store store = fresh();
    fill_sample(store, 12);
  }

  struct Row {
    std::string value, place, name;
  };

  [[nodiscard]] std::string place() const { return sqlite() ? "rowid" : "ctid"; }

  Row row_of(Store::Inside& inside, const Column& column, std::uint64_t draw) const {
    const auto rows = static_cast<std::uint64_t>(inside.count(column.table));
    Row row;
    Statement statement(inside, "select cast(" + column.name + " as text), cast(" + place() + " as text), " + named_by(column.table) +
                                    " from " + column.table + " order by " + place() + " limit 1 offset " + std::to_string(draw % rows));
    EXPECT_TRUE(statement.into(row.value).into(row.place).into(row.name).next());
    return row;
  }

  /// Returns where the row stands then: PostgreSQL puts an altered row elsewhere.
  std::string set(Store::Inside& inside, const Column& column, const std::string& value, const std::string& where) const {
    std::string then;
    Statement statement(inside, "update " + column.table + " set " + column.name + " = cast(? as " + (column.number ? "bigint" : "text") +
                                    ") where " + place() + " = cast(? as " + (sqlite() ? "integer" : "tid") + ") returning cast(" +
                                    place() + " as text)");
    statement.bind(value).bind(where).into(then);
    while (statement.next()) continue;
    return then;
  }

  /// False where the alteration is in the way of another row, and the engine itself refuses it.
  bool try_one(Store& store, const Column& column, std::mt19937_64& random) const {
    Store::Inside& inside = store.inside();
    Row row = row_of(inside, column, random());
    const std::string after = altered(row.value, column.number, random);
    if (after == row.value) return false;
    try {
      row.place = set(inside, column, after, row.place);
    } catch (const StoreError&) {
      return false;
    }
    const Verified verified = verify(store);
    EXPECT_FALSE(verified.wrong.empty()) << column.table << "." << column.name << ": “" << row.value << "” became “" << after << "”";
    // An entry under another number may stand in the way of an earlier one; the one that is missing is named all the same.
    const bool renumbered = column.table == "trail" && column.name == "sequence";
    std::string named = verified.wrong.empty() ? "" : verified.wrong.front();
    for (const std::string& sentence : verified.wrong) named += renumbered ? sentence : "";
    EXPECT_NE(named.find(row.name), std::string::npos)
        << named << "\n"
        << column.table << "." << column.name << " of " << row.name << ": " << row.value << "\n"
        << after;
    set(inside, column, row.value, row.place);
    return true;
  }
};
HEATWORK_ON_EACH_ENGINE(AlterationTest);

TEST_P(AlterationTest, one_byte_of_any_column_is_named) {
  const char* long_run = std::getenv("HEATWORK_LONG");
  const int trials = long_run && *long_run == '1' ? 1000 : 100;
  const std::vector<Column> columns = every_column();
  std::mt19937_64 random(20251 + static_cast<unsigned>(testing::UnitTest::GetInstance()->random_seed()));
  Store store = fresh();
  int made = 0;
  for (int draw = 0; made < trials && draw < trials * 3 && !HasFailure(); ++draw) {
    // The first round meets every column once.
    const std::size_t column = draw < static_cast<int>(columns.size()) ? static_cast<std::size_t>(draw) : random() % columns.size();
    if (try_one(store, columns[column], random)) ++made;
  }
  EXPECT_EQ(made, trials);
  EXPECT_EQ(verify(store).wrong, std::vector<std::string>()) << "everything was put back";
}

}  // namespace
}  // namespace heatwork::records::for_tests
