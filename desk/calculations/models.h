// The calculations there are; each stands in the file of its phenomenon.
#pragma once

#include "desk/calculations/calculation.h"

namespace heatwork::desk {

extern const Calculation viscosity_calculation;
extern const Calculation cylinder_sintering_calculation;
extern const Calculation pore_closure_calculation;
extern const Calculation pore_equilibrium_calculation;
extern const Calculation levelling_calculation;
extern const Calculation equal_heat_work_calculation;
extern const Calculation sintering_calculation;
extern const Calculation crystallisation_calculation;
extern const Calculation zirconia_sintering_calculation;
extern const Calculation equivalent_firing_calculation;
extern const Calculation trial_firing_calculation;
extern const Calculation section_heating_calculation;
extern const Calculation fictive_temperature_calculation;
extern const Calculation layered_elastic_calculation;
extern const Calculation thermal_shock_calculation;
extern const Calculation cooling_stress_calculation;
extern const Calculation standard_atmosphere_calculation;
extern const Calculation gauge_pressure_calculation;
extern const Calculation water_saturation_calculation;
extern const Calculation thermocouple_calculation;
extern const Calculation thermocouple_tolerance_calculation;
extern const Calculation silver_melting_calculation;
extern const Calculation melt_test_calculation;
extern const Calculation melt_curve_calculation;
extern const Calculation straight_line_calculation;
extern const Calculation pump_down_calculation;
extern const Calculation rate_of_rise_calculation;
extern const Calculation heat_up_calculation;
extern const Calculation control_chart_calculation;
extern const Calculation run_length_calculation;
extern const Calculation colour_difference_calculation;

}  // namespace heatwork::desk
