#include "trade/choice.h"

#include <array>

namespace heatwork::trade {
namespace {

constexpr std::array<std::string_view, 2> hold_starts{"asked reaches", "display reaches"};
constexpr std::array<std::string_view, 2> interval_by{"furnace maker", "lab"};
constexpr std::array<std::string_view, 3> mains_cuts{"stops", "goes on", "goes on if short"};
constexpr std::array<std::string_view, 3> gauge_kinds{"absolute", "below ambient", "percent of ambient"};
constexpr std::array<std::string_view, 2> correction_conventions{"added to display", "added to setting"};
constexpr std::array<std::string_view, 6> material_kinds{"powder", "block", "core", "metal", "die", "other"};
constexpr std::array<std::string_view, 3> section_forms{"plate", "tube", "shell"};
constexpr std::array<std::string_view, 3> section_insides{"closed", "open", "mass"};
constexpr std::array<std::string_view, 3> places_on_tray{"middle", "between", "edge"};
constexpr std::array<std::string_view, 5> standings{"measured", "computed", "memory", "assumed", "none found"};
constexpr std::array<std::string_view, 9> alloy_kinds{
    "gold-rich", "gold-reduced", "palladium-silver", "palladium-rich", "cobalt-chromium", "nickel-chromium", "titanium", "solder", "other"};
constexpr std::array<std::string_view, 13> bench_works{"build-up", "opaque", "wash", "liner",  "stain",  "glaze", "grind",
                                                       "blast",    "clean",  "etch", "cement", "polish", "other"};
constexpr std::array<std::string_view, 7> checks_of{"temperature", "thermocouple", "chamber map", "vacuum", "heating", "cleaning", "other"};
constexpr std::array<std::string_view, 2> test_wires{"silver", "gold"};
constexpr std::array<std::string_view, 4> test_gases{"air", "vacuum", "inert", "unknown"};
constexpr std::array<std::string_view, 2> melt_criteria{"edges rounded", "balled"};
constexpr std::array<std::string_view, 3> probe_uses{"new", "used", "unknown"};
constexpr std::array<std::string_view, 5> map_places{"middle", "front", "back", "left", "right"};
constexpr std::array<std::string_view, 4> check_decisions{"left", "corrected", "allowed for", "out of use"};
constexpr std::array<std::string_view, 7> references_of{"silver wire", "gold wire", "thermocouple", "vacuum gauge",
                                                        "barometer",   "shade tab", "other"};
constexpr std::array<std::string_view, 5> deviation_decisions{"open", "use as it is", "fire again", "make again", "reject"};
constexpr std::array<std::string_view, 3> person_roles{"look", "fire", "release"};
constexpr std::array<std::string_view, 5> firing_states{"planned", "started", "ended", "interrupted", "called off"};
constexpr std::array<std::string_view, 4> piece_outcomes{"as wanted", "fire again", "make again", "not judged"};

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
std::span<const std::string_view> choices<IntervalBy>() {
  return interval_by;
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
template <>
std::span<const std::string_view> choices<AlloyKind>() {
  return alloy_kinds;
}
template <>
std::span<const std::string_view> choices<BenchWork>() {
  return bench_works;
}
template <>
std::span<const std::string_view> choices<CheckOf>() {
  return checks_of;
}
template <>
std::span<const std::string_view> choices<TestWire>() {
  return test_wires;
}
template <>
std::span<const std::string_view> choices<TestGas>() {
  return test_gases;
}
template <>
std::span<const std::string_view> choices<MeltCriterion>() {
  return melt_criteria;
}
template <>
std::span<const std::string_view> choices<ProbeUse>() {
  return probe_uses;
}
template <>
std::span<const std::string_view> choices<MapPlace>() {
  return map_places;
}
template <>
std::span<const std::string_view> choices<CheckDecision>() {
  return check_decisions;
}
template <>
std::span<const std::string_view> choices<ReferenceOf>() {
  return references_of;
}
template <>
std::span<const std::string_view> choices<DeviationDecision>() {
  return deviation_decisions;
}
template <>
std::span<const std::string_view> choices<PersonRole>() {
  return person_roles;
}
template <>
std::span<const std::string_view> choices<FiringState>() {
  return firing_states;
}
template <>
std::span<const std::string_view> choices<PieceOutcome>() {
  return piece_outcomes;
}

}  // namespace heatwork::trade
