#include "trade/choice.h"

#include <array>

namespace heatwork::trade {
namespace {

constexpr std::array<std::string_view, 2> hold_starts{"asked reaches", "display reaches"};
constexpr std::array<std::string_view, 3> mains_cuts{"stops", "goes on", "goes on if short"};
constexpr std::array<std::string_view, 3> gauge_kinds{"absolute", "below ambient", "percent of ambient"};
constexpr std::array<std::string_view, 2> correction_conventions{"added to display", "added to setting"};
constexpr std::array<std::string_view, 6> material_kinds{"powder", "block", "core", "metal", "die", "other"};
constexpr std::array<std::string_view, 3> section_forms{"plate", "tube", "shell"};
constexpr std::array<std::string_view, 3> section_insides{"closed", "open", "mass"};
constexpr std::array<std::string_view, 3> places_on_tray{"middle", "between", "edge"};
constexpr std::array<std::string_view, 5> standings{"measured", "computed", "memory", "assumed", "none found"};

}  // namespace

template <>
std::span<const std::string_view> choices<StageOfWork>() {
  return stage_of_work_words;
}
template <>
std::span<const std::string_view> choices<HoldStart>() {
  return hold_starts;
}
template <>
std::span<const std::string_view> choices<MainsCut>() {
  return mains_cuts;
}
template <>
std::span<const std::string_view> choices<GaugeKind>() {
  return gauge_kinds;
}
template <>
std::span<const std::string_view> choices<CorrectionConvention>() {
  return correction_conventions;
}
template <>
std::span<const std::string_view> choices<MaterialKind>() {
  return material_kinds;
}
template <>
std::span<const std::string_view> choices<SectionForm>() {
  return section_forms;
}
template <>
std::span<const std::string_view> choices<SectionInside>() {
  return section_insides;
}
template <>
std::span<const std::string_view> choices<PlaceOnTray>() {
  return places_on_tray;
}
template <>
std::span<const std::string_view> choices<Standing>() {
  return standings;
}

}  // namespace heatwork::trade
