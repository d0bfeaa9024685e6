#include <fmt/format.h>

#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/language.h"
#include "cli/verbs.h"
#include "desk/lab/furnace_care_chart.h"
#include "desk/lab/told_in_units.h"
#include "desk/rehearse_files.h"

namespace heatwork::cli {
namespace {

struct ChartRequest {
  desk::AskedLab lab;
  desk::ChartWords words;
  std::string picture, language;
  bool json = false;
};

int answer(const ChartRequest& request) {
  if (!request.picture.empty()) desk::picture_form(request.picture);  // a wrong ending is said before anything is read
  const report::TemperatureScale units = units_asked(request.lab);
  const desk::ChartedFurnace charted = desk::refusing_in(units, [&] { return desk::charted_furnace(request.lab, request.words); });
  // The picture first: where it cannot be written the answer is not printed as if all were done.
  if (!request.picture.empty()) desk::write_chart_picture(request.picture, charted, language_asked(request.language, request.lab), units);
  return show_measured(
      request.lab, [&] { return desk::answer_of(charted); }, request.json);
}

}  // namespace

void add_furnace_charts(Verb& check) {
  Verb chart =
      check.verb("chart", "Whether the display has drifted: charts of the kept checks", "furnace check chart corner --picture corner.svg");
  const auto request = std::make_shared<ChartRequest>();
  chart.value("FURNACE", request->words.furnace, "the furnace");
  chart.option("--of", "CHECK", request->words.of, "temperature or thermocouple; else both");
  chart.option("--limit", "LIMIT", request->words.limit, "what the display may be off, \"10 K\"");
  chart.option("--picture", "FILE", request->picture, "draw the charts into FILE.svg, .png or .pdf");
  chart.option("--language", "LANGUAGE", request->language, "en or de, of the picture; else the setting");
  chart.store(request->lab);
  chart.json(request->json);
  chart.does([request] { return answer(*request); }, [request] { return wrong_language(request->language); });
}

}  // namespace heatwork::cli
