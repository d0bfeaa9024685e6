#include "furnace_care/certificate.h"

#include <fmt/format.h>

#include "furnace_care/due.h"

namespace heatwork::furnace_care {
namespace {

// Instruments are calibrated yearly: common practice. That a wire keeps its purity so long, if dry and clean, is assumed.
// source: chosen-here
constexpr int instrument_days = 365, wire_days = 1826;

UpkeepInterval every(int days, SetBy by) {
  UpkeepInterval interval;
  interval.every_days = days;
  interval.by = by;
  return interval;
}

CertificateDue by_interval(const trade::Reference& reference, const UpkeepInterval& interval, int today) {
  const auto certified = day_number(reference.certified);
  if (!certified) return {today, "Nothing that is kept tells when it was certified.", interval.by, interval};
  return {*certified + *interval.every_days, fmt::format("Certified on {}.", reference.certified), interval.by, interval};
}

}  // namespace

std::optional<UpkeepInterval> usual_certificate_interval(trade::ReferenceOf of) {
  using enum trade::ReferenceOf;
  switch (of) {
    case thermocouple:
    case vacuum_gauge:
    case barometer:
      return every(instrument_days, SetBy::common_practice);
    case silver_wire:
    case gold_wire:
      return every(wire_days, SetBy::assumed);
    case shade_tab:
    case other:
      break;
  }
  return std::nullopt;
}

std::optional<UpkeepInterval> certificate_interval(const trade::Reference& reference) {
  if (!reference.every_days) return usual_certificate_interval(reference.of.value);
  const bool maker = reference.by && reference.by->value == trade::IntervalBy::furnace_maker;
  UpkeepInterval interval = every(reference.every_days->value, maker ? SetBy::furnace_maker : SetBy::lab);
  interval.stated_in = reference.stated_in;
  return interval;
}

std::optional<CertificateDue> certificate_due(const trade::Reference& reference, int today) {
  const auto expires = day_number(reference.expires);
  std::optional<CertificateDue> due;
  if (expires) due = {*expires, fmt::format("Its certificate is valid until {}.", reference.expires), SetBy::certificate, std::nullopt};
  if (expires && !reference.every_days) return due;
  const auto interval = certificate_interval(reference);
  if (!interval) return due;
  const CertificateDue again = by_interval(reference, *interval, today);
  // Without the day it was certified an interval says nothing where the certificate itself does.
  const bool is_sooner = !due || (!reference.certified.empty() && again.day < due->day);
  return is_sooner ? again : due;
}

}  // namespace heatwork::furnace_care
