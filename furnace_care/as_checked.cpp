#include "furnace_care/as_checked.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <set>
#include <stdexcept>
#include <utility>

#include "furnace_care/known_error.h"
#include "metrology/control_chart.h"
#include "metrology/display_offset.h"
#include "quantity/read.h"
#include "quantity/write.h"

namespace heatwork::furnace_care {
namespace {

using trade::Check;
using trade::CheckOf;
using trade::Furnace;
using trade::SaidOfCheck;

constexpr std::string_view of_display = "display error";

/// A value of a furnace that a check may tell, beside the display's error.
template <class T>
struct Told {
  std::string_view of, in_words;
  CheckOf by;
  trade::Maybe<T> Check::*value;
  trade::Maybe<T> Check::*uncertainty;
  trade::Given<T>& (*in_file)(Furnace&);
  double si_per_unit;
  std::string_view unit;
};

trade::Given<quantity::HeatingRate>& gain_in(Furnace& furnace) {
  return furnace.heating.gain;
}

trade::Given<quantity::Frequency>& loss_in(Furnace& furnace) {
  return furnace.heating.loss;
}

trade::Given<quantity::Duration>& pump_time_constant_in(Furnace& furnace) {
  return furnace.pump.time_constant;
}

trade::Given<quantity::Pressure>& ultimate_in(Furnace& furnace) {
  return furnace.pump.ultimate;
}

trade::Given<quantity::PressureRate>& leak_in(Furnace& furnace) {
  return furnace.pump.leak;
}

bool tells_of_display(const Check& check) {
  return check.error || check.of.value == CheckOf::temperature || check.of.value == CheckOf::thermocouple;
}

bool same_display(const Furnace& one, const Furnace& other) {
  if (!one.display_error || !other.display_error) return one.display_error.has_value() == other.display_error.has_value();
  return one.display_error->error.value == other.display_error->error.value &&
         one.display_error->standard_uncertainty.value == other.display_error->standard_uncertainty.value;
}

class Knowing {
 public:
  Knowing(std::span<const FileOnDay> file, std::span<const CheckOnDay> checks, const OnDay& fired, std::optional<double> top_C)
      : file_(file), checks_(checks), fired_(fired), top_C_(top_C) {
    if (file.empty()) throw std::logic_error("as_checked was given no furnace");
    out_.furnace = file.back().furnace;
    for (std::size_t i = 0; i < checks.size(); ++i)
      if (checks[i].at.days <= fired.days) newest_first_.push_back(i);
    std::stable_sort(newest_first_.begin(), newest_first_.end(),
                     [&](std::size_t a, std::size_t b) { return checks_[a].at.days > checks_[b].at.days; });
  }

  AsChecked known() {
    display();
    trade::FurnaceKnown& known = out_.known;
    constexpr double per_minute = 1.0 / 60;
    value<quantity::HeatingRate>(
        {"heating gain", "Heating gain", CheckOf::heating, &Check::gain, &Check::gain_sd, gain_in, per_minute, "K/min"}, &known.gain_u);
    value<quantity::Frequency>({"heating loss", "Heating loss", CheckOf::heating, &Check::loss, &Check::loss_sd, loss_in, 1, "/s"},
                               nullptr);
    value<quantity::Duration>({"pump time constant", "Time constant of the pump", CheckOf::vacuum, &Check::pump_time_constant,
                               &Check::pump_time_constant_sd, pump_time_constant_in, 1, "s"},
                              &known.pump_time_constant_u);
    value<quantity::Pressure>(
        {"lowest pressure", "Lowest pressure", CheckOf::vacuum, &Check::ultimate, &Check::ultimate_sd, ultimate_in, 100, "mbar"},
        &known.ultimate_u);
    value<quantity::PressureRate>({"leak", "Leak", CheckOf::vacuum, &Check::leak, &Check::leak_sd, leak_in, 100, "mbar/s"}, &known.leak_u);
    std::sort(out_.used.begin(), out_.used.end());
    return std::move(out_);
  }

 private:
  /// When a value of the file in use was typed: where the run of files that say the same begins.
  const OnDay& typed(const std::function<bool(const Furnace&)>& says_the_same) const {
    std::size_t first = file_.size() - 1;
    while (first > 0 && says_the_same(file_[first - 1].furnace)) --first;
    return file_[first].at;
  }

  /// The file as it stood when a check was done; the oldest where none is so old.
  const Furnace& file_then(const CheckOnDay& one) const {
    const FileOnDay* then = &file_.front();
    for (const FileOnDay& file : file_)
      if (file.at.days <= one.at.days) then = &file;
    return then->furnace;
  }

  /// The check in whose time a repair after this one is told; nullptr where none is.
  const CheckOnDay* repaired_by(const CheckOnDay& one) const {
    for (const std::size_t i : newest_first_)
      if (checks_[i].at.days > one.at.days && !checks_[i].check.after_repair.empty()) return &checks_[i];
    return nullptr;
  }

  /// Why it tells nothing of this; empty where it counts. Whether an error is within the limit may be open while the error is found.
  std::string why_not(std::string_view of, const CheckOnDay& one) const {
    if (!trade::is_finished(one.check)) return "it is not finished";
    if (trade::is_undecided(one.check) && !(of == of_display && finds_error(one.check))) return "it could not tell";
    if (const CheckOnDay* later = repaired_by(one))
      return fmt::format("check {} of {} tells of a repair after it, \"{}\"", later->check.name, later->at.day, later->check.after_repair);
    return "";
  }

  void say(std::string_view of, const CheckOnDay& one, std::string sentence) {
    SaidOfCheck said;
    said.of = of;
    said.check = one.check.name;
    said.day = one.at.day;
    said.sentence = std::move(sentence);
    out_.known.said.push_back(std::move(said));
  }

  void pass_over(std::string_view of, const CheckOnDay& one, const std::string& why) {
    if (passed_over_.insert(one.check.name).second)
      say(of, one, fmt::format("Check {} of {} does not count: {}.", one.check.name, one.at.day, why));
  }

  void say_typed(std::string_view of, std::string_view in_words, const CheckOnDay& one, const OnDay& typed) {
    say(of, one,
        fmt::format("{} as it was typed in the furnace's file on {}, after check {} of {}.", in_words, typed.day, one.check.name,
                    one.at.day));
  }

  /// The newest check that counts and tells of a value; what is passed over on the way is said.
  const CheckOnDay* newest(std::string_view of, const std::function<bool(const Check&)>& tells,
                           const std::function<std::string(const CheckOnDay&)>& why_not_here) {
    for (const std::size_t i : newest_first_) {
      const CheckOnDay& one = checks_[i];
      if (!tells(one.check)) continue;
      std::string why = why_not(of, one);
      if (why.empty()) why = why_not_here(one);
      if (why.empty()) return &one;
      pass_over(of, one, why);
      if (trade::is_finished(one.check) && repaired_by(one) != nullptr) return nullptr;  // nor does any older one
    }
    return nullptr;
  }

  void use(const CheckOnDay& one) {
    const auto index = static_cast<std::size_t>(&one - checks_.data());
    if (std::find(out_.used.begin(), out_.used.end(), index) == out_.used.end()) out_.used.push_back(index);
  }

  /// What stands on the panel now, as far as file and check know.
  double keyed_now_K(const CheckOnDay& one) const {
    const auto& in_file = out_.furnace.correction_keyed;
    const OnDay& since = typed([&](const Furnace& before) { return before.correction_keyed.value == in_file.value; });
    if (since.days <= one.at.days && one.check.keyed_after) return one.check.keyed_after->value.si();
    return in_file.value.si();
  }

  double keyed_then_K(const CheckOnDay& one) const {
    return one.check.correction_keyed ? one.check.correction_keyed->value.si() : file_then(one).correction_keyed.value.si();
  }

  /// The error with what is keyed now, at the top of the program, and how sure it still is.
  metrology::OffsetPoint display_now(const CheckOnDay& one) const {
    const auto convention = out_.furnace.correction_convention.value;
    // What is keyed is the same at every temperature: only the sensor's own error is carried.
    const double of_sensor_K = error_with_keyed_K(convention, one.check.error->value.si(), keyed_then_K(one), 0);
    metrology::OffsetPoint now{top_C_.value_or(0), of_sensor_K, one.check.standard_uncertainty->value.si()};
    if (one.check.error_at && top_C_) {
      const std::array found{metrology::OffsetPoint{one.check.error_at->value.celsius(), of_sensor_K, now.uncertainty_K}};
      const metrology::OffsetAt carried = metrology::offset_at(found, *top_C_);
      now.offset_K = carried.offset_K;
      now.uncertainty_K = carried.uncertainty_K;
    }
    now.offset_K = error_with_keyed_K(convention, now.offset_K, 0, keyed_now_K(one));
    now.uncertainty_K = metrology::uncertainty_after_K(now.uncertainty_K, days_since(one));
    return now;
  }

  /// Whole days: the same firing gives the same answer all day long.
  double days_since(const CheckOnDay& one) const { return std::floor(fired_.days) - std::floor(one.at.days); }

  void display() {
    const auto why = [&](const CheckOnDay& one) -> std::string {
      if (!one.check.error) return "it gives no error of the display";
      if (!one.check.standard_uncertainty || !(one.check.standard_uncertainty->value.si() > 0)) return "it gives no standard uncertainty";
      if (display_now(one).uncertainty_K < never_checked_K) return "";
      return "by drift since, and over the way to this program's temperature, it leaves the display no surer than if it was never "
             "checked";
    };
    const CheckOnDay* const one = newest(of_display, tells_of_display, why);
    if (one == nullptr) return;
    if (out_.furnace.display_error) {
      const OnDay& since = typed([&](const Furnace& before) { return same_display(before, file_.back().furnace); });
      if (since.days > one->at.days) return say_typed(of_display, "Display error", *one, since);
    }
    take_display(*one);
  }

  void take_display(const CheckOnDay& one) {
    using quantity::kelvins;
    const metrology::OffsetPoint now = display_now(one);
    const double keyed_now = keyed_now_K(one), keyed_then = keyed_then_K(one);
    trade::DisplayError display;
    display.error.value = canonical(kelvins(now.offset_K));
    display.standard_uncertainty.value = canonical(kelvins(now.uncertainty_K));
    display.checked = fmt::format("check {} of {}", one.check.name, one.at.day);
    out_.furnace.display_error = display;
    out_.furnace.correction_keyed.value = kelvins(keyed_now);
    use(one);
    say(of_display, one,
        fmt::format("Display error {} with standard uncertainty {}: check {} of {} found {} with {}; drift over {} d is in it.",
                    write(display.error.value), write(display.standard_uncertainty.value), one.check.name, one.at.day,
                    write(one.check.error->value), write(one.check.standard_uncertainty->value), days_since(one)));
    SaidOfCheck& said = out_.known.said.back();
    said.used = true;
    said.value = display.error.value.si();
    said.standard_uncertainty = display.standard_uncertainty.value.si();
    said.unit = "K";
    if (keyed_now != keyed_then)
      say(of_display, one,
          fmt::format("The correction keyed on the panel went from {} to {} since check {} of {}; the display error went with it.",
                      write(kelvins(keyed_then)), write(kelvins(keyed_now)), one.check.name, one.at.day));
    if (one.check.error_at && top_C_)
      say(of_display, one,
          fmt::format("The error was found at {} and is carried to {}, half-way between constant and in proportion.",
                      write(canonical(one.check.error_at->value)), write(canonical(quantity::Temperature::celsius(*top_C_)))));
  }

  template <class T>
  void value(const Told<T>& told, std::optional<T>* known_u) {
    const auto tells = [&](const Check& check) {
      return check.*told.value || (check.of.value == told.by && (!trade::is_finished(check) || trade::is_undecided(check)));
    };
    const CheckOnDay* const one =
        newest(told.of, tells, [&](const CheckOnDay& check) { return std::string(check.check.*told.value ? "" : "it gives no value"); });
    if (one == nullptr) return;
    trade::Given<T>& in_file = told.in_file(out_.furnace);
    const OnDay& since = typed([&](const Furnace& before) {
      Furnace copy = before;
      return told.in_file(copy).value == in_file.value;
    });
    if (since.days > one->at.days) return say_typed(told.of, told.in_words, *one, since);
    const auto& uncertainty = one->check.*told.uncertainty;
    in_file = *(one->check.*told.value);
    if (known_u != nullptr && uncertainty) *known_u = uncertainty->value;
    use(*one);
    const std::string sure = uncertainty ? fmt::format(" with standard uncertainty {}", write(uncertainty->value)) : "";
    say(told.of, *one, fmt::format("{} {}{}: check {} of {}.", told.in_words, write(in_file.value), sure, one->check.name, one->at.day));
    SaidOfCheck& said = out_.known.said.back();
    said.used = true;
    said.value = in_file.value.si() / told.si_per_unit;
    if (uncertainty) said.standard_uncertainty = uncertainty->value.si() / told.si_per_unit;
    said.unit = told.unit;
  }

  std::span<const FileOnDay> file_;
  std::span<const CheckOnDay> checks_;
  const OnDay& fired_;
  std::optional<double> top_C_;
  std::vector<std::size_t> newest_first_;
  std::set<std::string> passed_over_;
  AsChecked out_;
};

}  // namespace

AsChecked as_checked(std::span<const FileOnDay> file, std::span<const CheckOnDay> checks, const OnDay& fired, std::optional<double> top_C) {
  return Knowing(file, checks, fired, top_C).known();
}

}  // namespace heatwork::furnace_care
