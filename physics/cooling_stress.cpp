#include "physics/cooling_stress.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <stdexcept>
#include <string>

#include "physics/cooling_course.h"
#include "physics/cooling_mesh.h"
#include "physics/cooling_profile.h"

namespace heatwork::physics {

namespace {

constexpr double at_ambient_K = 0.01;  // the films are done when no place is further off
constexpr double longest_course_s = 1e7;
constexpr double growth = 1.5;       // of a step over the one before
constexpr double hold_share = 0.05;  // of a stretch of a history, at most a step
constexpr double longer_cold = 4.0;  // steps where glasses hardly relax, or lose all they hold within one

}  // namespace

struct CoolingState {
  std::vector<StressLayer> given;
  StressAccuracy accuracy;
  CoolingMesh mesh;
  CoolingBalance balance;
  std::vector<CoolingLayer> layers;
  std::vector<double> T, tried;
  double mass_K, curvature = 0.0;
  // of the course
  double mass_tried_K = 0.0, last_s = 0.0, nominal_steps = 1.0;
  double time_s = 0.0, difference_K = 0.0, imbalance = 0.0;
  bool with_mass = false;
  std::size_t steps = 0;
  std::vector<StressPeak> transient;
  CoolingTrace* trace = nullptr;

  CoolingState(StressForm form, double inner_radius_m, std::span<const StressLayer> of, double start_K, const StressAccuracy& wanted)
      : given(of.begin(), of.end()),
        accuracy(wanted),
        mesh(cooling_mesh(form, inner_radius_m, of, wanted)),
        balance(mesh),
        mass_K(start_K) {
    for (std::size_t l = 0; l < given.size(); ++l) layers.emplace_back(given[l], mesh.points[l].count(), start_K);
    T.assign(mesh.nodes, start_K);
  }

  const std::vector<double>& hoop(std::size_t l) const {
    return mesh.form == StressForm::cylinder || mesh.form == StressForm::sphere ? layers[l].stress_2 : layers[l].stress_1;
  }

  void mechanics(double duration_s) {
    for (std::size_t l = 0; l < layers.size(); ++l) layers[l].prepare(&T[mesh.first[l]], duration_s);
    balance.advance(layers, curvature);
    time_s += duration_s;
    ++steps;
    look();
    const auto [low, high] = std::minmax_element(T.begin(), T.end());
    double least = *low, most = *high;
    if (with_mass) {
      least = std::min(least, mass_K);
      most = std::max(most, mass_K);
    }
    difference_K = std::max(difference_K, most - least);
    imbalance = std::max(imbalance, balance.imbalance(layers));
  }

  // What follows has another slope.
  void turn() {
    for (StressPeak& peak : transient) peak.turn();
    for (CoolingLayer& layer : layers) layer.turn();
  }

  // The last two steps before a stop are alike: no short one to follow a long one.
  static double evened(double duration_s, double left_s) { return left_s < 2.0 * duration_s ? 0.5 * left_s : duration_s; }

  CoolingReport report() const {
    CoolingReport out{time_s, mesh.form == StressForm::plate_free ? curvature : 0.0, difference_K, imbalance, steps, {}};
    constexpr int looks = 40;
    for (std::size_t l = 0; l < layers.size(); ++l) {
      const std::vector<double>& s = hoop(l);
      LayerCooling& layer = out.layers.emplace_back();
      layer.inner_hoop_Pa = s.front();
      layer.outer_hoop_Pa = s.back();
      layer.middle_hoop_Pa = mesh.points[l].value(s.data(), 0.0);
      layer.lowest_hoop_Pa = *std::min_element(s.begin(), s.end());
      layer.highest_hoop_Pa = *std::max_element(s.begin(), s.end());
      for (int i = 0; i <= looks; ++i) {
        const double at = mesh.points[l].value(s.data(), -1.0 + 2.0 * i / looks);
        layer.lowest_hoop_Pa = std::min(layer.lowest_hoop_Pa, at);
        layer.highest_hoop_Pa = std::max(layer.highest_hoop_Pa, at);
      }
      const bool curved = mesh.form == StressForm::cylinder || mesh.form == StressForm::sphere;
      layer.radial_at_inner_Pa = curved ? layers[l].stress_1.front() : 0.0;
      layer.transient_highest_Pa = std::max(transient[l].highest_Pa(), layer.highest_hoop_Pa);
      double sum = 0.0, volume = 0.0;
      for (std::size_t q = 0; q < s.size(); ++q) {
        sum += mesh.measure[l][q] * layers[l].Tf[q];
        volume += mesh.measure[l][q];
      }
      layer.fictive_K = layers[l].is_glass() ? sum / volume : 0.0;
    }
    return out;
  }

  // Those asked for until now.
  void report_all(std::span<const double> reports, std::size_t& next, std::vector<CoolingReport>& out) const {
    for (; next < reports.size() && reports[next] <= time_s; ++next) out.push_back(report());
  }

  // Nominal steps that one may be long, from a step of so many: 1 while any glass freezes.
  double allowed(double taken) const {
    for (const CoolingLayer& layer : layers)
      if (layer.course(taken) == GlassCourse::freezing) return 1.0;
    return longer_cold;
  }

  // The next step, from this one and the largest rise of a temperature in it; looks at the structures too.
  double next_duration(double step_s, double rise_K) const {
    const double nominal = accuracy.step_K * allowed(std::max(1.0, rise_K / accuracy.step_K));
    for (const CoolingLayer& layer : layers) rise_K = std::max(rise_K, layer.structure_change_K());
    return step_s * std::clamp(nominal / std::max(rise_K, 1e-12), 0.3, growth);
  }

  // Along one straight stretch of the history.
  void stretch(double until_s, double until_K, std::span<const double> reports, std::size_t& next, std::vector<CoolingReport>& out) {
    const double from_s = time_s, from_K = T.front(), whole = until_s - from_s;
    turn();
    const double per_K = whole / std::max(1e-12, std::abs(until_K - from_K));  // seconds
    double duration = std::min({hold_share * whole, accuracy.step_K * per_K, last_s > 0.0 ? last_s : whole});
    report_all(reports, next, out);
    while (time_s < until_s) {
      const double stop = next < reports.size() ? std::min(until_s, reports[next]) : until_s;
      const bool last = time_s + 1.0001 * duration >= stop;
      const double to_s = last ? stop : time_s + evened(duration, stop - time_s), share = (to_s - from_s) / whole, step = to_s - time_s;
      std::fill(T.begin(), T.end(), from_K + share * (until_K - from_K));
      mass_K = T.front();
      mechanics(step);
      time_s = to_s;
      const double wanted = std::min(next_duration(step, step / per_K), hold_share * whole);
      last_s = duration = last ? std::max(std::min(duration, step * growth), wanted) : wanted;
      report_all(reports, next, out);
    }
  }

  // What sets the temperatures: `set` brings `tried` to those a step later and gives the largest rise on the way.
  struct Temperatures {
    std::function<double(double step_s)> set;
    Stops corners;
    double end_s;   // infinity where they are done once all is at
    double last_K;  // this
  };

  // Step by step, as long as temperatures and structures allow, to the end or until all is at the last temperature; the length of the next.
  double follow(Temperatures by, double duration, std::span<const double> reports, std::size_t& next, std::vector<CoolingReport>& out) {
    for (;;) {
      report_all(reports, next, out);
      const double report_s = next < reports.size() ? reports[next] : std::numeric_limits<double>::infinity();
      const double corner_s = by.corners.after(time_s), stop_s = std::min({corner_s, report_s, by.end_s});
      if (time_s >= by.end_s || (std::isinf(stop_s) && furthest_from(by.last_K) < at_ambient_K)) return duration;
      if (time_s > longest_course_s) throw std::domain_error("The piece has not cooled to the ambient temperature within 10^7 s.");
      const bool stops = time_s + 1.0001 * duration >= stop_s;
      const double step = stops ? stop_s - time_s : evened(duration, stop_s - time_s), rise = by.set(step);
      if (rise > 2.0 * accuracy.step_K * nominal_steps) {
        duration = 0.5 * step;
        continue;
      }
      T.swap(tried);
      mass_K = mass_tried_K;
      mechanics(step);
      if (stops) time_s = stop_s;
      if (corner_s == time_s) turn();
      nominal_steps = allowed(std::max(1.0, rise / accuracy.step_K));
      const double wanted = next_duration(step, rise);
      duration = stops ? std::max(duration, wanted) : wanted;
    }
  }

  void films(const CoolingCourse& course, std::size_t& next, std::vector<CoolingReport>& out) {
    turn();
    CoolingHeat heat(mesh, given);
    heat.cool_by(*course.inner, *course.outer, course.mass ? &*course.mass : nullptr);
    const double last_K = course.around_K.empty() ? course.ambient_K : course.around_K.back();
    const double first = std::min(1.0, accuracy.step_K / std::max(1e-9, heat.fastest(T, mass_K, surroundings_K(course, time_s))));
    const double duration = follow({[&](double step_s) { return heated(heat, course, step_s); }, Stops(course.around_s),
                                    std::numeric_limits<double>::infinity(), last_K},
                                   first, course.report_at_s, next, out);
    std::fill(T.begin(), T.end(), last_K);
    mass_K = last_K;
    mechanics(duration);
  }

  // Along a profile. At its first row the piece is put at once, or, where its glasses are liquid, stands until they have lost all stress.
  void prescribed(const CoolingCourse& course, std::size_t& next, std::vector<CoolingReport>& out) {
    constexpr double lost_by_s = 1e6;
    const SectionProfile& profile = *course.profile;
    ProfileOnMesh at(profile, mesh);
    const double start_s = profile.time_s.front(), end_s = at.end_s();
    at.read(start_s, T, mass_K);
    if (course.from_liquid)
      for (std::size_t l = 0; l < layers.size(); ++l) layers[l].melt(&T[mesh.first[l]]);
    mechanics(0.0);
    if (course.from_liquid) mechanics(lost_by_s);
    begin(start_s);
    tried = T;
    const auto set = [&](double step_s) {
      at.read(time_s + step_s, tried, mass_tried_K);
      return at.moved_K(time_s, time_s + step_s);
    };
    const double rate = at.moved_K(start_s, profile.time_s[1]) / (profile.time_s[1] - start_s);
    follow({set, Stops(profile.turn_s), end_s, 0.0}, std::min(1.0, accuracy.step_K / std::max(1e-9, rate)), course.report_at_s, next, out);
  }

  // From here on peaks, differences and steps are counted.
  void begin(double at_s) {
    time_s = at_s;
    difference_K = imbalance = last_s = 0.0;
    steps = 0;
    nominal_steps = 1.0;
    for (CoolingLayer& layer : layers) layer.begin_course();
    if (trace != nullptr) *trace = {{}, std::vector<std::vector<double>>(layers.size())};
    transient.assign(layers.size(), {});
    look();
  }

  // At the highest stress of each layer.
  void look() {
    if (trace != nullptr) trace->time_s.push_back(time_s);
    for (std::size_t l = 0; l < layers.size(); ++l) {
      const double highest = highest_between(mesh.points[l].place, hoop(l));
      transient[l].add(time_s, highest);
      if (trace != nullptr) trace->highest_Pa[l].push_back(highest);
    }
  }

  // Temperatures after a step, not yet taken; their largest rise. [K]
  double heated(CoolingHeat& heat, const CoolingCourse& course, double step_s) {
    tried = T;
    mass_tried_K = mass_K;
    heat.step(tried, mass_tried_K, step_s, surroundings_K(course, time_s), surroundings_K(course, time_s + step_s));
    double most = 0.0;
    for (std::size_t i = 0; i < T.size(); ++i) most = std::max(most, std::abs(tried[i] - T[i]));
    return most;
  }

  double furthest_from(double kelvin) const {
    double off = with_mass ? std::abs(mass_K - kelvin) : 0.0;
    for (const double t : T) off = std::max(off, std::abs(t - kelvin));
    return off;
  }
};

CoolingStress::CoolingStress(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, double start_K,
                             const StressAccuracy& accuracy) {
  std::vector<Layer> heat;
  for (const StressLayer& layer : layers) heat.push_back(layer.heat);
  const SectionForm section = form == StressForm::sphere     ? SectionForm::shell
                              : form == StressForm::cylinder ? SectionForm::tube
                                                             : SectionForm::plate;
  check_layers(heat, section, inner_radius_m);
  if (section != SectionForm::plate && !(inner_radius_m > 0.0)) throw std::domain_error("The inner radius must be above 0 m.");
  if (!(start_K > 0.0 && std::isfinite(start_K))) throw std::domain_error("The temperature of the start must be above 0 K.");
  if (!(accuracy.step_K > 0.0)) throw std::domain_error("The rise of temperature in a step must be above 0 K.");
  state_ = std::make_unique<CoolingState>(form, inner_radius_m, layers, start_K, accuracy);
}
CoolingStress::~CoolingStress() = default;
CoolingStress::CoolingStress(CoolingStress&&) noexcept = default;
CoolingStress& CoolingStress::operator=(CoolingStress&&) noexcept = default;

std::vector<CoolingReport> CoolingStress::run(const CoolingCourse& course, CoolingTrace* trace) {
  check_course(course);
  CoolingState& s = *state_;
  if (s.mesh.form == StressForm::membrane && (course.inner || course.profile))
    throw std::domain_error("A membrane has one temperature: it takes a history, no film.");
  std::vector<CoolingReport> out;
  s.with_mass = course.mass.has_value();
  s.trace = trace;
  s.begin(course.time_s.empty() ? 0.0 : course.time_s.front());
  std::size_t next = 0;
  if (course.profile) s.prescribed(course, next, out);
  bool reached = !course.film_from_K.has_value();
  for (std::size_t i = 0; i < course.time_s.size(); ++i) {
    double until_s = course.time_s[i], until_K = course.temperature_K[i];
    if (i == 0) {
      if (std::abs(until_K - s.T.front()) > 1e-6)
        throw std::domain_error("The history begins at " + std::to_string(until_K) + " K, but the piece is at " +
                                std::to_string(s.T.front()) + " K.");
      continue;
    }
    const double before_K = course.temperature_K[i - 1];
    if (course.inner && before_K >= *course.film_from_K && until_K < *course.film_from_K) {
      until_s = course.time_s[i - 1] + (until_s - course.time_s[i - 1]) * (before_K - *course.film_from_K) / (before_K - until_K);
      until_K = *course.film_from_K;
      reached = true;
    }
    s.stretch(until_s, until_K, course.report_at_s, next, out);
    if (course.inner && reached) break;
  }
  if (course.inner && !course.time_s.empty() && !reached && course.temperature_K.back() > *course.film_from_K)
    throw std::domain_error("The history never comes down to the temperature from which the films act.");
  if (course.inner) s.films(course, next, out);
  if (next < course.report_at_s.size()) throw std::domain_error("A report is asked for after the end of the history.");
  out.push_back(s.report());
  return out;
}

std::vector<double> CoolingStress::state() const {
  std::vector<double> all = state_->T;
  all.push_back(state_->mass_K);
  all.push_back(state_->curvature);
  for (const CoolingLayer& layer : state_->layers) layer.save(all);
  return all;
}

void CoolingStress::resume(std::span<const double> state) {
  if (state.size() < state_->T.size() + 2) throw std::domain_error("The stored state is too short for these layers.");
  std::copy(state.begin(), state.begin() + static_cast<std::ptrdiff_t>(state_->T.size()), state_->T.begin());
  state = state.subspan(state_->T.size());
  state_->mass_K = state[0];
  state_->curvature = state[1];
  state = state.subspan(2);
  for (CoolingLayer& layer : state_->layers) layer.load(state);
}

}  // namespace heatwork::physics
