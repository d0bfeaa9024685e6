#include "report/lanes.h"

#include <algorithm>
#include <numeric>
#include <tuple>
#include <utility>

namespace heatwork::report {
namespace {

bool apart(const LaneLabel& a, const LaneLabel& b, double gap) {
  return a.left + a.width + gap <= b.left || b.left + b.width + gap <= a.left;
}

/// The leader of the upper label falls at its x through all lanes under it.
bool crossed(const LaneLabel& lower, const LaneLabel& upper, double clear) {
  const double near = clear - 0.5;
  return upper.x > lower.left - near && upper.x < lower.left + lower.width + near && upper.x != lower.x;
}

/// One way of placing: which labels run left from their moment and which run right.
struct Placing {
  std::vector<LaneLabel> labels;
  int lanes = 0;
  int bad = 0;  ///< leaders over words, and words beyond the ends

  void place(std::size_t i, const LaneEnds& ends) {
    LaneLabel& label = labels[i];
    for (label.lane = 0; !fits(i, ends, true) && label.lane < most_lanes; ++label.lane) continue;
    if (label.lane == most_lanes) {
      ++bad;
      for (label.lane = 0; !fits(i, ends, false); ++label.lane) continue;
    }
    done.push_back(i);
    lanes = std::max(lanes, label.lane + 1);
  }

  [[nodiscard]] bool fits(std::size_t i, const LaneEnds& ends, bool leaders_too) const {
    const LaneLabel& label = labels[i];
    return std::all_of(done.begin(), done.end(), [&](std::size_t k) {
      const LaneLabel& other = labels[k];
      if (other.lane == label.lane) return apart(other, label, ends.gap);
      if (!leaders_too) return true;
      return other.lane < label.lane ? !crossed(other, label, ends.clear) : !crossed(label, other, ends.clear);
    });
  }

  static constexpr int most_lanes = 12;
  std::vector<std::size_t> done;
};

Placing placed(std::vector<LaneLabel> labels, const std::vector<std::size_t>& by_x, const std::vector<bool>& left, const LaneEnds& ends) {
  Placing placing;
  for (std::size_t rank = 0; rank < by_x.size(); ++rank) {
    LaneLabel& label = labels[by_x[rank]];
    const double wanted = left[rank] ? label.x - ends.clear - label.width : label.x + ends.clear;
    label.left = std::max(ends.left, std::min(wanted, ends.right - label.width));
    if (label.left != wanted) ++placing.bad;
  }
  placing.labels = std::move(labels);
  // Words that run right are placed from the right, those that run left from the left: each leader then falls clear of the words placed
  // before.
  for (std::size_t rank = by_x.size(); rank-- > 0;) {
    if (!left[rank]) placing.place(by_x[rank], ends);
  }
  for (std::size_t rank = 0; rank < by_x.size(); ++rank) {
    if (left[rank]) placing.place(by_x[rank], ends);
  }
  return placing;
}

/// How good a placing is, better first: faults, lanes, and how far the words stand from the plot in all.
std::tuple<int, int, int> cost(const Placing& placing) {
  int sum = 0;
  for (const LaneLabel& label : placing.labels) sum += label.lane;
  return {placing.bad, placing.lanes, sum};
}

}  // namespace

int place_in_lanes(std::vector<LaneLabel>& labels, const LaneEnds& ends) {
  if (labels.empty()) return 0;
  std::vector<std::size_t> by_x(labels.size());
  std::iota(by_x.begin(), by_x.end(), std::size_t{0});
  std::stable_sort(by_x.begin(), by_x.end(), [&](std::size_t a, std::size_t b) { return labels[a].x < labels[b].x; });
  // Begin with the best place to turn from left to right or back, then turn single labels as long as that helps.
  std::vector<bool> best_left(labels.size());
  Placing best = placed(labels, by_x, best_left, ends);
  const auto try_sides = [&](const std::vector<bool>& left) {
    Placing other = placed(labels, by_x, left, ends);
    if (cost(other) >= cost(best)) return false;
    best = std::move(other);
    best_left = left;
    return true;
  };
  for (std::size_t turn = 0; turn <= labels.size(); ++turn) {
    for (const bool before : {true, false}) {
      std::vector<bool> left(labels.size());
      for (std::size_t rank = 0; rank < left.size(); ++rank) left[rank] = (rank < turn) == before;
      try_sides(left);
    }
  }
  for (bool better = true; better;) {
    better = false;
    for (std::size_t a = 0; a < labels.size(); ++a) {
      for (std::size_t b = a; b < labels.size(); ++b) {
        std::vector<bool> left = best_left;
        left[a] = !left[a];
        if (b != a) left[b] = !left[b];
        better = try_sides(left) || better;
      }
    }
  }
  labels = std::move(best.labels);
  return best.lanes;
}

}  // namespace heatwork::report
