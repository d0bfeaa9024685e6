#include <fmt/core.h>

#include <memory>
#include <optional>

#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/lab/settings.h"
#include "desk/rehearse_files.h"
#include "report/rehearsal_json.h"
#include "report/text.h"

namespace heatwork::cli {
namespace {

struct RehearseRequest {
  std::string file;
  bool json = false;
  bool traces = false;
  bool no_strip = false;
  std::string units;  ///< empty: the setting, else celsius
  std::optional<std::string> picture;
};

std::string what_is_wrong(const RehearseRequest& request) {
  if (!request.units.empty() && request.units != "celsius" && request.units != "fahrenheit") {
    return fmt::format("--units is \"{}\", but must be celsius or fahrenheit", request.units);
  }
  return request.traces && !request.json ? "--traces needs --json" : "";
}

report::TemperatureScale scale_of(const RehearseRequest& request) {
  const std::string units = request.units.empty() ? desk::settings_of(desk::variables_of_process()).units : request.units;
  return units == "fahrenheit" ? report::TemperatureScale::fahrenheit : report::TemperatureScale::celsius;
}

int answer(const RehearseRequest& request) {
  const report::TemperatureScale scale = scale_of(request);
  if (request.picture) desk::picture_form(*request.picture);  // a wrong ending is said before anything is computed
  const desk::Rehearsed rehearsed = desk::rehearse_file(request.file);
  std::string text;
  if (request.json) {
    text = report::rehearsal_json(rehearsed.rehearsal, rehearsed.verdict, desk::made_by(), request.traces);
  } else {
    report::TextOptions options;
    options.colour = colour_wanted();
    options.plain_ascii = plain_ascii_wanted();
    options.strip = !request.no_strip;
    options.scale = scale;
    text = report::rehearsal_text(rehearsed.rehearsal, rehearsed.verdict, options);
  }
  // The picture first: where it cannot be written the answer is not printed as if all were done.
  if (request.picture) desk::write_picture(*request.picture, rehearsed, scale);
  put_result(text);
  return rehearsed.verdict.fault_expected ? fault_expected : done;
}

}  // namespace

void add_rehearse(Verb& heatwork) {
  Verb rehearse = heatwork.verb("rehearse", "Rehearse a firing and judge it", "rehearse heatwork-demo/firing.toml --picture firing.svg");
  const auto asked = std::make_shared<RehearseRequest>();
  rehearse.value("FILE", asked->file, "the firing: pieces, tray, furnace, program by name");
  rehearse.json(asked->json, "findings, numbers and moments as JSON");
  rehearse.flag("--traces", asked->traces, "with --json: every line over time as well");
  rehearse.option("--picture", "FILE", asked->picture, "draw the firing into FILE.svg, .png or .pdf");
  rehearse.flag("--no-strip", asked->no_strip, "leave out the small picture in the text");
  rehearse.option("--units", "UNITS", asked->units, "celsius or fahrenheit, in text and picture; else the setting");
  rehearse.does([asked] { return answer(*asked); }, [asked] { return what_is_wrong(*asked); });
}

}  // namespace heatwork::cli
