// The interpreter of a program: it walks through drying, closing, heating, holds and cooling and leaves arcs of temperature and pressure.
#pragma once

#include <optional>
#include <vector>

#include "firing/arc.h"
#include "firing/chamber.h"
#include "firing/vacuum_line.h"

namespace heatwork::firing {

/// Longest time heating waits for the vacuum level before it goes on without it (assumed). [s]
inline constexpr double longest_wait_for_vacuum_s = 180;
/// A furnace that reaches a temperature later than this after it was asked counts as unable to. [s]
inline constexpr double longest_held_back_s = 7200;

/// Runs a program once. Arcs follow each other without gap; the true temperature and the sensor run on continuously.
class ProgramRun {
 public:
  /// Errors: std::domain_error with one sentence on a program that no furnace can run.
  ProgramRun(const trade::Program& program, const trade::Furnace& furnace, const ChamberConditions& conditions);

  /// Walks the whole program. Errors: std::domain_error with one sentence when this furnace can never reach what is asked.
  void run();

  [[nodiscard]] const std::vector<Arc>& arcs() const { return arcs_; }
  [[nodiscard]] const VacuumLine& vacuum() const { return vacuum_; }
  [[nodiscard]] const std::vector<ChamberMoment>& moments() const { return moments_; }
  [[nodiscard]] bool level_never_reached() const { return level_never_reached_; }
  [[nodiscard]] bool held_back() const { return held_back_; }

 private:
  /// A straight asked line and where it ends; `sign` +1 heating, -1 cooling.
  struct Ramp {
    double to_C = 0;
    double rate_K_per_s = 0;
    int sign = 1;
    bool comes_to_rest = true;    ///< a hold follows: the control slows down before the end
    bool clock_by_asked = false;  ///< the stage's hold runs from the asked line
    double hold_s = 0;
    int stage = 0;
    double resting_slope_K_per_s = 0;  ///< slope at which the overshoot is the furnace's own
    double braking_K_per_s2 = 0;
    bool on_line = false, lost_line = false, slowing = false;
    std::optional<double> asked_reached_s;
    bool display_reached = false;
  };
  enum class Ends { law, asked, hold, slow_down, reached, vacuum_from, vacuum_to };
  struct NextEnd {
    double after_s = 0;
    Ends what = Ends::law;
    void earlier(double candidate_s, Ends candidate) {
      if (candidate_s < after_s) *this = {candidate_s, candidate};
    }
  };

  void check() const;
  void check_vacuum() const;
  void dry_and_close();
  void preheat();
  void heating_stage(int stage);
  void hold_stage(const Ramp& ramp);
  void cooling_stage(int stage);
  void open_and_unload();

  void climb(Ramp& ramp);
  [[nodiscard]] Arc law_of(const Ramp& ramp) const;
  [[nodiscard]] NextEnd next_end(const Ramp& ramp, const Arc& arc) const;
  [[nodiscard]] double law_ends(const Ramp& ramp, const Arc& arc) const;
  void act(Ramp& ramp, Ends what);
  void reached(Ramp& ramp);
  void brake(Ramp& ramp, double slope);
  void check_reachable(const Ramp& ramp) const;
  void check_held_back(const Ramp& ramp) const;
  void natural_cooling_to(double display_C, const char* what, Phase phase);
  void keep_entry(double duration_s, double opening_end, Phase phase);
  void keep_entry_step(double duration_s, double opening_end, Phase phase);
  void arrive(double display_C);
  void rest_at(double display_C, double duration_s, Phase phase);
  void plan_arrival(Ramp& ramp) const;

  void start_vacuum(int stage);
  void ask_level(double level_Pa);
  void settle_level(double next_level_Pa);
  void release();
  void wait_for_vacuum();
  void change_opening(double opening);

  void advance(Arc arc, double duration_s);
  [[nodiscard]] Arc arc_now(Phase phase) const;
  void mark(ChamberEvent event, double time_s);
  [[nodiscard]] double display() const { return sensor_C_ + today_.display_error_K; }
  [[nodiscard]] double sensor_slope() const { return lag_s_ > 0 ? (true_C_ - sensor_C_) / lag_s_ : last_slope_K_per_s_; }
  [[nodiscard]] double cooling_constant(double opening) const;
  [[nodiscard]] double full_power_limit_C() const { return today_.room_C + today_.gain_K_per_s / loss_at(opening_); }
  [[nodiscard]] double level_of(int stage) const;
  [[nodiscard]] double loss_at(double opening) const;
  [[nodiscard]] const trade::HeatingStage& stage_at(int stage) const { return program_.heating[static_cast<std::size_t>(stage)]; }

  const trade::Program& program_;
  const trade::Furnace& furnace_;
  ChamberConditions today_;
  double lag_s_;
  double overshoot_K_;
  int top_stage_ = -1;
  std::optional<double> vacuum_from_C_, vacuum_to_C_;
  double vacuum_hold_s_ = 0;

  double now_s_ = 0, true_C_ = 0, sensor_C_ = 0, asked_C_ = 0, opening_ = 0, last_slope_K_per_s_ = 0;
  VacuumLine vacuum_;
  bool vacuum_started_ = false, vacuum_ended_ = false, waited_ = true;
  std::optional<double> level_due_s_;  ///< when the level last asked is reached; absent: never
  double vacuum_started_s_ = 0, level_asked_Pa_ = 0;
  double rest_s_ = 0;  ///< time constant of the control's coming to rest
  std::vector<Arc> arcs_;
  std::vector<ChamberMoment> moments_;
  bool level_never_reached_ = false, held_back_ = false;
};

}  // namespace heatwork::firing
