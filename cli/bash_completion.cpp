#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <vector>

#include "cli/shown_verb.h"

namespace heatwork::cli {
namespace {

/// One line a verb: its path, the verbs below it, its options, and which of them take a value.
void tell(const std::string& path, const ShownVerb& verb, std::string& cases) {
  std::vector<std::string> verbs, options, with_value;
  for (const ShownVerb& each : verb.verbs) verbs.push_back(each.name);
  for (const ShownOption& option : verb.options) {
    if (option.names.empty()) continue;
    options.push_back(option.names.back());
    if (!option.value.empty()) with_value.push_back(option.names.back());
  }
  cases += fmt::format("    \"{}\") verbs=\"{}\" options=\"{}\" valued=\"{}\" ;;\n", path, fmt::join(verbs, " "), fmt::join(options, " "),
                       fmt::join(with_value, " "));
  for (const ShownVerb& each : verb.verbs) tell(path.empty() ? each.name : path + " " + each.name, each, cases);
}

}  // namespace

std::string bash_completion(const ShownVerb& heatwork) {
  std::string cases;
  tell("", heatwork, cases);
  // Two steps: walk the words that were typed down the tree of verbs, then offer what may follow there.
  return R"(# Completes verbs, options and files of heatwork in bash. Written by "heatwork manual --completion".
_heatwork_words() {
  case "$1" in
)" + cases +
         R"(    *) return 1 ;;
  esac
}
_heatwork() {
  local now=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} path= verbs options valued word i
  _heatwork_words ""
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if [[ " $verbs " == *" $word "* ]]; then
      path="${path:+$path }$word"
      _heatwork_words "$path"
    fi
  done
  COMPREPLY=()
  if [[ " $valued " == *" $before "* ]]; then
    mapfile -t COMPREPLY < <(compgen -f -- "$now")
  elif [[ $now == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$now")
  elif [[ $verbs ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$verbs" -- "$now")
  else
    mapfile -t COMPREPLY < <(compgen -f -- "$now")
  fi
}
complete -o filenames -F _heatwork heatwork
)";
}

}  // namespace heatwork::cli
