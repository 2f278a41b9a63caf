// The blocks of a day, by the trade or as they are known.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figures.h"
#include "huewright/plan/clock.h"
#include "plan_tables.h"

namespace hw::plan {
namespace {

constexpr int kMostHands = 6;

/// A band made shorter by more hands.
Band with_hands(const DayBlock& block, int hands) {
  const double pace = grams_a_minute(1.0, hands, work_rate("each_more_pair").mid);
  const double factor = 1 - block.hand_share + block.hand_share / pace;
  return {block.minutes.low * factor, block.minutes.mid * factor, block.minutes.high * factor};
}

const DayBlock* block_named(const std::string& id) {
  const auto& all = usual_blocks();
  const auto at = std::find_if(all.begin(), all.end(), [&](const auto& b) { return b.id == id; });
  return at == all.end() ? nullptr : &*at;
}

Result<void> checked(std::span<const std::string> wanted, std::span<const KnownBlock> known,
                     int hands) {
  if (hands < 1 || hands > kMostHands) {
    return fail(ErrorCode::out_of_range, fmt::format("{} pairs of hands", hands), "hands",
                "say 1 to 6");
  }
  const auto unknown = [](const std::string& id) {
    return fail(ErrorCode::unknown_name, fmt::format("no block is called \"{}\"", id), "blocks",
                "use an id of data/plan/day_blocks.csv");
  };
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (!block_named(wanted[i])) return unknown(wanted[i]);
    if (std::find(wanted.begin(), wanted.begin() + static_cast<std::ptrdiff_t>(i), wanted[i]) !=
        wanted.begin() + static_cast<std::ptrdiff_t>(i)) {
      return fail(ErrorCode::conflict, fmt::format("block \"{}\" stands here twice", wanted[i]),
                  "blocks", "keep one of them");
    }
  }
  for (const KnownBlock& one : known) {
    if (!block_named(one.id)) return unknown(one.id);
    const Band& band = one.minutes;
    if (band.low >= 0 && band.low <= band.mid && band.mid <= band.high &&
        std::isfinite(band.high)) {
      continue;
    }
    return fail(ErrorCode::out_of_range, fmt::format("minutes of \"{}\" are no band", one.id),
                "blocks", "give low, mid and high from 0 up");
  }
  return {};
}

}  // namespace

const std::vector<DayBlock>& usual_blocks() {
  static const std::vector<DayBlock> all = [] {
    const Table table = embedded_table(tables::day_blocks, "plan/day_blocks.csv");
    std::vector<DayBlock> rows;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      const double low = *table.number(row, "low");
      const double high = *table.number(row, "high");
      rows.push_back({*table.text(row, "id"),
                      *table.text(row, "words"),
                      {low, (low + high) / 2, high},
                      *table.number(row, "hand_share")});
    }
    return rows;
  }();
  return all;
}

Result<Day> day_of(std::span<const std::string> wanted, std::span<const KnownBlock> known,
                   int hands) {
  if (const auto sound = checked(wanted, known, hands); !sound) {
    return tl::unexpected(sound.error());
  }
  Day day;
  double down = 0, down_squares = 0, up = 0, up_squares = 0;
  for (const DayBlock& usual : usual_blocks()) {
    if (std::find(wanted.begin(), wanted.end(), usual.id) == wanted.end()) continue;
    DayPart part{usual, day.minutes.mid};
    part.block.minutes = with_hands(usual, hands);
    for (const KnownBlock& one : known) {
      if (one.id == usual.id) part.block.minutes = one.minutes;
    }
    const Band& band = part.block.minutes;
    day.sum_low += band.low;
    day.sum_high += band.high;
    day.minutes.mid += band.mid;
    down += band.mid - band.low;
    down_squares += (band.mid - band.low) * (band.mid - band.low);
    up += band.high - band.mid;
    up_squares += (band.high - band.mid) * (band.high - band.mid);
    day.parts.push_back(std::move(part));
  }
  // Variance of a sum whose terms share one correlation.
  const double together = work_rate("day_correlation").mid;
  const auto spread = [&](double sum, double squares) {
    return std::sqrt((1 - together) * squares + together * sum * sum);
  };
  day.minutes.low = day.minutes.mid - spread(down, down_squares);
  day.minutes.high = day.minutes.mid + spread(up, up_squares);
  return day;
}

}  // namespace hw::plan
