#include <fmt/core.h>

#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/columns.h"
#include "desk/version.h"
#include "firing/rehearsal.h"

namespace heatwork::cli {

void add_version(Verb& heatwork) {
  heatwork.does([] {
    put_result(fmt::format("heatwork {}, model {}, data {}\n\n{}", desk::program_version(), firing::model_version, desk::data_version(),
                           desk::wrapped(desk::disclaimer(), 0, 0)));
    return done;
  });
}

}  // namespace heatwork::cli
