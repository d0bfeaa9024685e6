#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_check_give_up.h"

namespace heatwork::cli {
namespace {

struct Option {
  const char* name;
  const char* type;
  const char* key;  ///< of the answer
  const char* help;
};

/// Words of one guided check as typed.
struct Asked {
  desk::AskedLab lab;
  desk::FurnaceCheckWords words;
  std::vector<std::string> readings, taken_out;
  std::vector<std::pair<const char*, std::optional<std::string>>> answers;
  bool json = false;
};

std::string without_blanks(std::string_view text) {
  const auto first = text.find_first_not_of(' '), last = text.find_last_not_of(' ');
  return first == std::string_view::npos ? "" : std::string(text.substr(first, last - first + 1));
}

/// The two sides of a word that stands alone; nothing where it does not.
std::optional<std::pair<std::string, std::string>> parted(const std::string& text, const std::string& by) {
  const auto at = text.find(by);
  if (at == std::string::npos) return std::nullopt;
  return std::pair{without_blanks(std::string_view(text).substr(0, at)), without_blanks(std::string_view(text).substr(at + by.size()))};
}

/// "960 °C melted", "951 °C whole at 2026-11-09 06:13".
std::optional<desk::WireFired> wire_fired(const std::string& typed) {
  desk::WireFired wire;
  std::string text = typed;
  if (const auto moment = parted(text, " at ")) {
    text = moment->first;
    wire.at = moment->second;
  }
  const auto blank = text.rfind(' ');
  if (blank == std::string::npos) return std::nullopt;
  wire.display = without_blanks(std::string_view(text).substr(0, blank));
  wire.melted = text.substr(blank + 1);
  return wire;
}

/// "800 °C reads 803 °C", "800 °C reads 7.161 mV from 23 °C".
std::optional<desk::ProbeRead> probe_read(const std::string& typed) {
  desk::ProbeRead read;
  std::string text = typed;
  if (const auto moment = parted(text, " at ")) {
    text = moment->first;
    read.at = moment->second;
  }
  const auto sides = parted(text, " reads ");
  if (!sides) return std::nullopt;
  read.display = sides->first;
  read.probe = sides->second;
  if (const auto voltage = parted(sides->second, " from ")) {
    read.probe.clear();
    read.emf = voltage->first;
    read.cold_junction = voltage->second;
  } else if (sides->second.ends_with("V")) {
    read.probe.clear();
    read.emf = sides->second;
  }
  return read;
}

/// "back 3 K", "back 71.3 1.1 17.9".
std::optional<desk::TabSeen> tab_seen(const std::string& typed) {
  const auto sides = parted(without_blanks(typed), " ");
  if (!sides) return std::nullopt;
  desk::TabSeen tab;
  tab.where = sides->first;
  const auto first = parted(sides->second, " ");
  const auto second = first ? parted(first->second, " ") : std::nullopt;
  if (second) {
    tab.lightness = first->first;
    tab.redness = second->first;
    tab.yellowness = second->second;
  } else {
    tab.looked_like = sides->second;
  }
  return tab;
}

/// Every reading of one kind, or what is wrong with the first that is none.
template <class Reading>
std::string take(const std::vector<std::string>& typed, std::vector<Reading>& into, std::optional<Reading> (*read)(const std::string&),
                 const std::string& option, const std::string& example) {
  into.clear();
  for (const std::string& each : typed) {
    auto reading = read(each);
    if (!reading) return option + " is \"" + each + "\", but must be as in \"" + example + "\"";
    into.push_back(std::move(*reading));
  }
  return {};
}

void options(Verb& verb, Asked& asked, const std::vector<Option>& all) {
  asked.answers.reserve(all.size());  // options hold on to where their value goes
  for (const Option& option : all) {
    asked.answers.emplace_back(option.key, std::nullopt);
    verb.option(option.name, option.type, asked.answers.back().second, option.help);
  }
}

void fill_answers(Asked& asked) {
  asked.words.answers.clear();
  for (const auto& [key, value] : asked.answers)
    if (value) asked.words.answers.push_back({key, *value});
  for (const std::string& key : asked.taken_out) asked.words.answers.push_back({key, std::nullopt});
}

void begin(Verb& verb, Asked& asked) {
  verb.value("FURNACE", asked.words.furnace, "one that is kept");
}

void shared(Verb& verb, Asked& asked) {
  verb.flag("--keep", asked.words.keep, "keep the check; else nothing is kept");
  verb.option("--go-on", "CHECK", asked.words.go_on, "a kept check that is not finished, or one to decide");
  verb.option("--take-out", "KEY", asked.taken_out, "an answer, or a reading such as \"trials[2]\"; may be given several times");
  verb.option("--name", "NAME", asked.words.name, "of a new one; else furnace, kind and day");
  verb.option("--decide", "WORDS", asked.words.decision, "of a finished one: corrected, allowed for, left, out of use");
  verb.reason(asked.words.reason);
  verb.store(asked.lab);
  verb.json(asked.json);
}

const std::vector<Option>& of_any_check() {
  static const std::vector<Option> all{
      {"--limit", "K", "limit", "error, or spread, that the lab allows"},
      {"--keyed", "K", "correction_keyed", "correction on the panel now; else as the furnace is kept"},
      {"--reference", "NAME", "reference", "what it is checked with, as it is kept"},
      {"--after-repair", "TEXT", "after_repair", "what was repaired or exchanged before"},
      {"--as-left", "YES", "as_left", "checked after an adjustment, not as found"},
      {"--note", "TEXT", "note", "anything worth keeping"},
  };
  return all;
}

void add_temperature(Verb& check) {
  Verb verb = check.verb("temperature", "Find the error of the display with wires of silver or gold, guided",
                         "furnace check temperature window --wire silver --gas vacuum\n"
                         "  heatwork furnace check temperature window --go-on NAME --keep --trial \"960 °C melted\"");
  const auto asked = std::make_shared<Asked>();
  begin(verb, *asked);
  std::vector<Option> all{{"--wire", "METAL", "wire.metal", "silver or gold"},
                          {"--purity", "SHARE", "wire.purity", "\"99.99 %\""},
                          {"--gas", "GAS", "wire.gas", "around it while held: air, vacuum, inert, unknown"},
                          {"--pressure", "PRESSURE", "wire.pressure", "of the vacuum, absolute"},
                          {"--vented-hot", "YES", "wire.vented_hot", "yes: air comes in while the wire is hot; no"},
                          {"--diameter", "LENGTH", "wire.diameter", "\"0.25 mm\""},
                          {"--hold", "DURATION", "wire.hold", "at the display value, \"2 min\""},
                          {"--rate", "RATE", "wire.rate", "of the last 20 K"},
                          {"--criterion", "WORDS", "wire.criterion", "melted means: edges rounded, balled"},
                          {"--melting", "TEMP", "wire.melting", "where the wire's or furnace's own procedure says it melts"},
                          {"--melting-u", "K", "wire.melting_u", "standard uncertainty of that"},
                          {"--stated-in", "TEXT", "wire.stated_in", "which procedure says so"}};
  all.insert(all.end(), of_any_check().begin(), of_any_check().end());
  verb.option("--trial", "TEXT", asked->readings, "\"960 °C melted\" or \"951 °C whole\", in order; may be given several times");
  options(verb, *asked, all);
  shared(verb, *asked);
  verb.does(
      [asked] {
        fill_answers(*asked);
        return show_measured(
            asked->lab, [&] { return desk::check_temperature(asked->lab, asked->words); }, asked->json);
      },
      [asked] { return take(asked->readings, asked->words.trials, wire_fired, "--trial", "960 °C melted"); });
}

void add_thermocouple(Verb& check) {
  Verb verb = check.verb("thermocouple", "Compare the display with a thermocouple, at one or several temperatures",
                         "furnace check thermocouple window --type S --use new --reading \"800 °C reads 803 °C\"");
  const auto asked = std::make_shared<Asked>();
  begin(verb, *asked);
  std::vector<Option> all{{"--type", "LETTER", "probe.type", "S, R, B, K or N"},
                          {"--use", "WORD", "probe.use", "whether it was hot before: new, used, unknown"},
                          {"--class", "NUMBER", "probe.tolerance_class", "1, 2 or 3, of its wire when new"},
                          {"--correction", "K", "probe.correction", "of its certificate: true minus what it reads"},
                          {"--correction-u", "K", "probe.correction_u", "standard uncertainty of that"},
                          {"--certified", "DAY", "probe.certified", "day of its certificate"},
                          {"--used-hours", "DURATION", "probe.used_hours", "it was hot before, in all"},
                          {"--indicator-u", "K", "probe.indicator_u", "standard uncertainty of indicator and cold junction"}};
  all.insert(all.end(), of_any_check().begin(), of_any_check().end());
  verb.option("--reading", "TEXT", asked->readings, "\"800 °C reads 803 °C\", or \"800 °C reads 7.161 mV from 23 °C\"");
  options(verb, *asked, all);
  verb.flag("--more", asked->words.more_follows, "more readings follow: it is not finished yet");
  shared(verb, *asked);
  verb.does(
      [asked] {
        fill_answers(*asked);
        return show_measured(
            asked->lab, [&] { return desk::check_thermocouple(asked->lab, asked->words); }, asked->json);
      },
      [asked] { return take(asked->readings, asked->words.compared, probe_read, "--reading", "800 °C reads 803 °C"); });
}

void add_map(Verb& check) {
  Verb verb = check.verb("map", "Five tabs over the chamber: how far its places lie apart",
                         "furnace check map window --tab \"middle 0 K\" --tab \"back 4 K\"");
  const auto asked = std::make_shared<Asked>();
  begin(verb, *asked);
  verb.option("--tab", "TEXT", asked->readings, "\"back 4 K\" hotter than the reference, or its L a b: \"back 71 1 18\"");
  options(verb, *asked, of_any_check());
  shared(verb, *asked);
  verb.does(
      [asked] {
        fill_answers(*asked);
        return show_measured(
            asked->lab, [&] { return desk::check_chamber_map(asked->lab, asked->words); }, asked->json);
      },
      [asked] { return take(asked->readings, asked->words.tabs, tab_seen, "--tab", "back 4 K"); });
}

void add_give_up(Verb& check) {
  Verb verb =
      check.verb("give-up", "End a check that will not be gone on with", "furnace check give-up NAME --reason \"the wire was lost\"");
  struct Request {
    desk::AskedLab lab;
    desk::GiveUpWords words;
    bool json = false;
  };
  const auto request = std::make_shared<Request>();
  verb.value("CHECK", request->words.check, "a kept check that is not finished");
  verb.reason(request->words.reason);
  verb.store(request->lab);
  verb.json(request->json);
  verb.does([request] { return show(desk::give_up_check(request->lab, request->words), request->json); });
}

}  // namespace

void add_furnace_checks(Verb& furnace) {
  Verb check = furnace.verb("check", "Is it still true? Guided checks, worked out and kept as they go on",
                            "furnace check temperature window --wire silver");
  add_temperature(check);
  add_thermocouple(check);
  add_map(check);
  add_give_up(check);
  add_furnace_records(check);
  add_furnace_charts(check);
  add_furnace_dues(check);
  add_furnace_reports(check);
}

}  // namespace heatwork::cli
