#include <fmt/format.h>

#include <optional>
#include <utility>

#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_check_answer.h"
#include "desk/lab/told_in_units.h"
#include "furnace_care/chamber_map.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using furnace_care::MapTold;

MapTold tell(const FurnaceCheckDraft& draft) {
  std::optional<double> limit_K;
  if (draft.check.limit) limit_K = draft.check.limit->value.si();
  return furnace_care::tell_chamber_map({draft.check.map, limit_K});
}

void put_outcome(trade::Check& check, const MapTold& told) {
  set_outcome(check, told.level);
  check.spread.reset();
  if (told.level == CheckLevel::going_on) return;
  if (told.spread_K) check.spread.emplace().value = quantity::kelvins(*told.spread_K);
  check.verdict = furnace_care::word(told.level);
}

void tell_places(CheckAnswer& answer, const MapTold& told) {
  JsonList list;
  for (const auto& place : told.found) {
    const auto where = trade::choice_word(place.where);
    list.push_back(JsonObject{
        {"where", where}, {"hotter_K", number_or_null(place.hotter_K)}, {"colour_difference", number_or_null(place.colour_difference)}});
    if (place.hotter_K) answer.line(where, fmt::format("{:+.0f} K", *place.hotter_K));
    if (place.colour_difference) answer.line(where, fmt::format("{:.1f} in colour from the middle", *place.colour_difference));
  }
  answer.member("found", std::move(list));
  answer.member("spread_K", number_or_null(told.spread_K));
  answer.member("colour_difference", number_or_null(told.colour_difference));
}

CareAnswer answered(const FurnaceCheckDraft& draft, const MapTold& told, const std::optional<records::Kept>& kept) {
  CheckAnswer answer(draft);
  answer.level(told.level, told.sentence.empty() ? "The check still goes on." : told.sentence);
  tell_places(answer, told);
  answer.limit("limit", told.limit, told.limit_of_lab);
  answer.question(told.question);
  answer.answered({}, draft);
  answer.remarks(told.remarks);
  answer.kept(kept, draft);
  return answer.done(told.level == CheckLevel::not_good);
}

}  // namespace

CareAnswer check_chamber_map(const AskedLab& asked, const FurnaceCheckWords& words) {
  const StorePlace place = place_of(asked);
  const auto work = [&] {
    records::Store store = words.keep ? opened(place, Reading::and_writing) : opened(place, Reading::only);
    FurnaceCheckDraft draft = draft_of(place, store, words, trade::CheckOf::chamber_map);
    const MapTold told = tell(draft);
    put_outcome(draft.check, told);
    decide(draft, words.decision, std::nullopt);
    std::optional<records::Kept> kept;
    if (words.keep) kept = keep_draft(place, store, draft, words.reason);
    return answered(draft, told, kept);
  };
  return caring(place, [&] { return refusing_in(scale_typed_in(words), work); });
}

}  // namespace heatwork::desk
