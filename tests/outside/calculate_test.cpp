// One number into one model, through the real binary.
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>

#include "program.h"

namespace heatwork::outside {
namespace {

nlohmann::json ask(const std::string& name, const std::string& input) {
  const Ended ended = run({"calculate", name}, {.input = input});
  EXPECT_EQ(ended.code, 0) << ended.err;
  EXPECT_EQ(ended.err, "");
  return nlohmann::json::parse(ended.out, nullptr, false);
}

void expect_refused(const std::string& name, const std::string& input, const std::string& sentence) {
  const Ended ended = run({"calculate", name, "-"}, {.input = input});
  EXPECT_EQ(ended.code, 2) << input;
  EXPECT_EQ(ended.out, "") << input;
  EXPECT_EQ(ended.err, sentence + "\n") << input;
  const Ended german = run({"--language", "de", "calculate", name, "-"}, {.input = input});
  EXPECT_EQ(german.code, 2) << input;
  EXPECT_NE(german.err, ended.err) << "no German for: " << sentence;
}

std::string refused_in_german(const std::string& name, const std::string& input) {
  return run({"--language", "de", "calculate", name}, {.input = input}).err;
}

std::string firing_S(const std::string& top, const std::string& top_s, const std::string& end_s, const std::string& pressure) {
  return R"({"class": "metal-ceramic-veneer", "sealing": "hard", "temperature_history": [[0, 450], [)" + top_s + ", " + top + "], [" +
         end_s + ", " + top + R"(]], "pressure_history": [)" + pressure + "]}";
}

TEST(Calculate, sintering_A1_viscosity_of_a_reference_glass) {
  // Three fixed points of a glass made by its own law: the law comes back, and its values between.
  const auto answer = ask("viscosity", R"({"points": [[1000, 3.0], [700, 6.0], [550, 9.0]], "temperatures_C": [700, 1000]})");
  EXPECT_NEAR(answer["log10_Pa_s"][0], 6.0, 1e-9);
  EXPECT_NEAR(answer["log10_Pa_s"][1], 3.0, 1e-9);
}

TEST(Calculate, sintering_B3_and_C1_and_C4_and_D1) {
  EXPECT_NEAR(ask("cylinder-sintering", R"({"relative_density_start": 0.60, "relative_density_end": 0.92})")["reduced_time"], 0.4109,
              0.0021);
  EXPECT_NEAR(ask("pore-closure", R"({"porosity_start": 0.10, "porosity_end": 0.01})")["reduced_time"], 1.0507, 0.0053);
  EXPECT_NEAR(ask("pore-closure", R"({"porosity_start": 0.10, "porosity_end": 0})")["reduced_time"], 1.9477, 0.0097);
  const std::string pore = R"({"radius_um": 10, "surface_tension_N_per_m": 0.30, "chamber_kPa": 101.325, "sealed_kPa": )";
  EXPECT_NEAR(ask("pore-equilibrium", pore + "101.325}")["volume_ratio"], 0.5855, 0.0012);
  EXPECT_NEAR(ask("pore-equilibrium", pore + "5}")["volume_ratio"], 0.01436, 0.00003);
  const std::string ripple = R"(, "viscosity_Pa_s": 1e5, "surface_tension_N_per_m": 0.3})";
  EXPECT_NEAR(ask("levelling", R"({"wavelength_um": 100, "thickness_um": 1000)" + ripple)["time_constant_s"], 10.61, 0.11);
  EXPECT_NEAR(ask("levelling", R"({"wavelength_um": 300, "thickness_um": 30)" + ripple)["time_constant_s"], 328.1, 3.3);
}

TEST(Calculate, sintering_E1_heat_work) {
  const auto answer =
      ask("equal-heat-work", R"({"class": "metal-ceramic-veneer", "temperature_C": 930, "time_s": 60, "other_time_s": 120})");
  EXPECT_NEAR(answer["other_temperature_C"], 901.3, 0.1);
  EXPECT_NEAR(930 - answer["doubling_K"].get<double>(), 900.2, 0.1);
}

TEST(Calculate, sintering_S1_S3_S4_S9) {
  const std::string top_s = "523.6363636", end_s = "583.6363636", from_500 = "[0, 101.325], [54.5454545, 101.325], [55.5454545, 5]";
  const auto released = ask("sintering", firing_S("930", top_s, end_s, from_500 + ", [523.6363636, 5], [524.6363636, 101.325]"));
  const auto air = ask("sintering", firing_S("930", top_s, end_s, "[0, 101.325]"));
  const auto kept = ask("sintering", firing_S("930", top_s, end_s, from_500));
  const auto cold =
      ask("sintering", firing_S("830", "414.5454545", "474.5454545", from_500 + ", [414.5454545, 5], [415.5454545, 101.325]"));
  EXPECT_NEAR(released["porosity_percent"], 0.145, 0.08);
  EXPECT_NEAR(air["porosity_percent"], 5.26, 0.7);
  EXPECT_NEAR(kept["porosity_percent"], 0.29, 0.1);
  EXPECT_NEAR(cold["porosity_percent"], 0.27, 0.1);
  EXPECT_NEAR(cold["rounding_um"], 12.6, 0.03 * 12.6);
  EXPECT_NEAR(cold["levelling_exponent"], 1.58, 0.03 * 1.58);
}

TEST(Calculate, ATrialFiringThenHowMuchLessAnotherWas) {
  const auto glass = ask("trial-firing", R"({"class": "zirconia-veneer", "history": [[0, 450], [398.1818182, 815], [458.1818182, 815]]})");
  EXPECT_NEAR(glass["shift_K"], 0, 0.1);
  const std::string reference = R"("reference_history": [[0, 433], [430, 818], [493, 818]], "reference_hold_s": [430, 493]})";
  const std::string own = R"({"A": )" + glass["A"].dump() + R"(, "B": )" + glass["B"].dump() + R"(, "T0_C": )" + glass["T0_C"].dump() +
                          R"(, "crystal_factor": 1.14, "surface_tension_N_per_m": 0.3, "particle_radius_um": 6, "history": )";
  EXPECT_NEAR(ask("equivalent-firing", own + "[[0, 421], [430, 806], [493, 806]], " + reference)["shift_K"], -12, 0.1);
  EXPECT_NEAR(ask("equivalent-firing", own + "[[0, 433], [430, 818], [453, 818]], " + reference)["hold_s"], -40, 1);
  const auto far = ask("equivalent-firing", own + "[[0, 20], [430, 200]], " + reference);
  EXPECT_TRUE(far["shift_K"].is_null());
  EXPECT_TRUE(far["hold_s"].is_null());
}

TEST(Calculate, crystallisation_V2_V3) {
  const auto answers = ask("crystallisation", R"([
      {"class": "lithium-disilicate-block", "temperature_history": [[0, 820], [60, 820]]},
      {"class": "lithium-disilicate-block", "temperature_history": [[0, 800], [420, 800]]},
      {"class": "lithium-disilicate-block", "temperature_history": [[0, 780], [420, 780]]},
      {"class": "lithium-disilicate-block", "temperature_history": [[0, 820], [140.9, 820]]},
      {"class": "lithium-disilicate-block", "temperature_history": [[0, 820], [292.8, 820]]}])");
  const std::vector<double> expected = {0.1182, 0.8348, 0.3948, 0.5, 0.95};
  ASSERT_EQ(answers.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_NEAR(answers[i]["fraction"][1], expected[i], 0.001 * expected[i]) << i;
    EXPECT_TRUE(answers[i]["exponent_argument"][0].is_null());
  }
}

TEST(Calculate, metrology_P17_P18_P19) {
  EXPECT_NEAR(ask("standard-atmosphere", R"({"altitude_m": 1500})")["pressure_hPa"], 845.60, 0.02);
  EXPECT_NEAR(ask("water-saturation", R"({"temperature_C": 26.85})")["pressure_mbar"], 35.3658941, 1e-7 * 35);
  EXPECT_NEAR(ask("gauge-pressure", R"({"dial": 720, "unit": "mmHg", "altitude_m": 0})")["absolute_mbar"], 53.33, 0.05);
}

TEST(Calculate, AWallComesToItsSurroundings) {
  const auto answer = ask("section-heating", R"({"layers": [{"thickness_mm": 0.5, "density_kg_per_m3": 6050, "conductivity_W_per_mK": 2.3,
      "specific_heat_J_per_kgK": 550}, {"thickness_mm": 1.2, "density_kg_per_m3": 2420, "conductivity_W_per_mK": [1.2, 0.0005],
      "specific_heat_J_per_kgK": [750, 0.57]}], "start_C": 25, "surroundings_history": [[0, 450], [400, 816.7], [600, 816.7]],
      "emissivity": 0.9, "film_W_per_m2K": 8, "sides": 1, "times_s": [10, 200, 600]})");
  EXPECT_LT(answer["core_C"][0], answer["surface_C"][0]);
  EXPECT_NEAR(answer["surface_C"][2], 816.7, 1);
}

TEST(Calculate, ReadsAFileAndKeepsTheOrderOfAList) {
  const Folder folder;
  folder.write("ask.json", R"([{"altitude_m": 2000}, {"altitude_m": 0}, {"altitude_m": 1000}])");
  const Ended ended = run({"calculate", "standard-atmosphere", folder.at("ask.json")});
  EXPECT_EQ(ended.code, 0);
  const auto answers = nlohmann::json::parse(ended.out);
  ASSERT_EQ(answers.size(), 3U);
  EXPECT_LT(answers[0]["pressure_hPa"], answers[2]["pressure_hPa"]);
  EXPECT_NEAR(answers[1]["pressure_hPa"], 1013.25, 1e-9);
}

TEST(Calculate, PrintsTenSignificantDigits) {
  const std::string out = run({"calculate", "standard-atmosphere"}, {.input = R"({"altitude_m": 1500})"}).out;
  EXPECT_TRUE(std::regex_match(out, std::regex("\\{\n  \"pressure_hPa\": 845\\.596[0-9]{4}\n\\}\n"))) << out;
}

TEST(Calculate, BadInputIsOneWholeSentence) {
  expect_refused("standard-atmosphere", R"({"altitude_m": 12000})", "\"altitude_m\" is 12000, but must be a number from -500 to 11000 m.");
  expect_refused("standard-atmosphere", R"({"altitude_m": NaN})",
                 "\"altitude_m\" is not a finite number, but must be a number from -500 to 11000 m.");
  expect_refused("standard-atmosphere", R"({"altitude_m": 1e999})",
                 "\"altitude_m\" is not a finite number, but must be a number from -500 to 11000 m.");
  expect_refused("standard-atmosphere", R"({"altitude_m": true})", "\"altitude_m\" is true, but must be a number from -500 to 11000 m.");
  expect_refused("standard-atmosphere", R"({"alitude_m": 5})",
                 "\"alitude_m\" is not a key of standard-atmosphere (did you mean \"altitude_m\"?); its keys are altitude_m.");
  expect_refused("standard-atmosphere", R"({"altitude_m": 1, "altitude_m": 2})",
                 "standard input:1:19: the key \"altitude_m\" stands here a second time; a key may stand once.");
  expect_refused("standard-atmosphere", R"({"altitude_m": 1} x)",
                 "standard input:1:19: something follows the end of the JSON value; nothing may.");
  expect_refused("standard-atmosphere", "", "standard input:1:1: the text is empty; a JSON object, or a list of them, is expected.");
  expect_refused("standard-atmosphere", R"([{"altitude_m": 0}, {"altitude_m": -600}])",
                 "Item 2 of 2 (index 1): \"altitude_m\" is -600, but must be a number from -500 to 11000 m.");
  expect_refused("gauge-pressure", R"({"dial": 720, "unit": "mmHg", "altitude_m": 500})",
                 "gauge-pressure has no answer here: This dial reading leaves no pressure at all in this air (-5.3 mbar): the unit or "
                 "the altitude is "
                 "wrong.");
  expect_refused("equal-heat-work", R"({"class": "metal-ceramic-vener", "temperature_C": 930, "time_s": 60, "other_time_s": 120})",
                 "\"class\" is \"metal-ceramic-vener\", but must be \"glaze\", \"metal-ceramic-opaque\", \"metal-ceramic-veneer\", "
                 "\"zirconia-veneer\", \"zirconia-veneer-higher\" or \"zirconia-veneer-lower\" (did you mean \"metal-ceramic-veneer\"?).");
  expect_refused("equal-heat-work", R"({"A": -3, "B": 6267, "temperature_C": 930, "time_s": 60, "other_time_s": 120})",
                 "\"T0_C\" is missing from equal-heat-work: it must be a number from -273.15 to 2000 °C, given together with \"A\", \"B\" "
                 "and \"T0_C\".");
  expect_refused("crystallisation", R"({"class": "lithium-disilicate-block", "temperature_history": [[0, 400], [10, 500], [5, 600]]})",
                 "\"temperature_history\"[2][0] is 5 s, but must be above 10 s of the entry before: the list must rise.");
}

TEST(Calculate, BadInputIsSaidInGermanWhole) {
  EXPECT_EQ(refused_in_german("standard-atmosphere", R"({"altitude_m": 12000})"),
            "\"altitude_m\" ist 12000; erlaubt ist eine Zahl von -500 bis 11000 m.\n");
  EXPECT_EQ(
      refused_in_german("standard-atmosphere", R"([{"altitude_m": 0}, {"alitude_m": 5}])"),
      "Eintrag 2 von 2 (Index 1): \"alitude_m\" ist kein Schlüssel von standard-atmosphere (ist \"altitude_m\" gemeint?); die Schlüssel "
      "sind altitude_m.\n");
  EXPECT_EQ(refused_in_german("standard-atmosphere", R"({"altitude_m": 1} x)"),
            "standard input:1:19: hinter dem Ende des JSON-Werts steht noch etwas; dort darf nichts stehen.\n");
  EXPECT_EQ(
      refused_in_german("gauge-pressure", R"({"dial": 720, "unit": "mmHg", "altitude_m": 500})"),
      "gauge-pressure hat hier keine Antwort: Diese Ablesung lässt in dieser Luft gar keinen Druck übrig (-5,3 mbar): Einheit oder Höhe "
      "ist falsch.\n");
  EXPECT_EQ(
      refused_in_german("crystallisation", R"({"class": "lithium-disilicate-block", "temperature_history": [[0, 400]]})"),
      "\"temperature_history\" hat 1 Einträge; erlaubt ist eine Liste von 2 bis 100000 Zeilen [s -100000000 … 100000000 s, C -273.15 … "
      "3000 °C], die erste Spalte steigend.\n");
}

TEST(Calculate, TheSettingSaysInWhichLanguageSomethingIsWrong) {
  const Folder folder;
  const Setting setting{.input = R"({"altitude_m": 12000})", .environment = {{"XDG_CONFIG_HOME", folder.at("")}}};
  std::filesystem::create_directories(folder.at("heatwork"));
  folder.write("heatwork/settings.toml", "format = 1\n[settings]\nlanguage = \"de\"\n");
  EXPECT_EQ(run({"calculate", "standard-atmosphere"}, setting).err,
            "\"altitude_m\" ist 12000; erlaubt ist eine Zahl von -500 bis 11000 m.\n");
  EXPECT_EQ(run({"--language", "en", "calculate", "standard-atmosphere"}, setting).err,
            "\"altitude_m\" is 12000, but must be a number from -500 to 11000 m.\n");
  folder.write("heatwork/settings.toml", "format = 1\n[settings]\nlanguage = \"de\"\nunits = \"kelvin\"\n");
  const std::string wrong = run({"store", "status"}, setting).err;
  EXPECT_NE(wrong.find("units ist \"kelvin\"; erlaubt sind \"celsius\" und \"fahrenheit\""), std::string::npos) << wrong;
  EXPECT_EQ(run({"--language", "latin", "calculate", "--list"}).err,
            "heatwork calculate: --language is \"latin\", but must be en or de; \"heatwork calculate --help\" shows how it is used.\n");
}

TEST(Calculate, UnknownNamesAndLaterModelsAreRefused) {
  for (const char* name : {"sinterring", "zirconia-stress"}) {
    const Ended ended = run({"calculate", name}, {.input = "{}"});
    EXPECT_EQ(ended.code, 2);
    EXPECT_EQ(ended.out, "");
    EXPECT_EQ(ended.err.find("There is no calculation \"" + std::string(name) + "\""), 0U) << ended.err;
  }
  const Ended none = run({"calculate", "viscosity", "nowhere.json"});
  EXPECT_EQ(none.code, 2);
  EXPECT_EQ(none.err, "nowhere.json cannot be read: No such file or directory.\n");
}

TEST(Calculate, ListsAndDescribesEveryModel) {
  const Ended list = run({"calculate", "--list"});
  EXPECT_EQ(list.code, 0);
  EXPECT_LE(widest(list.out), 100U);
  std::istringstream lines(list.out);
  int count = 0;
  for (std::string name, rest; lines >> name && std::getline(lines, rest); ++count) {
    const Ended text = run({"calculate", name, "--describe"});
    EXPECT_EQ(text.code, 0);
    EXPECT_LE(widest(text.out), 100U) << text.out;
    const auto schema = nlohmann::json::parse(run({"calculate", name, "--describe", "--json"}).out);
    EXPECT_EQ(schema["title"], name);
    EXPECT_EQ(schema["type"], "object");
    EXPECT_EQ(schema["additionalProperties"], false);
    EXPECT_TRUE(schema["$defs"]["answer"]["properties"].is_object());
  }
  EXPECT_EQ(count, 31);
}

}  // namespace
}  // namespace heatwork::outside
