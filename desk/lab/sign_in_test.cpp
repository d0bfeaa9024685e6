#include "desk/lab/sign_in.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

#include "desk/errors.h"
#include "desk/lab/persons.h"
#include "desk/lab/store_place.h"

namespace heatwork::desk {
namespace {

class SignInTest : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("heatwork_sign_in_" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  [[nodiscard]] AskedLab asked(const std::string& person = "mara") const { return {(folder_ / "lab.sqlite").string(), person}; }
  void enter(const std::string& code, const std::string& role, bool may_set_up) const {
    PersonWords words;
    words.code = code;
    words.role = role;
    words.may_set_up = may_set_up ? "yes" : "no";
    words.name = "Name of " + code;
    add_person(asked(), words);
  }
  std::filesystem::path folder_;
};

TEST_F(SignInTest, IsByTheRightSecretOfAPersonWhoIsThere) {
  EXPECT_FALSE(somebody_has_password(asked())) << "no store stands";
  make_store(asked());
  enter("mara", "release", true);
  enter("tom", "fire", false);
  EXPECT_FALSE(somebody_has_password(asked()));
  keep_secret(asked(), {"tom", Secret::password, "fires every morning", "x"});
  keep_secret(asked("tom"), {"tom", Secret::pin, "2580", ""});
  EXPECT_TRUE(somebody_has_password(asked()));
  const auto tom = signs_in(asked(), "tom", Secret::password, "fires every morning");
  ASSERT_TRUE(tom);
  EXPECT_EQ(tom->code, "tom");
  EXPECT_EQ(tom->role, trade::PersonRole::fire);
  EXPECT_TRUE(signs_in(asked(), "tom", Secret::pin, "2580"));
  EXPECT_FALSE(signs_in(asked(), "tom", Secret::password, "2580")) << "kept apart";
  EXPECT_FALSE(signs_in(asked(), "tom", Secret::pin, "fires every morning"));
  EXPECT_FALSE(signs_in(asked(), "mara", Secret::password, "")) << "no password is no empty one";
  EXPECT_FALSE(signs_in(asked(), "nobody", Secret::password, "fires every morning"));
  const std::string mark = person_now(asked(), "tom")->mark;
  EXPECT_EQ(person_now(asked(), "tom")->mark, mark);
  keep_secret(asked(), {"tom", Secret::password, "another one altogether", "x"});
  EXPECT_NE(person_now(asked(), "tom")->mark, mark);
  PersonWords away;
  away.code = "tom";
  away.left = true;
  away.reason = "moved";
  change_person(asked(), away);
  EXPECT_FALSE(signs_in(asked(), "tom", Secret::password, "another one altogether"));
  EXPECT_FALSE(somebody_has_password(asked())) << "who has left locks nobody in or out";
}

TEST_F(SignInTest, ASecretIsPersonalDataThatIsErasedAndNeverShown) {
  make_store(asked());
  enter("mara", "release", true);
  keep_secret(asked(), {"mara", Secret::password, "correct horse battery", ""});
  PersonWords contact;
  contact.code = "mara";
  contact.contact = "bench 2";
  contact.reason = "moved";
  change_personal(asked(), contact);
  EXPECT_TRUE(signs_in(asked(), "mara", Secret::password, "correct horse battery")) << "a change of the contact leaves it";
  const CareAnswer shown = show_person(asked(), "mara");
  EXPECT_EQ((shown.text + write_json(shown.json)).find("argon2"), std::string::npos);
  forget_person(asked(), "mara", "asked for it");
  EXPECT_FALSE(person_now(asked(), "mara")->has_password);
  EXPECT_FALSE(signs_in(asked(), "mara", Secret::password, "correct horse battery"));
}

TEST_F(SignInTest, NobodyGivesAnotherASecretWithoutSettingUp) {
  make_store(asked());
  enter("mara", "release", true);
  enter("tom", "fire", false);
  EXPECT_THROW(keep_secret(asked("tom"), {"mara", Secret::password, "taken over by tom", ""}), Failure);
  EXPECT_FALSE(person_now(asked(), "mara")->has_password);
}

}  // namespace
}  // namespace heatwork::desk
