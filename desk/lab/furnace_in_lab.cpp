#include "desk/lab/furnace_in_lab.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "desk/lab/furnace_checks.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/local_time.h"
#include "desk/lab/store_shelf.h"
#include "furnace_care/as_checked.h"
#include "furnace_care/known_error.h"
#include "trade/library.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckOnDay;
using furnace_care::FileOnDay;
using furnace_care::OnDay;
using trade::Noun;
using trade::TextUsed;

constexpr double ms_a_day = 86'400'000;
constexpr std::string_view check_kind = trade::word(Noun::check);
constexpr std::string_view furnace_kind = trade::word(Noun::furnace);
/// Beyond what tells all there is so many older ones are looked at, so that the answer says which of them do not count any more.
constexpr int older_at_least = 15;
/// An error known no better leaves room for what an older check tells. [K]
constexpr double sure_K = furnace_care::never_checked_K / 2;

/// Checks of one furnace, each with the text it was read from.
struct Checks {
  std::vector<CheckOnDay> checks;
  std::vector<TextUsed> texts;
};

/// Of the values that checks tell, those that newer ones told.
struct Found {
  bool display = false, gain = false, loss = false, pump = false, ultimate = false, leak = false, repair = false;

  void add(const trade::Check& check) {
    repair = repair || !check.after_repair.empty();
    if (!tells_of_furnace(check)) return;
    display = display || (furnace_care::finds_error(check) && check.standard_uncertainty->value.si() < sure_K);
    if (trade::is_undecided(check)) return;
    gain = gain || check.gain;
    loss = loss || check.loss;
    pump = pump || check.pump_time_constant;
    ultimate = ultimate || check.ultimate;
    leak = leak || check.leak;
  }
  /// An older check tells what no newer one does, or tells why it does not count.
  [[nodiscard]] bool misses(const trade::Check& check) const {
    if (!check.after_repair.empty()) return true;
    const trade::CheckOf of = check.of.value;
    const bool of_display = check.error || of == trade::CheckOf::temperature || of == trade::CheckOf::thermocouple;
    return (!display && of_display) || (!gain && (check.gain || of == trade::CheckOf::heating)) || (!loss && check.loss) ||
           (!pump && (check.pump_time_constant || of == trade::CheckOf::vacuum)) || (!ultimate && check.ultimate) || (!leak && check.leak);
  }
  /// What is older tells nothing more; of what a repair made void the next ones are told, no more.
  [[nodiscard]] bool enough() const { return repair || (display && gain && loss && pump && ultimate && leak); }
};

std::optional<double> top_C(const trade::Program& program) {
  std::optional<double> top;
  for (const trade::HeatingStage& stage : program.heating) top = std::max(top.value_or(0), stage.to.value.celsius());
  return top;
}

class Knowing {
 public:
  Knowing(records::Store& store, const RehearsedAt& at, const std::vector<TextUsed>* only, const std::optional<FurnaceTyped>& typed)
      : store_(store), at_(at), only_(only), typed_(typed) {}

  void know(trade::ResolvedFiring& found) {
    for (trade::ResolvedFiring& earlier : found.earlier) {
      if (was_started(earlier.firing)) continue;  // it is known as it was started
      know(earlier);
      for (const TextUsed& text : earlier.used)
        if (text.kind == check_kind) add_used(found, text);
    }
    const auto text = std::find_if(found.used.begin(), found.used.end(),
                                   [&](const TextUsed& each) { return each.kind == furnace_kind && each.name == found.furnace.name; });
    if (text == found.used.end()) return;
    const bool is_typed = typed_ && typed_->name == found.furnace.name && text->version == 0;
    const int version = is_typed ? typed_->version : text->version;
    if (version == 0) return;
    const std::int64_t at_ms = fired_ms(found.firing);
    const Checks& checks = checks_of(found.furnace.name, at_ms);
    if (checks.checks.empty()) return;
    const auto file = file_of(found.furnace, version, is_typed, checks);
    const auto known = furnace_care::as_checked(file, checks.checks, on_day(at_ms), top_C(found.program));
    found.furnace = known.furnace;
    found.furnace_known = known.known;
    for (const std::size_t i : known.used) {
      add_used(found, checks.texts[i]);
      found.came_from.emplace_back(fmt::format("{} {}", check_kind, checks.texts[i].name),
                                   fmt::format("{}: {}", only_ != nullptr ? "as it was fired" : "store", checks.texts[i].source->name));
    }
  }

 private:
  static void add_used(trade::ResolvedFiring& found, const TextUsed& text) {
    const auto same = [&](const TextUsed& each) { return each.kind == text.kind && each.name == text.name; };
    if (std::none_of(found.used.begin(), found.used.end(), same)) found.used.push_back(text);
  }

  [[nodiscard]] OnDay on_day(std::int64_t ms) const { return {static_cast<double>(ms) / ms_a_day, local_day(ms, at_.zone)}; }

  [[nodiscard]] std::int64_t fired_ms(const trade::Firing& firing) const {
    if (!firing.record) return at_.now_ms;
    if (!firing.record->started.empty()) return utc_ms(firing.record->started);
    return firing.record->planned_for.empty() ? at_.now_ms : std::max(at_.now_ms, utc_ms(firing.record->planned_for));
  }

  const Checks& checks_of(const std::string& furnace, std::int64_t until_ms) {
    const auto known = checks_.find({furnace, until_ms});
    if (known != checks_.end()) return known->second;
    return checks_.emplace(std::pair(furnace, until_ms), only_ != nullptr ? checks_given(furnace) : checks_kept(furnace, until_ms))
        .first->second;
  }

  void add(Checks& into, const trade::Check& check, const TextUsed& text) const {
    into.checks.push_back({check, on_day(utc_ms(check.at))});
    into.texts.push_back(text);
  }

  [[nodiscard]] Checks checks_given(const std::string& furnace) const {
    Checks all;
    for (const TextUsed& text : *only_) {
      if (text.kind != check_kind) continue;
      const auto check = read_kept<trade::Check>(text.source);
      if (check.furnace.value == furnace) add(all, check, text);
    }
    return all;
  }

  /// Up to a moment, newest first, no more of them than tell anything.
  [[nodiscard]] Checks checks_kept(const std::string& furnace, std::int64_t until_ms) const {
    Checks all;
    Found seen;
    int older = 0;
    walk_checks(store_, {.furnace = furnace, .until_ms = until_ms}, [&](const CheckRead& read) {
      if (seen.misses(*read.check))
        add(all, *read.check, {std::string(check_kind), read.document.id, kept_source(read.document), read.document.version});
      seen.add(*read.check);
      return !seen.enough() || ++older < older_at_least;
    });
    return all;
  }

  /// The furnace's file from before the oldest check on, oldest first; what was typed over it is the newest.
  std::vector<FileOnDay> file_of(const trade::Furnace& in_use, int version, bool is_typed, const Checks& checks) {
    std::map<int, std::int64_t> kept_ms;
    records::EntryQuery query{std::string(furnace_kind), in_use.name, 0, false};
    for (int page = 1;; ++page) {
      const auto entries = store_.trail(query, page);
      for (const auto& entry : entries.rows) kept_ms[entry.version] = utc_ms(entry.who.at_utc);
      if (static_cast<std::int64_t>(page) * records::rows_a_page >= entries.count) break;
    }
    double oldest = HUGE_VAL;
    for (const CheckOnDay& check : checks.checks) oldest = std::min(oldest, check.at.days);
    std::vector<FileOnDay> newest_first;
    if (is_typed) newest_first.push_back({in_use, on_day(at_.now_ms + 1)});
    for (int each = version; each > 0; --each) {
      const auto kept = kept_ms.find(each);  // one that is just being kept stands in no entry yet
      const OnDay at = on_day(kept == kept_ms.end() ? at_.now_ms + 1 : kept->second);
      newest_first.push_back({each == version && !is_typed ? in_use : furnace_kept(in_use.name, each), at});
      if (at.days <= oldest) break;
    }
    return {newest_first.rbegin(), newest_first.rend()};
  }

  [[nodiscard]] trade::Furnace furnace_kept(const std::string& name, int version) const {
    const auto document = store_.find(furnace_kind, name, version);
    if (!document)
      throw records::StoreError(records::StoreProblem::damaged,
                                fmt::format("The store is damaged: version {} of furnace {} is not in it.", version, name));
    return read_kept<trade::Furnace>(kept_source(*document));
  }

  records::Store& store_;
  const RehearsedAt& at_;
  const std::vector<TextUsed>* only_;
  const std::optional<FurnaceTyped>& typed_;
  std::map<std::pair<std::string, std::int64_t>, Checks> checks_;
};

}  // namespace

RehearsedAt rehearsed_at(const StorePlace& place) {
  return {utc_ms(place.opening.who.at_utc), place.zone};
}

bool tells_of_furnace(const trade::Check& check) {
  const bool other = check.gain || check.loss || check.pump_time_constant || check.ultimate || check.leak;
  return trade::is_finished(check) && (furnace_care::finds_error(check) || (other && !trade::is_undecided(check)));
}

void know_furnaces(records::Store& store, const RehearsedAt& at, trade::ResolvedFiring& found, const std::optional<FurnaceTyped>& typed) {
  Knowing(store, at, nullptr, typed).know(found);
}

void know_furnaces_by(records::Store& store, const RehearsedAt& at, const std::vector<trade::TextUsed>& texts, trade::ResolvedFiring& found,
                      const std::optional<FurnaceTyped>& typed) {
  Knowing(store, at, &texts, typed).know(found);
}

}  // namespace heatwork::desk
