#include "server/front.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>

#include "desk/lab/store_care.h"
#include "server/page_files.h"

namespace heatwork::server {
namespace {

class FrontTest : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("heatwork_front_" + std::to_string(::getpid()));
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    lab_ = {(folder_ / "lab.sqlite").string(), "mara"};
    desk::make_store(lab_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  /// A front of one reading route and one that keeps its line open.
  Front front() {
    const auto tells = [this](const Asked& asked) {
      seen_ = asked;
      return Answer{};
    };
    const auto listens = [](const Asked&) {
      Answer answer;
      answer.events = [](OpenLine&) {};
      return answer;
    };
    return Front(GateWords{lab_, {"localhost"}, 1},
                 {{"GET", "/api/thing/{name}", "thing", Needs::sign_in, tells}, {"GET", "/api/listen", "listen", Needs::sign_in, listens}});
  }
  static Heard heard(const std::string& target, std::vector<std::pair<std::string, std::string>> headers = {}) {
    headers.emplace_back("host", "localhost:1");
    return {"GET", target, std::move(headers), "", "127.0.0.1", false};
  }

  std::filesystem::path folder_;
  desk::AskedLab lab_;
  Asked seen_;
};

TEST_F(FrontTest, GivesARouteWhatWasAsked) {
  Front one = front();
  EXPECT_EQ(
      one.answer(heard("/api/thing/a%20b?page=2", {{"Accept-Language", "fr, de-CH;q=0.9, en"}, {"heatwork-units", "fahrenheit"}})).status,
      200);
  EXPECT_EQ(seen_.path.at("name"), "a b");
  EXPECT_EQ(seen_.query.at("page"), "2");
  EXPECT_EQ(seen_.language, Language::german);
  EXPECT_EQ(seen_.units, report::TemperatureScale::fahrenheit);
  EXPECT_EQ(seen_.lab.person, "mara");
  EXPECT_EQ(one.answer(heard("/api/thing/a")).status, 200);
  EXPECT_EQ(seen_.language, Language::english);
  EXPECT_EQ(one.answer(heard("/api/thing/a", {{"Heatwork-Units", "kelvin"}})).status, 400);
  EXPECT_EQ(one.answer(heard("/api/thing/a?page=%")).status, 400);
}

TEST_F(FrontTest, CapsTheLinesThatStayOpen) {
  Front one = front();
  std::vector<Answer> open;
  for (int i = 0; i < 128; ++i) open.push_back(one.answer(heard("/api/listen")));
  EXPECT_EQ(open.back().status, 200);
  EXPECT_EQ(one.answer(heard("/api/listen")).status, 503);
  EXPECT_EQ(one.answer(heard("/api/thing/a")).status, 200) << "others are still answered";
  open.pop_back();
  EXPECT_EQ(one.answer(heard("/api/listen")).status, 200);
}

TEST_F(FrontTest, AnswersToItsOwnNamesOnly) {
  Front one = front();
  Heard strange = heard("/api/thing/a");
  strange.headers.back().second = "pages.example";
  EXPECT_EQ(one.answer(strange).status, 403);
  strange.headers.back().second = "LOCALHOST.";
  EXPECT_EQ(one.answer(strange).status, 200);
  strange.headers.emplace_back("Host", "localhost");
  EXPECT_EQ(one.answer(strange).status, 403) << "twice";
}

TEST(PageFiles, AreFoundByTheirPathAlone) {
  EXPECT_TRUE(is_of_page("/"));
  EXPECT_FALSE(is_of_page("/api"));
  EXPECT_FALSE(is_of_page("/api/x"));
  EXPECT_FALSE(is_of_page("/health"));
  if (page_files().empty()) {
    EXPECT_EQ(page_answer("/", "", "").status, 501);
    return;
  }
  const Answer plain = page_answer("/", "", ""), packed = page_answer("/", "gzip, br", "");
  EXPECT_EQ(plain.status, 200);
  EXPECT_LT(packed.body.size(), plain.body.size());
  const auto etag = std::find_if(plain.headers.begin(), plain.headers.end(), [](const auto& header) { return header.first == "ETag"; });
  ASSERT_NE(etag, plain.headers.end());
  EXPECT_EQ(page_answer("/", "", etag->second).status, 304);
  for (const char* none : {"/../index.html", "/none.js", "/assets/", "//index.html", "/.git/config.x"})
    EXPECT_EQ(page_answer(none, "", "").status, 404) << none;
}

}  // namespace
}  // namespace heatwork::server
