#include <fmt/format.h>

#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/piece.h"
#include "trade/shape.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Area;
using quantity::grams;
using quantity::Length;
using quantity::Mass;
using quantity::millimetres;

Between<Length> lengths(double low_mm, double high_mm) {
  return {millimetres(low_mm), millimetres(high_mm)};
}

void describe_layer(Fields& fields, Layer& layer) {
  fields.reference("material", layer.material, Noun::material, "of the layer");
  fields.required("thickness", layer.thickness, "as it goes in; of the unfired build-up where green", lengths(0.001, 30));
  fields.truth("green", layer.green, false, "unfired: a powder build-up, or zirconia before sintering");
  fields.reference("liquid", layer.liquid, Noun::liquid, "the powder is wet with; left out: dry");
}

void describe_inner_mass(Fields& fields, InnerMass& mass) {
  fields.required_in("heat_capacity", mass.heat_capacity_J_per_m2K, "J/(m2 K)", "of what stands inside, per area of the inside face",
                     {1, 1e6});
  fields.required_in("gap", mass.gap_W_per_m2K, "W/(m2 K)", "conductance of the gap, per area of the inside face", {0.1, 1e5});
}

void describe_section(Fields& fields, Section& section) {
  PlainSlot name(section.name, TextCodec{60, false, {}, false});
  fields.value({"name", "such as thickest, thinnest, pontic, margin", true, {}, Role::for_people}, name);
  fields.choice("form", section.form, {}, "how it is curved");
  fields.optional("inner_radius", section.inner_radius, "of a tube or shell; left out: by the shape", lengths(0.1, 50));
  fields.choice("inside", section.inside, {}, "closed: middle of a solid; open: sees the chamber; mass: die, pin, paste or post");
  fields.optional("area", section.area, "outer area this section stands for; left out: by the shape",
                  Between<Area>{Area::si(1e-6), Area::si(1e-2)});
  fields.optional("unsupported_length", section.unsupported_length, "overhang of porcelain with nothing under it", lengths(0.05, 30));
  fields.optional_table("inner_mass", section.inner_mass, "where inside is mass", describe_inner_mass);
  fields.tables("layer", section.layers, 1, 12, "from the inside out", describe_layer);
}

std::vector<std::string> shape_words() {
  std::vector<std::string> words;
  for (const auto& shape : shapes()) words.emplace_back(shape.word);
  return words;
}

void check_section(const Section& section) {
  if (section.inside.value == SectionInside::mass && !section.inner_mass)
    throw Mistake(section.inside.place, "inside is mass, but no [piece.section.inner_mass] says its heat_capacity and gap");
  if (section.inside.value != SectionInside::mass && section.inner_mass)
    throw Mistake(section.inner_mass->heat_capacity_J_per_m2K.place,
                  "an inner_mass is given, but inside is not \"mass\"; set inside = \"mass\", or the table goes");
  if (section.form.value == SectionForm::plate && section.inner_radius)
    throw Mistake(section.inner_radius->place, "inner_radius: a plate has none; the form is \"tube\" or \"shell\", or the line goes");
  for (const auto& layer : section.layers)
    if (layer.liquid && !layer.green)
      throw Mistake(layer.liquid->place, "liquid: only an unfired build-up is wet; add green = true, or the line goes");
}

}  // namespace

void describe(Fields& fields, Piece& piece) {
  fields.naming(piece.name, piece.label, piece.note);
  fields.words("shape", piece.shape, shape_words(), "gives the sizes that are left out, with their range");
  fields.teeth("teeth", piece.teeth, "it replaces or covers, ISO 3950");
  fields.reference("support", piece.support, Noun::support, "it stands on; left out: the tray itself");
  MaybeSlot of_case(piece.of_case, TextCodec{60, true});
  fields.value({"case", "it belongs to, by its name", false, {}, Role::for_people, Noun::dental_case}, of_case);
  fields.tables("section", piece.sections, 1, 12, "walls of the piece: the thickest and the thinnest at least", describe_section,
                {{}, "name"});
}

void describe(Fields& fields, Tray& tray) {
  fields.naming(tray.name, tray.label, tray.note);
  fields.optional("mass", tray.mass, "weigh it: without it the heat of the load is unknown", Between<Mass>{grams(0.5), grams(2000)});
  fields.reference("material", tray.material, Noun::material, "of the tray");
  fields.required("diameter", tray.diameter, "of the tray", lengths(5, 300));
  fields.required("thickness", tray.thickness, "of its plate", lengths(0.5, 60));
}

void describe(Fields& fields, Support& support) {
  fields.naming(support.name, support.label, support.note);
  fields.required("mass", support.mass, "under one piece", Between<Mass>{grams(0.01), grams(500)});
  fields.reference("material", support.material, Noun::material, "of the pins, beads, paste or wool");
  fields.required("contact", support.contact, "area it touches the piece with", Between<Area>{Area::si(1e-8), Area::si(1e-2)});
  fields.required_in("gap", support.gap_W_per_m2K, "W/(m2 K)", "conductance of that contact", {0.1, 1e5});
}

void check(const Piece& piece) {
  for (const auto& section : piece.sections) check_section(section);
}
void check(const Tray&) {}
void check(const Support&) {}

}  // namespace heatwork::trade
