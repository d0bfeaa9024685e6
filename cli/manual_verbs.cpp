#include <memory>

#include "cli/output.h"
#include "cli/shown_verb.h"
#include "cli/verbs.h"

namespace heatwork::cli {
namespace {

struct ManualRequest {
  bool completion = false;
};

int answer(const ManualRequest& request) {
  const ShownVerb heatwork = shown_verbs(add_all);
  put_result(request.completion ? bash_completion(heatwork) : manual_page(heatwork));
  return done;
}

}  // namespace

void add_manual(Verb& heatwork) {
  Verb manual = heatwork.verb("manual", "The manual page of all verbs, for \"man\"", "manual | man -l -\n  heatwork manual --completion");
  manual.under(Heading::looking_up);
  const auto asked = std::make_shared<ManualRequest>();
  manual.flag("--completion", asked->completion, "instead: what bash completes verbs and options by");
  manual.does([asked] { return answer(*asked); });
}

}  // namespace heatwork::cli
