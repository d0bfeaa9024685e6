#include <fmt/core.h>

#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "cli/language.h"
#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/lab/keep_rehearsal.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/rehearse_in_lab.h"
#include "desk/rehearse_files.h"
#include "report/rehearsal_json.h"
#include "report/text.h"
#include "trade/words.h"

namespace heatwork::cli {
namespace {

struct RehearseRequest {
  desk::AskedLab lab;
  std::string file;
  bool keep = false;
  std::string reason;
  bool json = false;
  bool traces = false;
  bool no_strip = false;
  std::string units;     ///< empty: the setting, else what the lab says, else celsius
  std::string language;  ///< empty: the setting, else what the lab says, else en
  std::optional<std::string> picture;
};

std::string what_is_wrong(const RehearseRequest& request) {
  if (!request.units.empty() && request.units != "celsius" && request.units != "fahrenheit") {
    return fmt::format("--units is \"{}\", but must be celsius or fahrenheit", request.units);
  }
  if (std::string wrong = wrong_language(request.language); !wrong.empty()) return wrong;
  if (!request.reason.empty() && !request.keep) return "--reason goes with --keep";
  return request.traces && !request.json ? "--traces needs --json" : "";
}

desk::Manner manner_of(const RehearseRequest& request) {
  desk::Manner manner;
  std::string units = request.units, language = request.language;
  if (units.empty() || language.empty()) {
    const desk::LabSettings settings = desk::lab_settings(request.lab);
    if (units.empty()) units = settings.units;
    if (language.empty()) language = settings.language;
  }
  if (units == "fahrenheit") manner.scale = report::TemperatureScale::fahrenheit;
  manner.language = trade::language_of(language).value_or(trade::Language::english);
  return manner;
}

struct Answered {
  desk::Rehearsed rehearsed;
  report::MadeBy made_by = desk::made_by();
  std::string kept;  ///< what was kept, for people
};

Answered rehearsed(const RehearseRequest& request, const desk::Manner& manner) {
  Answered out;
  if (!request.keep) {
    out.rehearsed = desk::rehearse_in_lab(request.file, request.lab, manner);
    return out;
  }
  desk::KeptRehearsal kept = desk::rehearse_and_keep(request.file, request.lab, request.reason);
  out.rehearsed = std::move(kept.rehearsed);
  out.rehearsed.verdict = desk::judged_for(manner, out.rehearsed.rehearsal, out.rehearsed.limits);
  out.made_by.kept = std::move(kept.kept);
  out.kept = "\n" + kept.text;
  return out;
}

int answer(const RehearseRequest& request) {
  const desk::Manner manner = manner_of(request);
  if (request.picture) desk::picture_form(*request.picture);  // a wrong ending is said before anything is computed
  const Answered answered = rehearsed(request, manner);
  const desk::Rehearsed& rehearsed = answered.rehearsed;
  std::string text;
  if (request.json) {
    // For programs: the same in every language and with every setting of units.
    const verdict::Verdict plain = desk::judged_for({}, rehearsed.rehearsal, rehearsed.limits);
    text = report::rehearsal_json(rehearsed.rehearsal, plain, answered.made_by, trade::words_of(trade::Language::english), request.traces);
  } else {
    report::TextOptions options;
    options.colour = colour_wanted();
    options.plain_ascii = plain_ascii_wanted();
    options.strip = !request.no_strip;
    options.scale = manner.scale;
    text = report::rehearsal_text(rehearsed.rehearsal, rehearsed.verdict, trade::words_of(manner.language), options) + answered.kept;
  }
  // The picture first: where it cannot be written the answer is not printed as if all were done.
  if (request.picture) desk::write_picture(*request.picture, rehearsed, manner);
  put_result(text);
  return rehearsed.verdict.fault_expected ? fault_expected : done;
}

}  // namespace

void add_rehearse(Verb& heatwork) {
  Verb rehearse = heatwork.verb("rehearse", "Rehearse a firing and judge it",
                                "rehearse heatwork-demo/firing.toml --picture firing.svg\n  heatwork rehearse firing@2");
  rehearse.under(Heading::firing_work);
  const auto asked = std::make_shared<RehearseRequest>();
  rehearse.value("FILE", asked->file, "the firing, FILE.toml; or NAME or NAME@2 of the store");
  rehearse.json(asked->json, "findings, numbers and moments as JSON");
  rehearse.flag("--traces", asked->traces, "with --json: every line over time as well");
  rehearse.option("--picture", "FILE", asked->picture, "draw the firing into FILE.svg, .png or .pdf");
  rehearse.flag("--no-strip", asked->no_strip, "leave out the small picture in the text");
  rehearse.option("--units", "UNITS", asked->units, "celsius or fahrenheit, in text and picture; else the setting");
  rehearse.option("--language", "LANGUAGE", asked->language, "en or de, of findings, text and picture; else the setting");
  rehearse.flag("--keep", asked->keep, "keep the firing as planned, its rehearsal, and the texts it used");
  rehearse.option("--reason", "TEXT", asked->reason, "with --keep, where the kept firing says something else: why");
  rehearse.store(asked->lab);
  rehearse.does([asked] { return answer(*asked); }, [asked] { return what_is_wrong(*asked); });
}

}  // namespace heatwork::cli
