#include "cli/run.h"

#include <fmt/core.h>

#include <exception>

#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/request.h"
#include "desk/errors.h"

namespace heatwork::cli {

int run(const std::vector<std::string>& words) {
  watch_interrupts();
  try {
    return read_request(words)();
  } catch (...) {
    const desk::Shown shown = desk::explain(std::current_exception());
    put_note(shown.sentence.ends_with('\n') ? shown.sentence : shown.sentence + "\n");
    return shown.exit_code;
  }
}

}  // namespace heatwork::cli
