#include "desk/lab/furnace_upkeep.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/furnace_care_due.h"
#include "desk/lab/furnace_history.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_names.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/lab_settings.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_place.h"
#include "desk/lab/store_shelf.h"
#include "quantity/read.h"
#include "trade/mistake.h"

namespace heatwork::desk {
namespace {

using furnace_care::Upkeep;
using trade::Noun;

[[noreturn]] void refuse(const std::string& sentence) {
  throw Failure(ErrorWord::bad_value, sentence);
}

/// A work of every furnace, or nothing for one of the lab's own; what is nearly one of the former is a slip.
std::optional<Upkeep> work_named(const std::string& work) {
  if (const auto known = furnace_care::upkeep_of(work)) return known;
  if (work.empty()) refuse("Say which work, such as \"vacuum test\".");
  std::vector<std::string> all;
  for (std::size_t i = 0; i < furnace_care::upkeep_works; ++i) all.emplace_back(furnace_care::word(static_cast<Upkeep>(i)));
  if (const std::string near = quantity::near_miss(work, all); !near.empty())
    refuse(fmt::format("\"{}\" is no work of every furnace; did you mean \"{}\"?", trade::for_message(work), near));
  return std::nullopt;
}

/// The version a change is made from.
records::Document base_of(records::Store& store, Noun noun, const std::string& name, int from) {
  const records::Document newest = newest_document(store, noun, name);
  return from == 0 ? newest : kept_document(store, noun, {newest.id, from});
}

/// "due[3]": where a list says something of a work, or one past its end.
struct Entry {
  std::string key;
  bool stands = false;
  bool has_done = false, has_day = false, has_interval = false, by_maker = false;
};

template <class Due>
Entry entry_of(const std::vector<Due>& dues, const std::string& work) {
  const auto found = std::find_if(dues.begin(), dues.end(), [&](const Due& due) { return due.what == work; });
  Entry entry{fmt::format("due[{}]", found - dues.begin() + 1), found != dues.end()};
  if (!entry.stands) return entry;
  entry.has_interval = found->often.is_said();
  if constexpr (requires { found->done; }) {
    entry.has_done = !found->done.empty();
    entry.has_day = !found->on.empty();
    entry.by_maker = found->by && found->by->value == trade::IntervalBy::furnace_maker;
  }
  return entry;
}

/// Values set and keys taken out, as a change of what is kept has them.
class Edits {
 public:
  Edits(Entry entry, const std::string& work) : entry_(std::move(entry)) { put("what", entry_.stands ? "" : work); }
  void put(std::string_view key, const std::string& value) {
    if (!value.empty()) set.push_back(fmt::format("{}.{}={}", entry_.key, key, value));
  }
  /// What is not said any more goes.
  void put_or_take_out(std::string_view key, const std::string& value) {
    if (value.empty() && entry_.stands) unset.push_back(fmt::format("{}.{}", entry_.key, key));
    put(key, value);
  }
  std::vector<std::string> set, unset;

 private:
  Entry entry_;
};

/// Nobody typed the text of the file, so that a mistake is told without its place there.
template <class Keep>
CareAnswer kept_as_answered(const Keep& keep) {
  try {
    return keep();
  } catch (const trade::Mistake& mistake) {
    throw Failure(ErrorWord::bad_value, mistake.sentence());
  }
}

CareAnswer with_due(const AskedLab& asked, const std::string& furnace, const CareAnswer& kept, const Clock& clock) {
  CareAnswer due = due_of_furnaces(asked, {furnace}, clock);
  JsonObject json = *due.json.object();
  for (const char* key : {"kept", "head"}) json.push_back({key, *kept.json.find(key)});
  return {kept.text + "\n" + due.text, std::move(json), false};
}

void check_interval(const UpkeepIntervalWords& words, const std::optional<Upkeep>& work) {
  const bool by_maker = words.by == "furnace maker";
  const bool by_use = !words.after_firings.empty() || !words.after_hours.empty();
  const bool is_said = !words.every_days.empty() || by_use;
  if (!words.by.empty() && !by_maker && words.by != "lab")
    refuse(fmt::format("Who says how often is \"furnace maker\" or \"lab\", not \"{}\".", trade::for_message(words.by)));
  if (is_said == words.as_before)
    refuse(words.as_before ? "Say how often, or that it goes back to what it was before; one of the two."
                           : "Say how often: every so many days, after so many firings or after so many hours of firings.");
  if (by_maker && words.furnace.empty()) refuse("What a furnace maker says is kept with its furnace; name the furnace.");
  if (by_maker && words.stated_in.empty() && !words.as_before)
    refuse("Where the furnace maker says so is missing; give it, such as \"instructions for use, page 31\".");
  if (!by_maker && !words.stated_in.empty()) refuse("Where it is stated goes with what the furnace maker says.");
  if (work == Upkeep::start_of_day && by_use) refuse("The start of the day comes round by days alone.");
}

void check_entry(const UpkeepIntervalWords& words, const Entry& entry) {
  const std::string whose = words.furnace.empty() ? "every furnace" : fmt::format("furnace {}", words.furnace);
  if (words.as_before && !entry.has_interval)
    refuse(fmt::format("Nothing is set for the {} of {}.", trade::for_message(words.work), whose));
  if (entry.has_day)
    refuse(
        fmt::format("The {} of {} has a day of its own; take that out first, then say how often.", trade::for_message(words.work), whose));
  if (entry.by_maker && words.by != "furnace maker" && !words.as_before)
    refuse(fmt::format("The furnace maker's instruction says how often the {} of {} is due, and comes first.",
                       trade::for_message(words.work), whose));
}

Edits edits_for(const UpkeepIntervalWords& words, const Entry& entry, const std::string& person) {
  Edits edits(entry, words.work);
  if (words.as_before && !entry.has_done) {
    edits.unset.push_back(entry.key);
    return edits;
  }
  edits.put_or_take_out("every_days", words.every_days);
  edits.put_or_take_out("after_firings", words.after_firings);
  edits.put_or_take_out("after_hours", words.after_hours);
  edits.put_or_take_out("set_by", words.as_before ? "" : person);
  if (words.furnace.empty()) return edits;
  edits.put_or_take_out("by", words.by == "furnace maker" ? words.by : "");
  edits.put_or_take_out("stated_in", words.stated_in);
  return edits;
}

/// The edits that set an interval in the text it is kept in; nothing where that is a lab's document that does not stand yet.
struct Interval {
  std::string name;  ///< of furnace or lab
  bool stands = true;
  Edits edits;
};

Interval interval_in_store(const StorePlace& place, const UpkeepIntervalWords& words) {
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const std::string person = asker_of(place, store).code;
    if (!words.furnace.empty()) {
      const auto base = base_of(store, Noun::furnace, words.furnace, words.from);
      const Entry entry = entry_of(read_kept<trade::Furnace>(kept_source(base)).dues, words.work);
      check_entry(words, entry);
      return Interval{base.id, true, edits_for(words, entry, person)};
    }
    const std::string name = lab_settings(store, settings_of(variables_of_process())).document;
    std::vector<trade::LabDue> dues;
    if (!name.empty()) dues = read_kept<trade::Lab>(kept_source(base_of(store, Noun::lab, name, words.from))).dues;
    const Entry entry = entry_of(dues, words.work);
    check_entry(words, entry);
    return Interval{name.empty() ? std::string(usual_lab_document) : name, !name.empty(), edits_for(words, entry, person)};
  });
}

/// "2026-11-25", not after today.
std::string day_done(const std::string& typed, const std::string& today) {
  if (typed.empty()) return today;
  if (!furnace_care::day_number(typed)) refuse(fmt::format("\"{}\" is no day; a day is written 2026-11-25.", trade::for_message(typed)));
  if (typed > today) refuse(fmt::format("{} is still to come; what was done was done today or before.", typed));
  return typed;
}

/// What is known of the last time; a day before it would change nothing.
void check_done(const FurnaceKept& kept, const std::string& work, const std::string& on) {
  std::optional<furnace_care::UpkeepDone> last;
  if (const auto known = furnace_care::upkeep_of(work)) {
    if (furnace_care::is_done_by_check(*known))
      refuse(fmt::format("The {} is done by a check whose readings are kept; it is not marked by hand.", work));
    if (const auto found = kept.history.done.find(*known); found != kept.history.done.end()) last = found->second;
  } else {
    const auto& dues = kept.furnace.dues;
    const bool is_set = kept.set.own.contains(work) ||
                        std::any_of(dues.begin(), dues.end(), [&](const trade::FurnaceDue& due) { return due.what == work; });
    if (!is_set)
      throw Failure(ErrorWord::unknown_name, fmt::format("Nothing says that \"{}\" is due at furnace {}; say how often first.",
                                                         trade::for_message(work), kept.furnace.name));
    if (const auto found = kept.set.own_done.find(work); found != kept.set.own_done.end()) last = found->second;
  }
  if (last && furnace_care::day_text(last->day) >= on)
    throw Failure(ErrorWord::bad_value,
                  fmt::format("The {} was last done on {} by {} already.", work, furnace_care::day_text(last->day), last->by));
}

}  // namespace

CareAnswer set_upkeep_interval(const AskedLab& asked, const UpkeepIntervalWords& words, const Clock& clock) {
  check_interval(words, work_named(words.work));
  const StorePlace place = place_of(asked);
  const Interval interval = interval_in_store(place, words);
  const Noun noun = words.furnace.empty() ? Noun::lab : Noun::furnace;
  if (!interval.stands)
    return with_due(asked, "", kept_as_answered([&] {
                      return add_kept(asked, noun, {{interval.name}, interval.edits.set, words.reason});
                    }),
                    clock);
  ChangeWords change;
  change.name = interval.name;
  change.set = interval.edits.set;
  change.unset = interval.edits.unset;
  change.from = words.from;
  change.reason = words.reason;
  return with_due(asked, words.furnace, kept_as_answered([&] { return change_kept(asked, noun, change); }), clock);
}

CareAnswer mark_upkeep_done(const AskedLab& asked, const UpkeepDoneWords& words, const Clock& clock) {
  static_cast<void>(work_named(words.work));
  const StorePlace place = place_of(asked);
  const std::string today = local_day(clock.now_ms(), place.zone);
  ChangeWords change;
  caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const std::string on = day_done(words.on, today);
    check_done(furnace_kept(store, place, words.furnace, today), words.work, on);
    const auto base = base_of(store, Noun::furnace, words.furnace, words.from);
    Edits edits(entry_of(read_kept<trade::Furnace>(kept_source(base)).dues, words.work), words.work);
    edits.put("done", on);
    edits.put("done_by", asker_of(place, store).code);
    change.set = edits.set;
    return CareAnswer{};
  });
  change.name = words.furnace;
  change.from = words.from;
  change.reason = words.reason;
  return with_due(asked, words.furnace, change_kept(asked, Noun::furnace, change), clock);
}

}  // namespace heatwork::desk
