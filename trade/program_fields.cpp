#include <fmt/format.h>

#include <algorithm>

#include "trade/field_ranges.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/program.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Duration;
using quantity::Fraction;
using quantity::HeatingRate;
using quantity::Pressure;
using quantity::Temperature;

Between<Fraction> whole_opening() {
  return {Fraction::si(0), Fraction::si(1)};
}
Between<Pressure> vacuum_range() {
  return {quantity::millibars(0.1), quantity::millibars(1100)};
}

void describe_heating(Fields& fields, HeatingStage& stage) {
  fields.required("to", stage.to, "display temperature the stage heats to", display_range());
  fields.required("rate", stage.rate, "how fast", rate_range());
  fields.otherwise("hold", stage.hold, "0 s", "how long it stays there", up_to_a_day());
  fields.optional("vacuum_level", stage.vacuum_level, "pressure during this stage, in place of the program's", vacuum_range());
}

void describe_cooling(Fields& fields, CoolingStage& stage) {
  fields.required("to", stage.to, "display temperature the stage cools to", display_range());
  fields.optional("rate", stage.rate, "how fast; without it the furnace cools by itself", rate_range());
  fields.otherwise("opening", stage.opening, "0 %", "how far the chamber is open meanwhile", whole_opening());
  fields.optional("hold", stage.hold, "how long it stays there", up_to_a_day());
}

void describe_vacuum(Fields& fields, Vacuum& vacuum) {
  fields.required("from", vacuum.from, "display temperature at which pumping starts on the way up", display_range());
  fields.optional("to", vacuum.to, "display temperature at which air comes back; without it the vacuum lasts until the chamber opens",
                  display_range());
  fields.required("level", vacuum.level, "pressure asked for, absolute or as a dial below ambient", vacuum_range());
  fields.otherwise("hold_under_vacuum", vacuum.hold_under_vacuum, "0 s", "part of the hold at `to` that is spent under vacuum",
                   up_to_a_day());
}

void check_rising(const Program& program) {
  Temperature from = program.entry.value;
  for (const auto& stage : program.heating) {
    if (stage.to.value < from)
      throw Mistake(stage.to.place,
                    fmt::format("to: this heating stage ends at {}, below the {} it starts from; heating stages rise, lower temperatures "
                                "belong to [[program.cooling]]",
                                quantity::write(stage.to.value), quantity::write(from)));
    from = stage.to.value;
  }
  for (const auto& stage : program.cooling) {
    if (stage.to.value > from)
      throw Mistake(stage.to.place, fmt::format("to: this cooling stage ends at {}, above the {} it starts from; cooling stages fall",
                                                quantity::write(stage.to.value), quantity::write(from)));
    from = stage.to.value;
  }
  for (const auto* end : {&program.opening_temperature, &program.unloading_temperature})
    if (*end && (*end)->value > from)
      throw Mistake((*end)->place, fmt::format("the chamber is to open or unload at {}, above the {} at which the program ends",
                                               quantity::write((*end)->value), quantity::write(from)));
  const auto& opens = program.opening_temperature;
  const auto& ends = program.unloading_temperature;
  if (opens && ends && ends->value > opens->value)
    throw Mistake(ends->place, fmt::format("unloading_temperature: {} lies above the {} at which the chamber opens; allowed is up to that",
                                           quantity::write(ends->value), quantity::write(opens->value)));
}

void check_hold_under_vacuum(const Program& program, const Vacuum& vacuum) {
  if (vacuum.hold_under_vacuum.value <= quantity::seconds(0)) return;
  const auto& place = vacuum.hold_under_vacuum.place;
  if (!vacuum.to)
    throw Mistake(place, "hold_under_vacuum: it is a part of the hold at `to`, which is not given; give `to`, or the line goes");
  const auto stage = std::find_if(program.heating.begin(), program.heating.end(),
                                  [&](const HeatingStage& heating) { return heating.to.value == vacuum.to->value; });
  if (stage == program.heating.end())
    throw Mistake(place, fmt::format("hold_under_vacuum: no heating stage ends at {}, where the vacuum does; a hold under vacuum needs one",
                                     quantity::write(vacuum.to->value)));
  if (stage->hold.value < vacuum.hold_under_vacuum.value)
    throw Mistake(place, fmt::format("hold_under_vacuum: {} is longer than the hold of {} at {}; allowed is up to that",
                                     quantity::write(vacuum.hold_under_vacuum.value), quantity::write(stage->hold.value),
                                     quantity::write(vacuum.to->value)));
}

}  // namespace

void describe(Fields& fields, Program& program) {
  fields.naming(program.name, program.label, program.note);
  fields.required("standby", program.standby, "display temperature the furnace waits at", display_range());
  fields.required("entry", program.entry, "display temperature at which the program starts", display_range());
  fields.required("drying_time", program.drying_time, "time before the chamber starts to close", up_to_a_day());
  fields.otherwise("drying_opening", program.drying_opening, "100 %", "how far the chamber is open while drying", whole_opening());
  fields.required("closing_time", program.closing_time, "time the chamber takes to close", up_to_a_day());
  fields.otherwise("preheat_hold", program.preheat_hold, "0 s", "time in the shut chamber before heating starts", up_to_a_day());
  fields.optional("opening_temperature", program.opening_temperature, "the chamber opens fully when the display has come down to it",
                  display_range());
  fields.optional("unloading_temperature", program.unloading_temperature, "the firing ends here; without it at standby", display_range());
  fields.tables("heating", program.heating, 1, 24, "heating stages, in order", describe_heating, {"heating stage", {}});
  fields.optional_table("vacuum", program.vacuum, "the vacuum, where there is one", describe_vacuum);
  fields.tables("cooling", program.cooling, 0, 12, "cooling stages, in order", describe_cooling, {"cooling stage", {}});
}

void check(const Program& program) {
  check_rising(program);
  if (!program.vacuum) return;
  const Vacuum& vacuum = *program.vacuum;
  const Temperature top = program.heating.back().to.value;
  if (vacuum.from.value > top)
    throw Mistake(vacuum.from.place, fmt::format("from: pumping would start at {}, above the {} the program reaches; allowed is up to that",
                                                 quantity::write(vacuum.from.value), quantity::write(top)));
  if (!vacuum.to) return check_hold_under_vacuum(program, vacuum);
  if (vacuum.to->value == vacuum.from.value)
    throw Mistake(vacuum.to->place, fmt::format("to: air would come back at {}, where pumping starts; allowed is above that",
                                                quantity::write(vacuum.to->value)));
  if (vacuum.to->value < vacuum.from.value)
    throw Mistake(vacuum.to->place,
                  fmt::format("to: air would come back at {}, below the {} at which pumping starts; allowed is from there up",
                              quantity::write(vacuum.to->value), quantity::write(vacuum.from.value)));
  if (vacuum.to->value > top)
    throw Mistake(vacuum.to->place, fmt::format("to: air would come back at {}, above the {} the program reaches; allowed is up to that",
                                                quantity::write(vacuum.to->value), quantity::write(top)));
  check_hold_under_vacuum(program, vacuum);
}

}  // namespace heatwork::trade
