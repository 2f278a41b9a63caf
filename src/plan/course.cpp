#include "huewright/plan/course.h"

namespace hw::plan {

std::string_view name_of(Purpose purpose) {
  switch (purpose) {
    case Purpose::lift:
      return "lift";
    case Purpose::fill:
      return "fill";
    case Purpose::deposit:
      return "deposit";
    case Purpose::tone:
      return "tone";
    case Purpose::gloss:
      return "gloss";
    case Purpose::remove:
      return "remove";
    case Purpose::chelate:
      return "chelate";
    case Purpose::strand_test:
      return "strand_test";
  }
  return "";
}

std::string_view name_of(CourseKind kind) {
  switch (kind) {
    case CourseKind::leave_alone:
      return "leave alone";
    case CourseKind::gloss:
      return "gloss";
    case CourseKind::colour_only:
      return "colour alone";
    case CourseKind::soap_cap:
      return "soap cap";
    case CourseKind::lighten:
      return "lightener";
    case CourseKind::lighten_twice:
      return "lightener, mixed fresh once more";
    case CourseKind::shampoo_lift:
      return "developer and shampoo";
    case CourseKind::remove_then_colour:
      return "remover";
    case CourseKind::staged:
      return "several visits";
  }
  return "";
}

}  // namespace hw::plan
