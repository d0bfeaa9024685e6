#include <fmt/format.h>

#include <algorithm>

#include "trade/firing_record.h"
#include "trade/lock_name.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/records.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

constexpr std::size_t teeth_of_a_mouth = 32;
constexpr std::size_t longest_lock_name = 80;  // the longest kind, a stroke and the longest name

void check_both(const std::string& first, const std::string& second, std::string_view what, const Place& place) {
  if (first.empty() != second.empty()) throw Mistake(place, fmt::format("{}; give both, or neither", what));
}

}  // namespace

std::string lock_name(std::string_view kind, std::string_view name) {
  std::string text = fmt::format("{}-{}", kind, name);
  std::replace(text.begin(), text.end(), ' ', '-');
  return text;
}

void describe(Fields& fields, Case& one) {
  fields.naming(one.name, one.label, one.note);
  fields.teeth("teeth", one.teeth, "it is about, ISO 3950", teeth_of_a_mouth);
  fields.references("pieces", one.pieces, Noun::piece, "made for it");
  fields.day("ordered", one.ordered, "day it came in", &one.places);
  fields.day("wanted", one.wanted, "day it must leave the lab", &one.places);
  fields.text("next_step", one.next_step, "what is to be done next, in words");
  fields.truth("closed", one.closed, false, "nothing more is to be done");
}

void check(const Case& one) {
  if (!one.ordered.empty() && !one.wanted.empty() && one.wanted < one.ordered)
    throw Mistake(place_of(one.places, "wanted", one.place),
                  fmt::format("wanted: {} lies before the day it was ordered, {}; allowed is from there on", one.wanted, one.ordered));
}

void describe(Fields& fields, Lot& lot) {
  fields.naming(lot.name, lot.label, lot.note);
  fields.reference("material", lot.material, Noun::material, "in the jar or packet");
  fields.reference("liquid", lot.liquid, Noun::liquid, "in the bottle");
  fields.text("code", lot.code, "as printed on the packet");
  fields.day("opened", lot.opened, "day it was opened");
  fields.day("expires", lot.expires, "day it may last be used");
  fields.truth("used_up", lot.used_up, false, "nothing is left of it");
}

void check(const Lot& lot) {
  if (!lot.material && !lot.liquid) throw Mistake(lot.place, "[lot] says neither material nor liquid; one of them says what it holds");
  if (lot.material && lot.liquid) throw Mistake(lot.liquid->place, "liquid: a lot holds a material or a liquid; one of the two lines goes");
}

void describe(Fields& fields, BenchStep& step) {
  fields.naming(step.name, step.label, step.note);
  fields.choice("work", step.work, {}, "what was done");
  fields.references("pieces", step.pieces, Noun::piece, "it was done to", 1);
  fields.references("lots", step.lots, Noun::lot, "used in it");
  fields.moment("at", step.at, "when it was done", nullptr, true);
  fields.person("person", step.person, "who did it");
}

void check(const BenchStep&) {}

void describe(Fields& fields, Reference& reference) {
  fields.naming(reference.name, reference.label, reference.note);
  fields.choice("of", reference.of, {}, "what it is");
  fields.text("certificate", reference.certificate, "its number as printed");
  fields.day("certified", reference.certified, "day it was certified or calibrated last", &reference.places);
  fields.day("expires", reference.expires, "day it may last be used, as the certificate says", &reference.places);
  fields.optional("every_days", reference.every_days, "it is certified anew after so many days", Between<int>{1, 3652});
  fields.choice("by", reference.by, "who says so; left out: the lab");
  fields.placed_text("stated_in", reference.stated_in, "where the furnace maker says so", &reference.places);
}

void check(const Reference& reference) {
  const auto at = [&](std::string_view key) { return place_of(reference.places, key, reference.place); };
  if (!reference.certified.empty() && !reference.expires.empty() && reference.expires < reference.certified)
    throw Mistake(at("expires"), fmt::format("expires: {} lies before the day it was certified, {}; allowed is from there on",
                                             reference.expires, reference.certified));
  if (reference.by && !reference.every_days)
    throw Mistake(reference.by->place, "by: it tells who says how often; add every_days, or the line goes");
  check_stated_in(reference.by, reference.stated_in, at("stated_in"));
}

void describe(Fields& fields, Deviation& deviation) {
  fields.naming(deviation.name, deviation.label, deviation.note);
  fields.placed_text("from", deviation.from, "what was left, such as \"instruction, hold at most 1 min\"", nullptr, true);
  fields.placed_text("found", deviation.found, "what was found", nullptr, true);
  fields.reference("firing", deviation.firing, Noun::firing, "it happened in");
  fields.references("pieces", deviation.pieces, Noun::piece, "it touches");
  fields.choice("decision", deviation.decision, "open", "what is done about it");
  fields.text("reason", deviation.reason, "of the decision");
  fields.text("trial", deviation.trial, "trial firing on a tab, in words");
  fields.moment("found_at", deviation.found_at, "when it was found", &deviation.places, true);
  fields.person("found_by", deviation.found_by, "who found it");
  fields.moment("released_at", deviation.released_at, "when it was released", &deviation.places);
  fields.person("released_by", deviation.released_by, "who released it", &deviation.places);
}

void check(const Deviation& deviation) {
  const auto at = [&](std::string_view key) { return place_of(deviation.places, key, deviation.place); };
  const bool has_time = !deviation.released_at.empty();
  check_both(deviation.released_at, deviation.released_by, "released_at and released_by belong together",
             at(has_time ? "released_at" : "released_by"));
  if (!has_time) return;
  if (deviation.decision.value == DeviationDecision::open)
    throw Mistake(at("released_at"),
                  "released_at: nothing is decided yet, so nothing is released; set a decision, or released_at and released_by go");
  if (is_before(deviation.released_at, deviation.found_at))
    throw Mistake(at("released_at"), fmt::format("released_at: {} lies before found_at, {}; allowed is from there on",
                                                 deviation.released_at, deviation.found_at));
}

void describe(Fields& fields, Person& person) {
  fields.naming(person.name, person.label, person.note);
  fields.choice("role", person.role, {}, "what this person may do, each with all before it");
  fields.otherwise("may_set_up", person.may_set_up, "false", "may enter persons, erase their data and photos, and move the store");
  fields.truth("left", person.left, false, "may do nothing any more");
}

void check(const Person&) {}

void describe(Fields& fields, Lock& lock) {
  PlacedSlot name(lock.name, &lock.places, "name", TextCodec{longest_lock_name, true});
  fields.value({"name", "kind and name of what is locked, such as program-dentine", true, {}, Role::for_people}, name);
  fields.text("label", lock.label, "what people call it");
  fields.text("note", lock.note, "anything worth keeping");
  fields.words("of_kind", lock.of_kind, {noun_words.begin(), noun_words.end()}, "kind of what is locked");
  PlainSlot of_name(lock.of_name, TextCodec{60, true});
  fields.value({"of_name", "its name", true, {}, Role::for_people}, of_name);
  fields.count("of_version", lock.of_version, "the version that was the newest when it was locked", {1, 1'000'000});
  fields.truth("locked", lock.locked, true, "false: it was unlocked again");
  fields.placed_text("reason", lock.reason, "why", nullptr, true);
}

void check(const Lock& lock) {
  const std::string allowed = lock_name(lock.of_kind, lock.of_name);
  if (lock.name != allowed)
    throw Mistake(place_of(lock.places, "name", lock.place),
                  fmt::format("name: \"{}\" is not the kind and name of what is locked; allowed is \"{}\"", lock.name, allowed));
}

void describe(Fields& fields, Lab& lab) {
  fields.naming(lab.name, lab.label, lab.note);
  fields.words("language", lab.language, {"en", "de"}, "in which it is spoken to; without it as the settings of each machine say", false);
  fields.words("units", lab.units, {"celsius", "fahrenheit"}, "in which it reads temperatures; without it as those settings say", false);
  fields.truth("demo", lab.demo, false, "nothing in its store happened: it is there to play with");
  fields.tables("due", lab.dues, 0, 40, "how often works are due at every furnace whose own file says nothing of it", describe_lab_due,
                {{}, "what"}, Role::for_people);
}

void check(const Lab& lab) {
  check_dues(lab.dues);
}

}  // namespace heatwork::trade
