// Roles, locks and signatures hold also against what another program keeps in the same instant.
#include "desk/lab/keep.h"

#include <gtest/gtest.h>

#include <chrono>
#include <future>

#include "desk/errors.h"
#include "desk/lab/index_of.h"
#include "records/store_for_tests.h"

namespace heatwork::desk {
namespace {

using records::for_tests::change;
using records::for_tests::engine_name;

records::NewVersion version(const std::string& kind, const std::string& id, int after, const std::string& body) {
  return records::for_tests::version(kind, id, after, "format = 1\n\n" + body);
}

records::NewVersion person(const std::string& code, int after, const std::string& role, const std::string& more = "") {
  return version("person", code, after, "[person]\nname = \"" + code + "\"\nrole = \"" + role + "\"\n" + more);
}

const std::string tray = "[tray]\nname = \"small\"\nmaterial = \"alumina-fibre\"\ndiameter = \"41 mm\"\nthickness = \"6.3 mm\"\n";
const std::string lock =
    "[lock]\nname = \"tray-small\"\nof_kind = \"tray\"\nof_name = \"small\"\nof_version = 1\nlocked = true\nreason = \"proven\"\n";

class Keep : public records::for_tests::OnEachEngine {
 protected:
  [[nodiscard]] StorePlace place(const std::string& who) const {
    StorePlace place;
    place.address = address_;
    place.opening = records::for_tests::opening();
    place.opening.index_of = index_of;
    place.opening.who.person = who;
    return place;
  }
  [[nodiscard]] records::Store store(const std::string& who = "mara") const { return records::Store::open(address_, place(who).opening); }

  /// What keeping in the name of `who` says when another program, which has the writers' lock already, keeps something first.
  std::string said_after_another(const std::string& who, const records::NewVersion& theirs, records::Change mine) {
    records::Store here = store(who), there = store();
    std::promise<void> they_write, they_go_on;
    std::future<void> writing = they_write.get_future(), going_on = they_go_on.get_future();
    const auto elsewhere = std::async(std::launch::async, [&] {
      records::Change change_of_theirs = change({theirs});
      change_of_theirs.allow = [&](records::Store&) {
        they_write.set_value();
        going_on.wait();
      };
      there.keep(change_of_theirs);
    });
    writing.wait();
    auto said = std::async(std::launch::async, [&]() -> std::string {
      try {
        keep(place(who), here, std::move(mine));
      } catch (const Failure& failure) {
        return failure.what();
      }
      return "kept";
    });
    EXPECT_EQ(said.wait_for(std::chrono::milliseconds(300)), std::future_status::timeout) << "it waits for the lock";
    they_go_on.set_value();
    elsewhere.wait();
    return said.get();
  }

  void enter_mara_and_tom() {
    records::Store made = store();
    keep(place("mara"), made, change({person("mara", 0, "release", "may_set_up = true\n"), person("tom", 0, "fire")}));
  }
};

TEST_P(Keep, ALockOfTheSameInstantIsSeen) {
  {
    records::Store made = store();
    keep(place("mara"), made, change({version("tray", "small", 0, tray)}));
  }
  EXPECT_EQ(
      said_after_another("mara", version("lock", "tray-small", 0, lock), change({version("tray", "small", 1, tray + "note = \"x\"\n")})),
      "tray small is locked: proven. Nothing was kept; who may release unlocks it.");
  EXPECT_EQ(store().find("tray", "small")->version, 1);
}

TEST_P(Keep, WhoLeavesInTheSameInstantKeepsNothing) {
  enter_mara_and_tom();
  EXPECT_EQ(said_after_another("tom", person("tom", 1, "fire", "left = true\n"), change({version("tray", "small", 0, tray)})),
            "Person \"tom\" has left and may only read.");
  EXPECT_FALSE(store().find("tray", "small"));
}

TEST_P(Keep, TheLastWhoMaySetUpDoesNotGoInTheSameInstantAsTheOther) {
  enter_mara_and_tom();
  {
    records::Store made = store();
    keep(place("mara"), made, change({person("tom", 1, "fire", "may_set_up = true\n")}));
  }
  EXPECT_EQ(said_after_another("mara", person("tom", 2, "fire"), change({person("mara", 1, "release")})),
            "Nobody could set up any more: one person at least has may_set_up = true and has not left. Nothing was kept.");
}

TEST_P(Keep, APhotoIsKeptByWhoMayFireAndErasedByWhoMaySetUp) {
  enter_mara_and_tom();
  records::Store opened = store();
  const auto said = [&](const std::string& who, const records::Change& made) -> std::string {
    try {
      keep(place(who), opened, made);
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.error(), ErrorWord::not_allowed);
      return failure.what();
    }
    return "kept";
  };
  keep(place("mara"), opened, change({person("ida", 0, "look"), person("old", 0, "release", "may_set_up = true\nleft = true\n")}));
  records::Change photo = change({});
  photo.photos = {{"\x89PNG made up", ""}};
  EXPECT_EQ(said("ida", photo), "Person \"ida\" may look but not fire; a person who may fire must do this.");
  EXPECT_EQ(said("old", photo), "Person \"old\" has left and may only read.");
  const std::string hash = keep(place("tom"), opened, photo).photos.front();
  records::Change erase = change({});
  erase.erase_photos = {hash};
  erase.reason_to_erase = "shows a face";
  EXPECT_EQ(said("tom", erase), "Person \"tom\" may not set up; a person who may set up must do this.");
  EXPECT_EQ(said("old", erase), "Person \"old\" has left and may only read.");
  EXPECT_EQ(said("mara", erase), "kept");
}

TEST_P(Keep, PersonalDataIsChangedByHimselfAndErasedByWhoMaySetUp) {
  enter_mara_and_tom();
  records::Store opened = store();
  const auto said = [&](const std::string& who, const std::string& of, const std::string& body) -> std::string {
    records::Change made = change({});
    made.personal = {{of, body, "asked for"}};
    try {
      keep(place(who), opened, made);
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.error(), ErrorWord::not_allowed);
      return failure.what();
    }
    return "kept";
  };
  const std::string refused = "Person \"tom\" may not set up; a person who may set up must do this.";
  EXPECT_EQ(said("tom", "tom", "name"), "kept");
  EXPECT_EQ(said("tom", "mara", "name"), refused);
  EXPECT_EQ(said("tom", "tom", ""), refused);
  EXPECT_EQ(said("mara", "tom", ""), "kept");
}

TEST_P(Keep, AReleasedDeviationIsNotChangedUnderItsSignature) {
  enter_mara_and_tom();
  records::Store opened = store();
  const std::string found =
      "[deviation]\nname = \"d-1\"\nfrom = \"hold at most 1 min\"\nfound = \"held 2 min\"\nfound_at = \"2026-11-25T10:00:00Z\"\n";
  const std::string decided = "decision = \"use as it is\"\nreason = \"tab is sound\"\n";
  const std::string signature = "released_at = \"2026-11-25T11:00:00Z\"\nreleased_by = \"mara\"\n";
  const auto said = [&](const std::string& who, int after, const std::string& body) -> std::string {
    try {
      keep(place(who), opened, change({version("deviation", "d-1", after, body)}));
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.error(), ErrorWord::not_allowed);
      return failure.what();
    }
    return "kept";
  };
  EXPECT_EQ(said("tom", 0, found), "kept");
  EXPECT_EQ(said("tom", 1, found + decided), "Person \"tom\" may fire but not release; a person who may release must do this.");
  EXPECT_EQ(said("mara", 1, found + decided + signature), "kept");
  const std::string refused =
      "Deviation d-1 was released by mara as it stands and is not changed under that signature. Nothing was kept; who may release "
      "withdraws the release first (released_at and released_by go).";
  const std::string other = found + "note = \"it was 3 min\"\n" + decided;
  EXPECT_EQ(said("tom", 2, other + signature), refused);
  EXPECT_EQ(said("mara", 2, other + signature), refused);
  EXPECT_EQ(said("mara", 2, found + decided + "released_at = \"2026-11-25T12:00:00Z\"\nreleased_by = \"mara\"\n"), refused);
  EXPECT_EQ(said("tom", 2, other), "Person \"tom\" may fire but not release; a person who may release must do this.");
  EXPECT_EQ(said("mara", 2, other), "kept");
}

HEATWORK_ON_EACH_ENGINE(Keep);

}  // namespace
}  // namespace heatwork::desk
