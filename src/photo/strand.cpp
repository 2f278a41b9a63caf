#include "strand.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace hw::photo {
namespace {

double distance_of(PointPx a, PointPx b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Scatter between neighbours, per axis: of the hair and the picture, not of its changes.
Lab3 scatter_of(const std::vector<Lab3>& stations) {
  constexpr double kMadToSd = 1.4826;  // of a normal distribution
  constexpr double kLeast = 0.6;       // Lab; below what a tress varies by: guess
  Lab3 scatter{kLeast, kLeast, kLeast};
  if (stations.size() < 3) return scatter;
  for (std::size_t c = 0; c < 3; ++c) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < stations.size(); ++i) {
      steps.push_back(std::abs(stations[i][c] - stations[i - 1][c]));
    }
    std::ranges::sort(steps);
    scatter[c] = std::max(kLeast, kMadToSd * steps[steps.size() / 2] / std::sqrt(2.0));
  }
  return scatter;
}

/// Sums that give the squares round the mean of any stretch at once.
class Costs {
 public:
  explicit Costs(const std::vector<Lab3>& stations) {
    const Lab3 scatter = scatter_of(stations);
    sums_.resize(stations.size() + 1);
    squares_.resize(stations.size() + 1);
    for (std::size_t i = 0; i < stations.size(); ++i) {
      sums_[i + 1] = sums_[i];
      squares_[i + 1] = squares_[i];
      for (std::size_t c = 0; c < 3; ++c) {
        const double value = stations[i][c] / scatter[c];
        sums_[i + 1][c] += value;
        squares_[i + 1] += value * value;
      }
    }
  }
  /// Of stations from to before `to`.
  [[nodiscard]] double operator()(std::size_t from, std::size_t to) const {
    double cost = squares_[to] - squares_[from];
    for (std::size_t c = 0; c < 3; ++c) {
      const double sum = sums_[to][c] - sums_[from][c];
      cost -= sum * sum / static_cast<double>(to - from);
    }
    return cost;
  }

 private:
  std::vector<Lab3> sums_;
  std::vector<double> squares_;
};

Lab3 mean_of(const std::vector<Lab3>& stations, std::size_t from, std::size_t to) {
  Lab3 mean{};
  for (std::size_t i = from; i < to; ++i) {
    for (std::size_t c = 0; c < 3; ++c) mean[c] += stations[i][c];
  }
  for (double& part : mean) part /= static_cast<double>(to - from);
  return mean;
}

double far_apart(const Lab3& a, const Lab3& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// The best cut for a price per stretch: dynamic programme over all of them.
std::vector<std::size_t> best_cut(const Costs& costs, std::size_t count, std::size_t least,
                                  double price) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  std::vector<double> best(count + 1, kNever);
  std::vector<std::size_t> start(count + 1, 0);
  best[0] = 0;
  for (std::size_t end = least; end <= count; ++end) {
    for (std::size_t from = 0; from + least <= end; ++from) {
      if (best[from] == kNever) continue;
      const double cost = best[from] + costs(from, end) + price;
      if (cost < best[end]) {
        best[end] = cost;
        start[end] = from;
      }
    }
  }
  std::vector<std::size_t> cuts;
  for (std::size_t end = count; end > 0; end = start[end]) cuts.push_back(start[end]);
  std::ranges::reverse(cuts);
  return cuts;
}

}  // namespace

Line::Line(const Frame& frame, const std::vector<PointShare>& points) {
  for (const PointShare& point : points) {
    points_.push_back({point.x * static_cast<double>(frame.width()),
                       point.y * static_cast<double>(frame.height())});
    along_.push_back(along_.empty() ? 0
                                    : along_.back() +
                                          distance_of(points_[points_.size() - 2], points_.back()));
  }
}

std::size_t Line::piece(double share) const {
  const double place = share * length();
  std::size_t i = 1;
  while (i + 1 < along_.size() && along_[i] < place) ++i;
  return i;
}

PointPx Line::at(double share) const {
  const std::size_t i = piece(share);
  const double step = along_[i] - along_[i - 1];
  const double t = step > 0 ? (share * length() - along_[i - 1]) / step : 0;
  return {points_[i - 1].x + t * (points_[i].x - points_[i - 1].x),
          points_[i - 1].y + t * (points_[i].y - points_[i - 1].y)};
}

PointPx Line::direction(double share) const {
  const std::size_t i = piece(share);
  const double step = std::max(1e-9, along_[i] - along_[i - 1]);
  return {(points_[i].x - points_[i - 1].x) / step, (points_[i].y - points_[i - 1].y) / step};
}

Result<std::vector<RawStation>> look_along(const Frame& frame, const Profile& profile,
                                           const Line& line, double width_share) {
  constexpr double kLeastPixels = 40;  // of a line that has stretches at all
  constexpr double kPixelsApart = 3;   // stations are not nearer than this
  constexpr double kMostStations = 200;
  constexpr std::size_t kAcross = 25;  // points across the strip
  constexpr std::size_t kAlong = 5;    // points along, of each station
  constexpr std::uint8_t kTop = 252;   // as of patches
  constexpr std::uint8_t kBottom = 1;
  if (line.length() < kLeastPixels) {
    return fail(ErrorCode::out_of_range, "the line is too short to read along", "line",
                "draw it from the scalp to the tip of the strand");
  }
  const auto count =
      static_cast<std::size_t>(std::min(kMostStations, line.length() / kPixelsApart));
  const double half = width_share * frame.long_side() / 2;
  std::vector<RawStation> stations;
  for (std::size_t s = 0; s < count; ++s) {
    RawStation station;
    station.share = (static_cast<double>(s) + 0.5) / static_cast<double>(count);
    station.px = line.at(station.share);
    const PointPx along = line.direction(station.share);
    const double step = line.length() / static_cast<double>(count) / kAlong;
    std::array<std::vector<std::uint8_t>, 3> seen;
    for (std::size_t i = 0; i < kAlong; ++i) {
      for (std::size_t j = 0; j < kAcross; ++j) {
        const double u = (static_cast<double>(i) - (kAlong - 1) / 2.0) * step;
        const double v = half * (2.0 * static_cast<double>(j) / (kAcross - 1) - 1);
        const std::uint8_t* pixel = frame.at_point(station.px.x + u * along.x - v * along.y,
                                                   station.px.y + u * along.y + v * along.x);
        if (pixel == nullptr) continue;
        for (std::size_t c = 0; c < 3; ++c) seen[c].push_back(pixel[c]);
        station.clipped += std::max({pixel[0], pixel[1], pixel[2]}) >= kTop ? 1 : 0;
        station.floored += std::min({pixel[0], pixel[1], pixel[2]}) <= kBottom ? 1 : 0;
      }
    }
    const std::size_t points = seen[0].size();
    if (points < kAlong * kAcross / 2) {
      return fail(ErrorCode::out_of_range, "the line leaves the picture", "line",
                  "keep it a little inside");
    }
    station.clipped /= static_cast<double>(points);
    station.floored /= static_cast<double>(points);
    for (std::size_t c = 0; c < 3; ++c) {
      // Between the quarters: a median that is finer than the steps of eight bits.
      std::ranges::sort(seen[c]);
      double sum = 0;
      const std::size_t from = points * 3 / 10;
      const std::size_t to = points - from;
      for (std::size_t k = from; k < to; ++k) sum += profile.light[c][seen[c][k]];
      station.rgb[c] = sum / static_cast<double>(to - from);
    }
    stations.push_back(station);
  }
  return stations;
}

std::vector<std::size_t> stretches(const std::vector<Lab3>& stations) {
  constexpr double kPrice = 12;  // of a stretch, times ln of the stations: neighbours are alike
  constexpr double kApart = 3;   // Lab; nearer stretches are one: a trained eye's step. Guess
  constexpr std::size_t kShare = 25;  // a stretch has at least this part of the stations
  constexpr std::size_t kMost = 8;    // stretches
  const std::size_t count = stations.size();
  const std::size_t least = std::max<std::size_t>(3, count / kShare);
  const Costs costs(stations);
  double price = kPrice * std::log(static_cast<double>(count));
  std::vector<std::size_t> cuts = best_cut(costs, count, least, price);
  while (cuts.size() > kMost) cuts = best_cut(costs, count, least, price *= 2);
  // Nearest neighbours first.
  for (;;) {
    std::size_t nearest = 0;
    double smallest = kApart;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
      const std::size_t end = i + 1 < cuts.size() ? cuts[i + 1] : count;
      const double apart =
          far_apart(mean_of(stations, cuts[i - 1], cuts[i]), mean_of(stations, cuts[i], end));
      if (apart >= smallest) continue;
      smallest = apart;
      nearest = i;
    }
    if (nearest == 0) return cuts;
    cuts.erase(cuts.begin() + static_cast<std::ptrdiff_t>(nearest));
  }
}

}  // namespace hw::photo
