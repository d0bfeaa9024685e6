#include "furnace_care/correction.h"

#include <fmt/format.h>

#include <cmath>

#include "furnace_care/known_error.h"
#include "metrology/display_offset.h"

namespace heatwork::furnace_care {
namespace {

constexpr double usual_step_K = 1.0;        ///< of a panel that states none
constexpr double clear_of_melting_K = 5.0;  ///< where a wire surely melts, or surely stays whole. Standing: assumed. source: chosen-here

metrology::KeyedCorrection meaning_of(trade::CorrectionConvention convention) {
  return convention == trade::CorrectionConvention::added_to_display ? metrology::KeyedCorrection::added_to_display
                                                                     : metrology::KeyedCorrection::added_to_setting;
}

std::string degrees(double K) {
  return K == 0 ? "0 K" : fmt::format("{:+.4g} K", K);  // as fine as the panel's step
}

Way correct_it(const Keying& keying, double error_K) {
  Way correct{"correct it", "corrected", {keying.sentence}};
  if (keying.to_key_K == keying.keyed_now_K) {
    correct.sentences.emplace_back("The panel takes no step so small that it would bring the display nearer.");
    return correct;
  }
  const double hotter_K = error_K - keying.left_K;  // what every program gains
  const double size_K = std::abs(hotter_K);
  const std::string_view more = hotter_K > 0 ? "hotter" : "colder";
  const std::string_view less = hotter_K > 0 ? "lower" : "raise";
  correct.sentences.push_back(fmt::format("Every program then fires {:.0f} K {} than it did at the same setting.", size_K, more));
  correct.sentences.push_back(
      fmt::format("Programs proven on this furnace under the old error must follow: {} their temperatures by {:.0f} K, or prove them "
                  "anew on a tab.",
                  less, size_K));
  correct.sentences.emplace_back("Programs typed in as a maker states them are right from then on.");
  return correct;
}

Way allow_for_it(double error_K) {
  Way allow{"allow for it", "allowed for", {}};
  allow.sentences.emplace_back("Nothing is keyed: programs proven on this furnace stay as they were proven.");
  allow.sentences.push_back(
      fmt::format("Heatwork rehearses this furnace {:.0f} K {} than its display from then on, and says what to key in a "
                  "program.",
                  std::abs(error_K), error_K > 0 ? "colder" : "hotter"));
  allow.sentences.push_back(
      fmt::format("Programs typed in as a maker states them need {:.0f} K on this furnace: {} their temperatures by so much.",
                  std::abs(error_K), error_K > 0 ? "raise" : "lower"));
  return allow;
}

}  // namespace

Keying keying_for(const trade::Furnace& furnace, double keyed_now_K, double error_K) {
  const auto convention = furnace.correction_convention.value;
  const double stated_K = furnace.ability.temperature_step.value.si();
  const double step_K = stated_K > 0 ? stated_K : usual_step_K;
  Keying out;
  out.keyed_now_K = keyed_now_K;
  out.to_key_K = step_K * std::round(metrology::correction_to_key_K(meaning_of(convention), keyed_now_K, error_K) / step_K);
  if (out.to_key_K == 0) out.to_key_K = 0;  // not -0
  const double more_K = out.to_key_K - keyed_now_K;
  out.left_K = error_with_keyed_K(convention, error_K, keyed_now_K, out.to_key_K);
  const std::string_view does = more_K == 0 ? "it stays as it is"
                                : (convention == trade::CorrectionConvention::added_to_display) == (more_K < 0)
                                    ? "the chamber gets hotter at the same setting"
                                    : "the chamber gets colder at the same setting";
  out.sentence =
      fmt::format("Key {} in place of {}: this furnace adds the correction to its {}, so {}.", degrees(out.to_key_K), degrees(keyed_now_K),
                  convention == trade::CorrectionConvention::added_to_display ? "display" : "setting", does);
  return out;
}

std::vector<Way> ways_with(const trade::Furnace& furnace, double keyed_now_K, double error_K) {
  return {correct_it(keying_for(furnace, keyed_now_K, error_K), error_K), allow_for_it(error_K)};
}

std::vector<std::string> confirming_firings(double melting_C, double error_K, const std::optional<trade::CheckDecision>& decision) {
  if (decision == trade::CheckDecision::left || decision == trade::CheckDecision::out_of_use) return {};
  const bool is_keyed = decision != trade::CheckDecision::allowed_for;  // undecided: what is confirmed is a correction
  const double at_C = is_keyed ? melting_C : melting_C + error_K;
  const std::string another = fmt::format("Another fired at {:.0f} °C must stay whole.", std::round(at_C - clear_of_melting_K));
  const double melts_C = std::round(at_C + clear_of_melting_K);
  if (!is_keyed)
    return {fmt::format("To confirm what is allowed for, a fresh wire fired at a display of {:.0f} °C must melt.", melts_C), another,
            "Keep that as a check of its own."};
  return {fmt::format("Once the correction is keyed in, a fresh wire fired at a display of {:.0f} °C must melt.", melts_C), another,
          "Keep that as a check of its own, as left after the adjustment."};
}

std::vector<std::string> after_silver() {
  return {"Silver was in the chamber: run the furnace's cleaning firing before the next restoration.",
          "After that fire a white tab: if it comes out yellowish or grey, clean once more."};
}

}  // namespace heatwork::furnace_care
