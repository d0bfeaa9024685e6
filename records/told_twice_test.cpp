#include "records/told_twice.h"

#include <gtest/gtest.h>

#include <random>
#include <set>

#include "records/sample_store_for_tests.h"
#include "records/stored_pages.h"

namespace heatwork::records::for_tests {
namespace {

TEST(NewestVersions, IsASetOfNumbers) {
  NewestVersions newest;
  std::set<std::uint64_t> should;
  std::mt19937_64 random(20251);
  for (int i = 0; i < 200'000; ++i) {
    // Few numbers, many of them with one place to be in.
    const std::uint64_t one = (random() % 3000) << (random() % 3 * 16);
    if (random() % 2 == 0)
      EXPECT_EQ(newest.insert(one == 0 ? 1 : one), should.insert(one == 0 ? 1 : one).second);
    else
      EXPECT_EQ(newest.erase(one == 0 ? 1 : one), should.erase(one == 0 ? 1 : one) == 1);
  }
  EXPECT_EQ(newest.size(), should.size());
  for (std::uint64_t one = 1; one < 3000; ++one)
    for (const int shift : {0, 16, 32}) EXPECT_EQ(newest.contains(one << shift), should.count(one << shift) == 1);
}

TEST(Balance, IsEvenWhereBothSidesTellTheSameInWhateverOrder) {
  Balance balance(drawn_key());
  const Fact a = Fact('v', "firing", "f1").value(std::int64_t{1}).value("x"),
             b = Fact('v', "firing", "f2").value(std::int64_t{1}).value("x");
  balance.add(a);
  balance.add(b);
  EXPECT_TRUE(balance.suspicious("firing", "f1"));
  balance.take_off(b);
  balance.take_off(a);
  EXPECT_TRUE(balance.even());
  balance.add(a);
  balance.take_off(Fact('v', "firing", "f1").value(std::int64_t{1}).value("y"));
  EXPECT_FALSE(balance.even());
  EXPECT_TRUE(balance.suspicious("firing", "f1"));
  EXPECT_FALSE(balance.suspicious("firing", "f2"));
}

TEST(Balance, TellsValuesApartThatRunTogether) {
  Balance balance(drawn_key());
  balance.add(Fact('u', "a", "bc").value("d").value(""));
  balance.take_off(Fact('u', "a", "bc").value("").value("d"));
  EXPECT_FALSE(balance.even());
}

TEST(Balance, ASuspicionStays) {
  Balance balance(drawn_key());
  balance.suspect("lot", "jar");
  EXPECT_FALSE(balance.even());
  EXPECT_TRUE(balance.suspicious("lot", "jar"));
}

class StoredPagesTest : public OnEachEngine {};
HEATWORK_ON_EACH_ENGINE(StoredPagesTest);

TEST_P(StoredPagesTest, hands_out_every_row_once_large_and_small) {
  Store store = fresh();
  std::set<std::string> kept;
  for (int lot = 0; lot < 6; ++lot) {
    std::vector<NewVersion> all;
    for (int i = 0; i < 900; ++i) {
      const std::string name = std::to_string(lot) + "-" + std::to_string(i);
      all.push_back(version("note", name, 0, std::string(i % 300 == 7 ? 2'500'000 : 40, static_cast<char>('a' + i % 26))));
      kept.insert(name);
    }
    store.keep(change(std::move(all)));
  }
  const ReadingView view(store.inside());
  std::set<std::string> seen;
  std::size_t rows = 0;
  auto pages = stored_documents(store.inside());
  for (auto page = pages.next(); !page.empty(); page = pages.next()) {
    std::size_t bytes = 0;
    for (const Document& row : page) {
      seen.insert(row.id);
      bytes += row.body.size();
      ++rows;
    }
    EXPECT_LT(bytes, 7'000'000U);
  }
  EXPECT_EQ(rows, kept.size());
  EXPECT_EQ(seen, kept);
  std::size_t heads = 0;
  auto of_heads = stored_heads(store.inside());
  for (auto page = of_heads.next(); !page.empty(); page = of_heads.next()) heads += page.size();
  EXPECT_EQ(heads, kept.size());
}

}  // namespace
}  // namespace heatwork::records::for_tests
