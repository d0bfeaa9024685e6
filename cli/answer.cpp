#include "cli/answer.h"

#include "cli/output.h"
#include "cli/verb.h"
#include "desk/json_value.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/told_in_units.h"

namespace heatwork::cli {

int show(const desk::CareAnswer& answer, bool json) {
  put_result(json ? desk::write_json(answer.json) : answer.text);
  return answer.wrong ? fault_expected : done;
}

int show_measured(const desk::AskedLab& lab, const std::function<desk::CareAnswer()>& ask, bool json) {
  const report::TemperatureScale units = units_asked(lab);
  const desk::CareAnswer answer = desk::refusing_in(units, ask);
  if (json) return show(answer, json);
  return show({desk::told_in_units(units, answer.text), answer.json, answer.wrong}, json);
}

report::TemperatureScale units_asked(const desk::AskedLab& lab) {
  return desk::scale_of(desk::lab_settings(lab).units);
}

}  // namespace heatwork::cli
