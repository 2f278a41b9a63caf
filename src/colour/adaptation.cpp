#include "huewright/colour/adaptation.h"

#include "huewright/base/check.h"

namespace hw::colour {
namespace {

Matrix3 cone_matrix(Adaptation by) {
  switch (by) {
    case Adaptation::bradford:  // lindbloom, "Chromatic Adaptation"
      return {{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
    case Adaptation::von_kries:  // lindbloom, "Chromatic Adaptation"
      return {{{0.40024, 0.70760, -0.08081}, {-0.22630, 1.16532, 0.04570}, {0, 0, 0.91822}}};
    case Adaptation::cat02:  // cie159_2004 eq. for M_CAT02
      return {{{0.7328, 0.4296, -0.1624}, {-0.7036, 1.6975, 0.0061}, {0.0030, 0.0136, 0.9834}}};
    case Adaptation::xyz_scaling:
      return diagonal({1, 1, 1});
  }
  return diagonal({1, 1, 1});
}

}  // namespace

Matrix3 adaptation_matrix(const WhitePoint& from, const WhitePoint& to, Adaptation by) {
  const Matrix3 cones = cone_matrix(by);
  const Vector3 source = cones * Vector3{from.x, from.y, from.z};
  const Vector3 target = cones * Vector3{to.x, to.y, to.z};
  const auto back = inverse(cones);
  HW_CHECK(back.has_value());
  return *back *
         (diagonal({target[0] / source[0], target[1] / source[1], target[2] / source[2]}) * cones);
}

Result<HairLab> looks_in_daylight(const ViewedLab& lab) {
  if (lab.observer != Observer::deg10) {
    return fail(ErrorCode::conflict, "the colour is by the 2 degree observer", "lab",
                "compute it with the 10 degree observer");
  }
  const ViewedXyz seen = lab_to_xyz(lab);
  const auto out =
      adaptation_matrix(lab.white, white_of<D65, Deg10>()) * Vector3{seen.x, seen.y, seen.z};
  return xyz_to_lab(HairXyz{out[0], out[1], out[2]});
}

}  // namespace hw::colour
