#pragma once
// The drills of the book: what each reader's eye made of strands on a screen.
#include <string>
#include <vector>

#include "huewright/book/shelf_facts.h"
#include "huewright/book/store.h"
#include "huewright/plan/drill.h"

namespace hw::book {

/// How many of the latest answers count, all readers together; guess: enough for a dozen readers,
/// few enough for a plan not to wait. An eye changes, so that older ones would tell less anyway.
inline constexpr std::size_t kLatestDrills = 500;

/// The fact of one answer: what the seed shows by a ladder, and what was read.
[[nodiscard]] DrillFact drill_fact(const std::string& reader, std::uint64_t seed, double answer,
                                   const std::string& answer_warmth, const hair::Ladder& ladder);

/// The latest answers, oldest first; those written after a moment are left out (ISO 8601; empty:
/// none is). Error: io.
[[nodiscard]] Result<std::vector<DrillFact>> drills_of(Store& store, const std::string& until = {});

/// The eyes of all readers who did drills, by the latest answers up to a moment. Error: io.
[[nodiscard]] Result<std::vector<plan::ReaderEye>> eyes_of(Store& store,
                                                           const std::string& until = {});

/// One or two sentences on an eye: "On this screen the eye reads 0.3 level lighter (± 0.2), spread
/// 0.6, from 12 strands."; where depths differ, by how much.
[[nodiscard]] std::vector<std::string> told_of(const plan::ReaderEye& eye);

/// An eye as the page and the command line give it: {"reader", "count", "offset": {"low", "likely",
/// "high"}, "spread": {…}, "by_depth": […], "depth_matters", "told": […]}.
void put_eye(wire::Object& object, const plan::ReaderEye& eye);

/// What an eye on a screen does not tell, as it stands beside every one.
[[nodiscard]] std::string limits_of_drills();

}  // namespace hw::book
