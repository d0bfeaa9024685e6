#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "trade/firing_record.h"
#include "trade/furnace.h"
#include "trade/mistake.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

void describe_how_often(Fields& fields, HowOften& often) {
  fields.optional("every_days", often.every_days, "it is due again after so many days", Between<int>{1, 3652});
  fields.optional("after_firings", often.after_firings, "or after so many firings", Between<int>{1, 100'000});
  fields.optional("after_hours", often.after_hours, "or after so many hours of firings, together", Between<int>{1, 100'000});
  fields.person("set_by", often.set_by, "who set that here");
}

void check_one(const FurnaceDue& due) {
  const auto at = [&](std::string_view key) { return place_of(due.places, key, due.place); };
  if (due.on.empty() && !due.often.is_said() && due.done.empty())
    throw Mistake(due.place,
                  "what is due has neither a day nor how often; give on, every_days, after_firings or after_hours, or the day it was done");
  if (!due.on.empty() && due.often.is_said())
    throw Mistake(at("on"), "on: it is due again and again; a day of its own or how often, one of the two goes");
  if (due.done.empty() != due.done_by.empty()) throw Mistake(due.place, "done and done_by belong together; give both, or neither");
  check_stated_in(due.by, due.stated_in, at("stated_in"));
}

template <class Due, class SaysHowOften>
void check_once_each(const std::vector<Due>& dues, SaysHowOften says) {
  for (auto each = dues.begin(); each != dues.end(); ++each)
    if (says(*each) && std::any_of(dues.begin(), each, [&](const Due& before) { return says(before) && before.what == each->what; }))
      throw Mistake(each->place, fmt::format("what: how often \"{}\" is due stands here twice; it is said once", for_message(each->what)));
}

}  // namespace

void check_stated_in(const Maybe<IntervalBy>& by, const std::string& stated_in, const Place& place) {
  const bool by_maker = by && by->value == IntervalBy::furnace_maker;
  if (by_maker && stated_in.empty())
    throw Mistake(by->place, "by: where the furnace maker says so is missing; add stated_in, such as \"instructions for use, page 31\"");
  if (!by_maker && !stated_in.empty())
    throw Mistake(place, "stated_in: it tells where the furnace maker says so; add by = \"furnace maker\", or the line goes");
}

void describe_due(Fields& fields, FurnaceDue& due) {
  fields.placed_text("what", due.what, "what is to be done; the name of a work says how often that is due", nullptr, true);
  fields.day("on", due.on, "the day it is due", &due.places);
  describe_how_often(fields, due.often);
  fields.choice("by", due.by, "who says so; left out: the lab");
  fields.placed_text("stated_in", due.stated_in, "where the furnace maker says so", &due.places);
  fields.day("done", due.done, "the day it was last done, where no check or firing tells", &due.places);
  fields.person("done_by", due.done_by, "who did it then");
}

void describe_lab_due(Fields& fields, LabDue& due) {
  fields.placed_text("what", due.what, "what is to be done; the name of a work says how often that is due", nullptr, true);
  describe_how_often(fields, due.often);
}

void check_dues(const std::vector<FurnaceDue>& dues) {
  for (const FurnaceDue& due : dues) check_one(due);
  check_once_each(dues, [](const FurnaceDue& due) { return due.on.empty(); });
}

void check_dues(const std::vector<LabDue>& dues) {
  for (const LabDue& due : dues)
    if (!due.often.is_said())
      throw Mistake(due.place, "what is due at every furnace needs how often; give every_days, after_firings or after_hours");
  check_once_each(dues, [](const LabDue&) { return true; });
}

}  // namespace heatwork::trade
