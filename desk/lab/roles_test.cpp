#include "desk/lab/roles.h"

#include <gtest/gtest.h>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

using enum trade::PersonRole;

template <class Call>
std::string refusal(Call&& call) {
  try {
    call();
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.error(), ErrorWord::not_allowed);
    return failure.what();
  }
  return "allowed";
}

Asker somebody(trade::PersonRole role, bool may_set_up = false, bool left = false) {
  return {"mk", "named", false, Asker::Entered{role, may_set_up, left}};
}

TEST(Roles, EachMayDoWhatThoseBeforeItMay) {
  for (const auto has : {look, fire, release}) {
    for (const auto needed : {look, fire, release}) {
      const std::string said = refusal([&] { needs(somebody(has), needed); });
      EXPECT_EQ(said == "allowed", has >= needed) << word(has) << " " << word(needed) << ": " << said;
    }
  }
  EXPECT_EQ(refusal([] { needs(somebody(fire), release); }),
            "Person \"mk\" may fire but not release; a person who may release must do this.");
}

TEST(Roles, SettingUpIsApart) {
  EXPECT_EQ(refusal([] { needs_set_up(somebody(look, true)); }), "allowed");
  EXPECT_EQ(refusal([] { needs_set_up(somebody(release)); }), "Person \"mk\" may not set up; a person who may set up must do this.");
  EXPECT_EQ(refusal([] { needs(somebody(look, true), fire); }), "Person \"mk\" may look but not fire; a person who may fire must do this.");
}

TEST(Roles, WhoeverIsNotEnteredOrHasLeftMayOnlyRead) {
  const Asker unknown{"anna", "log-in name", false, {}};
  const std::string said = "Person \"anna\" (log-in name) is not entered in this store and may only read; name a person who is.";
  EXPECT_EQ(refusal([&] { needs(unknown, look); }), said);
  EXPECT_EQ(refusal([&] { needs_set_up(unknown); }), said);
  const Asker gone = somebody(release, true, true);
  EXPECT_EQ(refusal([&] { needs(gone, look); }), "Person \"mk\" has left and may only read.");
  EXPECT_EQ(refusal([&] { needs_set_up(gone); }), "Person \"mk\" has left and may only read.");
}

TEST(Roles, WhereNobodyIsEnteredEverybodyMayDoEverything) {
  const Asker anybody{"anna", "log-in name", true, {}};
  EXPECT_EQ(refusal([&] { needs(anybody, release); }), "allowed");
  EXPECT_EQ(refusal([&] { needs_set_up(anybody); }), "allowed");
}

TEST(Roles, AReleaseNeedsThePasswordSaidAgain) {
  Asker asker = somebody(release, true);
  asker.password_is_due = true;
  EXPECT_EQ(refusal([&] { needs(asker, fire); }), "allowed");
  for (const auto work : {+[](const Asker& who) { needs(who, release); }, +[](const Asker& who) { needs_set_up(who); }}) {
    try {
      work(asker);
      ADD_FAILURE() << "the password was due";
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.error(), ErrorWord::password_needed);
      EXPECT_STREQ(failure.what(), "To release or to set up, person \"mk\" must say the password again. Nothing was kept.");
    }
  }
}

}  // namespace
}  // namespace heatwork::desk
