#include "desk/lab/furnace_checks_kept.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "desk/lab/furnace_checks.h"
#include "desk/lab/local_time.h"
#include "furnace_care/probe_check.h"
#include "furnace_care/temperature_check.h"
#include "furnace_care/wire_questions.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using trade::CheckOf;

constexpr double ms_a_day = 86'400'000;
constexpr double still_fresh_days = 61;

double days_between(std::int64_t from_ms, std::int64_t to_ms) {
  return static_cast<double>(to_ms - from_ms) / ms_a_day;
}

double keyed_then_K(const trade::Check& check, const trade::Furnace& furnace) {
  return (check.correction_keyed ? check.correction_keyed->value : furnace.correction_keyed.value).si();
}

/// All temperatures a thermocouple was read at; its own outcome where the readings are not there any more.
std::vector<furnace_care::ErrorFound> found_by_probe(const trade::Check& check, const trade::Furnace& furnace, int means) {
  if (!check.probe || check.compared.empty()) return {};
  try {
    return furnace_care::errors_of(furnace_care::tell_probe_check({furnace, *check.probe, check.compared, std::nullopt, std::nullopt}),
                                   means);
  } catch (const std::domain_error&) {
    return {};  // what would be refused today says nothing here
  }
}

/// What its wires found; how unsure the wire itself is, is shared with others of its metal.
std::vector<furnace_care::ErrorFound> found_by_wire(const trade::Check& check, const trade::Furnace& furnace, int means) {
  if (!furnace_care::finds_error(check) || !check.error_at) return {};
  const double u_K = check.standard_uncertainty->value.si();
  double shared_K = 0;
  try {
    if (check.wire && !furnace_care::next_wire_question(*check.wire))
      shared_K = furnace_care::combined_K(furnace_care::wire_budget(*check.wire, furnace), true);
  } catch (const std::domain_error&) {
    // A wire that would be refused today: what it found stands for itself.
  }
  shared_K = std::min(shared_K, 0.99 * u_K);
  return {{check.error_at->value.celsius(), check.error->value.si(), std::sqrt(u_K * u_K - shared_K * shared_K), shared_K, means}};
}

bool is_as_left(const trade::Check& check) {
  return check.as_left && check.as_left->value;
}

/// By what a check was done: a thermocouple by its name, else by its type; wires by their metal.
std::string means_of(const trade::Check& check) {
  if (check.of.value == CheckOf::thermocouple)
    return check.reference ? "reference " + check.reference->value : "type " + (check.probe ? check.probe->type : std::string());
  return check.wire && check.wire->metal ? "wire of " + std::string(trade::choice_word(check.wire->metal->value)) : "wire";
}

}  // namespace

std::vector<KeptCheck> checks_since_repair(records::Store& store, const std::string& furnace) {
  std::vector<KeptCheck> checks;
  walk_checks(store, {furnace}, [&](const CheckRead& read) {
    if (!trade::is_finished(*read.check)) return true;
    checks.push_back({*read.check, read.at_ms});
    return read.check->after_repair.empty();
  });
  return checks;
}

std::vector<std::string> checks_going_on(records::Store& store, const std::string& furnace, CheckOf of) {
  std::vector<std::string> names;
  walk_checks(store, {furnace, "going on"}, [&](const CheckRead& read) {
    if (read.check->of.value == of) names.push_back(read.document.id);
    return true;
  });
  return names;
}

std::optional<furnace_care::EarlierError> earlier_error(const std::vector<KeptCheck>& checks, const trade::Furnace& furnace,
                                                        std::int64_t now_ms) {
  for (const KeptCheck& kept : checks) {
    const trade::Check& check = kept.check;
    const bool is_of_display = check.of.value == CheckOf::temperature || check.of.value == CheckOf::thermocouple;
    if (!is_of_display || !check.error) continue;
    return furnace_care::EarlierError{check.error->value.si(), check.standard_uncertainty ? check.standard_uncertainty->value.si() : 0,
                                      keyed_then_K(check, furnace), days_between(kept.at_ms, now_ms)};
  }
  return std::nullopt;
}

OthersFound others_found(const std::vector<KeptCheck>& checks, const trade::Furnace& furnace, double keyed_now_K, std::int64_t now_ms,
                         const trade::Check& check) {
  OthersFound others;
  std::map<std::string, int> numbers;
  const auto number_of = [&](const trade::Check& of) {
    return numbers.emplace(means_of(of), static_cast<int>(numbers.size())).first->second;
  };
  others.means_of_this = number_of(check);
  if (is_as_left(check)) return others;
  for (const KeptCheck& kept : checks) {
    const trade::Check& other = kept.check;
    if (other.name == check.name || days_between(kept.at_ms, now_ms) > still_fresh_days) continue;
    // Found under another correction it would only confirm what the correction is hoped to do.
    if (std::abs(keyed_then_K(other, furnace) - keyed_now_K) < 1e-6) {
      std::vector<furnace_care::ErrorFound> found;
      if (other.of.value == CheckOf::thermocouple) found = found_by_probe(other, furnace, number_of(other));
      if (other.of.value == CheckOf::temperature) found = found_by_wire(other, furnace, number_of(other));
      others.errors.insert(others.errors.end(), found.begin(), found.end());
    }
    if (is_as_left(other)) break;  // what was before the adjustment tells nothing of it any more
  }
  return others;
}

std::string kind_of_last_good(const std::vector<KeptCheck>& checks) {
  for (const KeptCheck& kept : checks)
    if (kept.check.good && kept.check.of.value == CheckOf::thermocouple)
      return "thermocouple";
    else if (kept.check.good && kept.check.of.value == CheckOf::temperature)
      break;
  return "temperature";
}

}  // namespace heatwork::desk
