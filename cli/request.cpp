#include "cli/request.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "desk/errors.h"
#include "quantity/read.h"

namespace heatwork::cli {
namespace {

/// Everything the words may fill.
struct Filled {
  VersionRequest version;
  DemoRequest demo;
  RehearseRequest rehearse;
  CalculateRequest calculate;
  MaterialListRequest material_list;
  MaterialShowRequest material_show;
  MaterialCalibrateRequest material_calibrate;
  SchemaRequest schema;
  std::string units = "celsius";
  std::string picture, noun;
  std::string trial_piece, trial_material, trial_degree, trial_transition;
  bool no_strip = false;
  bool version_asked = false;
};

CLI::App* verb(CLI::App& above, const std::string& name, const std::string& purpose, const std::string& example) {
  CLI::App* made = above.add_subcommand(name, purpose);
  made->footer("Example:\n  heatwork " + example);
  made->allow_extras();
  made->require_subcommand(0, 1);  // a name such as "material" after another verb is then no verb
  return made;
}

void add_rehearse(CLI::App& app, Filled& filled) {
  CLI::App* rehearse = verb(app, "rehearse", "Rehearse a firing and judge it", "rehearse heatwork-demo/firing.toml --picture firing.svg");
  rehearse->add_option("FILE", filled.rehearse.file, "the firing: pieces, tray, furnace, program by name")->type_name("")->required();
  rehearse->add_flag("--json", filled.rehearse.json, "findings, numbers and moments as JSON");
  rehearse->add_flag("--traces", filled.rehearse.traces, "with --json: every line over time as well");
  rehearse->add_option("--picture", filled.picture, "draw the firing into FILE.svg, .png or .pdf")->type_name("FILE");
  rehearse->add_flag("--no-strip", filled.no_strip, "leave out the small picture in the text");
  rehearse->add_option("--units", filled.units, "celsius (taken where not given) or fahrenheit, in text and picture")->type_name("UNITS");
}

void add_calibrate(CLI::App& material, Filled& filled) {
  CLI::App* calibrate =
      verb(material, "calibrate", "Make your own from one trial firing and how it came out",
           "material calibrate my-lab/window-firing.toml --piece crown-16 --name my-dentine --output my-lab/my-dentine.toml");
  desk::CalibrateAsked& asked = filled.material_calibrate.asked;
  calibrate->add_option("FIRING", asked.firing_file, "the trial: piece, tray, furnace, program by name")->type_name("")->required();
  calibrate->add_option("--name", asked.name, "what pieces shall call the material")->type_name("NAME")->required();
  calibrate->add_option("--output", asked.output, "the material's file, beside your firings; ends in .toml")->type_name("FILE")->required();
  calibrate->add_option("--piece", filled.trial_piece, "the piece that was judged, where there are several")->type_name("NAME");
  calibrate->add_option("--material", filled.trial_material, "the powder or glaze that was judged, where its green layers have several")
      ->type_name("NAME");
  calibrate
      ->add_option("--degree", filled.trial_degree,
                   "it looked like so much too much: \"10 K\", too little: \"-10 K\"; else it looked right")
      ->type_name("KELVIN");
  calibrate->add_option("--glass-transition", filled.trial_transition, "of the glass, where the maker tells it: \"530 °C\"")
      ->type_name("TEMPERATURE");
  calibrate->add_flag("--json", filled.material_calibrate.json, "as JSON");
}

void add_others(CLI::App& app, Filled& filled) {
  CLI::App* demo = verb(app, "demo", "Write the demo lab, invented and odd on purpose, into a folder", "demo my-lab");
  demo->add_option("FOLDER", filled.demo.folder, "made where there is none; heatwork-demo where not given")->type_name("");
  demo->add_flag("--json", filled.demo.json, "what was written as JSON");

  CLI::App* calculate = verb(app, "calculate", "Put one JSON object into one model and get its numbers",
                             "calculate viscosity ask.json\n  echo '{\"altitude_m\": 1500}' | heatwork calculate standard-atmosphere");
  calculate->add_option("NAME", filled.calculate.name, "the model")->type_name("");
  calculate->add_option("FILE", filled.calculate.file, "one JSON object, or a list of them; - or nothing: standard input")->type_name("");
  calculate->add_flag("--list", filled.calculate.list, "every model, what it is for and its source");
  calculate->add_flag("--describe", filled.calculate.describe, "what the model takes and gives: meaning, unit, allowed range");
  calculate->add_flag("--json", filled.calculate.json, "with --describe: as JSON Schema");

  CLI::App* material =
      verb(app, "material", "Look at materials and the sources of their values, or make your own", "material show zirconia-veneer");
  CLI::App* list = verb(*material, "list", "The materials that ship", "material list");
  list->add_flag("--json", filled.material_list.json, "as JSON");
  CLI::App* show = verb(*material, "show", "Every value of one material with range, standing and source", "material show zirconia-veneer");
  show->add_option("NAME", filled.material_show.name, "one that ships, or your own FILE.toml")->type_name("")->required();
  show->add_flag("--json", filled.material_show.json, "as JSON");

  add_calibrate(*material, filled);

  CLI::App* schema = verb(app, "schema", "What the files of a lab may hold, as JSON Schema", "schema furnace");
  schema->add_option("NOUN", filled.noun, "program, furnace, piece ...; nothing: the kinds of file there are")->type_name("");
  schema->add_flag("--json", filled.schema.json, "a schema is JSON as it is; taken so that every verb knows it");
}

[[noreturn]] void refuse(const std::string& path, const std::string& what) {
  throw desk::Failure(desk::ErrorWord::wrong_use,
                      fmt::format("heatwork{}: {}; \"heatwork{} --help\" shows how it is used.", path, what, path));
}

/// " material show": the verbs chosen so far.
std::string path_of(const CLI::App& app) {
  const auto chosen = app.get_subcommands();
  return chosen.empty() ? "" : " " + chosen.front()->get_name() + path_of(*chosen.front());
}

const CLI::App& innermost(const CLI::App& app) {
  const auto chosen = app.get_subcommands();
  return chosen.empty() ? app : innermost(*chosen.front());
}

std::vector<std::string> known_words(const CLI::App& app, bool options) {
  std::vector<std::string> known;
  if (options) {
    for (const CLI::Option* option : app.get_options()) {
      for (const std::string& name : option->get_lnames()) known.push_back("--" + name);
    }
  } else {
    for (const CLI::App* each : app.get_subcommands([](const CLI::App*) { return true; })) known.push_back(each->get_name());
  }
  return known;
}

void refuse_unknown(const CLI::App& app) {
  const std::vector<std::string> left = app.remaining(true);
  if (left.empty()) return;
  const CLI::App& at = innermost(app);
  const std::string& word = left.front();
  const bool option = word.starts_with('-');
  const std::vector<std::string> known = known_words(at, option);
  const std::string meant = quantity::near_miss(word, known);
  std::string what = fmt::format("\"{}\" is not known here", word);
  if (!meant.empty())
    what += fmt::format(" (did you mean \"{}\"?)", meant);
  else if (!option && !known.empty())
    what += fmt::format(", there are {}", fmt::join(known, ", "));
  refuse(path_of(app), what);
}

MaterialCalibrateRequest calibrate_request(Filled& filled) {
  desk::CalibrateAsked& asked = filled.material_calibrate.asked;
  const auto given = [](const std::string& word) { return word.empty() ? std::nullopt : std::optional(word); };
  asked.piece = given(filled.trial_piece);
  asked.material = given(filled.trial_material);
  asked.degree = given(filled.trial_degree);
  asked.glass_transition = given(filled.trial_transition);
  return filled.material_calibrate;
}

Request chosen(const CLI::App& app, Filled& filled) {
  if (filled.version_asked) return filled.version;
  if (app.got_subcommand("demo")) return filled.demo;
  if (app.got_subcommand("rehearse")) {
    if (filled.units != "celsius" && filled.units != "fahrenheit") {
      refuse(" rehearse", fmt::format("--units is \"{}\", but must be celsius or fahrenheit", filled.units));
    }
    if (filled.rehearse.traces && !filled.rehearse.json) refuse(" rehearse", "--traces needs --json");
    filled.rehearse.fahrenheit = filled.units == "fahrenheit";
    filled.rehearse.strip = !filled.no_strip;
    if (!filled.picture.empty()) filled.rehearse.picture = filled.picture;
    return filled.rehearse;
  }
  if (app.got_subcommand("calculate")) {
    if (!filled.calculate.list && filled.calculate.name.empty()) refuse(" calculate", "NAME is missing, or --list");
    return filled.calculate;
  }
  if (const CLI::App* material = app.get_subcommand("material"); material->parsed()) {
    if (material->got_subcommand("show")) return filled.material_show;
    if (material->got_subcommand("list")) return filled.material_list;
    if (material->got_subcommand("calibrate")) return calibrate_request(filled);
    refuse(" material", "list, show or calibrate is missing");
  }
  if (app.got_subcommand("schema")) {
    if (!filled.noun.empty()) filled.schema.noun = filled.noun;
    return filled.schema;
  }
  refuse("", fmt::format("one of these is missing: {}", fmt::join(known_words(app, false), ", ")));
}

/// Sentences of the parsing library, said in our own words.
[[noreturn]] void refuse_parse(const CLI::App& app, const CLI::ParseError& error) {
  const std::string said = error.what();
  const std::string name = said.substr(0, said.find_first_of(" :"));
  if (error.get_name() == "RequiredError") refuse(path_of(app), fmt::format("{} is missing", name));
  if (error.get_name() == "ArgumentMismatch") refuse(path_of(app), fmt::format("{} takes exactly one value", name));
  refuse(path_of(app), fmt::format("{} cannot be understood", name));
}

}  // namespace

Request read_request(const std::vector<std::string>& words) {
  CLI::App app("Rehearses a furnace firing by physics and judges it, before the piece is spoiled.", "heatwork");
  app.get_formatter()->column_width(28);
  app.set_help_flag("-h,--help", "show this, or with a verb how the verb is used");
  app.footer(
      "\"heatwork VERB --help\" shows each with an example.\nExample:\n  heatwork demo my-lab && heatwork rehearse my-lab/firing.toml");
  app.allow_extras();
  app.require_subcommand(0, 1);
  Filled filled;
  app.add_flag("--version", filled.version_asked, "what this is, its versions, and for whom");
  add_rehearse(app, filled);
  add_others(app, filled);
  std::vector<std::string> reversed(words.rbegin(), words.rend());  // as the library wants them
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    return HelpRequest{app.help()};
  } catch (const CLI::ParseError& error) {
    refuse_parse(app, error);
  }
  refuse_unknown(app);
  return chosen(app, filled);
}

}  // namespace heatwork::cli
