#include <fmt/format.h>

#include <string>
#include <string_view>

#include "cli/shown_verb.h"
#include "desk/version.h"

namespace heatwork::cli {
namespace {

/// Text as `man` takes it: hyphens that can be copied, and no line that begins as a request of its own.
std::string roff(std::string_view text) {
  std::string out;
  bool at_start = true;
  for (const char letter : text) {
    if (at_start && (letter == '.' || letter == '\'')) out += "\\&";
    if (letter == '\\')
      out += "\\e";
    else if (letter == '-')
      out += "\\-";
    else
      out += letter;
    at_start = letter == '\n';
  }
  return out;
}

std::string usage(const std::string& path, const ShownVerb& verb) {
  std::string line = fmt::format("\\fB{}\\fR", roff(path));
  for (const ShownOption& option : verb.options) {
    if (option.names.empty() || !option.required) continue;
    line += fmt::format(" \\fB{}\\fR \\fI{}\\fR", roff(option.names.back()), roff(option.value));
  }
  for (const ShownOption& option : verb.options) {
    if (!option.names.empty()) continue;
    const std::string dots = option.several ? " ..." : "";
    const std::string value = fmt::format("\\fI{}\\fR{}", roff(option.value), dots);
    line += option.required ? " " + value : " [" + value + "]";
  }
  return line;
}

std::string options_of(const ShownVerb& verb) {
  std::string text;
  for (const ShownOption& option : verb.options) {
    if (option.names.size() > 1 && option.names.back() == "--help") continue;
    std::string term = option.names.empty() ? fmt::format("\\fI{}\\fR", roff(option.value)) : "";
    for (const std::string& name : option.names) term += fmt::format("{}\\fB{}\\fR", term.empty() ? "" : ", ", roff(name));
    if (!option.names.empty() && !option.value.empty()) term += fmt::format(" \\fI{}\\fR", roff(option.value));
    text += fmt::format(".TP\n{}\n{}\n", term, roff(option.help));
  }
  return text;
}

std::string examples(const std::string& example) {
  return example.empty() ? "" : fmt::format(".PP\n.nf\n.RS\n{}\n.RE\n.fi\n", roff(example));
}

/// A verb and all below it, each a section of its own.
std::string section_of(const std::string& path, const ShownVerb& verb) {
  std::string text;
  if (verb.verbs.empty() || verb.options.size() > 1) {  // a group has its help alone
    text = fmt::format(".SS \"{}\"\n{}.\n.PP\n{}\n{}{}", roff(path), roff(verb.purpose), usage(path, verb), options_of(verb),
                       verb.verbs.empty() ? examples(verb.example) : "");
  }
  for (const ShownVerb& each : verb.verbs) text += section_of(path + " " + each.name, each);
  return text;
}

constexpr std::string_view places = R"(.SH "EXIT STATUS"
.TP
0
Done; also where an answer is "cannot tell".
.TP
1
Done, and a fault is expected or a check failed.
.TP
2
What was asked for is not right; the sentence says what is allowed.
.TP
3
The machine cannot: disk, database, network, a part that is not installed.
.TP
4
A mistake in Heatwork.
.TP
130
Stopped by Ctrl\-C; nothing half\-written stays.
.SH ENVIRONMENT
.TP
HEATWORK_STORE
address of the lab's store, where no
.B \-\-store
is given
.TP
NO_COLOR
no colour, also on a terminal
.TP
XDG_DATA_HOME, XDG_CONFIG_HOME
where store and settings stand
.SH FILES
.TP
$XDG_CONFIG_HOME/heatwork/settings.toml
settings of a person; of the service: /etc/heatwork/settings.toml
.TP
$XDG_DATA_HOME/heatwork/lab.sqlite
the store of a person, where nobody names another; of the service: /var/lib/heatwork/lab.sqlite
)";

}  // namespace

std::string manual_page(const ShownVerb& heatwork) {
  std::string text = fmt::format(
      ".TH HEATWORK 1 \"\" \"heatwork {}\" \"\"\n.SH NAME\nheatwork \\- rehearses furnace firings of dental ceramics and keeps a lab's "
      "records\n",
      desk::program_version());
  text += ".SH SYNOPSIS\n\\fBheatwork\\fR \\fIVERB\\fR ...\n";
  text += fmt::format(".SH DESCRIPTION\n{}\n.PP\n{}\n", roff(heatwork.purpose), roff(desk::disclaimer()));
  text += fmt::format(".SH OPTIONS\n{}{}.SH VERBS\n", options_of(heatwork), examples(heatwork.example));
  for (const ShownVerb& verb : heatwork.verbs) text += section_of("heatwork " + verb.name, verb);
  return text + std::string(places);
}

}  // namespace heatwork::cli
