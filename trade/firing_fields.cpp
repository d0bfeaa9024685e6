#include <fmt/format.h>

#include <set>

#include "trade/field_ranges.h"
#include "trade/firing.h"
#include "trade/firing_record.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Duration;
using quantity::Fraction;
using quantity::HeatingRate;
using quantity::millibars;
using quantity::Pressure;
using quantity::Temperature;

void describe_limits(Fields& fields, InstructionLimits& limits) {
  fields.optional("entry_at_most", limits.entry_at_most, "entry temperature", display_range());
  fields.optional("drying_at_least", limits.drying_at_least, "drying time", up_to_a_day());
  fields.optional("closing_at_least", limits.closing_at_least, "closing time", up_to_a_day());
  fields.optional("rate_at_least", limits.rate_at_least, "heating rate", rate_range());
  fields.optional("rate_at_most", limits.rate_at_most, "heating rate", rate_range());
  fields.optional("top_at_least", limits.top_at_least, "highest temperature", display_range());
  fields.optional("top_at_most", limits.top_at_most, "highest temperature", display_range());
  fields.optional("hold_at_least", limits.hold_at_least, "hold at the highest temperature", up_to_a_day());
  fields.optional("hold_at_most", limits.hold_at_most, "hold at the highest temperature", up_to_a_day());
  fields.optional("vacuum_from_at_most", limits.vacuum_from_at_most, "temperature at which pumping starts", display_range());
  fields.optional("vacuum_level_at_most", limits.vacuum_level_at_most, "pressure under vacuum",
                  Between<Pressure>{millibars(0), millibars(1100)});
  fields.optional("cooling_rate_at_most", limits.cooling_rate_at_most, "cooling rate", rate_range());
  fields.optional("opening_at_most", limits.opening_at_most, "temperature at which the chamber opens", display_range());
}

void describe_piece_on_tray(Fields& fields, PieceOnTray& piece) {
  fields.reference("piece", piece.piece, Noun::piece, "by its name");
  fields.choice("place", piece.place, "middle", "where it stands on the tray");
  fields.reference("was", piece.was, Noun::piece, "its name in the firings before, where layers were added since; left out: the same");
}

void describe_chamber(Fields& fields, ChamberState& chamber) {
  fields.otherwise("cold", chamber.cold, "false", "not heated through before");
  fields.optional("since_last_firing", chamber.since_last_firing, "time since the last firing ended",
                  Between<Duration>{quantity::seconds(0), quantity::minutes(525600)});
  fields.otherwise("days_idle", chamber.days_idle, "0", "days without a firing", Between<double>{0, 3650});
  fields.otherwise("room", chamber.room, "22 °C", "temperature of the room",
                   Between<Temperature>{Temperature::celsius(0), Temperature::celsius(45)});
  fields.otherwise("room_humidity", chamber.room_humidity, "50 %", "relative humidity of the room",
                   Between<Fraction>{Fraction::si(0), Fraction::si(1)});
  fields.text("last_contaminating_firing", chamber.last_contaminating_firing, {}, "what it was, where one is known", Role::decides);
  fields.otherwise("cleaning_due", chamber.cleaning_due, "false", "a cleaning firing is due");
}

template <class T>
void check_pair(const Maybe<T>& low, const Maybe<T>& high, std::string_view what) {
  if (low && high && high->value < low->value)
    throw Mistake(high->place,
                  fmt::format("{}: at most {} is below at least {}", what, quantity::write(high->value), quantity::write(low->value)));
}

}  // namespace

void describe(Fields& fields, Instruction& instruction) {
  fields.naming(instruction.name, instruction.label, instruction.note);
  fields.reference("material", instruction.material, Noun::material, "the sheet speaks of");
  fields.choice("stage", instruction.stage, {}, "stage of work the sheet speaks of");
  fields.text("edition", instruction.edition, "of the sheet, as printed");
  PlainSlot date(instruction.date, DateCodec{});
  fields.value({"date", "of the sheet, as 2026-03-17", false, {}, Role::for_people}, date);
  PlainSlot hash(instruction.file_hash, HashCodec{});
  fields.value({"file_hash", "BLAKE2b-256 of the sheet's scan, 64 hexadecimal digits", false, {}, Role::for_people}, hash);
  fields.reference("program", instruction.program, Noun::program, "of the sheet");
  fields.reference("tray", instruction.tray, Noun::tray, "the sheet names; left out: the lab's lightest");
  fields.group({{"limits", "of the sheet; one left out is not limited", false},
                false,
                [] { return true; },
                [](const Place&) {},
                [&instruction](Fields& inner) { describe_limits(inner, instruction.limits); }});
}

void check(const Instruction& instruction) {
  const auto& limits = instruction.limits;
  check_pair(limits.rate_at_least, limits.rate_at_most, "rate");
  check_pair(limits.top_at_least, limits.top_at_most, "top");
  check_pair(limits.hold_at_least, limits.hold_at_most, "hold");
}

void describe(Fields& fields, Firing& firing) {
  fields.naming(firing.name, firing.label, firing.note);
  fields.choice("stage", firing.stage, {}, "stage of work");
  fields.reference("tray", firing.tray, Noun::tray, "the pieces stand on");
  fields.reference("furnace", firing.furnace, Noun::furnace, "that fires");
  fields.reference("program", firing.program, Noun::program, "that runs");
  fields.reference("instruction", firing.instruction, Noun::instruction, "the maker's sheet to compare with");
  fields.references("after", firing.after, Noun::firing, "firings these pieces went through before, in order");
  fields.optional("barometer", firing.barometer, "absolute; left out: from the furnace's altitude",
                  Between<Pressure>{millibars(450), millibars(1100)});
  fields.tables("piece", firing.pieces, 1, 40, "on the tray", describe_piece_on_tray, {{}, "piece"});
  fields.group({{"chamber", "its state before the start", false},
                false,
                [] { return true; },
                [](const Place&) {},
                [&firing](Fields& inner) { describe_chamber(inner, firing.chamber); }});
  fields.optional_table("record", firing.record, "what became of it; nothing in it changes a number", describe_record, Role::for_people);
}

void check(const Firing& firing) {
  for (const auto& earlier : firing.after)
    if (earlier.value == firing.name)
      throw Mistake(earlier.place, fmt::format("after: firing \"{}\" cannot come before itself", earlier.value));
  std::set<std::string> seen;
  for (const auto& piece : firing.pieces)
    if (!seen.insert(piece.piece.value).second)
      throw Mistake(piece.piece.place,
                    fmt::format("piece: \"{}\" stands on the tray twice; each piece has its own name", piece.piece.value));
  if (firing.record) check_record(firing);
}

}  // namespace heatwork::trade
