#pragma once
// The 20-step lightness scale on which the published strip test is read:
//   L*(J) = 18.9 + 0.274·(J − 5)^1.952,  J from 5 to 20
// anchored on natural black at step 5, on a measured step-9 chip (L* 20 to 23) and on step 20 at L*
// 73 (guess). A straight line would overstate every lift; docs/science/lift.md.

namespace hw::process {

/// L* of a step [D65/10°]. step: 5–20, held to that.
[[nodiscard]] double lstar_of_step(double step);
/// Step of an L*; below step 5 it is 5. Inverse of lstar_of_step.
[[nodiscard]] double step_of_lstar(double lstar);

}  // namespace hw::process
