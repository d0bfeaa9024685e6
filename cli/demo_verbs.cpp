#include <fmt/core.h>

#include <memory>

#include "cli/answer.h"
#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/columns.h"
#include "desk/demo.h"
#include "desk/errors.h"
#include "desk/json_value.h"
#include "desk/lab/demo_lab.h"

namespace heatwork::cli {
namespace {

struct DemoRequest {
  std::string folder;
  desk::AskedLab lab;
  bool json = false;
};

/// As a store to play with, where --store says so.
int answer_with_store(const DemoRequest& request) {
  if (!request.folder.empty())
    throw desk::Failure(desk::ErrorWord::wrong_use,
                        "The demo lab is written into a folder or, with --store, into a store; name one of both.");
  return show(desk::make_demo_lab(request.lab), request.json);
}

desk::JsonList paths(const std::vector<std::string>& from) {
  return {from.begin(), from.end()};
}

int answer(const DemoRequest& request) {
  if (!request.lab.store.empty()) return answer_with_store(request);
  const std::string folder = request.folder.empty() ? "heatwork-demo" : request.folder;
  desk::FolderWritten made;
  {
    const HoldInterrupts whole;
    made = desk::write_demo(folder);
  }
  if (request.json) {
    put_result(desk::write_json(
        desk::JsonObject{{"format", 1}, {"folder", folder}, {"written", paths(made.written)}, {"kept", paths(made.kept)}}));
    return done;
  }
  std::string text = made.kept.empty() ? fmt::format("{} files of the demo lab were written into {}.\n", made.written.size(), folder)
                                       : fmt::format("{} files of the demo lab were written into {}, {} stood there already.\n",
                                                     made.written.size(), request.folder, made.kept.size());
  text += desk::wrapped("All of it is invented, with odd numbers on purpose: no program in it is meant for firing a real piece.", 0, 0);
  text += fmt::format("Rehearse its firing with: heatwork rehearse {}/firing.toml\n", folder);
  put_result(text);
  return done;
}

}  // namespace

void add_demo(Verb& heatwork) {
  Verb demo = heatwork.verb("demo", "Write the demo lab, invented and odd on purpose, into a folder", "demo my-lab");
  demo.under(Heading::firing_work);
  const auto asked = std::make_shared<DemoRequest>();
  demo.value("FOLDER", asked->folder, "made where there is none; heatwork-demo where not given", Need::optional);
  demo.store(asked->lab);
  demo.json(asked->json, "what was written as JSON");
  demo.does([asked] { return answer(*asked); });
}

}  // namespace heatwork::cli
