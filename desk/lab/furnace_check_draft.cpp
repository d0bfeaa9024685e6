#include "desk/lab/furnace_check_draft.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "desk/errors.h"
#include "desk/lab/clock.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "furnace_care/wire_questions.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/choice_words.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

using trade::CheckOf;
using trade::Edit;
using trade::Noun;

// What a person answers; the rest of a check is worked out.
constexpr std::array<std::string_view, 9> answered = {"label",   "note",         "reference",        "method", "next",
                                                      "as_left", "after_repair", "correction_keyed", "limit"};
constexpr std::array<std::string_view, 7> answered_below = {"wire.", "trials[", "probe.", "compared[", "map[", "vacuum.", "heating_run."};

void check_key(const std::string& key) {
  if (std::find(answered.begin(), answered.end(), key) != answered.end()) return;
  if (std::any_of(answered_below.begin(), answered_below.end(), [&](std::string_view below) { return key.starts_with(below); })) return;
  throw Failure(ErrorWord::bad_value, fmt::format("\"{}\" is not answered in such a check; answered are {}, and what begins with {}.",
                                                  trade::for_message(key), fmt::join(answered, ", "), fmt::join(answered_below, ", ")));
}

std::string moment_of(const std::string& typed, const std::string& zone) {
  return utc_text(typed_ms(typed, zone));
}

std::string truth_of_melted(const std::string& typed) {
  if (typed == "melted") return "true";
  if (typed == "whole" || typed == "not melted") return "false";
  throw Failure(ErrorWord::bad_value,
                fmt::format("\"{}\" does not say how the wire came out; allowed are melted and whole.", trade::for_message(typed)));
}

/// A vacuum as typed, of a dial too: counted from the air at this furnace.
std::string absolute_pressure(const trade::Furnace& furnace, const std::string& typed) {
  const auto pressure = quantity::read_pressure(typed, ambient_of_altitude(furnace.altitude.value));
  if (!pressure) throw Failure(ErrorWord::bad_value, fmt::format("pressure: {}", pressure.error()));
  return quantity::write(quantity::canonical(*pressure));
}

/// Nobody typed the text, so that a mistake is told without the place in it.
trade::Check read_answers(const std::string& text) {
  try {
    return read_kept<trade::Check>(trade::source_of("the check", text));
  } catch (const trade::Mistake& mistake) {
    throw Failure(ErrorWord::bad_value, mistake.sentence());
  }
}

/// The edits that add new readings behind those there are.
class Readings {
 public:
  Readings(std::vector<Edit>& edits, std::string zone) : edits_(edits), zone_(std::move(zone)) {}
  void add(const std::vector<WireFired>& trials, std::size_t there) {
    for (const WireFired& trial : trials) {
      const std::string at = fmt::format("trials[{}].", ++there);
      set(at + "display", trial.display);
      edits_.push_back({at + "melted", truth_of_melted(trial.melted)});
      moment(at + "at", trial.at);
    }
  }
  void add(const std::vector<ProbeRead>& compared, std::size_t there) {
    for (const ProbeRead& reading : compared) {
      const std::string at = fmt::format("compared[{}].", ++there);
      set(at + "display", reading.display);
      set(at + "probe", reading.probe);
      set(at + "emf", reading.emf);
      set(at + "cold_junction", reading.cold_junction);
      moment(at + "at", reading.at);
    }
  }
  void add(const std::vector<TabSeen>& tabs, std::size_t there) {
    for (const TabSeen& tab : tabs) {
      const std::string at = fmt::format("map[{}].", ++there);
      set(at + "where", tab.where);
      set(at + "looked_like", tab.looked_like);
      set(at + "lightness", tab.lightness);
      set(at + "redness", tab.redness);
      set(at + "yellowness", tab.yellowness);
    }
  }

 private:
  void set(const std::string& key, const std::string& value) {
    if (!value.empty()) edits_.push_back({key, value});
  }
  void moment(const std::string& key, const std::string& typed) {
    if (!typed.empty()) edits_.push_back({key, moment_of(typed, zone_)});
  }
  std::vector<Edit>& edits_;
  std::string zone_;
};

std::string with_strokes(std::string text) {
  std::replace(text.begin(), text.end(), ' ', '-');
  return text;
}

/// FURNACE-OF-DAY, with a number behind where that is kept already.
std::string free_name(records::Store& store, const std::string& furnace, CheckOf of, const std::string& day) {
  const std::string tail = fmt::format("-{}-{}", with_strokes(std::string(trade::choice_word(of))), day);
  const std::string name = furnace.substr(0, 56 - std::min<std::size_t>(tail.size(), 50)) + tail;
  std::string one = name;
  for (int number = 2; store.find("check", one); ++number) one = fmt::format("{}-{}", name, number);
  return one;
}

void check_goes_on(const trade::Check& check, const FurnaceCheckWords& words, CheckOf of) {
  if (check.furnace.value != words.furnace)
    throw Failure(ErrorWord::conflict,
                  fmt::format("Check {} is of furnace {}, not of {}.", check.name, check.furnace.value, words.furnace));
  if (check.of.value != of)
    throw Failure(ErrorWord::conflict,
                  fmt::format("Check {} is one of {}, not of {}.", check.name, trade::choice_word(check.of.value), trade::choice_word(of)));
  const bool takes_more = !words.answers.empty() || !words.trials.empty() || !words.compared.empty() || !words.tabs.empty();
  if (trade::is_finished(check) && takes_more)
    throw Failure(ErrorWord::conflict, fmt::format("Check {} is finished and takes no more readings; begin a new one.", check.name));
}

std::vector<Edit> edits_of_words(const FurnaceCheckDraft& draft, const FurnaceCheckWords& words) {
  std::vector<Edit> edits;
  for (const Edit& answer : words.answers) {
    check_key(answer.key);
    edits.push_back(answer);
    if (answer.value == "yes" || answer.value == "no") edits.back().value = *answer.value == "yes" ? "true" : "false";
    if (answer.key == "wire.pressure" && answer.value) edits.back().value = absolute_pressure(draft.furnace, *answer.value);
  }
  Readings readings(edits, draft.zone);
  readings.add(words.trials, draft.check.trials.size());
  readings.add(words.compared, draft.check.compared.size());
  readings.add(words.tabs, draft.check.map.size());
  return edits;
}

/// The text of the check with all that is new, as a file would have it.
std::string text_of(records::Store& store, const StorePlace& place, const FurnaceCheckDraft& draft, const FurnaceCheckWords& words,
                    CheckOf of) {
  std::vector<Edit> edits = edits_of_words(draft, words);
  const bool has_readings = !words.trials.empty() || !words.compared.empty() || !words.tabs.empty();
  if (draft.version > 0 && has_readings) edits.push_back({"at", utc_text(draft.now_ms)});  // when its newest reading was told
  if (draft.version > 0) return trade::edited_text(draft.check, edits);
  const auto given = [&](std::string_view key) {
    return std::any_of(edits.begin(), edits.end(), [&](const Edit& edit) { return edit.key == key; });
  };
  const std::string name = words.name.empty() ? free_name(store, words.furnace, of, local_day(draft.now_ms, place.zone)) : words.name;
  if (!words.name.empty() && store.find("check", words.name))
    throw Failure(ErrorWord::already_there, fmt::format("Check {} is kept already; give another name, or go on with it.", words.name));
  edits.push_back({"furnace", words.furnace});
  edits.push_back({"of", std::string(trade::choice_word(of))});
  edits.push_back({"good", "false"});
  edits.push_back({"at", utc_text(draft.now_ms)});
  edits.push_back({"person", place.opening.who.person});
  edits.push_back({"finished", "false"});
  if (!given("correction_keyed")) edits.push_back({"correction_keyed", quantity::write(draft.furnace.correction_keyed.value)});
  return trade::new_text<trade::Check>(name, edits);
}

/// The furnace with its new correction. What its file says of the error stays: the check is newer and is what counts, with drift since.
trade::Furnace corrected(const FurnaceCheckDraft& draft) {
  trade::Furnace furnace = draft.furnace;
  furnace.correction_keyed.value = draft.check.keyed_after->value;
  return furnace;
}

/// What the lab said of its newest check of the display holds for a new one that says nothing else.
void take_limit(FurnaceCheckDraft& draft) {
  const auto of_display = [](const trade::Check& check) {
    return check.of.value == CheckOf::temperature || check.of.value == CheckOf::thermocouple;
  };
  if (draft.version > 0 || draft.check.limit || !of_display(draft.check)) return;
  const auto newest =
      std::find_if(draft.earlier.begin(), draft.earlier.end(), [&](const KeptCheck& kept) { return of_display(kept.check); });
  if (newest != draft.earlier.end()) draft.check.limit = newest->check.limit;
}

}  // namespace

FurnaceCheckDraft draft_of(const StorePlace& place, records::Store& store, const FurnaceCheckWords& words, CheckOf of) {
  FurnaceCheckDraft draft;
  draft.now_ms = clock_of_machine().now_ms();
  draft.zone = place.zone;
  const records::Document furnace = newest_document(store, Noun::furnace, words.furnace);
  draft.furnace = read_kept<trade::Furnace>(kept_source(furnace));
  draft.furnace_version = furnace.version;
  if (!words.go_on.empty()) {
    const records::Document document = newest_document(store, Noun::check, words.go_on);
    draft.check = read_kept<trade::Check>(kept_source(document));
    draft.version = words.from > 0 ? words.from : document.version;  // the store refuses what was made from another one
    check_goes_on(draft.check, words, of);
  }
  draft.check = read_answers(text_of(store, place, draft, words, of));
  if (draft.check.wire && !trade::is_finished(draft.check)) draft.taken_out = furnace_care::take_out_what_no_longer_fits(*draft.check.wire);
  if (draft.check.reference)
    if (const auto kept = store.find(trade::word(Noun::reference), draft.check.reference->value))
      draft.reference = read_kept<trade::Reference>(kept_source(*kept));
  draft.earlier = checks_since_repair(store, words.furnace);
  // Of a finished one what was known then stays what is told.
  if (trade::is_finished(draft.check) && !draft.check.at.empty()) draft.now_ms = utc_ms(draft.check.at);
  // It says nothing of itself, and once it is finished nothing that came after it does.
  const auto itself =
      std::find_if(draft.earlier.begin(), draft.earlier.end(), [&](const KeptCheck& kept) { return kept.check.name == draft.check.name; });
  const auto upto = itself == draft.earlier.end() ? itself : itself + 1;
  if (trade::is_finished(draft.check)) draft.earlier.erase(draft.earlier.begin(), upto);
  take_limit(draft);
  draft.going_on = checks_going_on(store, words.furnace, of);
  draft.going_on.erase(std::remove(draft.going_on.begin(), draft.going_on.end(), draft.check.name), draft.going_on.end());
  return draft;
}

report::TemperatureScale scale_typed_in(const FurnaceCheckWords& words) {
  bool fahrenheit = false, other = false;
  const auto see = [&](const std::string& typed) {
    if (typed.find_first_of("0123456789") == std::string::npos) return;
    const auto ends = [&](std::initializer_list<std::string_view> units) {
      return std::any_of(units.begin(), units.end(), [&](std::string_view unit) { return typed.ends_with(unit); });
    };
    fahrenheit = fahrenheit || ends({"F", "℉"});
    other = other || ends({"C", "℃", "K"});
  };
  for (const Edit& answer : words.answers) see(answer.value.value_or(""));
  for (const WireFired& wire : words.trials) see(wire.display);
  for (const ProbeRead& read : words.compared)
    for (const std::string* typed : {&read.display, &read.probe, &read.cold_junction}) see(*typed);
  for (const TabSeen& tab : words.tabs) see(tab.looked_like);
  return fahrenheit && !other ? report::TemperatureScale::fahrenheit : report::TemperatureScale::celsius;
}

std::vector<std::string> with_taken_out(const FurnaceCheckDraft& draft, const std::vector<std::string>& remarks) {
  std::vector<std::string> all = draft.taken_out;
  all.insert(all.end(), remarks.begin(), remarks.end());
  return all;
}

double keyed_K(const FurnaceCheckDraft& draft) {
  return (draft.check.correction_keyed ? draft.check.correction_keyed->value : draft.furnace.correction_keyed.value).si();
}

records::Kept keep_draft(const StorePlace& place, records::Store& store, FurnaceCheckDraft& draft, const std::string& reason) {
  records::NewVersion version;
  version.kind = "check";
  version.id = draft.check.name;
  version.after = draft.version;
  version.body = trade::write_noun(draft.check);
  version.action = draft.version == 0 ? "added" : "changed";
  version.reason = reason;
  static_cast<void>(read_kept<trade::Check>(trade::source_of(titled(Noun::check, draft.check.name), version.body)));
  records::Change change;
  change.documents = {version};
  if (draft.check.keyed_after && draft.check.keyed_after->value != draft.furnace.correction_keyed.value) {
    const trade::Furnace furnace = corrected(draft);
    change.documents.push_back({"furnace",
                                furnace.name,
                                draft.furnace_version,
                                trade::write_noun(furnace),
                                {},
                                "changed",
                                reason.empty() ? fmt::format("corrected after check {}", draft.check.name) : reason,
                                false});
  }
  records::Kept kept = keep(place, store, std::move(change));
  draft.version = kept.documents.front().version;
  return kept;
}

}  // namespace heatwork::desk
