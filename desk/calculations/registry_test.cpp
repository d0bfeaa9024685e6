#include "desk/calculations/registry.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <set>
#include <sstream>
#include <string>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

Json ask(std::string_view name, std::string_view object) {
  return calculate_all(find_calculation(name), read_json("asked", object));
}

double number(const Json& answer, std::string_view key) {
  const Json* found = answer.find(key);
  EXPECT_TRUE(found && found->number()) << key;
  return found && found->number() ? *found->number() : 0;
}

double entry(const Json& answer, std::string_view key, std::size_t index) {
  return *answer.find(key)->list()->at(index).number();
}

std::string refusal(std::string_view name, std::string_view object) {
  try {
    ask(name, object);
  } catch (const Failure& failure) {
    EXPECT_EQ(row(failure.error()).exit_code, 2);
    return failure.what();
  }
  ADD_FAILURE() << name << " took " << object;
  return {};
}

TEST(Registry, NamesAreUniqueAndFindable) {
  std::set<std::string_view> names;
  for (const Calculation* each : calculations()) {
    EXPECT_TRUE(names.insert(each->name).second);
    EXPECT_EQ(&find_calculation(each->name), each);
    EXPECT_FALSE(each->purpose.empty() || each->source.empty() || each->equation.empty()) << each->name;
  }
  EXPECT_EQ(names.size(), 31U);
}

TEST(Registry, DescriptionsKeepToTheColumnsAndNameEveryKey) {
  for (const Calculation* each : calculations()) {
    const std::string text = describe_as_text(*each);
    for (const Field& field : each->inputs) EXPECT_NE(text.find(std::string(field.name)), std::string::npos);
    for (const Field& field : each->outputs) EXPECT_NE(text.find(std::string(field.name)), std::string::npos);
  }
  std::istringstream lines(calculation_list());
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 100U) << line;
}

TEST(Registry, RefusesWithTheKeyAndWhatIsAllowed) {
  EXPECT_EQ(refusal("standard-atmosphere", R"({"altitude_m": 20000})"),
            "\"altitude_m\" is 20000, but must be a number from -500 to 11000 m.");
  EXPECT_EQ(refusal("standard-atmosphere", R"({"altitude_m": NaN})"),
            "\"altitude_m\" is not a finite number, but must be a number from -500 to 11000 m.");
  EXPECT_EQ(refusal("standard-atmosphere", R"({"altitude_m": "high"})"),
            "\"altitude_m\" is \"high\", but must be a number from -500 to 11000 m.");
  EXPECT_EQ(refusal("standard-atmosphere", R"({"altitude": 1})"),
            "\"altitude\" is not a key of standard-atmosphere (did you mean \"altitude_m\"?); its keys are altitude_m.");
  EXPECT_EQ(refusal("standard-atmosphere", "{}"),
            "\"altitude_m\" is missing from standard-atmosphere: it must be a number from -500 to 11000 m.");
  EXPECT_EQ(refusal("standard-atmosphere", R"([{"altitude_m": 1}, {"altitude_m": null}])"),
            "Item 2 of 2 (index 1): \"altitude_m\" is null, but must be a number from -500 to 11000 m.");
  EXPECT_EQ(refusal("standard-atmosphere", "7"), "standard-atmosphere must be given a JSON object, not a number.");
  EXPECT_EQ(refusal("standard-atmosfere", "{}"),
            "There is no calculation \"standard-atmosfere\" (did you mean \"standard-atmosphere\"?); \"heatwork calculate --list\" shows "
            "all of them.");
  EXPECT_EQ(refusal("gauge-pressure", R"({"dial": 700, "unit": "mmhg", "altitude_m": 0})"),
            "\"unit\" is \"mmhg\", but must be \"mmHg\", \"inHg\", \"mbar\", \"kPa\" or \"percent of ambient\" (did you mean \"mmHg\"?).");
  EXPECT_EQ(refusal("gauge-pressure", R"({"dial": 700, "unit": "mmHg"})"),
            "gauge-pressure takes exactly one of these: \"altitude_m\", or \"barometer_hPa\"; none is given.");
}

TEST(Registry, RefusesHistoriesThatDoNotRise) {
  EXPECT_EQ(refusal("crystallisation", R"({"class": "lithium-disilicate-block", "temperature_history": [[0, 25], [60, 700], [60, 800]]})"),
            "\"temperature_history\"[2][0] is 60 s, but must be above 60 s of the entry before: the list must rise.");
  EXPECT_EQ(refusal("crystallisation", R"({"class": "lithium-disilicate-block", "temperature_history": [[0, 25], [60, 7000]]})"),
            "\"temperature_history\"[1][1] is 7000, but must be a number from -273.15 to 3000 °C.");
}

TEST(Registry, AModelWithoutAnAnswerRefuses) {
  EXPECT_NE(refusal("gauge-pressure", R"({"dial": 720, "unit": "mmHg", "altitude_m": 500})").find("gauge-pressure has no answer here"),
            std::string::npos);
  EXPECT_NE(
      refusal("viscosity", R"({"points": [[600, 10], [700, 11], [800, 5]], "temperatures_C": [700]})").find("viscosity has no answer here"),
      std::string::npos);
}

// Published and closed-form values; what each model proves in full stands beside it. These show that the keys and units are joined right.
TEST(Calculate, sintering_B3_C1_C3_C4) {
  EXPECT_NEAR(number(ask("cylinder-sintering", R"({"relative_density_start": 0.60, "relative_density_end": 0.92})"), "reduced_time"),
              0.4109, 0.005 * 0.4109);
  EXPECT_NEAR(number(ask("pore-closure", R"({"porosity_start": 0.10, "porosity_end": 0.01})"), "reduced_time"), 1.0507, 0.005 * 1.0507);
  EXPECT_NEAR(number(ask("pore-closure", R"({"porosity_start": 0.10, "porosity_end": 0})"), "reduced_time"), 1.9477, 0.005 * 1.9477);
  const Json answers = ask("pore-equilibrium", R"([
      {"radius_um": 10, "sealed_kPa": 101.325, "chamber_kPa": 101.325, "surface_tension_N_per_m": 0.30},
      {"radius_um": 10, "sealed_kPa": 5, "chamber_kPa": 101.325, "surface_tension_N_per_m": 0.30}])");
  EXPECT_NEAR(number(answers.list()->at(0), "volume_ratio"), 0.5855, 0.002 * 0.5855);
  EXPECT_NEAR(number(answers.list()->at(1), "volume_ratio"), 0.01436, 0.002 * 0.01436);
}

TEST(Calculate, metrology_P4_P5) {
  EXPECT_NEAR(number(ask("thermocouple", R"({"type": "S", "emf_mV": 9, "cold_junction_C": 25})"), "temperature_C"), 961.273, 0.002);
  const Json silver = ask("thermocouple", R"({"type": "S", "temperature_C": 961.78})");
  EXPECT_NEAR(number(silver, "emf_mV"), 9.148382, 1e-6);
  EXPECT_NEAR(number(silver, "slope_uV_per_K"), 11.4176, 1e-4);
  EXPECT_NEAR(number(ask("thermocouple-tolerance", R"({"type": "K", "class": 2, "temperature_C": 850})"), "tolerance_K"), 6.375, 0.0005);
  EXPECT_EQ(refusal("thermocouple", R"({"type": "S", "emf_mV": 9})"),
            "\"cold_junction_C\" is missing from thermocouple: it must be a number from -20 to 100 °C, given together with \"emf_mV\" and "
            "\"cold_junction_C\".");
  EXPECT_EQ(refusal("thermocouple-tolerance", R"({"type": "K", "class": 1.5, "temperature_C": 850})"),
            "thermocouple-tolerance has no answer here: \"class\" must be 1, 2 or 3.");
  EXPECT_EQ(refusal("thermocouple-tolerance", R"({"type": "K", "class": 1, "temperature_C": 1200})"),
            "thermocouple-tolerance has no answer here: Class 1 of type K holds from -40 to 1000 °C only; outside it has no tolerance.");
}

TEST(Calculate, metrology_P6_P7_P11_P12_P27) {
  EXPECT_NEAR(number(ask("silver-melting", R"({"oxygen_atm": 0.2095})"), "temperature_C"), 951.61, 0.02);
  const Json line = ask("straight-line", R"({"x": [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511],
      "y": [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160], "origin": 20, "at": 30})");
  EXPECT_NEAR(number(line, "predicted"), -0.149377, 5e-7);
  EXPECT_NEAR(number(line, "predicted_u"), 0.0041386, 5e-8);
  const Json melt = ask("melt-test", R"({"melting_C": 959.8, "prior_sd_K": 12, "spread_K": 2,
      "trials": [{"display_C": 960, "melted": true}, {"display_C": 951, "melted": false}]})");
  EXPECT_NEAR(number(melt, "threshold_C"), 955.948, 0.02);
  EXPECT_NEAR(entry(melt, "interval_C", 1), 962.60, 0.02);
  EXPECT_EQ(*melt.find("advice")->text(), "test next");
  EXPECT_EQ(*ask("melt-test", R"({"melting_C": 959.8, "prior_sd_K": 12, "trials": []})").find("next_display_C")->number(), 960);
  const Json curve = ask("melt-curve", R"({"link": "logit", "trials": [{"display_C": 950, "tested": 8, "melted": 1},
      {"display_C": 956, "tested": 8, "melted": 5}, {"display_C": 962, "tested": 8, "melted": 7}]})");
  EXPECT_NEAR(number(curve, "midpoint_C"), 955, 2);
  EXPECT_EQ(
      refusal("melt-curve", R"({"link": "probit", "trials": [{"display_C": 960, "tested": 1, "melted": 1},
      {"display_C": 951, "tested": 1, "melted": 0}]})"),
      "melt-curve has no answer here: No finite estimate exists: the levels at which wires melted and those at which they did not are "
      "separated.");
  EXPECT_EQ(refusal("melt-test", R"({"melting_C": 959.8, "prior_sd_K": 12, "trials": [{"display_C": 960, "melted": 1}]})"),
            "\"trials\"[0]: \"melted\" is 1, but must be true or false.");
}

TEST(Calculate, metrology_P20_P22) {
  const Json pump = ask("pump-down", R"({"volume_L": 3, "samples": [[0, 1013.25], [30, 382.236], [60, 150.098], [120, 33.284]]})");
  EXPECT_NEAR(number(pump, "speed_L_per_s"), 0.1, 1e-5);
  const std::string both = R"("room_C": 25, "samples": [[0, 20], [30, 25.393], [60, 28.891], [90, 31.417], [120, 33.444], [180, 36.853],
      [240, 39.961], [300, 42.990]]})";
  const Json mixed = ask("rate-of-rise", R"({"volume_L": 3, )" + both);
  EXPECT_EQ(*mixed.find("verdict")->text(), "mixed");
  EXPECT_NEAR(number(mixed, "leak_mbar_L_per_s"), 0.15, 0.003);
  EXPECT_NEAR(number(ask("rate-of-rise", "{" + both), "leak_mbar_per_s"), 0.05, 0.001);
  EXPECT_EQ(refusal("rate-of-rise", R"({"room_C": 25, "samples": [[0, 20], [0, 21]]})"),
            "\"samples\"[1][0] is 0 s, but must be above 0 s of the entry before: the list must rise.");
}

TEST(Calculate, HeatUpFindsTheMuffleThatMadeTheRun) {
  std::string samples;
  for (int i = 0; i <= 60; ++i)
    samples += (i > 0 ? ", [" : "[") + std::to_string(10 * i) + ", " + std::to_string(2020 - 1990 * std::exp(-0.012 * i)) + "]";
  const std::string run = R"({"room_C": 20, "mains_V": 230, "nominal_V": 230, "samples": [)" + samples + "]";
  const Json alone = ask("heat-up", run + "}");
  EXPECT_NEAR(number(alone, "gain_K_per_s"), 2.4, 1e-4);
  EXPECT_NEAR(number(alone, "limit_C"), 2020, 0.1);
  EXPECT_EQ(*alone.find("verdict")->text(), "cannot tell");
  const Json judged = ask("heat-up", run + R"(, "when_new": {"gain_K_per_s": 2.4, "loss_per_s": 0.0012}})");
  EXPECT_EQ(*judged.find("verdict")->text(), "healthy");
  EXPECT_EQ(refusal("heat-up", run + R"(, "when_new": {"gain_K_per_s": 2.4}})"),
            "\"when_new\": \"loss_per_s\" is missing from it: it must be a number above 0 and at most 1 1/s.");
  EXPECT_EQ(refusal("heat-up", run + R"(, "when_new": 3})"), "\"when_new\" must be given a JSON object, not a number.");
}

TEST(Calculate, metrology_P13_P16) {
  const Json chart =
      ask("control-chart", R"({"target": 0, "sigma": 2, "values": [0.5, -1, 1.5, 0, -2, 1, -0.5, 2, -1.5, 0, 2.5, 1, 4, 3, 2, 5, 3.5,
      4.5, 6, 5], "cusum": {"k": 0.5, "h": 4}, "ewma": {"lambda": 0.2, "limit": 2.962}})");
  EXPECT_EQ(number(*chart.find("cusum"), "first_alarm"), 16);
  EXPECT_EQ(number(*chart.find("ewma"), "first_alarm"), 16);
  EXPECT_NEAR(entry(*chart.find("cusum"), "high", 15), 5.75, 1e-9);
  EXPECT_TRUE(chart.find("shewhart")->find("beyond_three_sigma")->is_null());
  EXPECT_NEAR(number(ask("run-length", R"({"chart": "cusum", "k": 0.5, "h": 3, "shift": 1, "sided": 2})"), "average_run_length"), 6.40,
              0.03);
  EXPECT_NEAR(number(ask("run-length", R"({"chart": "shewhart", "limit": 3, "shift": 0, "sided": 2})"), "average_run_length"), 370.40, 0.1);
  EXPECT_EQ(refusal("run-length", R"({"chart": "cusum", "k": 0.5, "shift": 1, "sided": 2})"),
            "run-length has no answer here: the chart \"cusum\" needs \"h\".");
  EXPECT_EQ(refusal("run-length", R"({"chart": "ewma", "k": 0.5, "lambda": 0.2, "limit": 3, "shift": 1, "sided": 2})"),
            "run-length has no answer here: the chart \"ewma\" has no \"k\".");
}

TEST(Calculate, sintering_D1_E1) {
  EXPECT_NEAR(
      number(ask("levelling", R"({"wavelength_um": 100, "thickness_um": 1000, "viscosity_Pa_s": 1e5, "surface_tension_N_per_m": 0.3})"),
             "time_constant_s"),
      10.61, 0.11);
  EXPECT_NEAR(
      number(ask("equal-heat-work", R"({"class": "metal-ceramic-veneer", "temperature_C": 930, "time_s": 60, "other_time_s": 120})"),
             "other_temperature_C"),
      901.3, 0.1);
}

TEST(Calculate, crystallisation_V2_V7) {
  const Json isothermal = ask("crystallisation", R"({"class": "lithium-disilicate-block", "temperature_history": [[0, 820], [60, 820]]})");
  EXPECT_EQ(entry(isothermal, "fraction", 0), 1.0);
  EXPECT_TRUE(isothermal.find("exponent_argument")->list()->at(0).is_null());
  EXPECT_NEAR(entry(isothermal, "fraction", 1), 0.1182, 0.001 * 0.1182);
  const Json own = ask("crystallisation", R"({"steps": [{"exponent": 2, "energy_kJ_per_mol": 300, "rate_per_s": 1.2777e12}],
      "temperature_history": [[0, 760], [300, 760], [300.000001, 820], [360.000001, 820]]})");
  EXPECT_NEAR(entry(own, "exponent_argument", 0), 0.61540, 0.001 * 0.6154);
  EXPECT_NEAR(entry(own, "fraction", 0), 0.31526, 0.001 * 0.31526);
}

TEST(Calculate, zirconia_V9_V11) {
  const Json ramp = ask("zirconia-sintering", R"({"class": "zirconia-3y", "temperature_history": [[0, 20], [35400, 1200]]})");
  EXPECT_NEAR(number(ramp, "log_theta"), -61.6298, 0.001);
  EXPECT_NEAR(number(ramp, "relative_density"), 0.63831, 0.0006);
  EXPECT_NEAR(number(ramp, "density_low"), 0.63831 - 0.015, 0.0006);
  EXPECT_NEAR(number(ramp, "heating_rate_K_per_min"), 2, 1e-6);
  EXPECT_EQ(*ramp.find("standing")->text(), "measured");
  EXPECT_FALSE(*ramp.find("final_stage")->truth());
  const std::string own = R"({"energy_kJ_per_mol": 746, "green_density": 0.5, "a": -59.02543, "b": 0.95537, "nu": 0.3767, "cap": 0.995, )";
  const Json held = ask("zirconia-sintering", own + R"("temperature_history": [[0, 1500], [7200, 1500]]})");
  EXPECT_NEAR(number(held, "grain_um"), 0.7634, 0.0008);
  EXPECT_NEAR(number(held, "linear_shrinkage"), 0.2050, 0.0002);
  EXPECT_EQ(number(ask("zirconia-sintering", R"({"energy_kJ_per_mol": 746, "green_density": 0.5, "a": -59, "b": 1, "nu": 0.4,
      "temperature_history": [[0, 1500], [7200, 1500]]})"),
                   "relative_density"),
            0.99);
  EXPECT_EQ(*held.find("standing")->text(), "outside");
  EXPECT_TRUE(held.find("density_low")->is_null());
  EXPECT_TRUE(*held.find("final_stage")->truth());
}

TEST(Calculate, ZirconiaSinteringRefuses) {
  const std::string firing = R"("temperature_history": [[0, 20], [9000, 1500]]})";
  EXPECT_EQ(refusal("zirconia-sintering", R"({"class": "zirconia-3y", "temperature_history": [[0, 20], [9000, 1701]]})"),
            "zirconia-sintering has no answer here: the highest temperature in degrees Celsius, for the sintering of zirconia, is 1701; it "
            "must lie between -273.15 and 1700");
  EXPECT_EQ(refusal("zirconia-sintering", R"({"class": "glaze", )" + firing), "\"class\" is \"glaze\", but must be \"zirconia-3y\".");
  EXPECT_EQ(refusal("zirconia-sintering",
                    R"({"energy_kJ_per_mol": 746, "green_density": 0.8, "a": -59, "b": 1, "nu": 0.4, "cap": 0.99, )" + firing),
            "\"green_density\" is 0.8, but must be a number from 0.3 to 0.75.");
  EXPECT_EQ(refusal("zirconia-sintering", R"({"class": "zirconia-3y", "temperature_history": [[0, 20], [0, 1500]]})"),
            "\"temperature_history\"[1][0] is 0 s, but must be above 0 s of the entry before: the list must rise.");
}

TEST(Calculate, sintering_S1_S3) {
  const std::string program = R"("temperature_history": [[0, 450], [523.636364, 930], [583.636364, 930]])";
  const Json vacuum =
      ask("sintering", R"({"class": "metal-ceramic-veneer", "sealing": "hard", )" + program +
                           R"(, "pressure_history": [[0, 101.325], [54.545, 101.325], [55.545, 5], [523.636, 5], [524.636, 101.325]]})");
  EXPECT_NEAR(number(vacuum, "porosity_percent"), 0.145, 0.08);
  const Json air =
      ask("sintering", R"({"class": "metal-ceramic-veneer", "sealing": "hard", )" + program + R"(, "pressure_history": [[0, 101.325]]})");
  EXPECT_NEAR(number(air, "porosity_percent"), 5.26, 0.7);
  EXPECT_NEAR(number(air, "relative_density") + number(air, "porosity_percent") / 100, 1, 1e-12);
}

TEST(Calculate, ASectionOfItsOwnPropertiesEqualsTheSameClass) {
  const std::string program = R"("temperature_history": [[0, 450], [500, 900]], "pressure_history": [[0, 5]]})";
  const Json of_class = ask("sintering", R"({"class": "metal-ceramic-veneer", )" + program);
  const Json own = ask("sintering", R"({"A": -3, "B": 6267, "T0_C": 142.2, "crystal_factor": 1.71, "surface_tension_N_per_m": 0.3,
      "particle_radius_um": 6, "shape_factor": 1.3, "coarse_share": 0.5, "coarse_start_radius_um": 15, "layer_mm": 1, )" +
                                        program);
  EXPECT_EQ(write_json(of_class), write_json(own));
}

TEST(Calculate, EquivalentFiringKeepsItsIdentities) {
  const std::string reference = R"("reference_history": [[0, 403], [500, 800], [597, 800]], "reference_hold_s": [500, 597]})";
  for (const std::string name : {"glaze", "zirconia-veneer", "lithium-disilicate-block", "zirconia-3y"}) {
    const std::string of = R"({"class": ")" + name + R"(", "history": )";
    const Json same = ask("equivalent-firing", of + "[[0, 403], [500, 800], [597, 800]], " + reference);
    EXPECT_NEAR(number(same, "shift_K"), 0, 0.1) << name;
    EXPECT_NEAR(number(same, "hold_s"), 0, 1) << name;
    EXPECT_NEAR(number(ask("equivalent-firing", of + "[[0, 391], [500, 788], [597, 788]], " + reference), "shift_K"), -12, 0.1) << name;
    EXPECT_NEAR(number(ask("equivalent-firing", of + "[[0, 403], [500, 800], [557, 800]], " + reference), "hold_s"), -40, 1) << name;
    const Json far = ask("equivalent-firing", of + "[[0, 25], [500, 300], [597, 300]], " + reference);
    EXPECT_TRUE(far.find("shift_K")->is_null() && far.find("hold_s")->is_null()) << name;
  }
}

TEST(Calculate, EquivalentFiringOfItsOwnPropertiesEqualsTheSameClass) {
  const std::string firings = R"("history": [[0, 450], [500, 911]], "reference_history": [[0, 450], [500, 930], [560, 930]],
      "reference_hold_s": [500, 560]})";
  const Json own = ask("equivalent-firing", R"({"A": -3, "B": 6267, "T0_C": 142.2, "crystal_factor": 1.71,
      "surface_tension_N_per_m": 0.3, "particle_radius_um": 6, )" +
                                                firings);
  EXPECT_EQ(write_json(own), write_json(ask("equivalent-firing", R"({"class": "metal-ceramic-veneer", )" + firings)));
}

TEST(Calculate, EquivalentAndTrialFiringRefuse) {
  const std::string firings = R"("history": [[0, 450], [500, 911]], "reference_history": [[0, 450], [500, 930]], "reference_hold_s": )";
  EXPECT_EQ(refusal("equivalent-firing", R"({"class": "glaze", )" + firings + "[400, 560]}"),
            "equivalent-firing has no answer here: the hold goes from 400 to 560 s; it must lie within the reference history, 0 to 500 s, "
            "and must not end before it begins");
  EXPECT_NE(refusal("equivalent-firing", R"({"class": "die-material", )" + firings + "[400, 500]}").find("\"class\" is \"die-material\""),
            std::string::npos);
  const std::string history = R"("history": [[0, 450], [500, 911]]})";
  EXPECT_NE(refusal("trial-firing", R"({"class": "lithium-disilicate-block", )" + history).find("but must be"), std::string::npos);
  EXPECT_EQ(refusal("trial-firing", R"({"class": "glaze", "degree_K": 151, )" + history),
            "\"degree_K\" is 151, but must be a number from -150 to 150 K.");
}

TEST(Calculate, TrialFiringAtTheNominalFiringReturnsTheClass) {
  const Json veneer = ask("trial-firing", R"({"class": "metal-ceramic-veneer",
      "history": [[0, 450], [523.6363636, 930], [583.6363636, 930]]})");
  EXPECT_EQ(number(veneer, "A"), -3);
  EXPECT_NEAR(number(veneer, "shift_K"), 0, 0.1);
  EXPECT_NEAR(number(veneer, "T0_C"), 142.2, 0.5);
  const std::string hotter = R"({"class": "glaze", "history": [[0, 460], [338.1818182, 770], [398.1818182, 770]])";
  EXPECT_NEAR(number(ask("trial-firing", hotter + R"(, "degree_K": 10})"), "shift_K"), 0, 0.1);
  EXPECT_GT(number(ask("trial-firing", hotter + "}"), "shift_K"), 3);
}

TEST(Calculate, SectionHeatingGoesTowardsItsSurroundings) {
  const Json answer = ask("section-heating", R"({"layers": [{"thickness_mm": 2, "density_kg_per_m3": 2400, "conductivity_W_per_mK": 1.4,
      "specific_heat_J_per_kgK": [750, 0.5]}], "start_C": 25, "surroundings_history": [[0, 900], [600, 900]], "emissivity": 0.9,
      "film_W_per_m2K": 10, "sides": 2, "times_s": [0, 30, 600]})");
  EXPECT_NEAR(entry(answer, "surface_C", 0), 25, 1e-9);
  EXPECT_GT(entry(answer, "surface_C", 1), entry(answer, "core_C", 1));
  EXPECT_NEAR(entry(answer, "core_C", 2), 900, 0.5);
}

// Numbers swapped for odd ones, everywhere: an answer that can be written, or a refusal in one sentence; never a bug of ours.
TEST(Calculate, OddNumbersGiveAnAnswerOrARefusal) {
  const std::vector<std::pair<std::string, std::string>> questions = {
      {"viscosity", R"({"points": [[@, @], [@, @], [@, @]], "temperatures_C": [@, @]})"},
      {"cylinder-sintering", R"({"relative_density_start": @, "relative_density_end": @})"},
      {"pore-closure", R"({"porosity_start": @, "porosity_end": @})"},
      {"pore-equilibrium", R"({"radius_um": @, "sealed_kPa": @, "chamber_kPa": @, "surface_tension_N_per_m": @})"},
      {"levelling", R"({"wavelength_um": @, "thickness_um": @, "viscosity_Pa_s": @, "surface_tension_N_per_m": @})"},
      {"equal-heat-work", R"({"A": @, "B": @, "T0_C": @, "temperature_C": @, "time_s": @, "other_time_s": @})"},
      {"sintering",
       R"({"class": "glaze", "temperature_history": [[0, @], [60, @]], "pressure_history": [[@, @]], "start_relative_density": 0.525})"},
      {"crystallisation",
       R"({"steps": [{"exponent": @, "energy_kJ_per_mol": @, "rate_per_s": @}], "temperature_history": [[0, @], [60, @]]})"},
      {"equivalent-firing", R"({"A": @, "B": @, "T0_C": @, "crystal_factor": 1, "surface_tension_N_per_m": 0.3, "particle_radius_um": 6,
          "history": [[0, @], [60, @]], "reference_history": [[0, @], [60, @]], "reference_hold_s": [0, 60]})"},
      {"zirconia-sintering", R"({"class": "zirconia-3y", "temperature_history": [[0, @], [60, @], [9000, @]]})"},
      {"zirconia-sintering", R"({"energy_kJ_per_mol": @, "green_density": @, "a": @, "b": @, "nu": @, "cap": @,
          "temperature_history": [[0, @], [60, @]]})"},
      {"equivalent-firing", R"({"energy_kJ_per_mol": @, "history": [[0, @], [60, @]],
          "reference_history": [[0, @], [60, @]], "reference_hold_s": [20, 60]})"},
      {"equivalent-firing", R"({"class": "lithium-disilicate-block", "history": [[0, @], [60, @]],
          "reference_history": [[0, @], [60, @]], "reference_hold_s": [20, 60]})"},
      {"trial-firing", R"({"class": "glaze", "history": [[0, @], [60, @]], "degree_K": @, "glass_transition_C": @})"},
      {"gauge-pressure", R"({"dial": @, "unit": "inHg", "altitude_m": @})"},
      {"thermocouple", R"({"type": "K", "emf_mV": @, "cold_junction_C": @})"},
      {"thermocouple", R"({"type": "B", "temperature_C": @})"},
      {"silver-melting", R"({"oxygen_atm": @, "oxygen_solubility": @})"},
      {"melt-test", R"({"melting_C": @, "prior_mean_C": @, "prior_sd_K": @, "lapse": @, "trials": [{"display_C": @, "melted": true}]})"},
      {"melt-test", R"({"melting_C": 930, "prior_sd_K": @, "spread_K": @, "lapse": 0, "trials": [{"display_C": @, "melted": true}]})"},
      {"melt-curve",
       R"({"link": "logit", "trials": [{"display_C": @, "tested": @, "melted": @}, {"display_C": @, "tested": 4, "melted": 2}]})"},
      {"straight-line", R"({"x": [@, @, @], "y": [@, @, @], "origin": @, "at": @})"},
      {"pump-down", R"({"volume_L": @, "samples": [[0, @], [10, @], [20, @], [30, @]]})"},
      {"rate-of-rise", R"({"room_C": @, "samples": [[0, @], [10, @], [20, @], [30, @], [40, @], [50, @]]})"},
      {"heat-up",
       R"({"room_C": 25, "mains_V": 300, "nominal_V": @, "when_new": {"gain_K_per_s": @, "loss_per_s": @}, "samples": [[0, @], [60, @],
          [70, @], [80, 300], [90, 320], [100, @], [110, 400], [120, 500], [130, @], [140, 700]]})"},
      {"control-chart", R"({"target": @, "sigma": @, "values": [@, @, @]})"},
      {"run-length", R"({"chart": "cusum", "k": @, "h": @, "shift": @, "sided": 2})"},
      {"run-length", R"({"chart": "ewma", "lambda": 0.5, "limit": @, "shift": @, "sided": 1})"},
      {"water-saturation", R"({"temperature_C": @})"}};
  const std::vector<std::string> odd = {"0",   "-0.0", "1e-300", "0.5", "0.94", "1",    "2",  "25",      "300",  "700",
                                        "815", "930",  "2999",   "1e5", "1e20", "1e99", "-1", "-273.15", "-300", "14"};
  std::mt19937 random(11);
  int answered = 0;
  for (int round = 0; round < 300; ++round) {
    for (const auto& [name, pattern] : questions) {
      std::string text;
      for (const char c : pattern) text += c == '@' ? odd[random() % odd.size()] : std::string(1, c);
      try {
        const std::string answer = write_json(ask(name, text));
        ++answered;
      } catch (const Failure& refused) {
        EXPECT_NE(std::string(refused.what()), "");
      } catch (const std::exception& bug) {
        ADD_FAILURE() << name << " " << text << ": " << bug.what();
      }
    }
  }
  EXPECT_GT(answered, 200);
}

TEST(Schema, OfACalculationNamesRangesAndChoices) {
  const std::string schema = write_json(describe_as_schema(find_calculation("gauge-pressure")));
  EXPECT_NE(schema.find("\"additionalProperties\": false"), std::string::npos);
  EXPECT_NE(schema.find("\"percent of ambient\""), std::string::npos);
  EXPECT_NE(schema.find("\"oneOf\""), std::string::npos);
}

}  // namespace
}  // namespace heatwork::desk
