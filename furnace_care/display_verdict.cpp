#include "furnace_care/display_verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "metrology/display_limits.h"

namespace heatwork::furnace_care {
namespace {

constexpr double agree_within = 2.0;  ///< standing: assumed. source: chosen-here

double U_K(const DisplayError& error) {
  return coverage * error.standard_uncertainty_K;
}

std::string ranged(const DisplayError& error) {
  return fmt::format("{:+.1f} K, from {:+.1f} to {:+.1f} K", error.error_K, error.error_K - U_K(error), error.error_K + U_K(error));
}

std::string good_sentence(const DisplayError& worst, std::size_t count, double limit_K) {
  if (count == 1)
    return fmt::format("At {:.0f} °C the display reads {}: wholly within the {:.1f} K allowed, so leave it as it is.", worst.true_C,
                       ranged(worst), limit_K);
  return fmt::format(
      "At every temperature checked the display is wholly within the {:.1f} K allowed; the largest error, at {:.0f} °C, is {}.", limit_K,
      worst.true_C, ranged(worst));
}

std::string bad_sentence(const DisplayError& worst, double limit_K, bool stop_use) {
  const std::string reads = fmt::format("At {:.0f} °C the display reads {:.1f} K (± {:.1f} K) {}", worst.true_C, std::abs(worst.error_K),
                                        U_K(worst), worst.error_K > 0 ? "too high: it is really colder" : "too low: it is really hotter");
  if (stop_use) return reads + ". Do not fire with it until it is corrected and checked anew.";
  return reads + fmt::format("; allowed are {:.1f} K.", limit_K);
}

/// What another means would add, as findings of the last two months are taken together.
std::string other_means(trade::CheckOf by, double true_C) {
  if (by == trade::CheckOf::temperature)
    return fmt::format(
        "What would settle it: compare with a calibrated thermocouple at about {:.0f} °C within two months; both are then taken together.",
        true_C);
  return "What would settle it: fire a wire too within two months, or compare with a thermocouple that is surer; all are then taken "
         "together.";
}

/// A limit in whole kelvin within which the whole range would lie.
std::vector<std::string> settled_by(const DisplayError& worst, const DisplayVerdict& verdict, double limit_K, trade::CheckOf by) {
  std::vector<std::string> all;
  if (verdict.correct)
    all.push_back(fmt::format("The display surely reads too {}, though: correcting it, or allowing for it, already makes firings truer.",
                              worst.error_K > 0 ? "high" : "low"));
  if (U_K(worst) > limit_K)
    all.push_back(
        fmt::format("This is known to ± {:.1f} K only, more than the {:.1f} K allowed: nothing it finds could show the display good.",
                    U_K(worst), limit_K));
  all.push_back(other_means(by, worst.true_C));
  if (std::abs(worst.error_K) <= limit_K && std::abs(worst.error_K) + U_K(worst) <= metrology::beyond_use_K)
    all.push_back(fmt::format(
        "Where the lab's own procedure allows {:.0f} K or more, give that as the limit: the display is then shown to be within it.",
        std::ceil(std::abs(worst.error_K) + U_K(worst))));
  return all;
}

}  // namespace

AgainstLimit against_limit(double error_K, double standard_uncertainty_K, double limit_K) {
  const double size_K = std::abs(error_K), U = coverage * standard_uncertainty_K;
  if (size_K + U <= limit_K) return AgainstLimit::inside;
  return size_K - U > limit_K ? AgainstLimit::outside : AgainstLimit::passes;
}

DisplayVerdict judge_display(const std::vector<DisplayError>& errors, double limit_K, trade::CheckOf by) {
  if (errors.empty()) throw std::logic_error("judge_display was given no error");
  DisplayVerdict verdict;
  const auto worst = std::max_element(errors.begin(), errors.end(),
                                      [](const auto& a, const auto& b) { return std::abs(a.error_K) < std::abs(b.error_K); });
  verdict.worst = static_cast<std::size_t>(worst - errors.begin());
  const auto any = [&](AgainstLimit where) {
    return std::any_of(errors.begin(), errors.end(), [&](const DisplayError& error) {
      return against_limit(error.error_K, error.standard_uncertainty_K, limit_K) == where;
    });
  };
  const double size_K = std::abs(worst->error_K);
  verdict.stop_use = size_K > metrology::beyond_use_K;
  verdict.correct = !verdict.stop_use && size_K > limit_K && size_K > U_K(*worst);
  if (verdict.stop_use || any(AgainstLimit::outside)) {
    verdict.level = CheckLevel::not_good;
    verdict.sentence = bad_sentence(*worst, limit_K, verdict.stop_use);
  } else if (any(AgainstLimit::passes)) {
    verdict.sentence = fmt::format("At {:.0f} °C the display reads {}: whether that is within the {:.1f} K allowed cannot be told yet.",
                                   worst->true_C, ranged(*worst), limit_K);
    verdict.settled_by = settled_by(*worst, verdict, limit_K, by);
  } else {
    verdict.level = CheckLevel::good;
    verdict.sentence = good_sentence(*worst, errors.size(), limit_K);
  }
  return verdict;
}

std::vector<std::string> remarks_on_others(double error_K, double standard_uncertainty_K, double agreement) {
  std::vector<std::string> remarks{fmt::format(
      "What other checks found in the last two months is taken together with this one, which by itself found {:+.1f} K (± {:.1f} K).",
      error_K, coverage * standard_uncertainty_K)};
  if (agreement > agree_within)
    remarks.emplace_back(
        "The checks of the last two months do not agree: one of them may be wrong, or the furnace changed; check once more.");
  return remarks;
}

}  // namespace heatwork::furnace_care
