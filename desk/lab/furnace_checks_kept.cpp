#include "desk/lab/furnace_checks_kept.h"

#include <stdexcept>

#include "desk/lab/furnace_checks.h"
#include "desk/lab/local_time.h"
#include "furnace_care/probe_check.h"

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

std::vector<furnace_care::ErrorFound> errors_found(const std::vector<KeptCheck>& checks, const trade::Furnace& furnace, double keyed_now_K,
                                                   std::int64_t now_ms, const std::string& not_this) {
  std::vector<furnace_care::ErrorFound> all;
  int means = 0;
  for (const KeptCheck& kept : checks) {
    const trade::Check& check = kept.check;
    if (check.name == not_this || days_between(kept.at_ms, now_ms) > still_fresh_days) continue;
    ++means;
    std::vector<furnace_care::ErrorFound> found;
    if (check.of.value == CheckOf::thermocouple) found = found_by_probe(check, furnace, means);
    if (check.of.value == CheckOf::temperature && check.error && check.error_at && check.standard_uncertainty &&
        check.standard_uncertainty->value.si() > 0)
      found.push_back({check.error_at->value.celsius(), check.error->value.si(), check.standard_uncertainty->value.si(), 0, means});
    for (auto& each : found) {
      each.error_K =
          furnace_care::error_with_keyed_K(furnace.correction_convention.value, each.error_K, keyed_then_K(check, furnace), keyed_now_K);
      all.push_back(each);
    }
  }
  return all;
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
