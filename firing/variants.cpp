#include "firing/variants.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <stdexcept>

#include "firing/column.h"
#include "firing/comparison.h"
#include "firing/fire.h"
#include "firing/side_by_side.h"
#include "firing/vary.h"
#include "trade/mistake.h"

namespace heatwork::firing {
namespace {

/// An end beyond the model's domain is sought at a half, a quarter ... of the way.
constexpr int most_halvings = 6;

/// True where two histories of a chamber differ by less than their lines are drawn to in the range where the piece is fired, and by
/// little below it.
bool runs_alike(const ChamberHistory& a, const ChamberHistory& b) {
  constexpr double alike_K = 0.05, alike_below_K = 1, range_K = 150, alike_share = 0.005;
  if (a.moments.size() != b.moments.size()) return false;
  const double range_C = *std::max_element(b.chamber_C.begin(), b.chamber_C.end()) - range_K;
  for (std::size_t i = 0; i < a.time_s.size(); ++i) {
    const double chamber_C = value_at(b.time_s, b.chamber_C, a.time_s[i]);
    if (std::abs(a.chamber_C[i] - chamber_C) > (chamber_C > range_C ? alike_K : alike_below_K)) return false;
    const double pressure_Pa = value_at(b.time_s, b.pressure_Pa, a.time_s[i]);
    if (std::abs(a.pressure_Pa[i] - pressure_Pa) > alike_share * pressure_Pa) return false;
  }
  return true;
}

/// The points of a piece that findings on pores and vacuum read: of each number the worst, by itself and against the maker's.
std::vector<bool> extremes_of(const PieceResult& here, const PieceResult* maker) {
  std::vector<bool> chosen(here.points.size(), false);
  const auto choose = [&](const std::function<double(std::size_t)>& badness) {
    std::optional<std::size_t> worst;
    for (std::size_t i = 0; i < here.points.size(); ++i) {
      if (!here.points[i].viscous || !here.points[i].decides) continue;
      if (!worst || badness(i) > badness(*worst)) worst = i;
    }
    if (worst) chosen[*worst] = true;
  };
  choose([&](std::size_t i) { return here.points[i].porosity_percent; });
  if (maker != nullptr) choose([&](std::size_t i) { return here.points[i].porosity_percent - maker->points[i].porosity_percent; });
  choose([&](std::size_t i) { return here.points[i].sealed_share_at_vacuum_start; });
  choose([&](std::size_t i) { return -here.points[i].sealed_share_at_release; });
  choose([&](std::size_t i) { return here.points[i].swelling; });
  choose([&](std::size_t i) { return here.points[i].pressure_at_sealing_Pa; });
  return chosen;
}

/// The first part of a history.
ChamberHistory until(ChamberHistory history, double end_s) {
  const auto past = std::upper_bound(history.time_s.begin(), history.time_s.end(), end_s);
  const auto count = std::max<std::size_t>(2, static_cast<std::size_t>(past - history.time_s.begin()));
  if (count >= history.time_s.size()) return history;
  for (std::vector<double>* column :
       {&history.time_s, &history.asked_C, &history.display_C, &history.chamber_C, &history.pressure_Pa, &history.opening})
    column->resize(count);
  history.phase.resize(count);
  return history;
}

Detail detail_of(const trade::DecidingInput& input) {
  if (reach_of(input) == Reach::drying) return Detail::drying;
  return input.decides("pores") || input.decides("vacuum") ? Detail::ends : Detail::work;
}

/// "shape factor of glaze".
std::string in_words(const Varied& varied) {
  std::string words = varied.input.name;
  std::replace(words.begin(), words.end(), '_', ' ');
  return varied.material.empty() ? words : words + " of " + varied.material;
}

/// One end of one input's range.
struct End {
  std::size_t varied = 0;
  double share = 1;
  std::optional<Outcome> outcome;
  bool cut = false;
};

class Variants {
 public:
  Variants(const RehearseOptions& options, const NominalRun& nominal, Rehearsal& rehearsal)
      : options_(options), nominal_(nominal), rehearsal_(rehearsal), request_(rehearsal.request) {
    as_given_.conditions = nominal.conditions;
    as_given_.materials = request_.materials;
    as_given_.pieces = request_.pieces;
    as_given_.tray_kg = request_.tray.mass->value.si();
    dry_by_s_ = dry_by_s();
    for (std::size_t i = 0; i < request_.pieces.size(); ++i)
      pores_at_.push_back(
          extremes_of(rehearsal.firing.pieces[i], rehearsal.reference.empty() ? nullptr : &rehearsal.reference[i].pieces[0]));
  }

  void run() {
    run_coarse();
    std::vector<End> ends;
    for (const trade::DecidingInput& input : *options_.inputs) {
      for (const std::string& subject : subjects_of(input, request_)) {
        const Reach reach = reach_of(input);
        const bool coarse = reach == Reach::firing || reach == Reach::both || reach == Reach::drying;
        if (reach == Reach::drying && !(dry_by_s_ > 0)) continue;
        rehearsal_.varied.push_back({input, subject, coarse, false, {}});
        for (const double share : {-1.0, 1.0}) ends.push_back({rehearsal_.varied.size() - 1, share, std::nullopt, false});
      }
    }
    side_by_side(ends.size(), options_.workers, [&](std::size_t i) {
      if (options_.stop && options_.stop()) throw Stopped();
      run_end(ends[i]);
    });
    for (End& end : ends) {
      Varied& varied = rehearsal_.varied[end.varied];
      varied.cut = varied.cut || end.cut;
      if (end.outcome) varied.ends.push_back(std::move(*end.outcome));
    }
    for (const Varied& varied : rehearsal_.varied) {
      if (varied.cut) rehearsal_.assumptions.push_back(fmt::format("The range of {} is cut where the model ends.", in_words(varied)));
    }
  }

 private:
  [[nodiscard]] bool compared() const { return !nominal_.tables.empty(); }

  [[nodiscard]] FiringSetup setup_of(const Ingredients& with) const {
    FiringSetup setup = firing::setup_of(request_, with.pieces, with.tray_kg, options_.start);
    setup.pores_at = pores_at_;
    return setup;
  }

  [[nodiscard]] FiringSetup maker_setup_of(const Ingredients& with, std::size_t piece) const {
    FiringSetup alone = alone_as_the_maker(request_, with.pieces[piece], options_.start.empty() ? nullptr : &options_.start[piece]);
    alone.pores_at = {pores_at_[piece]};
    return alone;
  }

  [[nodiscard]] Stock stock_of(const Ingredients& with) const { return {with.materials, request_.liquids, request_.supports}; }

  /// When all that is wet is dry and the pump has started, in this firing and in the maker's, and some minutes more; 0 where nothing is
  /// wet, the firing's end where it never dries. [s]
  [[nodiscard]] double dry_by_s() const {
    constexpr double more_s = 120;
    double by_s = 0;
    bool wet = false;
    const auto take = [&](const FiringResult& result) {
      for (const ChamberEvent event : {ChamberEvent::closed, ChamberEvent::vacuum_started}) {
        const ChamberMoment* moment = result.chamber.find(event);
        if (moment != nullptr) by_s = std::max(by_s, moment->time_s);
      }
      for (const PieceResult& piece : result.pieces) {
        for (const SectionResult& section : piece.sections) {
          if (!(section.water_start_g > 0)) continue;
          wet = true;
          by_s = std::max(by_s, section.dry_s >= 0 ? section.dry_s : result.time_s.back());
        }
      }
    };
    take(rehearsal_.firing);
    for (const FiringResult& reference : rehearsal_.reference) take(reference);
    return wet ? by_s + more_s : 0;
  }

  /// Firing and maker's firing as given, with the steps of the variants.
  void run_coarse() {
    Outcome& coarse = rehearsal_.coarse;
    coarse.reference.resize(compared() ? request_.pieces.size() : 0);
    side_by_side(1 + coarse.reference.size(), options_.workers, [&](std::size_t i) {
      if (options_.stop && options_.stop()) throw Stopped();
      physics::LoadSolver& solver = solver_of_this_thread();
      if (i == 0) {
        coarse.firing = fired_here(as_given_, rehearsal_.firing.chamber, Detail::ends, solver);
      } else {
        coarse.reference[i - 1] = fired_by_maker(as_given_, i - 1, Detail::work, solver);
      }
    });
    compare_as(Reach::firing, as_given_, coarse);
  }

  FiringResult fired_here(const Ingredients& with, const ChamberHistory& chamber, Detail detail, physics::LoadSolver& solver) const {
    const FiringSetup setup = setup_of(with);
    const Stock stock = stock_of(with);
    solver.set_load(varied_load(setup, stock, with), coarse_steps);
    return lived(setup, stock, chamber, solver.solve(varied_surroundings(chamber, with)), detail);
  }

  FiringResult fired_by_maker(const Ingredients& with, std::size_t piece, Detail detail, physics::LoadSolver& solver) const {
    const FiringSetup setup = maker_setup_of(with, piece);
    const Stock stock = stock_of(with);
    solver.set_load(varied_load(setup, stock, with), coarse_steps);
    const ChamberHistory chamber = detail == Detail::drying ? until(nominal_.maker_chamber, dry_by_s_) : nominal_.maker_chamber;
    return lived(setup, stock, chamber, solver.solve(varied_surroundings(chamber, with)), detail);
  }

  /// Runs an end; where the model refuses it, nearer and nearer to what is given.
  void run_end(End& end) const {
    const Varied& varied = rehearsal_.varied[end.varied];
    for (int halvings = 0; halvings <= most_halvings; ++halvings) {
      Ingredients with = as_given_;
      const double share = std::ldexp(end.share, -halvings);
      try {
        if (!vary(with, varied.input, varied.material, share, request_, options_.unchecked_display_K)) return;
        end.cut = halvings > 0 || with.cut;
        end.outcome = outcome_of(varied.input, with);
        return;
      } catch (const std::domain_error&) {
      } catch (const std::invalid_argument&) {
      } catch (const trade::Mistake&) {
      }
    }
  }

  /// Absent where the chamber goes its way unchanged.
  std::optional<Outcome> outcome_of(const trade::DecidingInput& input, const Ingredients& with) const {
    const Reach reach = reach_of(input);
    const Detail detail = detail_of(input);
    physics::LoadSolver& solver = solver_of_this_thread();
    Outcome outcome;
    ChamberHistory chamber = rehearsal_.firing.chamber;
    if (input.of == trade::InputOf::furnace) {
      chamber = run_program(request_.program, request_.furnace, with.conditions);
      const ChamberHistory& before = rehearsal_.firing.chamber;
      if (runs_alike(chamber, before)) return std::nullopt;
    }
    chamber.room_humidity = with.conditions.room_humidity;
    if (reach == Reach::drying) chamber = until(std::move(chamber), dry_by_s_);
    if (reach == Reach::firing || reach == Reach::both || reach == Reach::drying) {
      outcome.firing = fired_here(with, chamber, detail, solver);
    } else {
      outcome.firing = lived(setup_of(with), stock_of(with), std::move(chamber), nominal_.here, detail);
    }
    const bool changes_maker =
        reach == Reach::both || reach == Reach::kinetics || (reach == Reach::drying && input.of != trade::InputOf::load);
    if (compared() && changes_maker) {
      for (std::size_t i = 0; i < with.pieces.size(); ++i) {
        outcome.reference.push_back(
            reach != Reach::kinetics ? fired_by_maker(with, i, detail, solver)
                                     : lived(maker_setup_of(with, i), stock_of(with), nominal_.maker_chamber, nominal_.maker[i], detail));
      }
    }
    if (reach != Reach::drying) compare_as(reach, with, outcome);
    return outcome;
  }

  /// Reads shift and hold of every piece off the maker's tables.  theory: (comparison.5)
  void compare_as(Reach reach, const Ingredients& with, Outcome& outcome) const {
    if (!compared()) return;
    const Stock stock = stock_of(with);
    for (std::size_t i = 0; i < with.pieces.size(); ++i) {
      const Comparison& as_given = rehearsal_.compared[i];
      if (as_given.quantity == DecidingQuantity::none) {
        outcome.compared.push_back(as_given);
        continue;
      }
      const MakerTable& table = nominal_.tables[i];
      Requantify requantify = [](const Knot& knot) { return knot.quantity; };
      std::vector<Point> points;
      PieceState start;
      if (reach == Reach::both) {
        const auto of_maker = [&](const FiringResult& result) { return result.pieces[0].points[table.point].deciding; };
        const double ratio = of_maker(outcome.reference[i]) / of_maker(rehearsal_.coarse.reference[i]);
        requantify = [ratio](const Knot& knot) { return ratio * knot.quantity; };
      } else if (reach == Reach::kinetics) {
        points = points_of(with.pieces[i], stock);
        start = options_.start.empty() ? start_state(points) : options_.start[i];
        requantify = [&](const Knot& knot) { return deciding_quantity(points[table.point], start.points[table.point], knot.history); };
      }
      outcome.compared.push_back(read_off_table(table, as_given, outcome.firing.pieces[i].points[table.point].deciding, requantify));
    }
  }

  const RehearseOptions& options_;
  const NominalRun& nominal_;
  Rehearsal& rehearsal_;
  const trade::ResolvedFiring& request_;
  Ingredients as_given_;
  double dry_by_s_ = 0;
  std::vector<std::vector<bool>> pores_at_;
};

}  // namespace

void run_variants(const RehearseOptions& options, const NominalRun& nominal, Rehearsal& rehearsal) {
  Variants(options, nominal, rehearsal).run();
}

}  // namespace heatwork::firing
