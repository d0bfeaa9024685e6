#include "desk/lab/told_in.h"

#include <gtest/gtest.h>

namespace heatwork::desk {
namespace {

TEST(ToldIn, SentencesAndDifferencesInGermanAndNothingElse) {
  const Json answer =
      JsonObject{{"format", 1},
                 {"mistakes",
                  JsonList{JsonObject{{"key", "standby"},
                                      {"sentence", "standby: \"430\" has no unit; a temperature is written such as \"850 °C\" (°C, °F)"}}}},
                 {"changes", JsonList{JsonObject{{"key", "heating[2].hold"},
                                                 {"where", "heating stage 2, hold"},
                                                 {"before", "1 min"},
                                                 {"after", Json()},
                                                 {"words", "heating stage 2, hold: taken away (was 1 min)"}}}}};
  const Json told = told_in(trade::Language::german, answer, trade::Noun::program);
  EXPECT_EQ(*told.find("mistakes")->list()->front().find("sentence")->text(),
            "standby: \"430\" hat keine Einheit; eine Temperatur wird etwa so geschrieben: \"850 °C\" (°C, °F)");
  EXPECT_EQ(*told.find("mistakes")->list()->front().find("key")->text(), "standby");
  const Json& change = told.find("changes")->list()->front();
  EXPECT_EQ(*change.find("words")->text(), "Heizstufe 2, Haltezeit: entfernt (war 1 min)");
  EXPECT_EQ(*change.find("where")->text(), "Heizstufe 2, Haltezeit");
  EXPECT_TRUE(change.find("after")->is_null());
  EXPECT_EQ(write_json(told_in(trade::Language::english, answer, trade::Noun::program)), write_json(answer));
}

TEST(ToldIn, NotesOfTheBench) {
  const Json answer = JsonObject{{"notes", JsonList{"Lot b-7 had expired on 2026-11-01.",
                                                    "program glaze was version 2 when the firing was rehearsed and is version 3 now.",
                                                    "Nobody wrote this in German."}}};
  const Json told = told_in(trade::Language::german, answer);
  const JsonList& notes = *told.find("notes")->list();
  EXPECT_EQ(*notes[0].text(), "Die Charge b-7 war am 2026-11-01 abgelaufen.");
  EXPECT_EQ(*notes[1].text(), "Programm glaze war Version 2, als der Brand gerechnet wurde, und ist jetzt Version 3.");
  EXPECT_EQ(*notes[2].text(), "Nobody wrote this in German.");
}

}  // namespace
}  // namespace heatwork::desk
