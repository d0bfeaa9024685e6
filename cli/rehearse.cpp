#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/rehearse_files.h"
#include "report/rehearsal_json.h"
#include "report/text.h"

namespace heatwork::cli {

int answer(const RehearseRequest& request) {
  if (request.picture) desk::picture_form(*request.picture);  // a wrong ending is said before anything is computed
  const desk::Rehearsed rehearsed = desk::rehearse_file(request.file);
  const auto scale = request.fahrenheit ? report::TemperatureScale::fahrenheit : report::TemperatureScale::celsius;
  std::string text;
  if (request.json) {
    text = report::rehearsal_json(rehearsed.rehearsal, rehearsed.verdict, desk::made_by(), request.traces);
  } else {
    report::TextOptions options;
    options.colour = colour_wanted();
    options.plain_ascii = plain_ascii_wanted();
    options.strip = request.strip;
    options.scale = scale;
    text = report::rehearsal_text(rehearsed.rehearsal, rehearsed.verdict, options);
  }
  // The picture first: where it cannot be written the answer is not printed as if all were done.
  if (request.picture) desk::write_picture(*request.picture, rehearsed, scale);
  put_result(text);
  return rehearsed.verdict.fault_expected ? fault_expected : done;
}

}  // namespace heatwork::cli
