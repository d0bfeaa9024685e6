#include "furnace_care/qualification.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace heatwork::furnace_care {
namespace {

using State = QualificationLine::State;

constexpr std::array<Upkeep, 4> works = {Upkeep::temperature, Upkeep::vacuum, Upkeep::heating, Upkeep::chamber_map};

std::string in_lower_case(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return out;
}

/// A probe and a wire both tell the temperature, and either qualifies it.
QualificationLine line_of(Upkeep work, const std::vector<QualifyingCheck>& checks, const Reopening& since, bool wanted) {
  QualificationLine line;
  line.work = work;
  line.wanted = wanted;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (checks[i].work != work || checks[i].day < since.day) continue;
    if (checks[i].as_left) {
      line.as_left = i;
    } else {
      line.as_found = i;
      line.as_left.reset();  // what was left before it was found again says no more how it is now
    }
  }
  const auto deciding = line.as_left ? line.as_left : line.as_found;
  if (!deciding) {
    line.state = wanted ? State::missing : State::not_wanted;
  } else {
    const CheckCame came = checks[*deciding].came;
    line.state = came == CheckCame::good ? State::passed : came == CheckCame::not_good ? State::failed : State::undecided;
  }
  return line;
}

/// The last check that put the furnace out of use, unless a good one of the same work came after it.
std::optional<std::size_t> tag_of(const std::vector<QualifyingCheck>& checks) {
  std::optional<std::size_t> tagged;
  for (std::size_t i = 0; i < checks.size(); ++i) {
    if (checks[i].out_of_use) tagged = i;
    if (tagged && i > *tagged && checks[i].work == checks[*tagged].work && checks[i].came == CheckCame::good) tagged.reset();
  }
  return tagged;
}

std::string works_in(const Qualification& out, State state) {
  std::string text;
  for (const QualificationLine& line : out.lines)
    if (line.state == state) text += (text.empty() ? "" : " and ") + std::string(word(line.work));
  return text;
}

void say(Qualification& out, Qualified outcome, std::string sentence, std::string next) {
  out.outcome = outcome;
  out.sentence = std::move(sentence);
  out.next = std::move(next);
}

void judge(Qualification& out, const std::vector<QualifyingCheck>& checks) {
  const std::string since = fmt::format("{} on {}", out.since.words, day_text(out.since.day));
  if (out.tagged_by)
    return say(out, Qualified::out_of_use,
               fmt::format("Out of use since {}, by check {}.", day_text(checks[*out.tagged_by].day), checks[*out.tagged_by].name),
               "Hang the tag on the furnace; repair or adjust it, and check as left before anything is fired.");
  if (const std::string failed = works_in(out, State::failed); !failed.empty())
    return say(out, Qualified::no, fmt::format("Not qualified: {} not good since {}.", failed, since),
               "Adjust or repair what is not good, and check it as left.");
  if (out.specimens_not > 0)
    return say(out, Qualified::no,
               fmt::format("Not qualified: {} of {} specimen firings since {} did not come out as wanted.", out.specimens_not,
                           out.specimens_not + out.specimens_as_wanted, since),
               "Find out why, then fire three specimens again.");
  std::string open = works_in(out, State::missing);
  if (const std::string undecided = works_in(out, State::undecided); !undecided.empty()) open += (open.empty() ? "" : " and ") + undecided;
  if (!open.empty())
    return say(out, Qualified::not_whole, fmt::format("Not yet qualified since {}: {} still to be done.", since, open),
               "Do what is still open; until then fire trials only.");
  if (out.specimens_as_wanted < specimens_wanted)
    return say(
        out, Qualified::not_whole,
        fmt::format("Not yet qualified since {}: {} of {} specimen firings as wanted.", since, out.specimens_as_wanted, specimens_wanted),
        "Fire specimens of a proven program, and record how each came out.");
  say(out, Qualified::yes,
      fmt::format("Qualified since {}: every check wanted is good, {} specimen firings as wanted.", since, out.specimens_as_wanted),
      "Go on by what is due.");
}

}  // namespace

std::string_view word(Reopened reopened) {
  constexpr std::array<std::string_view, 7> words = {"put into service", "muffle", "sensor", "pump or seal", "place", "mains", "repair"};
  return words.at(static_cast<std::size_t>(reopened));
}

std::string_view word(Qualified qualified) {
  constexpr std::array<std::string_view, 4> words = {"qualified", "not qualified", "not yet qualified", "out of use"};
  return words.at(static_cast<std::size_t>(qualified));
}

Reopened reopened_by(std::string_view repair) {
  struct Known {
    std::string_view part;
    Reopened what;
  };
  constexpr std::array<Known, 15> known = {{{"muffle", Reopened::muffle},
                                            {"muffel", Reopened::muffle},
                                            {"element", Reopened::muffle},
                                            {"heiz", Reopened::muffle},
                                            {"sensor", Reopened::sensor},
                                            {"thermo", Reopened::sensor},
                                            {"fühler", Reopened::sensor},
                                            {"pump", Reopened::pump_or_seal},
                                            {"seal", Reopened::pump_or_seal},
                                            {"dichtung", Reopened::pump_or_seal},
                                            {"mains", Reopened::mains},
                                            {"netz", Reopened::mains},
                                            {"moved", Reopened::place},
                                            {"umzug", Reopened::place},
                                            {"standort", Reopened::place}}};
  const std::string small = in_lower_case(repair);
  std::optional<Reopened> found;
  for (const Known& each : known) {
    if (small.find(each.part) == std::string::npos) continue;
    if (found && *found != each.what) return Reopened::repair;  // of several things: all of it
    found = each.what;
  }
  return found.value_or(Reopened::repair);
}

std::vector<Upkeep> works_reopened(Reopened what) {
  switch (what) {
    case Reopened::muffle:
      return {Upkeep::temperature, Upkeep::heating, Upkeep::chamber_map};
    case Reopened::sensor:
      return {Upkeep::temperature, Upkeep::chamber_map};
    case Reopened::pump_or_seal:
      return {Upkeep::vacuum};
    case Reopened::mains:
      return {Upkeep::temperature, Upkeep::heating};
    case Reopened::place:
      return {Upkeep::temperature, Upkeep::vacuum, Upkeep::heating};
    case Reopened::put_into_service:
    case Reopened::repair:
      break;
  }
  return {works.begin(), works.end()};
}

Qualification qualification_of(const std::vector<QualifyingCheck>& checks, const std::vector<Reopening>& reopenings,
                               const std::vector<SpecimenFiring>& specimens) {
  Qualification out;
  out.since = reopenings.back();
  const auto wanted = works_reopened(out.since.what);
  for (const Upkeep work : works)
    out.lines.push_back(line_of(work, checks, out.since, std::find(wanted.begin(), wanted.end(), work) != wanted.end()));
  for (const SpecimenFiring& specimen : specimens) {
    if (specimen.day < out.since.day) continue;
    (specimen.as_wanted ? out.specimens_as_wanted : out.specimens_not) += 1;
  }
  out.tagged_by = tag_of(checks);
  judge(out, checks);
  return out;
}

}  // namespace heatwork::furnace_care
