#pragma once
// What the trade's rules of colour add to a course: a filler before the colour, what each bowl is
// for, and what to know of warmth and white strands.
#include <optional>
#include <span>
#include <vector>

#include "course_make.h"

namespace hw::plan {

/// A filler on the zones that need one, its grams solved for the warm stage they lack; empty where
/// none is due or nothing on the shelf can fill. Zones lifted today keep the warmth they were
/// lifted to and are not filled. The hair of the others is then filled.
[[nodiscard]] std::optional<CourseBowl> fill_first(const Case& head, std::span<const Target> wish,
                                                   const std::vector<bool>& lifted, int visit,
                                                   HeadHair& hair, Executor& executor);

/// What a colour bowl is for on the hair it goes on. clear_share: of its colour, 0–1.
[[nodiscard]] Purpose purpose_of(const Case& head, const HeadHair& canvas,
                                 const std::vector<std::size_t>& zones,
                                 std::span<const Target> wish, double clear_share);

/// What stands against colour on hair that nothing lifts: it does not lift old colour, and lifts
/// natural hair only so far.
[[nodiscard]] std::vector<process::Refusal> judge_unlifted(const Case& head, const HeadHair& canvas,
                                                           const std::vector<std::size_t>& zones,
                                                           std::span<const Target> wish,
                                                           process::DyeClass dye_class);

/// Sentences on filler (of hair not lifted today), warmth and white, each once.
void add_colour_notes(const Case& head, const HeadHair& canvas, const CourseBowl& bowl,
                      std::span<const Target> wish, const std::vector<bool>& lifted,
                      std::vector<std::string>& notes);

}  // namespace hw::plan
