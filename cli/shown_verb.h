// The verbs as a plain tree, for what tells of them all: the manual page and the completion of a shell.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "cli/verb.h"

namespace heatwork::cli {

struct ShownOption {
  std::vector<std::string> names;  ///< "--json"; empty: a value by its place
  std::string value;               ///< what stands for it, "NAME"; empty: a flag
  std::string help;
  bool required = false;
  bool several = false;
};

struct ShownVerb {
  std::string name, purpose;
  std::string example;  ///< a command a line
  std::vector<ShownOption> options;
  std::vector<ShownVerb> verbs;
};

/// What `add` declares, with the program itself at the top.
ShownVerb shown_verbs(const std::function<void(Verb&)>& add);

/// The manual page in the form that `man` reads, section 1.
std::string manual_page(const ShownVerb& heatwork);

/// What bash sources so that verbs, options and files are completed.
std::string bash_completion(const ShownVerb& heatwork);

}  // namespace heatwork::cli
