// The words files use where only a few are allowed, in the order of their enumeration.
#pragma once

#include <span>
#include <string_view>

#include "trade/alloy.h"
#include "trade/check.h"
#include "trade/furnace.h"
#include "trade/material.h"
#include "trade/piece.h"
#include "trade/place.h"
#include "trade/records.h"
#include "trade/stage_of_work.h"

namespace heatwork::trade {

template <class E>
[[nodiscard]] std::span<const std::string_view> choices();

template <>
std::span<const std::string_view> choices<StageOfWork>();
template <>
std::span<const std::string_view> choices<HoldStart>();
template <>
std::span<const std::string_view> choices<MainsCut>();
template <>
std::span<const std::string_view> choices<GaugeKind>();
template <>
std::span<const std::string_view> choices<CorrectionConvention>();
template <>
std::span<const std::string_view> choices<IntervalBy>();
template <>
std::span<const std::string_view> choices<MaterialKind>();
template <>
std::span<const std::string_view> choices<SectionForm>();
template <>
std::span<const std::string_view> choices<SectionInside>();
template <>
std::span<const std::string_view> choices<PlaceOnTray>();
template <>
std::span<const std::string_view> choices<Standing>();
template <>
std::span<const std::string_view> choices<AlloyKind>();
template <>
std::span<const std::string_view> choices<BenchWork>();
template <>
std::span<const std::string_view> choices<CheckOf>();
template <>
std::span<const std::string_view> choices<TestWire>();
template <>
std::span<const std::string_view> choices<TestGas>();
template <>
std::span<const std::string_view> choices<MeltCriterion>();
template <>
std::span<const std::string_view> choices<ProbeUse>();
template <>
std::span<const std::string_view> choices<MapPlace>();
template <>
std::span<const std::string_view> choices<CheckDecision>();
template <>
std::span<const std::string_view> choices<ReferenceOf>();
template <>
std::span<const std::string_view> choices<DeviationDecision>();
template <>
std::span<const std::string_view> choices<PersonRole>();
template <>
std::span<const std::string_view> choices<FiringState>();
template <>
std::span<const std::string_view> choices<PieceOutcome>();

}  // namespace heatwork::trade
