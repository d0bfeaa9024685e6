#include "cli/request.h"

#include "cli/verbs.h"

namespace heatwork::cli {

void add_all(Verb& heatwork) {
  // In the order in which the help shows them.
  for (const auto add :
       {add_version, add_rehearse, add_demo, add_serve, add_nouns, add_material, add_store, add_calculate, add_schema, add_manual})
    add(heatwork);
}

Deed read_request(const std::vector<std::string>& words) {
  return read_verbs(words, add_all);
}

}  // namespace heatwork::cli
