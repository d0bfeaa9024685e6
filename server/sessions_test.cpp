#include "server/sessions.h"

#include <gtest/gtest.h>

#include <filesystem>
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

TEST(Sessions, StandAgainAfterARestartUntilTheyWouldHaveEnded) {
  Sessions before;
  const auto one = before.begin(SignedInBy::password, "mara", 0), pin = before.begin(SignedInBy::pin, "tom", 0);
  one.session->mark = "m";
  const auto machine = before.begin(SignedInBy::machine, "", 0), playing = before.begin(SignedInBy::machine, "", 0);
  playing.session->demo = true;
  const auto kept = before.all();
  EXPECT_EQ(kept.size(), 3U) << "a session of nobody holds nothing";
  for (const SessionKept& each : kept)
    for (const auto& id : {one.id, pin.id, playing.id}) EXPECT_NE(each.key, id);
  Sessions after;
  after.put_back(kept, 2 * hour);
  const auto found = after.find(one.id, 2 * hour);
  ASSERT_NE(found, nullptr);
  EXPECT_EQ(found->token, one.session->token) << "a page that is open writes on";
  EXPECT_EQ(found->mark, "m");
  EXPECT_EQ(found->person, "mara");
  EXPECT_EQ(found->password_until_ms, 10 * minute);
  EXPECT_EQ(after.find(pin.id, 2 * hour), nullptr) << "idle too long meanwhile";
  EXPECT_EQ(after.find(machine.id, 2 * hour), nullptr);
  EXPECT_TRUE(after.find(playing.id, 2 * hour)->demo);
  EXPECT_EQ(after.find(one.id, 14 * hour + 1), nullptr) << "its age goes on";
}

TEST(SessionFile, IsOfOneLabAndReadableByItsOwnerAlone) {
  const auto folder = std::filesystem::temp_directory_path() / ("heatwork-sessions-" + random_id());
  const std::string path = session_file_of(folder.string(), 8110);
  EXPECT_EQ(session_file_of(folder.string(), 0), "");
  SessionFile file(path, "lab.sqlite");
  EXPECT_TRUE(file.read().sessions.empty());
  file.keep([] { return AllKept{{{"k", "mara", "m", SignedInBy::pin, true, 1, 2, 3}}, {{"d", 4, 2}}}; });
  EXPECT_EQ(std::filesystem::status(path).permissions(), std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  const AllKept again = file.read();
  ASSERT_EQ(again.sessions.size(), 1U);
  EXPECT_EQ(again.sessions[0].by, SignedInBy::pin);
  EXPECT_TRUE(again.sessions[0].demo);
  EXPECT_EQ(again.sessions[0].password_until_ms, 3);
  ASSERT_EQ(again.devices.size(), 1U);
  EXPECT_EQ(again.devices[0].wrong_pins, 2);
  EXPECT_TRUE(SessionFile(path, "other.sqlite").read().sessions.empty());
  std::filesystem::resize_file(path, 40);
  EXPECT_TRUE(file.read().sessions.empty()) << "a file that is torn signs nobody in";
  std::filesystem::remove_all(folder);
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
