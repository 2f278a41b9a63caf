#include <array>

#include "command.h"

namespace hw::apps {

std::span<const Command> commands() {
  static constexpr std::array kAll{
      Command{"bowl", "what a bowl holds: grams, peroxide, lightener, and what speaks against it",
              "bowl", run_bowl},
      Command{"colour", "a colour from a spectrum or pigment, differences, screen values", "colour",
              run_colour},
      Command{"lift", "what bowls do to a strand, minute by minute", "lift", run_lift},
      Command{"schema", "the JSON Schema of an input file", "", run_schema},
  };
  return kAll;
}

}  // namespace hw::apps
