// Each check of a program: one firing that breaks it, one at the edge that does not, and the same in German.
#include "verdict/program_checks.h"

#include <gtest/gtest.h>

#include <cctype>
#include <functional>

#include "verdict/judge_case.h"

namespace heatwork::verdict {
namespace {

using namespace judge_case;
using quantity::kelvins_per_minute;
using quantity::seconds;
using quantity::Temperature;
using Spoil = std::function<void(firing::Rehearsal&)>;

trade::Given<Temperature> celsius(double value) {
  return given(Temperature::celsius(value));
}

firing::Rehearsal with(const Spoil& spoil) {
  firing::Rehearsal made = rehearsal();
  spoil(made);
  return made;
}

/// Breaking gives the level, the edge does not; both languages say the number.
void breaks(Aspect aspect, Level level, const std::string& piece, const std::string& said, const Spoil& broken, const Spoil& edge) {
  const firing::Rehearsal spoiled = with(broken);
  const Finding found = finding(spoiled, aspect, piece);
  EXPECT_EQ(found.level, level) << found.sentence;
  EXPECT_NE(found.sentence.find(said), std::string::npos) << found.sentence;
  EXPECT_FALSE(found.change.empty()) << found.sentence;
  const Finding german = finding(judge(spoiled, limits(), words("de")), aspect, piece);
  EXPECT_EQ(german.level, level);
  EXPECT_NE(german.sentence, found.sentence);
  EXPECT_NE(german.change, found.change);
  EXPECT_EQ(german.sentence.find('{'), std::string::npos) << german.sentence;
  const Verdict kept = judged(with(edge));
  for (const Finding& one : kept.findings) {
    if (one.aspect == aspect && one.piece == piece) {
      EXPECT_EQ(one.level, Level::sound) << one.sentence;
    }
  }
}

void top(firing::Rehearsal& made, double C) {
  made.request.program.heating[0].to = celsius(C);
}

// ---- units and panel

TEST(Units, FahrenheitForCelsius) {
  const auto broken = [](auto& made) { top(made, 1508); };
  breaks(Aspect::units, Level::fault_expected, "", "1508 °C looks like 1508 °F, which is 820 °C", broken,
         [](auto& made) { top(made, 900); });
  EXPECT_EQ(finding(with(broken), Aspect::units, "").limit_from, LimitFrom::instruction);
  EXPECT_EQ(finding(with(broken), Aspect::units, "").change, "Heating stage 1, top: key in 820 °C.");
  ASSERT_EQ(finding(with(broken), Aspect::units, "").advised.size(), 1U);
  EXPECT_EQ(finding(with(broken), Aspect::units, "").advised[0].key, "heating[1].to");
  EXPECT_EQ(finding(with(broken), Aspect::units, "").advised[0].value, "820 °C");
}

TEST(Units, CelsiusForFahrenheit) {
  breaks(
      Aspect::units, Level::fault_expected, "", "as °F",
      [](auto& made) {
        made.request.program.entry = celsius(232.2);
        top(made, 437.8);
      },
      [](auto& made) { top(made, 500); });
}

TEST(Units, WithoutAMakersProgramTheMaterialSaysWhatIsUsual) {
  const auto alone = [](firing::Rehearsal& made, double C) {
    made.request.instruction.reset();
    made.request.instruction_program.reset();
    made.reference.clear();
    made.compared = {firing::Comparison{}};
    trade::Estimate nominal;
    nominal.low = 780;
    nominal.value = 815;
    nominal.high = 850;
    made.request.materials["veneer"].properties["nominal_temperature"] = nominal;
    top(made, C);
  };
  breaks(
      Aspect::units, Level::fault_expected, "", "780 °C to 850 °C", [&](auto& made) { alone(made, 1508); },
      [&](auto& made) { alone(made, 870); });
}

TEST(Units, MinutesForSeconds) {
  breaks(
      Aspect::units, Level::fault_expected, "", "sixty times too long",
      [](auto& made) { made.request.program.heating[0].hold = given(seconds(12000)); },
      [](auto& made) { made.request.program.heating[0].hold = given(seconds(4000)); });
  breaks(
      Aspect::units, Level::fault_expected, "", "a sixtieth", [](auto& made) { made.request.program.drying_time = given(seconds(4)); },
      [](auto& made) { made.request.program.drying_time = given(seconds(15)); });
}

TEST(Panel, StagesRangesAndSteps) {
  const auto stages = [](firing::Rehearsal& made, std::size_t count) {
    const trade::HeatingStage stage = made.request.program.heating[0];
    made.request.program.heating.assign(count, stage);
  };
  breaks(
      Aspect::panel, Level::fault_expected, "", "4 heating stages", [&](auto& made) { stages(made, 4); },
      [&](auto& made) { stages(made, 3); });
  breaks(
      Aspect::panel, Level::fault_expected, "", "149 K/min at most",
      [](auto& made) { made.request.program.heating[0].rate = given(kelvins_per_minute(150)); },
      [](auto& made) { made.request.program.heating[0].rate = given(kelvins_per_minute(149)); });
  breaks(
      Aspect::panel, Level::fault_expected, "", "1 h 23 min at most",
      [](auto& made) { made.request.program.heating[0].hold = given(seconds(4985)); },
      [](auto& made) { made.request.program.heating[0].hold = given(seconds(4980)); });
  breaks(
      Aspect::panel, Level::borderline, "", "heating stage 1, top 822 °C",
      [](auto& made) {
        made.request.furnace.ability.temperature_step = given(quantity::kelvins(5));
        top(made, 822);
      },
      [](auto& made) { made.request.furnace.ability.temperature_step = given(quantity::kelvins(5)); });
}

TEST(Panel, StagesInTheWrongDirection) {
  breaks(
      Aspect::panel, Level::fault_expected, "", "goes down from 450 °C to 430 °C", [](auto& made) { top(made, 430); },
      [](auto& made) { top(made, 450); });
  const auto cool_to = [](firing::Rehearsal& made, double C) {
    trade::CoolingStage stage;
    stage.to = celsius(C);
    made.request.program.cooling = {stage};
  };
  breaks(
      Aspect::panel, Level::fault_expected, "", "goes up from 820 °C to 821 °C", [&](auto& made) { cool_to(made, 821); },
      [&](auto& made) { cool_to(made, 820); });
}

// ---- the furnace

TEST(FurnaceRules, AboveItsMaximum) {
  breaks(
      Aspect::furnace, Level::fault_expected, "", "is built for 819 °C", [](auto& made) { made.request.furnace.maximum = celsius(819); },
      [](auto& made) { made.request.furnace.maximum = celsius(820); });
}

TEST(FurnaceRules, AHoldThatStartsLateIsShortened) {
  const auto late = [](firing::Rehearsal& made, double s, trade::HoldStart starts) {
    made.request.furnace.ability.hold_starts = given(starts);
    for (firing::ChamberMoment& moment : made.firing.chamber.moments)
      if (moment.event == firing::ChamberEvent::top) moment.time_s = 800 + s;
  };
  using trade::HoldStart;
  breaks(
      Aspect::furnace, Level::fault_expected, "", "40 s later: of 3 min 20 s 2 min 40 s are left",
      [&](auto& made) { late(made, 40, HoldStart::asked_reaches); }, [&](auto& made) { late(made, 10, HoldStart::asked_reaches); });
  EXPECT_EQ(finding(with([&](auto& made) { late(made, 40, HoldStart::asked_reaches); }), Aspect::furnace, "").change,
            "Hold 4 min instead of 3 min 20 s, or heat more slowly.");
  breaks(
      Aspect::furnace, Level::borderline, "", "starts late", [&](auto& made) { late(made, 40, HoldStart::display_reaches); },
      [&](auto& made) { late(made, 10, HoldStart::display_reaches); });
}

TEST(FurnaceRules, AnImpossibleProgramIsJudgedWithoutResults) {
  firing::Rehearsal made = rehearsal();
  made.firing = {};
  made.reference.clear();
  made.compared.clear();
  made.impossible = "Heating stage 1 asks for 820.0 °C; at full power the display of this furnace ends at 700.0 °C.";
  made.request.furnace.heating.gain = given(quantity::HeatingRate::si(1.0848));
  for (const std::string language : {"en", "de"}) {
    const Verdict verdict = judge(made, limits(), words(language));
    EXPECT_TRUE(verdict.fault_expected);
    const Finding furnace = finding(verdict, Aspect::furnace, "");
    EXPECT_EQ(furnace.level, Level::fault_expected);
    EXPECT_NE(furnace.sentence.find(*made.impossible), std::string::npos) << furnace.sentence;
    EXPECT_NE(furnace.change.find("700 °C"), std::string::npos) << furnace.change;
    EXPECT_FALSE(has(verdict, Aspect::heat));
  }
}

TEST(CoolingRules, FasterThanTheChamberByItself) {
  const auto cool_at = [](firing::Rehearsal& made, double rate, double opening) {
    trade::CoolingStage stage;
    stage.to = celsius(600);
    stage.rate = given(kelvins_per_minute(rate));
    stage.opening = given(quantity::Fraction::si(opening));
    made.request.program.cooling = {stage};
  };
  // 0.0009 /s of 578 K are 31.2 K/min; the open chamber does 190 K/min.
  breaks(
      Aspect::cooling, Level::borderline, "", "does 31 K/min by itself", [&](auto& made) { cool_at(made, 40, 0); },
      [&](auto& made) { cool_at(made, 31, 0); });
  breaks(
      Aspect::cooling, Level::fault_expected, "", "asks for 63 K/min", [&](auto& made) { cool_at(made, 63, 0); },
      [&](auto& made) { cool_at(made, 149, 1); });
}

// ---- the sheet

trade::InstructionLimits& sheet(firing::Rehearsal& made) {
  return made.request.instruction->limits;
}

struct SheetLimit {
  const char* said;
  Spoil broken, edge;
};

TEST(InstructionRules, EveryLimitOfTheSheet) {
  const auto rate = [](double value) { return given(kelvins_per_minute(value)); };
  const SheetLimit all[] = {
      {"entry: 450", [](auto& m) { sheet(m).entry_at_most = celsius(449); }, [](auto& m) { sheet(m).entry_at_most = celsius(450); }},
      {"drying time: 4 min", [](auto& m) { sheet(m).drying_at_least = given(seconds(241)); },
       [](auto& m) { sheet(m).drying_at_least = given(seconds(240)); }},
      {"closing time: 1 min", [](auto& m) { sheet(m).closing_at_least = given(seconds(61)); },
       [](auto& m) { sheet(m).closing_at_least = given(seconds(60)); }},
      {"rate: 47", [&](auto& m) { sheet(m).rate_at_least = rate(48); }, [&](auto& m) { sheet(m).rate_at_least = rate(47); }},
      {"rate: 47", [&](auto& m) { sheet(m).rate_at_most = rate(46); }, [&](auto& m) { sheet(m).rate_at_most = rate(47); }},
      {"top: 820", [](auto& m) { sheet(m).top_at_least = celsius(821); }, [](auto& m) { sheet(m).top_at_least = celsius(820); }},
      {"top: 820", [](auto& m) { sheet(m).top_at_most = celsius(819); }, [](auto& m) { sheet(m).top_at_most = celsius(820); }},
      {"hold: 3 min 20 s", [](auto& m) { sheet(m).hold_at_least = given(seconds(201)); },
       [](auto& m) { sheet(m).hold_at_least = given(seconds(200)); }},
      {"hold: 3 min 20 s", [](auto& m) { sheet(m).hold_at_most = given(seconds(199)); },
       [](auto& m) { sheet(m).hold_at_most = given(seconds(200)); }},
      {"start of the vacuum: 460", [](auto& m) { sheet(m).vacuum_from_at_most = celsius(459); },
       [](auto& m) { sheet(m).vacuum_from_at_most = celsius(460); }},
      {"acuum: 55 mbar", [](auto& m) { sheet(m).vacuum_level_at_most = given(quantity::millibars(54)); },
       [](auto& m) { sheet(m).vacuum_level_at_most = given(quantity::millibars(55)); }},
      // From 820 °C the shut chamber cools at 43.1 K/min by itself.
      {"natural cooling to the opening: 43.1", [&](auto& m) { sheet(m).cooling_rate_at_most = rate(43); },
       [&](auto& m) { sheet(m).cooling_rate_at_most = rate(44); }},
      {"opening temperature: 600", [](auto& m) { sheet(m).opening_at_most = celsius(599); },
       [](auto& m) { sheet(m).opening_at_most = celsius(600); }},
  };
  for (const SheetLimit& one : all) {
    const Finding found = finding(with(one.broken), Aspect::instruction, "");
    EXPECT_EQ(found.level, Level::borderline) << one.said;
    EXPECT_EQ(found.limit_from, LimitFrom::instruction) << one.said;
    std::string lower = found.sentence;
    lower[0] = static_cast<char>(std::tolower(lower[0]));
    EXPECT_NE((found.sentence + lower).find(one.said), std::string::npos) << found.sentence;
    EXPECT_FALSE(found.change.empty());
    const Finding kept = finding(with(one.edge), Aspect::instruction, "");
    EXPECT_EQ(kept.level, Level::sound) << kept.sentence;
    EXPECT_EQ(kept.sentence, "The program is inside all 1 limits of the sheet sheet.");
  }
}

TEST(InstructionRules, SeveralBrokenLimitsAreOneFinding) {
  const Finding found = finding(with([](auto& made) {
                                  sheet(made).top_at_most = celsius(800);
                                  sheet(made).entry_at_most = celsius(440);
                                  made.request.instruction->stage = given(trade::StageOfWork::glaze);
                                }),
                                Aspect::instruction, "");
  for (const char* part : {"800 °C at most", "440 °C at most", "stage of work glaze"})
    EXPECT_NE(found.sentence.find(part), std::string::npos) << found.sentence;
}

TEST(InstructionRules, AMaterialOfAnotherFamily) {
  const auto sheet_for = [](firing::Rehearsal& made, const std::string& family) {
    made.request.materials["other"].family = family;
    made.request.instruction->material = given(std::string("other"));
  };
  breaks(
      Aspect::instruction, Level::fault_expected, "", "is for veneer for metal", [&](auto& made) { sheet_for(made, "veneer for metal"); },
      [&](auto& made) { sheet_for(made, "veneer"); });
}

// ---- chamber, entry, drying, glaze

TEST(ChamberRules, ColdDampOrDirty) {
  const auto chamber = [](firing::Rehearsal& made) -> trade::ChamberState& { return made.request.firing.chamber; };
  breaks(
      Aspect::chamber, Level::borderline, "", "has not been heated through", [&](auto& m) { chamber(m).cold = given(true); },
      [&](auto& m) { chamber(m).cold = given(false); });
  breaks(
      Aspect::chamber, Level::borderline, "", "no longer heated through",
      [&](auto& m) { chamber(m).since_last_firing = given(seconds(14401)); },
      [&](auto& m) { chamber(m).since_last_firing = given(seconds(14400)); });
  breaks(
      Aspect::chamber, Level::borderline, "", "stood idle for 8 days", [&](auto& m) { chamber(m).days_idle = given(8.0); },
      [&](auto& m) { chamber(m).days_idle = given(7.0); });
  const auto humid = [&](firing::Rehearsal& made, double days) {
    chamber(made).room_humidity = given(quantity::Fraction::si(0.7));
    chamber(made).days_idle = given(days);
  };
  breaks(
      Aspect::chamber, Level::borderline, "", "at 70 % humidity", [&](auto& m) { humid(m, 3); }, [&](auto& m) { humid(m, 2); });
  breaks(
      Aspect::chamber, Level::borderline, "", "dirty from the firing silver solder",
      [&](auto& m) { chamber(m).last_contaminating_firing = given(std::string("silver solder")); }, [](auto&) {});
  breaks(
      Aspect::chamber, Level::borderline, "", "cleaning firing of north is due", [&](auto& m) { chamber(m).cleaning_due = given(true); },
      [&](auto& m) {
        chamber(m).cleaning_due = given(true);
        m.request.firing.stage = given(trade::StageOfWork::cleaning);
      });
}

TEST(EntryRules, TooHotForWetPowder) {
  const auto entry = [](double C) { return [C](firing::Rehearsal& made) { made.request.program.entry = celsius(C); }; };
  breaks(Aspect::entry, Level::borderline, "", "goes in wet at 501 °C", entry(501), entry(500));
  breaks(Aspect::entry, Level::fault_expected, "", "goes in wet at 551 °C", entry(551), entry(500));
  EXPECT_FALSE(has(judged(with([](auto& made) {
                     made.request.program.entry = celsius(600);
                     made.request.pieces[0].sections[0].layers[0].liquid.reset();
                   })),
                   Aspect::entry))
      << "dry powder may go in hot";
}

TEST(DryingRules, WhereTheWaterIsNotComputed) {
  const auto other = [](firing::Rehearsal& made, double s) {
    made.request.liquids["water"].water_only = false;
    made.firing.pieces[0].sections[0].not_water = true;
    made.request.program.drying_time = given(seconds(s));
  };
  for (const auto& [s, level] : {std::pair{100.0, Level::fault_expected}, {150.0, Level::cannot_tell}, {240.0, Level::cannot_tell}}) {
    const Finding water = finding(with([&](auto& made) { other(made, s); }), Aspect::water);
    EXPECT_EQ(water.level, level) << water.sentence;
    EXPECT_EQ(water.sentence.find("dries for") != std::string::npos, s < 240) << water.sentence;
  }
}

TEST(VacuumRules, ThroughTheHoldOfAGlaze) {
  const auto glaze = [](firing::Rehearsal& made, double hold_s) {
    made.request.firing.stage = made.request.instruction->stage = given(trade::StageOfWork::glaze);
    made.request.program.vacuum->hold_under_vacuum = given(seconds(hold_s));
  };
  breaks(
      Aspect::vacuum, Level::fault_expected, "", "stays on for 30 s of the hold", [&](auto& made) { glaze(made, 30); },
      [&](auto& made) { glaze(made, 0); });
  const firing::Rehearsal as_maker = with([&](auto& made) {
    glaze(made, 30);
    made.request.instruction_program = made.request.program;
  });
  EXPECT_EQ(finding(as_maker, Aspect::vacuum, "").level, Level::sound) << "the maker's program keeps it as long";
}

TEST(Rules, ALabMaySetItsOwnLevel) {
  trade::Limits own = limits();
  own.rules["cold_chamber"].level = trade::RuleLevel::fault_expected;
  own.rules["cold_chamber"].of_lab = true;
  const Finding cold =
      finding(judge(with([](auto& made) { made.request.firing.chamber.cold = given(true); }), own, words()), Aspect::chamber, "");
  EXPECT_EQ(cold.level, Level::fault_expected);
  EXPECT_EQ(cold.limit_from, LimitFrom::lab);
}

TEST(NothingToCompare, SaysWhatLacks) {
  const auto without_reference = [](firing::Rehearsal& made) {
    made.reference.clear();
    made.compared.clear();
  };
  const auto degree = [&](const Spoil& spoil) {
    return finding(with([&](firing::Rehearsal& made) {
                     without_reference(made);
                     spoil(made);
                   }),
                   Aspect::degree_of_firing);
  };
  const Finding no_tray = degree([](firing::Rehearsal&) {});
  EXPECT_NE(no_tray.sentence.find("tray of known mass"), std::string::npos) << no_tray.sentence;
  const Finding furnace = degree([](firing::Rehearsal& made) {
    made.request.instruction_tray = trade::Tray{};
    made.request.instruction_tray->mass = given(quantity::Mass::si(0.01));
  });
  EXPECT_NE(furnace.sentence.find("cannot run the maker's program"), std::string::npos) << furnace.sentence;
  EXPECT_NE(furnace.change.find("furnace that can run"), std::string::npos) << furnace.change;
  const Finding no_sheet = degree([](firing::Rehearsal& made) { made.request.instruction.reset(); });
  EXPECT_NE(no_sheet.change.find("Name the maker's instruction"), std::string::npos) << no_sheet.change;
}

}  // namespace
}  // namespace heatwork::verdict
