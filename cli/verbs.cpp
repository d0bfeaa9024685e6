#include "cli/verbs.h"

#include <fmt/core.h>
#include <unistd.h>

#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/progress.h"
#include "desk/calculations/registry.h"
#include "desk/calibrate.h"
#include "desk/columns.h"
#include "desk/demo.h"
#include "desk/errors.h"
#include "desk/files.h"
#include "desk/materials.h"
#include "desk/schema.h"
#include "desk/version.h"
#include "firing/rehearsal.h"

namespace heatwork::cli {
namespace {

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

desk::JsonList paths(const std::vector<std::string>& from) {
  return {from.begin(), from.end()};
}

}  // namespace

int answer(const HelpRequest& request) {
  put_result(request.text);
  return done;
}

int answer(const VersionRequest&) {
  put_result(fmt::format("heatwork {}, model {}, data {}\n\n{}", desk::program_version(), firing::model_version, desk::data_version(),
                         desk::wrapped(desk::disclaimer(), 0, 0)));
  return done;
}

int answer(const DemoRequest& request) {
  desk::DemoWritten made;
  {
    const HoldInterrupts whole;
    made = desk::write_demo(request.folder);
  }
  if (request.json) {
    put_result(desk::write_json(
        desk::JsonObject{{"format", 1}, {"folder", request.folder}, {"written", paths(made.written)}, {"kept", paths(made.kept)}}));
    return done;
  }
  std::string text = made.kept.empty()
                         ? fmt::format("{} files of the demo lab were written into {}.\n", made.written.size(), request.folder)
                         : fmt::format("{} files of the demo lab were written into {}, {} stood there already.\n", made.written.size(),
                                       request.folder, made.kept.size());
  text += desk::wrapped("All of it is invented, with odd numbers on purpose: no program in it is meant for firing a real piece.", 0, 0);
  text += fmt::format("Rehearse its firing with: heatwork rehearse {}/firing.toml\n", request.folder);
  put_result(text);
  return done;
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

int answer(const MaterialListRequest& request) {
  put_result(request.json ? desk::write_json(desk::materials_as_json()) : desk::materials_as_text());
  return done;
}

int answer(const MaterialShowRequest& request) {
  const trade::Material material = desk::find_material(request.name);
  put_result(request.json ? desk::write_json(desk::material_as_json(material)) : desk::material_as_text(material));
  return done;
}

int answer(const MaterialCalibrateRequest& request) {
  const desk::Calibration made = desk::calibrate(request.asked);
  put_result(request.json ? desk::write_json(desk::calibration_as_json(made)) : desk::calibration_as_text(made));
  return done;
}

int answer(const SchemaRequest& request) {
  put_result(request.noun ? desk::schema_text(*request.noun) : desk::nouns_as_text());
  return done;
}

}  // namespace heatwork::cli
