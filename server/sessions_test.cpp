#include "server/sessions.h"

#include <gtest/gtest.h>

#include <set>

namespace heatwork::server {
namespace {

constexpr std::int64_t minute = 60'000, hour = 60 * minute;

TEST(Sessions, AreFoundByTheirIdAlone) {
  Sessions sessions;
  const auto begun = sessions.begin(SignedInBy::password, "mara", 1000);
  EXPECT_EQ(begun.id.size(), 64U);
  EXPECT_EQ(sessions.find(begun.id, 2000), begun.session);
  EXPECT_EQ(sessions.find(begun.session->key, 2000), nullptr) << "what is kept of an id opens nothing";
  EXPECT_EQ(sessions.find(begun.session->token, 2000), nullptr);
  EXPECT_EQ(sessions.find("", 2000), nullptr);
  EXPECT_EQ(begun.session->password_until_ms, 1000 + 10 * minute);
}

TEST(Sessions, EndByIdlenessAndByAge) {
  Sessions sessions;
  const auto idle = sessions.begin(SignedInBy::password, "mara", 0);
  EXPECT_NE(sessions.find(idle.id, 8 * hour), nullptr);
  EXPECT_NE(sessions.find(idle.id, 14 * hour), nullptr) << "each use begins the idle time anew";
  EXPECT_EQ(sessions.find(idle.id, 14 * hour + 1), nullptr) << "but not the age";
  const auto left = sessions.begin(SignedInBy::password, "mara", 0);
  EXPECT_EQ(sessions.find(left.id, 8 * hour + 1), nullptr);
  EXPECT_EQ(sessions.find(left.id, 1), nullptr) << "one that has ended stays ended";
  const auto pin = sessions.begin(SignedInBy::pin, "mara", 0);
  EXPECT_EQ(pin.session->password_until_ms, 0);
  EXPECT_EQ(sessions.find(pin.id, hour + 1), nullptr);
}

TEST(Sessions, OfAPersonEndTogether) {
  Sessions sessions;
  const auto one = sessions.begin(SignedInBy::password, "mara", 0), two = sessions.begin(SignedInBy::pin, "mara", 0);
  const auto other = sessions.begin(SignedInBy::password, "tom", 0);
  sessions.end_all_of("mara", one.session.get());
  EXPECT_NE(sessions.find(one.id, 1), nullptr);
  EXPECT_EQ(sessions.find(two.id, 1), nullptr);
  EXPECT_NE(sessions.find(other.id, 1), nullptr);
}

TEST(Sessions, AreNeverMoreThanSoMany) {
  Sessions sessions;
  const auto signed_in = sessions.begin(SignedInBy::password, "mara", 0);
  for (int i = 0; i < 5000; ++i) sessions.begin(SignedInBy::machine, "", i);
  EXPECT_EQ(sessions.count(), 4096U);
  EXPECT_NE(sessions.find(signed_in.id, 5000), nullptr) << "those of nobody go first";
}

TEST(Sessions, IdsAreNeverTheSame) {
  std::set<std::string> ids;
  for (int i = 0; i < 1000; ++i) EXPECT_TRUE(ids.insert(random_id()).second);
  EXPECT_TRUE(same_secret("abc", "abc"));
  EXPECT_FALSE(same_secret("abc", "abd"));
  EXPECT_FALSE(same_secret("abc", "abcd"));
}

}  // namespace
}  // namespace heatwork::server
