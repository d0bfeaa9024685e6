#include "records/findings.h"

#include <gtest/gtest.h>

namespace heatwork::records {
namespace {

TEST(Findings, the_lowest_sequences_stay_in_their_order) {
  Findings findings;
  EXPECT_TRUE(findings.none());
  for (int sequence = 100; sequence > 0; --sequence) findings.wrong(sequence, std::to_string(sequence));
  findings.wrong(without_entry, "last");
  findings.wrong(of_the_file, "first");
  const std::vector<std::string> sentences = findings.sentences();
  ASSERT_EQ(sentences.size(), most_findings);
  EXPECT_EQ(sentences[0], "first");
  EXPECT_EQ(sentences[1], "1");
  EXPECT_EQ(sentences.back(), "19");
}

TEST(Findings, of_one_sequence_the_first_found_comes_first) {
  Findings findings, later;
  findings.wrong(7, "one");
  findings.wrong(7, "two");
  later.wrong(7, "three");
  later.wrong(3, "earlier");
  findings.take(later);
  EXPECT_EQ(findings.sentences(), std::vector<std::string>({"earlier", "one", "two", "three"}));
}

TEST(Findings, whatever_a_damaged_name_holds_a_sentence_stays_one_readable_line) {
  EXPECT_EQ(named("program", "K\u00f6nig", 3), "program K\u00f6nig, version 3");
  EXPECT_EQ(quoted("a\nb\x01\"c"), "“a\\nb\\u0001\\\"c”");
  EXPECT_EQ(quoted("\xFF\xFE"), "“\uFFFD\uFFFD”");
  EXPECT_EQ(quoted(std::string(200, 'x')), "“" + std::string(80, 'x') + "...”");
}

}  // namespace
}  // namespace heatwork::records
