// What today holds: in which order, and what is left out.
#include "desk/lab/today.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/store_care.h"
#include "records/store_for_tests.h"

namespace heatwork::desk {
namespace {

using trade::Noun;

class At : public Clock {
 public:
  [[nodiscard]] std::int64_t now_ms() const override { return 1'790'000'000'000; }  // 2026-09-21, 14:13 UTC
};

class Today : public records::for_tests::OnEachEngine {
 protected:
  void SetUp() override {
    OnEachEngine::SetUp();
    if (!IsSkipped()) make_store(asked());
  }
  [[nodiscard]] AskedLab asked() const { return {address_.where, "mara"}; }

  void firing(const std::string& name, const std::string& piece, std::vector<std::string> record) const {
    std::vector<std::string> set{"stage=glaze", "tray=light", "furnace=corner", "program=glaze-film", "piece[1].piece=" + piece};
    for (const std::string& each : record) set.push_back("record." + each);
    add_kept(asked(), Noun::firing, {{name}, std::move(set), ""});
  }
  void a_case(const std::string& name, std::vector<std::string> set) const {
    add_kept(asked(), Noun::dental_case, {{name}, std::move(set), ""});
  }
  [[nodiscard]] Json today(const std::string& within = "30 days") const { return today_in_lab(asked(), {within}, At()).json; }
};

std::vector<std::string> names(const Json& json, const char* key) {
  std::vector<std::string> all;
  for (const Json& each : *json.find(key)->list()) all.push_back(*each.find("name")->text());
  return all;
}

TEST_P(Today, FiringsStandInTheOrderInWhichTheyNeedSomebody) {
  firing("a-some-time", "a", {"state=planned"});
  firing("b-later", "b", {"state=planned", "planned_for=2026-09-22T08:00:00Z"});
  firing("c-sooner", "c", {"state=planned", "planned_for=2026-09-21T16:00:00Z"});
  firing("d-stopped", "d",
         {"state=interrupted", "started=2026-09-21T11:00:00Z", "started_by=kim", "interrupted=2026-09-21T11:10:00Z",
          "interruption=mains cut"});
  firing("e-running", "e", {"state=started", "started=2026-09-21T14:00:00Z", "started_by=kim"});
  firing("f-running-longer", "f", {"state=started", "started=2026-09-21T13:50:00Z", "started_by=kim"});
  firing("g-over", "g", {"state=ended", "started=2026-09-20T11:00:00Z", "started_by=kim", "ended=2026-09-20T11:30:00Z", "ended_by=kim"});
  firing("h-off", "h", {"state=called off"});
  const Json json = today();
  EXPECT_EQ(names(json, "firings"),
            (std::vector<std::string>{"f-running-longer", "e-running", "d-stopped", "c-sooner", "b-later", "a-some-time"}));
  EXPECT_EQ(*json.find("firings_count")->number(), 6);
  EXPECT_EQ(*(*json.find("firings")->list())[2].find("interruption")->text(), "mains cut");
}

TEST_P(Today, CasesStandByTheDayTheyMustLeave) {
  a_case("a-no-day", {"next_step=wax"});
  a_case("b-late", {"wanted=2026-10-01"});
  a_case("c-soon", {"wanted=2026-09-22", "pieces=x, y", "teeth=11, 21"});
  a_case("d-over", {"closed=true"});
  firing("glaze-x", "x", {"state=planned", "planned_for=2026-09-21T16:00:00Z"});
  const Json json = today();
  EXPECT_EQ(names(json, "cases"), (std::vector<std::string>{"c-soon", "b-late", "a-no-day"}));
  const JsonList& pieces = *json.find("cases")->list()->front().find("pieces")->list();
  EXPECT_EQ(*pieces[0].find("next")->find("firing")->text(), "glaze-x");
  EXPECT_TRUE(pieces[1].find("next")->is_null());
  EXPECT_FALSE(*pieces[1].find("kept")->truth()) << "no piece of that name is kept";
}

TEST_P(Today, WhatIsDueIsShownSoFarAheadAndOverdueAlways) {
  a_case("long-ago", {"wanted=2026-01-05"});
  a_case("soon", {"wanted=2026-09-25"});
  a_case("far", {"wanted=2027-09-25"});
  EXPECT_EQ(names(today(), "due"), (std::vector<std::string>{"long-ago", "soon"}));
  EXPECT_EQ(*today().find("overdue")->number(), 1);
  EXPECT_EQ(names(today("1 day"), "due"), (std::vector<std::string>{"long-ago"}));
  EXPECT_THROW((void)today("soon"), Failure);
}

TEST_P(Today, IsEmptyWhereNothingIsKept) {
  const Json json = today();
  for (const char* key : {"firings", "cases", "due"}) EXPECT_TRUE(json.find(key)->list()->empty()) << key;
  EXPECT_EQ(*json.find("today")->text(), "2026-09-21");
}
HEATWORK_ON_EACH_ENGINE(Today);

}  // namespace
}  // namespace heatwork::desk
