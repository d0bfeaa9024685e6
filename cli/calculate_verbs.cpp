#include <fmt/core.h>
#include <unistd.h>

#include <memory>

#include "cli/output.h"
#include "cli/progress.h"
#include "cli/verbs.h"
#include "desk/calculations/registry.h"
#include "desk/errors.h"
#include "desk/files.h"

namespace heatwork::cli {
namespace {

struct CalculateRequest {
  std::string name;
  std::string file = "-";  ///< "-": standard input
  bool list = false;
  bool describe = false;
  bool json = false;
};

std::string what_is_wrong(const CalculateRequest& request) {
  return !request.list && request.name.empty() ? "NAME is missing, or --list" : "";
}

std::string asked_text(const CalculateRequest& request) {
  if (request.file != "-") return desk::read_whole(request.file);
  if (::isatty(STDIN_FILENO) == 1) {
    throw desk::Failure(desk::ErrorWord::wrong_use,
                        fmt::format("heatwork calculate: a JSON object is missing: name a file, or pipe one in; \"heatwork calculate {} "
                                    "--describe\" shows its keys.",
                                    request.name));
  }
  return desk::read_whole(STDIN_FILENO, "standard input");
}

int answer(const CalculateRequest& request) {
  if (request.list) {
    put_result(desk::calculation_list());
    return done;
  }
  const desk::Calculation& calculation = desk::find_calculation(request.name);
  if (request.describe) {
    put_result(request.json ? desk::write_json(desk::describe_as_schema(calculation)) : desk::describe_as_text(calculation));
    return done;
  }
  const desk::Json asked = desk::read_json(request.file == "-" ? "standard input" : request.file, asked_text(request));
  desk::Json answers;
  {
    Progress progress(request.name);
    answers = desk::calculate_all(calculation, asked, [&](std::size_t ready, std::size_t all) { progress.at(ready, all); });
  }
  put_result(desk::write_json(answers));
  return done;
}

}  // namespace

void add_calculate(Verb& heatwork) {
  Verb calculate = heatwork.verb("calculate", "Put one JSON object into one model and get its numbers",
                                 "calculate viscosity ask.json\n  echo '{\"altitude_m\": 1500}' | heatwork calculate standard-atmosphere");
  calculate.under(Heading::looking_up);
  const auto asked = std::make_shared<CalculateRequest>();
  calculate.value("NAME", asked->name, "the model", Need::optional);
  calculate.value("FILE", asked->file, "one JSON object, or a list of them; - or nothing: standard input", Need::optional);
  calculate.flag("--list", asked->list, "every model, what it is for and its source");
  calculate.flag("--describe", asked->describe, "what the model takes and gives: meaning, unit, allowed range");
  calculate.json(asked->json, "with --describe: as JSON Schema");
  calculate.does([asked] { return answer(*asked); }, [asked] { return what_is_wrong(*asked); });
}

}  // namespace heatwork::cli
