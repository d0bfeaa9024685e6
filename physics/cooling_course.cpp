#include "physics/cooling_course.h"

#include <algorithm>
#include <cstddef>
#include <stdexcept>

#include "physics/cooling_profile.h"

namespace heatwork::physics {

void check_course(const CoolingCourse& course) {
  if (course.time_s.size() != course.temperature_K.size()) throw std::domain_error("A history needs as many temperatures as times.");
  if (course.inner.has_value() != course.outer.has_value()) throw std::domain_error("A film is given for both faces or for none.");
  if (course.time_s.empty() && !course.profile && !course.inner) throw std::domain_error("A course needs a history or films.");
  if (course.profile) {
    if (!course.time_s.empty()) throw std::domain_error("A course has a history or a profile, not both.");
    check_profile(*course.profile);
    if (course.mass && course.profile->mass_K.empty())
      throw std::domain_error("A profile in front of a support needs the temperatures of the support.");
  }
  if (course.from_liquid && !course.profile)
    throw std::domain_error("Glasses start as liquids at the first row of a profile, and none is given.");
  if (!course.time_s.empty() && course.inner && !course.film_from_K)
    throw std::domain_error("A history and films together need the temperature from which the films act.");
  for (std::size_t i = 0; i < course.time_s.size(); ++i) {
    if (!(course.temperature_K[i] > 0.0) || (i > 0 && !(course.time_s[i] > course.time_s[i - 1])))
      throw std::domain_error("A history must rise in time, with temperatures above 0 K.");
  }
  if (course.around_s.size() != course.around_K.size()) throw std::domain_error("Surroundings need as many temperatures as times.");
  if (!course.around_s.empty() && !course.inner) throw std::domain_error("Surroundings act through films, and none is given.");
  for (std::size_t i = 0; i < course.around_s.size(); ++i) {
    if (!(course.around_K[i] > 0.0) || (i > 0 && !(course.around_s[i] > course.around_s[i - 1])))
      throw std::domain_error("Surroundings must rise in time, with temperatures above 0 K.");
  }
  if (course.inner) {
    for (const FaceCooling& face : {*course.inner, *course.outer})
      if (!(face.film_W_per_m2K >= 0.0 && face.emissivity >= 0.0 && face.emissivity <= 1.0))
        throw std::domain_error("A film must be from 0 up, an emissivity from 0 to 1.");
    const double all = course.inner->film_W_per_m2K + course.inner->emissivity + course.outer->film_W_per_m2K + course.outer->emissivity;
    if (!(all > 0.0)) throw std::domain_error("Neither face has a film or radiates: the piece would never cool.");
  }
}

double surroundings_K(const CoolingCourse& course, double time_s) {
  if (course.around_s.empty()) return course.ambient_K;
  const auto after = std::upper_bound(course.around_s.begin(), course.around_s.end(), time_s);
  if (after == course.around_s.begin()) return course.around_K.front();
  if (after == course.around_s.end()) return course.around_K.back();
  const auto i = static_cast<std::size_t>(after - course.around_s.begin());
  const double share = (time_s - course.around_s[i - 1]) / (course.around_s[i] - course.around_s[i - 1]);
  return course.around_K[i - 1] + share * (course.around_K[i] - course.around_K[i - 1]);
}

double parabola_top(const double x[3], const double y[3]) {
  const double rise = (y[1] - y[0]) / (x[1] - x[0]), fall = (y[2] - y[1]) / (x[2] - x[1]), bend = (fall - rise) / (x[2] - x[0]);
  const double slope = rise + bend * (x[1] - x[0]);  // at the middle one
  return bend < 0.0 ? y[1] - slope * slope / (4.0 * bend) : y[1];
}

double highest_between(std::span<const double> places, std::span<const double> values) {
  const auto top = static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin());
  if (top == 0 || top + 1 == values.size()) return values[top];
  return parabola_top(&places[top - 1], &values[top - 1]);
}

void StressPeak::add(double time_s, double stress_Pa) {
  highest_Pa_ = std::max(highest_Pa_, stress_Pa);
  if (seen_ >= 2 && last_Pa_ > before_Pa_ && last_Pa_ > stress_Pa && time_s > last_s_) {
    const double x[3] = {before_s_, last_s_, time_s}, y[3] = {before_Pa_, last_Pa_, stress_Pa};
    highest_Pa_ = std::max(highest_Pa_, parabola_top(x, y));
  }
  before_s_ = last_s_;
  before_Pa_ = last_Pa_;
  last_s_ = time_s;
  last_Pa_ = stress_Pa;
  ++seen_;
}

}  // namespace heatwork::physics
