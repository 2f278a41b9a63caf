#include "huewright/process/dry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figures.h"
#include "huewright/base/elementary.h"
#include "process_tables.h"

namespace hw::process {
namespace {

constexpr double kOnceLightened = 1.9;  // opening of lightened hair: data/plan/past_services.csv
constexpr double kSecondsPerMinute = 60;
constexpr double kJoulesPerKilojoule = 1000;

Band figure(std::string_view id) {
  static const Table table = embedded_table(tables::drying, "process/drying.csv");
  return band_in(table, id);
}

/// Spread of a band to one side [ln].
double ln_up(const Band& band) {
  return log_portable(band.high / band.mid);
}
double ln_down(const Band& band) {
  return log_portable(band.mid / band.low);
}

/// Minutes for given water, without the slowing by twists.
double loose_minutes(const HoodTask& task, double water) {
  const double watts = figure("hood_conductance").mid * (task.air_c - figure("wet_bulb").mid);
  const double joules_per_g = figure("evaporation_heat").mid * kJoulesPerKilojoule;
  const double minutes_per_g_per_g = task.hair_g * joules_per_g / watts / kSecondsPerMinute;
  const double critical = figure("critical_water").mid;
  const double rest = figure("hood_equilibrium_water").mid;
  const double end = figure("hood_end_water").mid;
  if (water <= end) return 0;
  const double slow_from = std::min(water, critical);
  const double free = water - slow_from;
  const double falling = (critical - rest) * log_portable((slow_from - rest) / (end - rest));
  return minutes_per_g_per_g * (free + falling);
}

Result<void> checked(const HoodTask& task) {
  struct Range {
    const char* key;
    double value, low, high;
  };
  const Range ranges[] = {
      {"hair_g", task.hair_g, 1, 1000},        {"water", task.water.mid, 0, 3},
      {"leave_in_g", task.leave_in_g, 0, 500}, {"foam_g", task.foam_g, 0, 500},
      {"air_c", task.air_c, 35, 65},           {"salon_factor", task.salon_factor, 0.2, 5},
  };
  for (const Range& one : ranges) {
    if (one.value >= one.low && one.value <= one.high) continue;
    return fail(ErrorCode::out_of_range,
                fmt::format("{} is outside {} to {}", one.value, one.low, one.high),
                fmt::format("hood.{}", one.key), "check the number and its unit");
  }
  const bool ordered = task.water.low >= 0 && task.water.low <= task.water.mid &&
                       task.water.mid <= task.water.high && std::isfinite(task.water.high);
  if (!ordered) {
    return fail(ErrorCode::out_of_range, "water is not a band from low to high", "hood.water",
                "give low, mid and high");
  }
  return {};
}

}  // namespace

std::string_view name_of(Wetness wetness) {
  switch (wetness) {
    case Wetness::dripping:
      return "dripping";
    case Wetness::towel_dry:
      return "towel-dry";
    case Wetness::damp:
      return "damp";
    case Wetness::room_dry:
      break;
  }
  return "room-dry";
}

Band water_held(Wetness wetness, double opened) {
  const double bound = figure("bound_at_saturation").mid;
  const double share = std::clamp((opened - 1) / (kOnceLightened - 1), 0.0, 1.0);
  const double more = 1 + share * (figure("opened_free_water").mid - 1);
  const auto with_opening = [&](double water) {
    return water > bound ? bound + (water - bound) * more : water;
  };
  const auto each = [&](const Band& band) {
    return Band{with_opening(band.low), with_opening(band.mid), with_opening(band.high)};
  };
  const Band dry = figure("room_dry");
  switch (wetness) {
    case Wetness::dripping:
      return each(figure("dripping"));
    case Wetness::towel_dry:
      return each(figure("towel_dry"));
    case Wetness::room_dry:
      return dry;
    case Wetness::damp:
      break;
  }
  const Band gone = figure("damp_share");
  const Band wet = each(figure("dripping"));
  const auto left = [&](double share_gone) {
    return dry.mid + (1 - share_gone) * (wet.mid - dry.mid);
  };
  return {left(gone.high), left(gone.mid), left(gone.low)};
}

double free_water(double water_g_per_g) {
  return std::max(0.0, water_g_per_g - figure("bound_at_saturation").mid);
}

Band water_under_hood(const HoodTask& task) {
  const double brought =
      (task.leave_in_g * figure("leave_in_water").mid + task.foam_g * figure("foam_water").mid) /
      task.hair_g;
  return {task.water.low + brought, task.water.mid + brought, task.water.high + brought};
}

Result<Band> hood_minutes(const HoodTask& task) {
  if (const auto sound = checked(task); !sound) return tl::unexpected(sound.error());
  const Band water = water_under_hood(task);
  const Band slowing = task.twisted ? figure("twist_slowing") : Band{1, 1, 1};
  const Band conductance = figure("hood_conductance");
  const double mid = loose_minutes(task, water.mid) * slowing.mid * task.salon_factor;
  if (mid <= 0) return Band{0, 0, 0};
  const double less_water = loose_minutes(task, water.low);
  const double ratio_down =
      less_water > 0 ? log_portable(loose_minutes(task, water.mid) / less_water) : 1;
  const double ratio_up =
      log_portable(loose_minutes(task, water.high) / loose_minutes(task, water.mid));
  const auto together = [](double a, double b, double c) {
    return std::sqrt(a * a + b * b + c * c);
  };
  // More conductance is fewer minutes: its upper edge belongs to the lower one of the minutes.
  return Band{mid * exp_portable(-together(ratio_down, ln_up(conductance), ln_down(slowing))), mid,
              mid * exp_portable(together(ratio_up, ln_down(conductance), ln_up(slowing)))};
}

}  // namespace hw::process
