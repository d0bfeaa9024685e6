#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/deviations.h"

namespace heatwork::cli {
namespace {

void add_opening(Verb& deviation) {
  struct Request {
    desk::AskedLab lab;
    desk::DeviationFound found;
    bool json = false;
  };
  Verb open = deviation.verb("open", "Say that something left an instruction or a rule of the lab",
                             "deviation open hold-crown-16 --from \"hold at most 1 min\" --found \"held 2 min\"");
  const auto request = std::make_shared<Request>();
  open.value("NAME", request->found.name, "what the deviation shall be called");
  open.option("--from", "TEXT", request->found.from, "what was left: \"instruction, hold at most 1 min\"", Need::required);
  open.option("--found", "TEXT", request->found.found, "what was found", Need::required);
  open.option("--firing", "NAME", request->found.firing, "it happened in");
  open.option("--piece", "NAME", request->found.pieces, "it touches; may be given several times");
  open.at(request->found.at);
  open.reason(request->found.reason);
  open.store(request->lab);
  open.json(request->json);
  open.does([request] { return show(desk::open_deviation(request->lab, request->found), request->json); });
}

void add_deciding(Verb& deviation) {
  struct Request {
    desk::AskedLab lab;
    desk::DeviationDecided decided;
    bool json = false;
  };
  Verb decide = deviation.verb("decide", "Say what is done about it; needs the role release",
                               "deviation decide hold-crown-16 --decision \"use as it is\" --reason \"gloss as wanted\"");
  const auto request = std::make_shared<Request>();
  decide.value("NAME", request->decided.name, "of the deviation");
  decide.option("--decision", "WORDS", request->decided.decision, "use as it is, fire again, make again, reject, or open again",
                Need::required);
  decide.option("--trial", "TEXT", request->decided.trial, "trial firing on a tab, in words");
  decide.reason(request->decided.reason, Need::required);
  decide.store(request->lab);
  decide.json(request->json);
  decide.does([request] { return show(desk::decide_deviation(request->lab, request->decided), request->json); });
}

void add_releasing(Verb& deviation) {
  struct Request {
    desk::AskedLab lab;
    std::string name, reason;
    bool json = false;
  };
  Verb release = deviation.verb("release", "Sign what was decided, in your own name, now", "deviation release hold-crown-16");
  const auto request = std::make_shared<Request>();
  release.value("NAME", request->name, "of the deviation");
  release.reason(request->reason);
  release.store(request->lab);
  release.json(request->json);
  release.does([request] { return show(desk::release_deviation(request->lab, request->name, request->reason), request->json); });
}

}  // namespace

void add_deviation_work(Verb& deviation) {
  add_opening(deviation);
  add_deciding(deviation);
  add_releasing(deviation);
}

}  // namespace heatwork::cli
