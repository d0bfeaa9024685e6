#include "desk/lab/index_of.h"

#include <gtest/gtest.h>

#include "desk/lab/rehearsal_document.h"
#include "desk/lab/store_shelf.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using records::Due;
using records::Index;
using records::Use;

constexpr std::int64_t at_17_11_04 = 1'764'090'664'000;  // 2025-11-25T17:11:04Z

Index index(const std::string& kind, const std::string& id, const std::string& body) {
  records::Document document;
  document.kind = kind;
  document.id = id;
  document.version = 1;
  document.body = "format = 1\n\n" + body;
  return index_of(document);
}

const std::string firing =
    "[firing]\nname = \"f-1\"\nlabel = \"Crown\"\nstage = \"dentine\"\ntray = \"light\"\nfurnace = \"corner\"\nprogram = \"dentine\"\n"
    "[[firing.piece]]\npiece = \"crown-16\"\n[[firing.piece]]\npiece = \"crown-17\"\n";
const std::string started = "[firing.record]\nstate = \"started\"\nstarted = \"2025-11-25T17:11:04Z\"\nstarted_by = \"mk\"\n";

TEST(IndexOf, APlannedFiringHasFiredNothing) {
  const Index found = index("firing", "f-1", firing + "[firing.record]\nstate = \"planned\"\nplanned_for = \"2025-11-25T17:11:04Z\"\n");
  EXPECT_EQ(found.state, "planned");
  EXPECT_EQ(found.at_ms, at_17_11_04);
  EXPECT_TRUE(found.uses.empty());
  EXPECT_EQ(found.label, "Crown");
  EXPECT_NE(found.words.find("crown-17"), std::string::npos);
  EXPECT_EQ(found.words.find('C'), std::string::npos) << "in lower case";
}

TEST(IndexOf, AStartedFiringNamesEachPieceWithFurnaceAndTheVersionOfItsProgram) {
  const std::string pin = "[[firing.record.used]]\nkind = \"program\"\nname = \"dentine\"\nversion = 3\n";
  EXPECT_EQ(index("firing", "f-1", firing + started + pin).uses,
            (std::vector<Use>{{at_17_11_04, "crown-16", "corner", "dentine@3", ""}, {at_17_11_04, "crown-17", "corner", "dentine@3", ""}}));
  EXPECT_EQ(index("firing", "f-1", firing + started).uses.front().program, "dentine") << "which version is not known";
}

TEST(IndexOf, ABenchStepNamesEachPieceWithEachLot) {
  const std::string step = "[bench_step]\nname = \"s-1\"\nwork = \"build-up\"\npieces = [\"crown-16\"]\nat = \"2025-11-25T17:11:04Z\"\n";
  EXPECT_EQ(index("bench step", "s-1", step).uses, (std::vector<Use>{{at_17_11_04, "crown-16", "", "", ""}}));
  EXPECT_EQ(index("bench step", "s-1", step + "lots = [\"jar-31\", \"water-5\"]\n").uses,
            (std::vector<Use>{{at_17_11_04, "crown-16", "", "", "jar-31"}, {at_17_11_04, "crown-16", "", "", "water-5"}}));
}

TEST(IndexOf, WhatFallsDueGoesWithWhatIsOver) {
  const std::string lot = "[lot]\nname = \"jar-31\"\nmaterial = \"glaze\"\nexpires = \"2027-08-31\"\n";
  EXPECT_EQ(index("lot", "jar-31", lot).dues, (std::vector<Due>{{"2027-08-31", "expires"}}));
  EXPECT_TRUE(index("lot", "jar-31", lot + "used_up = true\n").dues.empty());
  const std::string one = "[case]\nname = \"k-1\"\nteeth = [16]\nwanted = \"2026-12-03\"\n";
  EXPECT_EQ(index("case", "k-1", one).dues, (std::vector<Due>{{"2026-12-03", "must leave the lab"}}));
  EXPECT_TRUE(index("case", "k-1", one + "closed = true\n").dues.empty());
  const Index check =
      index("check", "c-1",
            "[check]\nname = \"c-1\"\nfurnace = \"corner\"\nof = \"temperature\"\ngood = false\nat = \"2025-11-25T17:11:04Z\"\n"
            "next = \"2026-12-25\"\n");
  EXPECT_EQ(check.dues, (std::vector<Due>{{"2026-12-25", "check of temperature of corner"}}));
  EXPECT_EQ(check.state, "not good");
  EXPECT_EQ(check.uses, (std::vector<Use>{{at_17_11_04, "", "corner", "", ""}}));
}

TEST(IndexOf, ACheckThatGoesOnOrCannotTellIsNeitherGoodNorNot) {
  const std::string check =
      "[check]\nname = \"c-1\"\nfurnace = \"corner\"\nof = \"temperature\"\ngood = false\nat = \"2025-11-25T17:11:04Z\"\n"
      "next = \"2026-12-25\"\n";
  EXPECT_EQ(index("check", "c-1", check + "cannot_tell = true\n").state, "cannot tell");
  const Index going_on = index("check", "c-1", check + "finished = false\n");
  EXPECT_EQ(going_on.state, "going on");
  EXPECT_TRUE(going_on.dues.empty());
}

TEST(IndexOf, ASnapshotIsTheTextOfItsHash) {
  records::Document snapshot;
  snapshot.kind = snapshot_kind;
  snapshot.body = "format = 1\n\n[lot]\nname = \"Jar-31\"\n";
  snapshot.id = trade::blake2b_256(snapshot.body);
  EXPECT_EQ(index_of(snapshot).label, "lot Jar-31");
  EXPECT_EQ(index_of(snapshot).words, "lot jar-31");
  snapshot.body += "\n";
  EXPECT_THROW(index_of(snapshot), std::exception);
  snapshot.body = "[limits.display]\nfirst = 5\n";
  snapshot.id = trade::blake2b_256(snapshot.body);
  EXPECT_EQ(index_of(snapshot).label, "") << "limits are no kind of file a lab keeps by name";
}

TEST(IndexOf, ARehearsalIsThatOfItsFiring) {
  RehearsalDocument rehearsal;
  rehearsal.firing = "f-1";
  records::Document document;
  document.kind = rehearsal_kind;
  document.id = "f-1";
  document.body = write_rehearsal_document(rehearsal);
  EXPECT_EQ(index_of(document).words, "f-1");
  document.id = "f-2";
  EXPECT_THROW(index_of(document), std::exception);
}

TEST(IndexOf, RefusesATextOfAnotherName) {
  EXPECT_THROW(index("lot", "jar-32", "[lot]\nname = \"jar-31\"\nmaterial = \"glaze\"\n"), std::exception);
  EXPECT_THROW(index("tray", "jar-31", "[lot]\nname = \"jar-31\"\nmaterial = \"glaze\"\n"), std::exception);
  EXPECT_THROW(index("sketch", "jar-31", ""), std::exception);
}

}  // namespace
}  // namespace heatwork::desk
