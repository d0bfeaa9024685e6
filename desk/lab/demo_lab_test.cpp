// The demo lab: filled by the work of a real lab, the same every time, and something for each screen to show.
#include "desk/lab/demo_lab.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "desk/errors.h"
#include "desk/lab/demo_photo.h"
#include "desk/lab/image_kind.h"
#include "desk/lab/kept_show.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/store_care.h"
#include "desk/lab/today.h"
#include "records/store_for_tests.h"

namespace heatwork::desk {
namespace {

class ClockAt : public Clock {
 public:
  [[nodiscard]] std::int64_t now_ms() const override { return clock_of_machine().now_ms() - 60'000; }
};

std::size_t rows(const Json& json, const char* key) {
  return json.find(key)->list()->size();
}

class DemoLab : public records::for_tests::OnEachEngine {};

TEST_P(DemoLab, HasSomethingForEachScreen) {
  const AskedLab asked{address_.where, ""};
  const ClockAt clock;
  make_demo_lab(asked, clock);
  const auto lab = lab_settings(asked);
  EXPECT_TRUE(lab.demo);
  EXPECT_EQ(lab.called, "Demo lab");
  const Json today = today_in_lab(asked, {}, clock).json;
  EXPECT_EQ(rows(today, "firings"), 5U);
  EXPECT_EQ(*today.find("firings")->list()->front().find("state")->text(), "started");
  EXPECT_EQ(rows(today, "cases"), 5U);
  EXPECT_EQ(*today.find("cases")->list()->front().find("name")->text(), "k-0423") << "the first to leave the lab";
  EXPECT_EQ(*today.find("cases")->list()->front().find("pieces")->list()->front().find("next")->find("firing")->text(), "glaze-firing");
  EXPECT_EQ(*today.find("overdue")->number(), 2) << "the vacuum test at the window, and the weekly look there";
  const Json program = show_kept(asked, trade::Noun::program, "glaze-film").json;
  EXPECT_EQ(*program.find("version")->number(), 2);
  EXPECT_EQ(*program.find("locked_because")->text(), "proven on two tabs");
  EXPECT_EQ(rows(list_kept(asked, trade::Noun::deviation, {}).json, "rows"), 2U);
  EXPECT_FALSE(verify_store(asked, "", {}).wrong);
}
HEATWORK_ON_EACH_ENGINE(DemoLab);

TEST(DemoLabAnew, ReplacesADemoLabAndNothingElse) {
  const auto folder = std::filesystem::temp_directory_path() / fmt::format("heatwork-demo-test-{}", ::getpid());
  std::filesystem::create_directories(folder);
  const AskedLab demo{(folder / "demo.sqlite").string(), ""}, own{(folder / "lab.sqlite").string(), "mara"};
  EXPECT_EQ(demo_store_of(own), demo.store);
  make_store(own);
  EXPECT_THROW(make_demo_lab_anew(own), Failure);
  EXPECT_TRUE(std::filesystem::exists(own.store));
  make_demo_lab(demo);
  EXPECT_THROW(make_demo_lab(demo), Failure);
  make_demo_lab_anew(demo);
  EXPECT_TRUE(lab_settings(demo).demo);
  EXPECT_FALSE(std::filesystem::exists(demo.store + ".new"));
  std::filesystem::remove_all(folder);
}

TEST(DemoPhoto, IsAPictureAndTheSameEveryTime) {
  EXPECT_EQ(image_kind(demo_photo()), "PNG");
  EXPECT_EQ(demo_photo(), demo_photo());
}

}  // namespace
}  // namespace heatwork::desk
