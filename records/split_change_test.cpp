#include "records/store_for_tests.h"
#include "records/verify.h"
#include "records/writing.h"

namespace heatwork::records::for_tests {
namespace {

class SplitChangeTest : public OnEachEngine {};
HEATWORK_ON_EACH_ENGINE(SplitChangeTest);

/// The single writings of one change; keep() makes them in one transaction, here each ends in its own.
std::vector<std::function<void(Store::Inside&)>> writings() {
  Document document{"firing", "f1", 1, "state ended\nuse 10 p1 oven a@1 -\ndue 2027-01-01 look\n", "", ""};
  document.hash = document_hash(document);
  return {[=](Store::Inside& inside) { inside.insert(std::vector{document}); },
          [=](Store::Inside& inside) { put_index(inside, {index_of(inside, document)}); },
          [=](Store::Inside& inside) {
            inside.append({0, somebody(), "added", document.kind, document.id, 1, document.hash, "", "", "", ""});
          }};
}

TEST_P(SplitChangeTest, a_change_that_is_split_is_found_wherever_it_breaks_off) {
  Store store = fresh();
  const auto all = writings();
  for (std::size_t i = 0; i < all.size(); ++i) {
    WriteTransaction writing(store.inside());
    all[i](store.inside());
    writing.commit();
    EXPECT_EQ(verify(store).wrong.empty(), i + 1 == all.size()) << "after " << i + 1 << " of " << all.size();
  }
}

TEST_P(SplitChangeTest, a_whole_change_that_breaks_off_leaves_nothing) {
  Store store = fresh();
  for (std::size_t broken = 1; broken <= 3; ++broken) {
    {
      WriteTransaction writing(store.inside());
      for (std::size_t i = 0; i < broken; ++i) writings()[i](store.inside());
    }
    EXPECT_TRUE(verify(store).wrong.empty());
    EXPECT_EQ(store.status().versions, 0);
  }
}

}  // namespace
}  // namespace heatwork::records::for_tests
