#pragma once
// Hair of one zone taken through the events of a chart.
#include <span>
#include <vector>

#include "huewright/plan/strand_chart.h"

namespace hw::plan {

/// How one colour layer has fared since it was put on.
struct LayerFade {
  process::FadeConstants constants;
  double washes = 0;  ///< standard ones so far
  double light_h = 0;
  bool fades = false;  ///< false for colour that was there before the first event
};

/// Members with the history of their colour layers, one entry per layer.
struct DyedHair {
  process::LiftMembers hair;
  std::vector<LayerFade> layers;
};
[[nodiscard]] DyedHair undyed(const process::LiftMembers& hair);

/// The same hair after further washes and light.
[[nodiscard]] DyedHair washed(const DyedHair& hair, const ChartWashes& washes);

/// Every member's colour at a clock minute.
struct PlayedMoment {
  double minute = 0;
  std::vector<colour::HairLab> lab;
};
struct Played {
  std::vector<PlayedMoment> moments;  ///< rising, at least one; constant before, between and after
  DyedHair after;
};

/// Takes members through events. every_min: > 0, how finely events that reach past minute 0 are
/// reported. Deterministic, whatever the executor.
[[nodiscard]] Played play(const process::LiftMembers& members, std::span<const ChartEvent> events,
                          double every_min, Executor& executor);

/// A lift's applications as far as they are on the hair before it is rinsed.
[[nodiscard]] std::vector<process::Application> cut_applications(const ChartEvent& event);
/// Minutes of an event in which something works, from its middle strand on [min].
[[nodiscard]] double working_min(const ChartEvent& event);

/// Copies of one member, one for each addition to its warmth [°C].
[[nodiscard]] process::LiftMembers copies_of(const process::LiftMembers& one,
                                             std::span<const double> warmths);

}  // namespace hw::plan
