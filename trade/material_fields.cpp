#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "trade/alloy.h"
#include "trade/material.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/property.h"
#include "trade/relaxation.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

constexpr double not_given = std::numeric_limits<double>::quiet_NaN();

/// One number of an estimate, in the unit of its property. The value itself brings what was typed.
class EstimateSlot : public Slot {
 public:
  EstimateSlot(Estimate& estimate, double Estimate::*number, const PropertyName& property)
      : estimate_(estimate), number_(number), codec_{std::string(property.unit), {property.at_least, property.at_most}} {}
  std::optional<std::string> take(const Node& node, const ReadingAid& aid) override {
    const auto reading = codec_.read(node, aid);
    if (!reading) return reading.error();
    estimate_.*number_ = *reading;
    if (number_ == &Estimate::value) estimate_.typed = node.text;
    return std::nullopt;
  }
  [[nodiscard]] bool present() const override { return !std::isnan(estimate_.*number_); }
  [[nodiscard]] std::string literal() const override { return codec_.literal(estimate_.*number_); }
  [[nodiscard]] Nature nature() const override { return codec_.nature(); }

 private:
  Estimate& estimate_;
  double Estimate::*number_;
  NumberCodec codec_;
};

void describe_estimate(Fields& fields, Estimate& estimate, const PropertyName& property) {
  EstimateSlot value(estimate, &Estimate::value, property);
  EstimateSlot low(estimate, &Estimate::low, property);
  EstimateSlot high(estimate, &Estimate::high, property);
  fields.value({"value", "the number; left out where none was found", false}, value);
  fields.value({"low", "lower end of its range", false}, low);
  fields.value({"high", "upper end of its range", false}, high);
  PlainSlot standing(estimate.standing, ChoiceCodec<Standing>{});
  fields.value({"standing", "how well it is known", true, {}, Role::for_people}, standing);
  PlainSlot source(estimate.source, TextCodec{1000, false, {}, false});
  fields.value({"source", "where it comes from: bibliography key with page or table, or the lab's own test", true, {}, Role::for_people},
               source);
}

void describe_properties(Fields& fields, std::map<std::string, Estimate>& properties, std::span<const PropertyName> names) {
  fields.group({{"properties", "each with value, range, standing and source", false},
                false,
                [] { return true; },
                [](const Place&) {},
                [&properties, names](Fields& inner) {
                  for (const auto& property : names) {
                    const std::string name(property.name);
                    const Role role = property.of_stress ? Role::decides_stress : Role::decides;
                    inner.group({{property.name, property.meaning, false, {}, role},
                                 true,
                                 [&properties, name] { return properties.contains(name); },
                                 [&properties, name](const Place& place) {
                                   properties[name] = {not_given, not_given, not_given, Standing::assumed, {}, {}, place};
                                 },
                                 [&properties, name, &property](Fields& one) { describe_estimate(one, properties[name], property); }});
                  }
                }});
}

void describe_calibrated(Fields& fields, Calibrated& calibrated) {
  PlainSlot furnace(calibrated.furnace, TextCodec{60, true});
  fields.value({"furnace", "name of the furnace of the trial firing", true, {}, Role::for_people}, furnace);
  PlainSlot tray(calibrated.tray, TextCodec{60, true});
  fields.value({"tray", "name of the tray of the trial firing", true, {}, Role::for_people}, tray);
  fields.required("within", calibrated.within, "how well its firing temperature is known in that furnace on that tray, either way",
                  {quantity::kelvins(1), quantity::kelvins(150)});
  fields.optional("display_error_u", calibrated.display_error_u,
                  "standard uncertainty of that furnace's display error at the trial; left out where the display was never checked",
                  {quantity::kelvins(0), quantity::kelvins(100)});
}

void check_estimate(const std::string& name, const Estimate& estimate, std::string_view unit) {
  if (estimate.standing == Standing::none_found) {
    if (!std::isnan(estimate.value))
      throw Mistake(estimate.place, fmt::format("{}: a value is given although none was found; change its standing", name));
    return;
  }
  if (std::isnan(estimate.value) || std::isnan(estimate.low) || std::isnan(estimate.high))
    throw Mistake(
        estimate.place,
        fmt::format("{}: value, low and high belong together; only where the standing is \"none found\" they are left out", name));
  if (estimate.low > estimate.value || estimate.value > estimate.high)
    throw Mistake(estimate.place,
                  fmt::format("{}: the value {} lies outside its own range from {} to {}", name, quantity::write_in(estimate.value, unit),
                              quantity::write_in(estimate.low, unit), quantity::write_in(estimate.high, unit)));
}

void check_properties(const std::map<std::string, Estimate>& properties, std::span<const PropertyName> names) {
  for (const auto& property : names) {
    const auto found = properties.find(std::string(property.name));
    if (found != properties.end()) check_estimate(found->first, found->second, property.unit);
  }
}

}  // namespace

void describe(Fields& fields, Material& material) {
  fields.naming(material.name, material.label, material.note);
  fields.choice("kind", material.kind, {}, "what it is in a firing");
  fields.text("family", material.family, "group whose members go together, such as \"feldspathic veneer for zirconia\"", Role::decides);
  fields.words("relaxation", material.relaxation, relaxation_names(),
               "how its glass relaxes, by the name of a spectrum that ships; for the stress of cooling", false, Role::decides_stress);
  fields.optional_table("calibrated", material.calibrated, "where a trial firing of the lab's own gave its viscosity", describe_calibrated);
  describe_properties(fields, material.properties, material_properties());
}

void describe(Fields& fields, Liquid& liquid) {
  fields.naming(liquid.name, liquid.label, liquid.note);
  fields.truth("water_only", liquid.water_only, true, "plain water; nothing else is modelled");
  fields.truth("organic", liquid.organic, false, "holds organics that must burn off");
  describe_properties(fields, liquid.properties, liquid_properties());
}

void describe(Fields& fields, Alloy& alloy) {
  fields.naming(alloy.name, alloy.label, alloy.note);
  fields.choice("kind", alloy.kind, {}, "what most of it is");
  describe_properties(fields, alloy.properties, alloy_properties());
}

void check(const Material& material) {
  check_properties(material.properties, material_properties());
}

void check(const Alloy& alloy) {
  check_properties(alloy.properties, alloy_properties());
  const Estimate* solidus = alloy.find("solidus");
  const Estimate* liquidus = alloy.find("liquidus");
  if (solidus != nullptr && liquidus != nullptr && liquidus->value < solidus->value)
    throw Mistake(liquidus->place, fmt::format("liquidus: {} lies below the solidus of {}; allowed is from there up",
                                               quantity::write_in(liquidus->value, "°C"), quantity::write_in(solidus->value, "°C")));
  const Estimate* highest = alloy.find("highest_firing");
  if (solidus != nullptr && highest != nullptr && highest->value >= solidus->value)
    throw Mistake(highest->place, fmt::format("highest_firing: {} is not below the solidus of {}, where the alloy begins to melt",
                                              quantity::write_in(highest->value, "°C"), quantity::write_in(solidus->value, "°C")));
  double parts = 0;
  const Estimate* last = nullptr;
  for (const auto* share : {"gold_share", "palladium_share", "silver_share", "copper_share"}) {
    const Estimate* part = alloy.find(share);
    if (part == nullptr || part->standing == Standing::none_found) continue;
    parts += part->value;
    last = part;
  }
  if (parts > 100.05)
    throw Mistake(last->place, fmt::format("the shares by mass make {} % together; allowed is up to 100 %", quantity::write_number(parts)));
}

void check(const Liquid& liquid) {
  check_properties(liquid.properties, liquid_properties());
  const auto from = liquid.properties.find("boiling_from");
  const auto to = liquid.properties.find("boiling_to");
  if (from != liquid.properties.end() && to != liquid.properties.end() && to->second.value < from->second.value)
    throw Mistake(to->second.place, fmt::format("boiling_to: {} lies below the {} at which boiling begins; allowed is from there up",
                                                quantity::write_in(to->second.value, "°C"), quantity::write_in(from->second.value, "°C")));
  if (liquid.water_only && liquid.organic) throw Mistake(liquid.place, "plain water holds no organics; set water_only or organic to false");
}

}  // namespace heatwork::trade
