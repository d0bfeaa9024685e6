// The demo lab: filled by the work of a real lab, the same every time, and something for each screen to show.
#include "desk/lab/demo_lab.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <map>
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
  make_demo_lab(asked, trade::Language::english, clock);
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

/// Labels of all that is kept of a kind, by name.
std::map<std::string, std::string> labels_of(const AskedLab& asked, trade::Noun noun) {
  std::map<std::string, std::string> labels;
  const Json kept = list_kept(asked, noun, {}).json;
  for (const Json& row : *kept.find("rows")->list())
    if (const Json* label = row.find("label"); label != nullptr && label->text() != nullptr)
      labels[*row.find("name")->text()] = *label->text();
  return labels;
}

TEST(DemoLabInGerman, SaysAllItsLabelsInGerman) {
  const auto folder = std::filesystem::temp_directory_path() / fmt::format("heatwork-demo-words-{}", ::getpid());
  std::filesystem::create_directories(folder);
  const AskedLab english{(folder / "english.sqlite").string(), ""}, german{(folder / "german.sqlite").string(), ""};
  make_demo_lab(english);
  make_demo_lab(german, trade::Language::german);
  EXPECT_EQ(lab_settings(german).called, "\u00dcbungslabor");
  set_lab(german, {"Mine", "en", std::nullopt, 0, "tried"});
  EXPECT_EQ(language_of_demo_lab(german), trade::Language::german) << "whatever was changed in it since";
  EXPECT_EQ(language_of_demo_lab(english), trade::Language::english);
  EXPECT_EQ(language_of_demo_lab({(folder / "none.sqlite").string(), ""}), std::nullopt);
  std::size_t seen = 0;
  using enum trade::Noun;
  for (const trade::Noun noun : {dental_case, piece, program, furnace, instruction, tray, support, lot, check, firing, reference}) {
    const auto in_english = labels_of(english, noun), in_german = labels_of(german, noun);
    ASSERT_EQ(in_english.size(), in_german.size()) << trade::word(noun);
    for (const auto& [name, label] : in_english) {
      EXPECT_NE(in_german.at(name), label) << name;
      seen += 1;
    }
  }
  EXPECT_GT(seen, 35U);
  EXPECT_EQ(*show_kept(german, trade::Noun::program, "glaze-film").json.find("locked_because")->text(), "an zwei Pl\u00e4ttchen erprobt");
  std::filesystem::remove_all(folder);
}

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
  set_lab(demo, {std::nullopt, "de", "", 0, "tried"});
  make_demo_lab_anew(demo, trade::Language::german);
  EXPECT_TRUE(lab_settings(demo).demo);
  EXPECT_EQ(lab_settings(demo).says_language, "de") << "else it would speak another language than it did just now";
  EXPECT_EQ(lab_settings(demo).says_units, "");
  EXPECT_EQ(language_of_demo_lab(demo), trade::Language::german);
  EXPECT_FALSE(std::filesystem::exists(demo.store + ".new"));
  std::filesystem::remove_all(folder);
}

TEST(DemoPhoto, IsAPictureAndTheSameEveryTime) {
  EXPECT_EQ(image_kind(demo_photo()), "PNG");
  EXPECT_EQ(demo_photo(), demo_photo());
}

}  // namespace
}  // namespace heatwork::desk
