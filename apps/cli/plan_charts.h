#pragma once
// Pictures of one course as PNG files.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "huewright/plan/belief.h"
#include "huewright/plan/case.h"
#include "huewright/plan/course.h"

namespace hw::apps {

/// What is drawn: a head as it is believed, and the course chosen for it.
struct DrawnCourse {
  const plan::Case& head;
  std::span<const plan::ZoneBelief> beliefs;
  const plan::Course& course;
  std::optional<double> now_min = {};  ///< of the first visit, where readings were given
};

/// The strand chart of every visit and section, one file each. The first takes `path` itself; the
/// others are named after it ("chart.png", "chart-visit-2.png", "chart-visit-2-crown.png"). The
/// files written, in order. Errors: io.
[[nodiscard]] Result<std::vector<std::string>> draw_day(const DrawnCourse& drawn,
                                                        const std::string& path,
                                                        bool shadows_lifted, Executor& executor);

/// The fade chart of every section after the last visit, named likewise. Errors: io.
[[nodiscard]] Result<std::vector<std::string>> draw_fade(const DrawnCourse& drawn,
                                                         const std::string& path,
                                                         Executor& executor);

/// The result of every zone in three lights, one file. Errors: io.
[[nodiscard]] Result<std::vector<std::string>> draw_tiles(const DrawnCourse& drawn,
                                                          const std::string& path,
                                                          Executor& executor);

}  // namespace hw::apps
