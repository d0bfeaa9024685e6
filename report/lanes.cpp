#include "report/lanes.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

#include "report/text_width.h"

namespace heatwork::report {
namespace {

bool apart(const LaneLabel& a, const LaneLabel& b, double gap_px) {
  return a.left + a.width + gap_px <= b.left || b.left + b.width + gap_px <= a.left;
}

/// The leader of the upper label falls at its x through all lanes under it.
bool crossed(const LaneLabel& lower, const LaneLabel& upper) {
  return upper.x > lower.left - 3 && upper.x < lower.left + lower.width + 3 && upper.x != lower.x;
}

struct Ends {
  double left_px, right_px, gap_px;
};

/// One way of placing: which labels run left from their moment and which run right.
struct Placing {
  std::vector<LaneLabel> labels;
  int lanes = 0;
  int bad = 0;  ///< leaders over words, and words beyond the ends

  void place(std::size_t i, double gap_px) {
    LaneLabel& label = labels[i];
    for (label.lane = 0; !fits(i, gap_px, true) && label.lane < most_lanes; ++label.lane) continue;
    if (label.lane == most_lanes) {
      ++bad;
      for (label.lane = 0; !fits(i, gap_px, false); ++label.lane) continue;
    }
    done.push_back(i);
    lanes = std::max(lanes, label.lane + 1);
  }

  [[nodiscard]] bool fits(std::size_t i, double gap_px, bool leaders_too) const {
    const LaneLabel& label = labels[i];
    return std::all_of(done.begin(), done.end(), [&](std::size_t k) {
      const LaneLabel& other = labels[k];
      if (other.lane == label.lane) return apart(other, label, gap_px);
      if (!leaders_too) return true;
      return other.lane < label.lane ? !crossed(other, label) : !crossed(label, other);
    });
  }

  static constexpr int most_lanes = 12;
  std::vector<std::size_t> done;
};

Placing placed(std::vector<LaneLabel> labels, const std::vector<std::size_t>& by_x, const std::vector<bool>& left, const Ends& ends) {
  Placing placing;
  for (std::size_t rank = 0; rank < by_x.size(); ++rank) {
    LaneLabel& label = labels[by_x[rank]];
    const double wanted = left[rank] ? label.x - 4 - label.width : label.x + 4;
    label.left = std::max(ends.left_px, std::min(wanted, ends.right_px - label.width));
    if (label.left != wanted) ++placing.bad;
  }
  placing.labels = std::move(labels);
  // Words that run right are placed from the right, those that run left from the left: each leader then falls clear of the words placed
  // before.
  for (std::size_t rank = by_x.size(); rank-- > 0;) {
    if (!left[rank]) placing.place(by_x[rank], ends.gap_px);
  }
  for (std::size_t rank = 0; rank < by_x.size(); ++rank) {
    if (left[rank]) placing.place(by_x[rank], ends.gap_px);
  }
  return placing;
}

/// Sides to try: all of them for few labels, else all places to turn from left to right or from right to left.
std::vector<std::vector<bool>> sides_to_try(std::size_t count) {
  std::vector<std::vector<bool>> tries;
  if (count <= 8) {
    for (std::size_t bits = 0; bits < (std::size_t{1} << count); ++bits) {
      std::vector<bool> left(count);
      for (std::size_t rank = 0; rank < count; ++rank) left[rank] = (bits >> rank & 1U) != 0;
      tries.push_back(std::move(left));
    }
    return tries;
  }
  for (std::size_t turn = 0; turn <= count; ++turn) {
    for (const bool before : {true, false}) {
      std::vector<bool> left(count);
      for (std::size_t rank = 0; rank < count; ++rank) left[rank] = (rank < turn) == before;
      tries.push_back(std::move(left));
    }
  }
  return tries;
}

}  // namespace

int place_in_lanes(std::vector<LaneLabel>& labels, double left_px, double right_px, double size_px, double gap_px) {
  if (labels.empty()) return 0;
  std::vector<std::size_t> by_x(labels.size());
  std::iota(by_x.begin(), by_x.end(), std::size_t{0});
  std::stable_sort(by_x.begin(), by_x.end(), [&](std::size_t a, std::size_t b) { return labels[a].x < labels[b].x; });
  for (LaneLabel& label : labels) label.width = text_width(label.words, size_px);
  std::optional<Placing> best;
  for (const std::vector<bool>& left : sides_to_try(labels.size())) {
    Placing other = placed(labels, by_x, left, {left_px, right_px, gap_px});
    if (!best || std::pair(other.bad, other.lanes) < std::pair(best->bad, best->lanes)) best = std::move(other);
  }
  labels = std::move(best->labels);
  return best->lanes;
}

}  // namespace heatwork::report
