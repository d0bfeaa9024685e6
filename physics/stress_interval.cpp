#include "physics/stress_interval.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/response_surface.h"

namespace heatwork::physics {

namespace {

constexpr std::size_t inputs = 4, highest = 4, radial = 5, transient = 6;  // the last three: places in layer_stresses
constexpr double left_out = 0.05;                                          // of the set, at each end

// Where reference temperatures lie over transition and activation: straight in the one, a parabola in the other. Stress hardly knows the
// transition, so that a tenth of a kelvin is more than enough.
class References {
 public:
  References(const RelaxingGlass& glass, const GlassRanges& ranges) {
    for (std::size_t i = 0; i < 2; ++i) {
      for (std::size_t j = 0; j < 3; ++j) {
        const bool again = (i == 1 && one(ranges.transition_K)) || (j > 0 && one(ranges.activation_K));
        RelaxingGlass tried = glass;
        tried.activation_K = at(ranges.activation_K, 0.5 * static_cast<double>(j));
        known_[i][j] = again
                           ? known_[one(ranges.transition_K) ? 0 : i][one(ranges.activation_K) ? 0 : j]
                           : reference_of_transition_K(tried, at(ranges.transition_K, static_cast<double>(i)), ranges.dilatometer_K_per_s);
      }
    }
  }
  static double at(const InputRange& range, double share) { return range.low + share * (range.high - range.low); }
  double reference_K(double transition, double activation) const {
    const auto along = [&](const std::array<double, 3>& k) {
      return k[0] + activation * (4.0 * k[1] - 3.0 * k[0] - k[2]) + 2.0 * activation * activation * (k[0] - 2.0 * k[1] + k[2]);
    };
    return along(known_[0]) + transition * (along(known_[1]) - along(known_[0]));
  }

 private:
  static bool one(const InputRange& range) { return range.low == range.high; }
  std::array<std::array<double, 3>, 2> known_{};
};

void check(std::span<const SectionCase> forms, std::span<const StressLayer> layers, const GlassRanges& ranges, const SetSize& size) {
  if (forms.empty()) throw std::domain_error("Bounds need one form of the section at least.");
  if (ranges.layer >= layers.size() || !layers[ranges.layer].glass)
    throw std::domain_error("The layer whose glass is open is none of the layers, or has no glass.");
  for (const auto& [range, name] : {std::pair{&ranges.expansion_per_K, "expansion"},
                                    {&ranges.liquid_ratio, "expansion of the liquid"},
                                    {&ranges.activation_K, "activation"},
                                    {&ranges.transition_K, "transition"}}) {
    if (!(range->low <= range->high) || !std::isfinite(range->low) || !std::isfinite(range->high))
      throw std::domain_error(std::string("The range of the ") + name + " must go from a lower to a higher number.");
  }
  if (size.first < 12 || size.largest < size.first)
    throw std::domain_error("A set has 12 members at least, and its largest size is not below the first.");
  if (!(size.close_Pa > 0.0)) throw std::domain_error("The move of an end that is small enough must be above 0 Pa.");
}

// The layers with their open glass at shares of its ranges.
std::vector<StressLayer> layers_at(std::span<const StressLayer> layers, const GlassRanges& ranges, const References& references,
                                   const std::array<double, inputs>& share) {
  std::vector<StressLayer> out(layers.begin(), layers.end());
  StressLayer& open = out[ranges.layer];
  open.expansion_per_K = open.expansion_per_K.raised(References::at(ranges.expansion_per_K, share[0]));
  StressGlass& glass = *open.glass;
  glass.relaxing.activation_K = References::at(ranges.activation_K, share[2]);
  glass.relaxing.reference_K = references.reference_K(share[3], share[2]);
  // The solid's mean from 25 to 500 C, as expansions are told.
  const double mean = open.expansion_per_K.integral_K(298.15, 773.15) / 475.0;
  glass.liquid_expansion_per_K = References::at(ranges.liquid_ratio, share[1]) * mean;
  return out;
}

double radius_in_m(std::span<const SectionCase> forms, StressForm form) {
  const auto found = std::find_if(forms.begin(), forms.end(), [&](const SectionCase& one) { return one.form == form; });
  if (found == forms.end()) throw std::domain_error("What earlier coolings left is not known for this form.");
  return found->inner_radius_m;
}

// One member of a set: the section in one form through all it is put through, its glass at the same shares of its ranges all along.
class Member {
 public:
  Member(StressForm form, const StressAccuracy& accuracy) : form_(form), accuracy_(accuracy) {}
  CoolingReport cool(double radius_m, std::vector<StressLayer> layers, double start_K, const CoolingCourse& course) {
    CoolingStress piece(form_, radius_m, layers, start_K, accuracy_);
    if (!state_.empty()) piece.resume(state_);
    CoolingReport last = piece.run(course).back();
    state_ = piece.state();
    radius_m_ = radius_m;
    layers_ = std::move(layers);
    return last;
  }
  void change(double radius_m, std::span<const StressLayer> layers, std::span<const LayerOrigin> origins) {
    if (!origins.empty()) state_ = carried_stress({form_, radius_m_, layers_, accuracy_, state_}, radius_m, layers, origins, accuracy_);
  }

 private:
  StressForm form_;
  StressAccuracy accuracy_;
  double radius_m_ = 0.0;
  std::vector<StressLayer> layers_;
  std::vector<double> state_;
};

// Of values that rise.
double quantile(const std::vector<double>& values, double share) {
  const double place = share * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const double part = place - static_cast<double>(below);
  return below + 1 < values.size() ? values[below] + part * (values[below + 1] - values[below]) : values.back();
}

// Members that a surface stands for, and by how much it may miss the figures of those computed: half of a move that is small enough.
constexpr std::size_t stood_for = 2048;
constexpr double may_miss = 0.5;

// What the members computed so far tell of all: a surface through them, and where it is read off.
struct Surface {
  explicit Surface(std::uint64_t seed, std::size_t count) : through(points(seed, count)), layout(through.at(points(seed, stood_for))) {}
  static std::vector<SpreadPoint> points(std::uint64_t seed, std::size_t count) {
    std::vector<SpreadPoint> all;
    for (std::size_t i = 0; i < count; ++i) all.push_back(spread_point(seed, i));
    return all;
  }
  // The members themselves where no smooth surface goes near them.
  std::vector<double> set(const std::vector<double>& values, double close_Pa) const {
    const ResponseSurface::Fit fit = through.fit(values);
    return fit.misses < may_miss * close_Pa ? through.values(fit, layout) : values;
  }
  ResponseSurface through;
  std::vector<double> layout;
};

// All stresses told of all layers, member after member.
struct Told {
  std::vector<std::array<std::vector<double>, stress_figures>> layers;
  void add(const CoolingReport& report) {
    layers.resize(report.layers.size());
    for (std::size_t l = 0; l < layers.size(); ++l)
      for (std::size_t f = 0; f < stress_figures; ++f) layers[l][f].push_back(report.layers[l].*layer_stresses[f]);
  }
  StressIntervals intervals(const Surface& surface, double close_Pa) const {
    StressIntervals out;
    for (const auto& layer : layers) {
      auto& told = out.layers.emplace_back();
      for (std::size_t f = 0; f < stress_figures; ++f) {
        std::vector<double> set = surface.set(layer[f], close_Pa);
        std::sort(set.begin(), set.end());
        told[f] = {quantile(set, left_out), quantile(set, 0.5), quantile(set, 1.0 - left_out)};
      }
    }
    return out;
  }
};

// Largest move of an end that decides.
double moved_Pa(const StressIntervals& one, const StressIntervals& other, std::size_t layer) {
  double most = 0.0;
  for (const std::size_t f : {highest, radial, transient})
    most = std::max({most, std::abs(one.layers[layer][f].low_Pa - other.layers[layer][f].low_Pa),
                     std::abs(one.layers[layer][f].high_Pa - other.layers[layer][f].high_Pa)});
  return most;
}

}  // namespace

UncertainInput StressIntervals::widest() const {
  const auto most = std::max_element(swing_Pa.begin(), swing_Pa.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
  return static_cast<UncertainInput>(most - swing_Pa.begin());
}

// Sobol's sequence by the first primitive polynomials and the direction numbers of Joe and Kuo, all digits of a dimension shifted alike.
std::array<double, 4> spread_point(std::uint64_t seed, std::size_t i) {
  struct Dimension {
    unsigned degree, polynomial;
    std::array<std::uint32_t, 3> first;
  };
  constexpr std::array<Dimension, 4> dimensions = {{{0, 0, {}}, {1, 0, {1}}, {2, 1, {1, 3}}, {3, 1, {1, 3, 1}}}};
  constexpr unsigned digits = 32;
  std::array<double, 4> out{};
  for (std::size_t d = 0; d < out.size(); ++d) {
    const Dimension& by = dimensions[d];
    std::array<std::uint32_t, digits> direction{};
    for (unsigned k = 0; k < digits; ++k) {
      if (by.degree == 0 || k < by.degree) {
        direction[k] = (by.degree == 0 ? 1U : by.first[k]) << (digits - 1 - k);
        continue;
      }
      direction[k] = direction[k - by.degree] ^ (direction[k - by.degree] >> by.degree);
      for (unsigned j = 1; j < by.degree; ++j)
        if (((by.polynomial >> (by.degree - 1 - j)) & 1U) != 0U) direction[k] ^= direction[k - j];
    }
    std::uint64_t bits = seed + 0x9e3779b97f4a7c15ULL * (d + 1);  // well mixed, one shift a dimension
    bits = (bits ^ (bits >> 30)) * 0xbf58476d1ce4e5b9ULL;
    bits = (bits ^ (bits >> 27)) * 0x94d049bb133111ebULL;
    auto place = static_cast<std::uint32_t>((bits ^ (bits >> 31)) >> 32);
    for (unsigned k = 0; k < digits && (i >> k) != 0; ++k)
      if (((i >> k) & 1U) != 0U) place ^= direction[k];
    out[d] = (static_cast<double>(place) + 0.5) * 0x1p-32;
  }
  return out;
}

void in_turn(std::size_t count, const std::function<void(std::size_t)>& part) {
  for (std::size_t i = 0; i < count; ++i) part(i);
}

StressBounds stress_bounds(std::span<const SectionCase> forms, std::span<const StressLayer> layers, const GlassRanges& ranges,
                           double start_K, const CoolingCourse& course, const SetSize& size, const StressAccuracy& accuracy,
                           const Parts& parts, std::span<const EarlierCooling> before) {
  check(forms, layers, ranges, size);
  const References references(layers[ranges.layer].glass->relaxing, ranges);
  for (const EarlierCooling& leg : before) check(leg.forms, leg.layers, ranges, size);
  const auto cooled = [&](const SectionCase& one, const std::array<double, inputs>& share) {
    Member member(one.form, accuracy);
    for (std::size_t i = 0; i < before.size(); ++i) {
      const EarlierCooling& leg = before[i];
      member.cool(radius_in_m(leg.forms, one.form), layers_at(leg.layers, ranges, references, share), leg.start_K, leg.course);
      const bool last = i + 1 == before.size();
      member.change(last ? one.inner_radius_m : radius_in_m(before[i + 1].forms, one.form),
                    layers_at(last ? layers : std::span<const StressLayer>(before[i + 1].layers), ranges, references, share), leg.origins);
    }
    return member.cool(one.inner_radius_m, layers_at(layers, ranges, references, share), start_K, course);
  };
  StressBounds out;
  std::vector<Told> told(forms.size());
  for (std::size_t wanted = size.first; wanted <= size.largest && !out.settled; wanted *= 2) {
    std::vector<CoolingReport> members((wanted - out.count) * forms.size());  // kept by place, so that their order is always the same
    parts(members.size(),
          [&](std::size_t i) { members[i] = cooled(forms[i % forms.size()], spread_point(size.seed, out.count + i / forms.size())); });
    for (std::size_t i = 0; i < members.size(); ++i) told[i % forms.size()].add(members[i]);
    out.count = wanted;
    std::vector<StressIntervals> now;
    const Surface surface(size.seed, out.count);
    for (const Told& one : told) now.push_back(one.intervals(surface, size.close_Pa));
    double moved = out.forms.empty() ? size.close_Pa : 0.0;
    for (std::size_t f = 0; f < out.forms.size(); ++f) moved = std::max(moved, moved_Pa(now[f], out.forms[f], ranges.layer));
    out.settled = moved < size.close_Pa;
    out.forms = now;
  }
  std::vector<double> end_Pa(2 * inputs * forms.size());
  parts(end_Pa.size(), [&](std::size_t i) {
    std::array<double, inputs> share{0.5, 0.5, 0.5, 0.5};
    share[(i / 2) % inputs] = i % 2 == 0 ? 0.0 : 1.0;
    end_Pa[i] = cooled(forms[i / (2 * inputs)], share).layers[ranges.layer].highest_hoop_Pa;
  });
  for (std::size_t i = 0; i < end_Pa.size(); i += 2) out.forms[i / (2 * inputs)].swing_Pa[(i / 2) % inputs] = end_Pa[i + 1] - end_Pa[i];
  return out;
}

}  // namespace heatwork::physics
