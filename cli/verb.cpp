#include "cli/verb.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <map>
#include <memory>
#include <utility>

#include "cli/output.h"
#include "cli/shown_verb.h"
#include "desk/errors.h"
#include "quantity/read.h"

namespace heatwork::cli {

/// What each verb does, and what must hold of its words first.
class Chosen {
 public:
  struct Of {
    Deed deed;
    std::vector<Check> checks;
  };
  Of& of(const CLI::App& app) { return verbs_[&app]; }

 private:
  std::map<const CLI::App*, Of> verbs_;
};

namespace {

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

/// Sentences of the parsing library, said in our own words.
[[noreturn]] void refuse_parse(const CLI::App& app, const CLI::ParseError& error) {
  const std::string said = error.what();
  const std::string name = said.substr(0, said.find_first_of(" :"));
  if (error.get_name() == "RequiredError") refuse(path_of(app), fmt::format("{} is missing", name));
  if (error.get_name() == "ArgumentMismatch") refuse(path_of(app), fmt::format("{} takes exactly one value", name));
  refuse(path_of(app), fmt::format("{} cannot be understood", name));
}

/// "list, show or calibrate".
std::string one_of(const std::vector<std::string>& words) {
  if (words.size() < 2) return words.empty() ? "" : words.front();
  return fmt::format("{} or {}", fmt::join(words.begin(), words.end() - 1, ", "), words.back());
}

Deed deed_of(const CLI::App& app, Chosen& chosen) {
  const CLI::App& at = innermost(app);
  const Chosen::Of& verb = chosen.of(at);
  std::vector<Check> checks = chosen.of(app).checks;  // what stands before the verb holds for every verb
  if (&at != &app) checks.insert(checks.end(), verb.checks.begin(), verb.checks.end());
  for (const Check& check : checks) {
    if (const std::string wrong = check(); !wrong.empty()) refuse(path_of(app), wrong);
  }
  if (&at == &app) refuse("", fmt::format("one of these is missing: {}", fmt::join(known_words(app, false), ", ")));
  if (verb.deed) return verb.deed;
  refuse(path_of(app), one_of(known_words(at, false)) + " is missing");
}

std::string read_number(const std::string& name, const std::string& text, int least, int most, int& into) {
  if (text.empty()) return "";
  int value = 0;
  const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (problem != std::errc() || end != text.data() + text.size() || value < least || value > most) {
    return fmt::format("{} is \"{}\", but must be a whole number from {} to {}", name, text, least, most);
  }
  into = value;
  return "";
}

std::string words_of(Heading heading) {
  switch (heading) {
    case Heading::firing_work:
      return "Firing";
    case Heading::things_of_the_lab:
      return "Things of the lab";
    case Heading::records:
      return "Records";
    case Heading::looking_up:
      break;
  }
  return "Looking up";
}

}  // namespace

Verb Verb::verb(const std::string& name, const std::string& purpose, const std::string& example) {
  CLI::App* made = app_->add_subcommand(name, purpose);
  made->group("Subcommands");  // else it takes over the heading of the verb above
  made->footer("Example:\n  heatwork " + example);
  made->allow_extras();
  made->require_subcommand(0, 1);  // a name such as "material" after another verb is then no verb
  return {*made, *chosen_};
}

void Verb::under(Heading heading) {
  app_->group(words_of(heading));
}

void Verb::value(const std::string& name, std::string& into, const std::string& help, Need need) {
  app_->add_option(name, into, help)->type_name("")->required(need == Need::required);
}

void Verb::values(const std::string& name, std::vector<std::string>& into, const std::string& help, Need need) {
  app_->add_option(name, into, help)->type_name("")->required(need == Need::required);
}

void Verb::option(const std::string& name, const std::string& type, std::string& into, const std::string& help, Need need) {
  app_->add_option(name, into, help)->type_name(type)->required(need == Need::required);
}

void Verb::option(const std::string& name, const std::string& type, std::optional<std::string>& into, const std::string& help) {
  const auto given = [&into](const std::string& word) { into = word; };
  app_->add_option_function<std::string>(name, given, help)->type_name(type);
}

void Verb::option(const std::string& name, const std::string& type, std::vector<std::string>& into, const std::string& help, Need need) {
  app_->add_option(name, into, help)->type_name(type)->allow_extra_args(false)->required(need == Need::required);
}

void Verb::number(const std::string& name, const std::string& type, int& into, int least, int most, const std::string& help) {
  const auto text = std::make_shared<std::string>();
  app_->add_option(name, *text, help)->type_name(type);
  chosen_->of(*app_).checks.push_back([=, &into] { return read_number(name, *text, least, most, into); });
}

void Verb::flag(const std::string& name, bool& into, const std::string& help) {
  app_->add_flag(name, into, help);
}

void Verb::json(bool& into, const std::string& help) {
  flag("--json", into, help);
}

void Verb::store(desk::AskedLab& into) {
  option("--store", "WHERE", into.store, "the lab's store: a file, or postgresql://...; else the setting");
  option("--as", "CODE", into.person, "who does this; else the setting, else the log-in name");
}

void Verb::at(std::string& into) {
  option("--at", "TIME", into, "when, if not now: \"2026-11-25 17:11\", or UTC with a Z at its end");
}

void Verb::reason(std::string& into, Need need) {
  option("--reason", "TEXT", into, "why; stands in the trail", need);
}

void Verb::page(int& into) {
  number("--page", "N", into, 1, 1'000'000, "which page, 1000 rows each; 1 where not given");
}

void Verb::does(Deed deed, Check check) {
  Chosen::Of& verb = chosen_->of(*app_);
  verb.deed = std::move(deed);
  if (check) verb.checks.push_back(std::move(check));
}

void refuse(const std::string& path, const std::string& what) {
  throw desk::Failure(desk::ErrorWord::wrong_use,
                      fmt::format("heatwork{}: {}; \"heatwork{} --help\" shows how it is used.", path, what, path));
}

namespace {

/// The program before its verbs are declared.
void name_program(CLI::App& app) {
  app.get_formatter()->column_width(28);
  app.set_help_flag("-h,--help", "show this, or with a verb how the verb is used");
  app.footer(
      "\"heatwork VERB --help\" shows each with an example.\nExample:\n  heatwork demo my-lab && heatwork rehearse my-lab/firing.toml");
  app.allow_extras();
  app.require_subcommand(0, 1);
}

constexpr const char* purpose_of_program = "Rehearses a furnace firing by physics and judges it, before the piece is spoiled.";
constexpr const char* help_of_version = "what this is, its versions, and for whom";

ShownOption shown(const CLI::Option& option) {
  ShownOption shown;
  for (const std::string& name : option.get_snames()) shown.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) shown.names.push_back("--" + name);
  if (shown.names.empty())
    shown.value = option.get_name(true);
  else if (option.get_items_expected_max() > 0)
    shown.value = option.get_type_name();
  shown.help = option.get_description();
  shown.required = option.get_required();
  shown.several = option.get_items_expected_max() > 1;
  return shown;
}

ShownVerb shown(const CLI::App& app) {
  ShownVerb verb{app.get_name(), app.get_description(), {}, {}, {}};
  const std::string footer = app.get_footer();
  const std::string before = "Example:\n";
  if (const auto at = footer.find(before); at != std::string::npos) verb.example = footer.substr(at + before.size());
  for (const CLI::Option* option : app.get_options()) verb.options.push_back(shown(*option));
  for (const CLI::App* each : app.get_subcommands([](const CLI::App*) { return true; })) verb.verbs.push_back(shown(*each));
  return verb;
}

}  // namespace

ShownVerb shown_verbs(const std::function<void(Verb&)>& add) {
  CLI::App app(purpose_of_program, "heatwork");
  name_program(app);
  Chosen chosen;
  app.add_flag("--version", help_of_version);
  Verb heatwork(app, chosen);
  add(heatwork);
  return shown(app);
}

Deed read_verbs(const std::vector<std::string>& words, const std::function<void(Verb&)>& add) {
  CLI::App app(purpose_of_program, "heatwork");
  name_program(app);
  Chosen chosen;
  bool version = false;
  app.add_flag("--version", version, help_of_version);
  Verb heatwork(app, chosen);
  add(heatwork);
  std::vector<std::string> reversed(words.rbegin(), words.rend());  // as the library wants them
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    return [help = app.help()] {
      put_result(help);
      return done;
    };
  } catch (const CLI::ParseError& error) {
    refuse_parse(app, error);
  }
  refuse_unknown(app);
  if (version) return chosen.of(app).deed;
  return deed_of(app, chosen);
}

}  // namespace heatwork::cli
