#include <fmt/core.h>

#include <memory>

#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/columns.h"
#include "desk/demo.h"
#include "desk/json_value.h"

namespace heatwork::cli {
namespace {

struct DemoRequest {
  std::string folder = "heatwork-demo";
  bool json = false;
};

desk::JsonList paths(const std::vector<std::string>& from) {
  return {from.begin(), from.end()};
}

int answer(const DemoRequest& request) {
  desk::FolderWritten made;
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

}  // namespace

void add_demo(Verb& heatwork) {
  Verb demo = heatwork.verb("demo", "Write the demo lab, invented and odd on purpose, into a folder", "demo my-lab");
  demo.under(Heading::firing_work);
  const auto asked = std::make_shared<DemoRequest>();
  demo.value("FOLDER", asked->folder, "made where there is none; heatwork-demo where not given", Need::optional);
  demo.json(asked->json, "what was written as JSON");
  demo.does([asked] { return answer(*asked); });
}

}  // namespace heatwork::cli
