#include <cstdlib>
#include <fstream>
#include <random>

#include "records/exchange.h"
#include "records/sample_store_for_tests.h"
#include "records/verify.h"

namespace heatwork::records::for_tests {
namespace {

class FileDamageTest : public OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    {
      Store store = fresh();
      fill_sample(store, 60);
      Change many = change({});
      many.photos = {{"\xFF\xD8\xFF made up " + std::string(30'000, 'p'), ""}};
      store.keep(many);
      // Erasing and replacing leaves free pages behind.
      many = change({version("furnace", "corner", 1, "label Corner\ndue 2027-03-01 " + std::string(9'000, 'w') + "\n")});
      store.keep(many);
      store.keep(change({version("furnace", "corner", 2, "label Corner\ndue 2027-03-01 muffle\n")}));
      answers_ = answers_of(store);
    }
    std::ifstream in(address_.where, std::ios::binary);
    bytes_.assign(std::istreambuf_iterator<char>(in), {});
    ASSERT_FALSE(std::filesystem::exists(address_.where + "-wal")) << "everything is in the file";
  }

  void write(const std::string& bytes) const {
    for (const char* also : {"-wal", "-shm", "-journal"}) std::filesystem::remove(address_.where + also);
    std::ofstream(address_.where, std::ios::binary | std::ios::trunc) << bytes;
  }

  static void tell(std::ostream& out, const Document& document) {
    out << document.kind << '|' << document.id << '|' << document.version << '|' << document.body << '|' << document.typed << '\n';
  }

  template <class Row, class Tell>
  static void tell(std::ostream& out, const Page<Row>& page, Tell&& row) {
    out << page.count << ':';
    for (const Row& one : page.rows) {
      row(one);
      out << ';';
    }
    out << '\n';
  }

  /// Every document and every answer a store gives, as one text.
  static std::string answers_of(Store& store) {
    std::ostringstream out;
    out << export_hash(store) << '\n';
    const auto heads = [&](const HeadQuery& query) {
      tell(out, store.heads(query), [&](const Head& row) {
        out << row.kind << row.id << row.version << row.label << row.state << row.at_ms;
        for (const Document& document : store.versions(row.kind, row.id)) tell(out, document);
        tell(out, store.find(row.kind, row.id).value());
      });
    };
    heads({});
    heads({"firing", "", "ended", 1});
    heads({"", "crown", "", 1});
    heads({"program", "dentine", "", 1});
    for (const auto& [by, value] : {std::pair(PieceQuery::By::furnace, "corner"), std::pair(PieceQuery::By::program, "dentine@1"),
                                    std::pair(PieceQuery::By::program, "dentine"), std::pair(PieceQuery::By::lot, "lot-1")}) {
      tell(out, store.pieces({by, value}), [&](const PieceRow& row) { out << row.piece << row.first_ms << row.last_ms << row.times; });
    }
    for (const char* piece : {"crown-1", "bridge-2"}) {
      tell(out, store.uses_of(piece), [&](const UseRow& row) { out << row.kind << row.id << row.use.at_ms << row.use.lot; });
    }
    tell(out, store.dues("2027-12-31"), [&](const DueRow& row) { out << row.kind << row.id << row.due.on << row.due.what; });
    const auto entry = [&](const Entry& row) { out << row.sequence << row.who.at_utc << row.action << row.hash; };
    tell(out, store.trail({}), entry);
    tell(out, store.trail({"program", "dentine", 0, true}), entry);
    out << store.personal("mk").value() << store.personal("tt").has_value() << store.photo(photo_hash("\x89PNG made up, one")).value();
    return out.str();
  }

  /// Empty: the damage is named. Else what is wrong with that.
  std::string judged() const {
    try {
      Store store = Store::open(address_, opening());
      if (!verify(store).wrong.empty()) return "";
      ++unchanged_;
      return answers_of(store) == answers_ ? "" : "nothing was found wrong, and the answers differ";
    } catch (const StoreError& error) {
      return error.problem() == StoreProblem::damaged || error.problem() == StoreProblem::not_a_store ||
                     error.problem() == StoreProblem::too_new || error.problem() == StoreProblem::mistake_of_ours
                 ? ""
                 : std::string("another problem: ") + error.what();
    } catch (const std::exception& error) {
      return std::string("no error of a store: ") + error.what();
    }
  }

  std::string bytes_, answers_;
  mutable int unchanged_ = 0;
};
INSTANTIATE_TEST_SUITE_P(Engines, FileDamageTest, testing::Values(Engine::sqlite), engine_name);

TEST_P(FileDamageTest, one_byte_anywhere_is_named_or_changed_nothing) {
  const char* long_run = std::getenv("HEATWORK_LONG");
  const int trials = long_run && *long_run == '1' ? 1000 : 100;
  std::mt19937_64 random(20251 + static_cast<unsigned>(testing::UnitTest::GetInstance()->random_seed()));
  for (int trial = 0; trial < trials; ++trial) {
    std::string bytes = bytes_;
    const std::size_t at = random() % bytes.size();
    const char before = bytes[at];
    // Half of the trials turn one bit, the others put any other byte.
    bytes[at] = static_cast<char>(bytes[at] ^ (trial % 2 == 0 ? 1 << random() % 8 : 1 + random() % 255));
    write(bytes);
    EXPECT_EQ(judged(), "") << "byte " << at << " of " << bytes.size() << ": " << int(before) << " became " << int(bytes[at]);
  }
  RecordProperty("changed_nothing", unchanged_);
  EXPECT_GT(trials - unchanged_, trials / 5) << "much of the file is free, but not so much";
  write(bytes_);
  EXPECT_EQ(judged(), "");
}

TEST_P(FileDamageTest, every_byte_of_the_first_page_and_of_each_pages_head_is_named_or_changed_nothing) {
  const char* long_run = std::getenv("HEATWORK_LONG");
  const std::size_t step = long_run && *long_run == '1' ? 1 : 23;
  constexpr std::size_t page = 4096;
  for (std::size_t at = 0; at < bytes_.size(); at += step) {
    const bool head = at < page || at % page < 16;
    if (!head) continue;
    std::string bytes = bytes_;
    bytes[at] = static_cast<char>(bytes[at] ^ (1 << at % 8));
    write(bytes);
    EXPECT_EQ(judged(), "") << "byte " << at << " of " << bytes.size();
  }
}

TEST_P(FileDamageTest, a_file_cut_short_or_zeroed_in_part_is_named) {
  for (const std::size_t length :
       {std::size_t(0), std::size_t(10), std::size_t(100), std::size_t(4096), bytes_.size() / 2, bytes_.size() - 4096}) {
    write(bytes_.substr(0, length));
    EXPECT_EQ(judged(), "") << length;
    EXPECT_EQ(unchanged_, 0) << length;
  }
  std::string bytes = bytes_;
  std::fill(bytes.begin() + 8192, bytes.begin() + 12288, '\0');
  write(bytes);
  EXPECT_EQ(judged(), "");
  EXPECT_EQ(unchanged_, 0);
}

}  // namespace
}  // namespace heatwork::records::for_tests
