// Laws of the load: energy and water are neither made nor lost, whatever stands on the tray and whatever the program does.
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "../reference/evidence_row.h"
#include "physics/load.h"

namespace heatwork::identity {
namespace {

using namespace physics;
using reference::Evidence;

Layer layer(double thickness_m, double rho, double k25, double k600, double cp25, double cp600) {
  return {thickness_m, rho, TemperatureProperty::linear(25, k25, 600, k600), TemperatureProperty::linear(25, cp25, 600, cp600), 0};
}

SectionBody section(SectionForm form, Inside inside, double coat_m, double water) {
  SectionBody s;
  s.form = form;
  s.inner_radius_m = 3.1e-3;
  s.layers = {layer(0.65e-3, 6050, 2.9, 2.2, 455, 610), layer(coat_m, 2400, 1.1, 1.4, 750, 1080)};
  s.area_m2 = 2.1e-4;
  s.inside.kind = inside;
  s.inside.heat_capacity_J_per_m2K = 1900;
  s.inside.gap_W_per_m2K = 130;
  PowderLayer powder;
  powder.layer = 1;
  powder.water_kg_per_m2 = water;
  powder.sealing_from_K = 960;
  powder.sealing_to_K = 1090;
  s.powder = powder;
  return s;
}

std::vector<Load> loads() {
  std::vector<Load> all;
  for (const bool tray : {true, false}) {
    for (const double water : {0.0, 0.5}) {
      Load load;
      if (tray) {
        TrayBody t;
        t.mass_kg = 0.043;
        t.specific_heat_J_per_kgK = TemperatureProperty::linear(25, 780, 600, 1120);
        t.area_m2 = 0.012;
        load.tray = t;
      }
      PieceBody piece;
      piece.sections = {section(SectionForm::shell, Inside::mass, 1.1e-3, water),
                        section(SectionForm::plate, Inside::closed, 1.9e-3, 1.4 * water)};
      SupportBody support;
      support.heat_capacity_J_per_K = 1.7;
      support.area_m2 = 1.5e-4;
      support.to_tray_W_per_K = 0.012;
      support.to_piece_W_per_K = 0.006;
      piece.support = support;
      load.pieces.push_back(piece);
      piece.sections = {section(SectionForm::tube, Inside::open, 1.3e-3, water)};
      piece.support.reset();
      load.pieces.push_back(piece);
      all.push_back(load);
    }
  }
  return all;
}

Surroundings program(int which) {
  Surroundings s;
  const auto add = [&](double t, double chamber_C, double mbar, double opening) {
    s.time_s.push_back(t);
    s.chamber_K.push_back(chamber_C + 273.15);
    s.pressure_Pa.push_back(100 * mbar);
    s.opening.push_back(opening);
  };
  if (which == 0) {  // an ordinary firing
    for (const auto& p : {std::array{0., 520., 1013.25, 1.},
                          {370., 520., 1013.25, 1.},
                          {490., 520., 1013.25, 0.},
                          {530., 520., 1013.25, 0.},
                          {565., 551., 51., 0.},
                          {960., 913., 51., 0.},
                          {962., 913., 1013.25, 0.},
                          {1020., 913., 1013.25, 0.},
                          {1300., 610., 1013.25, .4}}) {
      add(p[0], p[1], p[2], p[3]);
    }
  } else {  // shut at once, vacuum on wet work, a jump to the table
    for (const auto& p : {std::array{0., 430., 1013.25, 0.},
                          {30., 430., 1013.25, 0.},
                          {55., 450., 60., 0.},
                          {500., 860., 60., 0.},
                          {500., 860., 1013.25, 0.},
                          {530., 860., 1013.25, 0.},
                          {530., 25., 1013.25, 1.},
                          {700., 25., 1013.25, 1.}}) {
      add(p[0], p[1], p[2], p[3]);
    }
  }
  return s;
}

TEST(LoadLaws, EnergyIsNeitherMadeNorLost) {
  Evidence row("heat in less evaporation against heat stored, share of the heat in at the hottest", "1");
  for (const Load& load : loads()) {
    for (int which : {0, 1}) {
      const LoadHistory h = solve_load(load, program(which));
      const EnergyLedger& e = h.energy;
      const double moved = std::max(std::abs(e.stored_J), std::abs(e.radiated_J) + std::abs(e.convected_J));
      row.near((e.radiated_J + e.convected_J - e.evaporated_J - e.stored_J) / moved, 0, 1e-3);
    }
  }
}

TEST(LoadLaws, WaterLeftAndWaterGoneAreTheWaterOfTheStart) {
  for (const Load& load : loads()) {
    for (int which : {0, 1}) {
      const LoadHistory h = solve_load(load, program(which));
      for (const SectionHistory& s : h.sections) {
        if (s.water_start_kg_per_m2 == 0) continue;
        double gone = 0;
        for (std::size_t r = 1; r < h.time_s.size(); ++r) {
          ASSERT_LE(s.water_kg_per_m2[r], s.water_kg_per_m2[r - 1] + 1e-9);
          ASSERT_GE(s.burst_index[r], s.burst_index[r - 1]);
          gone += 0.5 * (s.evaporation_kg_per_m2s[r] + s.evaporation_kg_per_m2s[r - 1]) * (h.time_s[r] - h.time_s[r - 1]);
        }
        EXPECT_NEAR(gone + s.water_kg_per_m2.back(), s.water_start_kg_per_m2,
                    0.03 * s.water_start_kg_per_m2);  // by the trapezium over rows
      }
    }
  }
}

TEST(LoadLaws, NothingGetsHotterThanTheHottestNorColderThanTheColdest) {
  for (const Load& load : loads()) {
    if (load.pieces[0].sections[0].powder->water_kg_per_m2 > 0) continue;  // evaporation cools below the room
    for (int which : {0, 1}) {
      const Surroundings around = program(which);
      const double hottest = *std::max_element(around.chamber_K.begin(), around.chamber_K.end());
      const LoadHistory h = solve_load(load, around);
      for (const SectionHistory& s : h.sections) {
        EXPECT_LT(*std::max_element(s.node_K.begin(), s.node_K.end()), hottest + 0.05);
        EXPECT_GT(*std::min_element(s.node_K.begin(), s.node_K.end()), around.room_K - 0.05);
      }
    }
  }
}

TEST(LoadLaws, AnEvenLoadInAnEvenChamberStaysAsItIs) {
  for (Load load : loads()) {
    const double T = 873.15;
    if (load.tray) load.tray->start_K = T;
    for (PieceBody& p : load.pieces) {
      p.start_K = T;
      for (SectionBody& s : p.sections) s.powder->water_kg_per_m2 = 0;
    }
    Surroundings still;
    still.time_s = {0, 1000};
    still.chamber_K = {T, T};
    still.pressure_Pa = {101325, 5000};
    still.opening = {0, 0};
    const LoadHistory h = solve_load(load, still);
    for (const SectionHistory& s : h.sections) {
      for (double K : s.node_K) ASSERT_NEAR(K, T, 1e-9);
    }
  }
}

}  // namespace
}  // namespace heatwork::identity
