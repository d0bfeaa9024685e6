#include "tests/store/many.h"

#include <gtest/gtest.h>

#include <set>

#include "desk/lab/index_of.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/rehearsal_document.h"
#include "trade/mistake.h"

// The documents that fill a great store are those that desk writes, and are found by what desk finds them by.

namespace heatwork::store_proof {
namespace {

records::Document document_of(const records::NewVersion& version) {
  return {version.kind, version.id, version.after + 1, version.body, version.typed, ""};
}

std::string as_desk_writes(const records::Document& document) {
  if (document.kind == "snapshot") return document.body;
  if (document.kind == "rehearsal") return desk::write_rehearsal_document(desk::read_rehearsal_document(document.body));
  return desk::kept_text(trade::source_of(document.kind + " " + document.id, document.body)).body;
}

void expect_of_desk(const ManyYears& years, const records::Change& change) {
  for (const records::NewVersion& version : change.documents) {
    const records::Document document = document_of(version);
    ASSERT_EQ(document.body, as_desk_writes(document)) << document.kind << " " << document.id;
    for (const char* left : {"open-", "Open-", "90000", "2001-", "2002-"})
      ASSERT_EQ(document.body.find(left), std::string::npos) << document.kind << " " << document.id << " was left open";
    const records::Index known = years.index_of(document), read = desk::index_of(document);
    EXPECT_EQ(known.words, read.words) << document.kind << " " << document.id;
    ASSERT_EQ(known, read) << document.kind << " " << document.id;
  }
}

TEST(ManyYears, KeepsWhatDeskWritesAndFindsItAsDeskDoes) {
  ManyYears years(1000, 7);
  std::set<std::string> kinds;
  std::size_t documents = 0;
  while (const auto change = years.next()) {
    expect_of_desk(years, *change);
    documents += change->documents.size();
    for (const records::NewVersion& version : change->documents) kinds.insert(version.kind);
  }
  EXPECT_EQ(years.firings(), 1000);
  EXPECT_GT(documents, 5'000U);
  EXPECT_EQ(kinds, (std::set<std::string>{"bench step", "case", "check", "deviation", "firing", "furnace", "instruction", "lot", "person",
                                          "piece", "program", "rehearsal", "snapshot", "support", "tray"}));
  expect_of_desk(years, years.one_firing(1));
}

TEST(ManyYears, AreTheSameForTheSameSeedOnly) {
  ManyYears years(300, 7), again(300, 7), others(300, 8);
  const auto change = years.next(), same = again.next(), other = others.next();
  ASSERT_EQ(change->documents.size(), same->documents.size());
  for (std::size_t i = 0; i < change->documents.size(); ++i) EXPECT_EQ(change->documents[i].body, same->documents[i].body);
  EXPECT_NE(change->documents.back().body, other->documents.back().body);
}

TEST(OpenText, IsTheTextWithItsPlacesFilled) {
  Fillings with;
  with[Open::name] = "a", with[Open::furnace] = "b";
  EXPECT_EQ(OpenText("").filled(with), "");
  EXPECT_EQ(OpenText("no place").filled(with), "no place");
  EXPECT_EQ(OpenText("open-name, open-furnaceopen-name. Open-furnace.").filled(with), "a, ba. B.");
}

}  // namespace
}  // namespace heatwork::store_proof
