#include "desk/lab/personal_data.h"

#include <gtest/gtest.h>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

template <class Call>
std::pair<ErrorWord, std::string> refusal(Call&& call) {
  try {
    call();
  } catch (const Failure& failure) {
    return {failure.error(), failure.what()};
  }
  return {ErrorWord::mistake_of_ours, "allowed"};
}

TEST(PersonalData, IsReadAsItWasWritten) {
  const PersonalData data{"Mara \"M\" Muster, née Überall", "mara@example.org"};
  const PersonalData read = personal_data("mara", text_of(data));
  EXPECT_EQ(read.name, data.name);
  EXPECT_EQ(read.contact, data.contact);
  EXPECT_EQ(text_of({"Mara", ""}), "{\n  \"format\": 1,\n  \"name\": \"Mara\"\n}\n") << "what is not kept is left out";
}

TEST(PersonalData, WhatIsNotGivenStays) {
  const PersonalData data{"Mara", "mara@example.org"};
  EXPECT_EQ(with(data, std::nullopt, "none").name, "Mara");
  EXPECT_EQ(with(data, std::nullopt, "none").contact, "none");
  EXPECT_TRUE(with(data, "", "").empty());
}

TEST(PersonalData, IsOneShortLine) {
  const auto refused = std::pair{ErrorWord::bad_value, std::string("The contact must be one line of at most 200 bytes. Nothing was kept.")};
  EXPECT_EQ(refusal([] { with({}, std::nullopt, "a\nb"); }), refused);
  EXPECT_EQ(refusal([] { with({}, std::nullopt, std::string(201, 'a')); }), refused);
  EXPECT_EQ(refusal([] { with({}, std::nullopt, std::string(200, 'a')); }).second, "allowed");
}

TEST(PersonalData, ThatCannotBeReadIsCalledDamagedAndNotShown) {
  for (const char* text : {"", "secret", "[\"secret\"]", "{\"name\": secret}"})
    EXPECT_EQ(
        refusal([&] { personal_data("mara", text); }),
        (std::pair{ErrorWord::store_damaged, std::string("Personal data of mara cannot be read. \"heatwork store verify\" tells more.")}))
        << text;
}

TEST(PersonalData, IsShownToThePersonAndToWhoMaySetUp) {
  const auto asker = [](const std::string& code, bool may_set_up, bool left) {
    return Asker{code, "named", false, Asker::Entered{trade::PersonRole::release, may_set_up, left}};
  };
  EXPECT_TRUE(may_see_personal(asker("mara", false, false), "mara"));
  EXPECT_FALSE(may_see_personal(asker("mara", false, true), "mara"));
  EXPECT_FALSE(may_see_personal(asker("tom", false, false), "mara"));
  EXPECT_TRUE(may_see_personal(asker("tom", true, false), "mara"));
  EXPECT_FALSE(may_see_personal(asker("tom", true, true), "mara"));
  EXPECT_FALSE(may_see_personal(Asker{"mara", "named", false, std::nullopt}, "mara")) << "not entered";
}

}  // namespace
}  // namespace heatwork::desk
