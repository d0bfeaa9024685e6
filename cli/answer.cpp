#include "cli/answer.h"

#include "cli/output.h"
#include "cli/verb.h"
#include "desk/json_value.h"

namespace heatwork::cli {

int show(const desk::CareAnswer& answer, bool json) {
  put_result(json ? desk::write_json(answer.json) : answer.text);
  return answer.wrong ? fault_expected : done;
}

}  // namespace heatwork::cli
