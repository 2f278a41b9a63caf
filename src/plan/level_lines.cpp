#include <algorithm>
#include <array>

#include "huewright/base/check.h"
#include "huewright/plan/strand_chart.h"

namespace hw::plan {
namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

/// The field, and the crossings of one value with the edges of its cells. Each crossed edge has at
/// most two neighbours: one through the cell on either side of it.
class Crossings {
 public:
  Crossings(std::span<const double> minute, std::span<const double> cm,
            std::span<const double> level, double at)
      : minute_(minute), cm_(cm), level_(level), at_(at), links_(2 * minute.size() * cm.size()) {
    for (std::size_t r = 0; r + 1 < cm.size(); ++r) {
      for (std::size_t c = 0; c + 1 < minute.size(); ++c) cross_cell(r, c);
    }
  }

  std::vector<LevelLine> trace() {
    std::vector<LevelLine> lines;
    // Open lines first, from an end; what is left afterwards are closed ones.
    for (const std::size_t edge : crossed_) {
      if (links_[edge].count == 1 && !links_[edge].seen) lines.push_back(follow(edge));
    }
    for (const std::size_t edge : crossed_) {
      if (!links_[edge].seen) lines.push_back(follow(edge));
    }
    return lines;
  }

 private:
  struct Link {
    std::array<std::size_t, 2> to{kNone, kNone};
    std::size_t count = 0;
    bool seen = false;
  };

  [[nodiscard]] double value(std::size_t r, std::size_t c) const {
    return level_[r * minute_.size() + c];
  }
  [[nodiscard]] bool above(std::size_t r, std::size_t c) const { return value(r, c) >= at_; }
  /// Edges are numbered by their upper or left grid point: along the row, then down the column.
  [[nodiscard]] std::size_t along(std::size_t r, std::size_t c) const {
    return 2 * (r * minute_.size() + c);
  }
  [[nodiscard]] std::size_t down(std::size_t r, std::size_t c) const { return along(r, c) + 1; }

  void join(std::size_t one, std::size_t two) {
    for (const auto& [from, to] : {std::pair(one, two), std::pair(two, one)}) {
      Link& link = links_[from];
      if (link.count == 0) crossed_.push_back(from);
      link.to[link.count++] = to;
    }
  }

  void cross_cell(std::size_t r, std::size_t c) {
    const bool a = above(r, c);
    const bool b = above(r, c + 1);
    const bool d = above(r + 1, c);
    const bool e = above(r + 1, c + 1);
    if (a == b && a == d && a == e) return;
    std::array<std::size_t, 4> hit{};
    std::size_t hits = 0;
    if (a != b) hit[hits++] = along(r, c);
    if (b != e) hit[hits++] = down(r, c + 1);
    if (d != e) hit[hits++] = along(r + 1, c);
    if (a != d) hit[hits++] = down(r, c);
    if (hits == 2) return join(hit[0], hit[1]);
    // A saddle: top, right, bottom, left are all crossed. Its mean says which corners hang
    // together.
    const double mean = (value(r, c) + value(r, c + 1) + value(r + 1, c) + value(r + 1, c + 1)) / 4;
    const bool first_corner_apart = (mean >= at_) != a;
    join(hit[0], hit[first_corner_apart ? 3 : 1]);
    join(hit[2], hit[first_corner_apart ? 1 : 3]);
  }

  [[nodiscard]] ChartPoint point(std::size_t edge) const {
    const std::size_t node = edge / 2;
    const std::size_t r = node / minute_.size();
    const std::size_t c = node % minute_.size();
    const bool goes_down = edge % 2 == 1;
    const double here = value(r, c);
    const double there = goes_down ? value(r + 1, c) : value(r, c + 1);
    const double t = (at_ - here) / (there - here);
    if (goes_down) return {minute_[c], cm_[r] + (cm_[r + 1] - cm_[r]) * t};
    return {minute_[c] + (minute_[c + 1] - minute_[c]) * t, cm_[r]};
  }

  LevelLine follow(std::size_t start) {
    LevelLine line{at_, {}, {}};
    std::size_t edge = start;
    bool closed = false;
    while (edge != kNone) {
      links_[edge].seen = true;
      line.points.push_back(point(edge));
      std::size_t next = kNone;
      for (const std::size_t to : links_[edge].to) {
        if (to == kNone) continue;
        if (!links_[to].seen)
          next = to;
        else if (to == start && line.points.size() > 2)
          closed = true;
      }
      edge = next;
    }
    if (closed) line.points.push_back(line.points.front());
    line.label = line.points[line.points.size() / 2];
    return line;
  }

  std::span<const double> minute_;
  std::span<const double> cm_;
  std::span<const double> level_;
  double at_;
  std::vector<Link> links_;
  std::vector<std::size_t> crossed_;
};

}  // namespace

std::vector<LevelLine> level_lines(std::span<const double> minute, std::span<const double> cm,
                                   std::span<const double> level, double at) {
  HW_CHECK(minute.size() >= 2 && cm.size() >= 2 && level.size() == minute.size() * cm.size());
  return Crossings(minute, cm, level, at).trace();
}

}  // namespace hw::plan
