#pragma once
// Which courses are shown: none that another beats, different in kind, each with its sentence.
#include <string>
#include <vector>

#include "course_make.h"

namespace hw::plan {

/// How courses trade against each other [CIEDE2000]: the miss, and what wear, hours and a draft are
/// worth. Guesses; a colourist's own order stands beside them in the answer.
/// lift_bowls: different ones in a visit; slack_min: as Course::slack_min.
[[nodiscard]] double score_of(double expected_de00, double wear_high, double minutes,
                              std::size_t lift_bowls, double slack_min);

/// What harsh developer on a tender scalp is worth [CIEDE2000]. harsh_percent: as
/// Course::harsh_percent.
[[nodiscard]] double tender_cost(double harsh_percent);
/// Developer above the mildest that a lift would put on a zone's sensitive scalp or thin edges [%];
/// 0 elsewhere.
[[nodiscard]] double harsh_on(const Case& head, const ZoneCase& zone, const process::Mix& mix);

/// Whether a is at least as good as b in colour, wear, minutes, money and mildness, and better in one.
[[nodiscard]] bool beats(const Course& a, const Course& b);

/// Indices of at most `most` courses: those that no other beats, best score first, one of each kind
/// and class of colour before a second of any.
[[nodiscard]] std::vector<std::size_t> picked(std::span<const Draft> drafts, std::size_t most);

/// Kind and name from the bowls.
void name_course(const Case& head, Course& course);
/// What it comes to, against the first of those shown.
[[nodiscard]] std::string sentence_of(const Case& head, const Course& course, const Course& first);

}  // namespace hw::plan
