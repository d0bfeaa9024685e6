#include <fmt/core.h>

#include <memory>

#include "cli/language.h"
#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/columns.h"
#include "desk/version.h"
#include "firing/rehearsal.h"

namespace heatwork::cli {

void add_version(Verb& heatwork) {
  const auto language = std::make_shared<std::string>();
  heatwork.option("--language", "LANGUAGE", *language, "en or de, before the verb: how what is wrong is said; else the setting");
  heatwork.does(
      [] {
        put_result(fmt::format("heatwork {}, model {}, data {}\n\n{}", desk::program_version(), firing::model_version, desk::data_version(),
                               desk::wrapped(desk::disclaimer(), 0, 0)));
        return done;
      },
      [language] { return wrong_language(*language); });
}

}  // namespace heatwork::cli
