// What reading a photo costs, beside what the JPEG library alone takes for its pixels.
#include <fmt/format.h>

#include "cases.h"
#include "goals.h"
#include "precision.h"
#include "support/photo_wish.h"

namespace {

using namespace hw;

constexpr int kRepeats = 7;
constexpr double kGoalMs = 400;  // of 12 megapixels

test::PhotoScene twelve_megapixels() {
  test::PhotoScene scene = test::usual_scene();
  scene.width = 4000;
  scene.height = 3000;
  scene.px_per_mm = 12;
  scene.sheet_at = {1100, 1500};
  scene.line = {{2530, 300}, {2670, 2730}};
  scene.strand_half_px = 100;
  scene.tilt = 0.0002;
  scene.orientation = 6;
  scene.p3 = true;
  scene.noise = 0.03;  // makes the file as large as a telephone's
  return scene;
}

}  // namespace

int main() {
  const test::PhotoScene scene = twelve_megapixels();
  const std::string photo = test::render(scene);
  const photo::ReadWish wish = test::wish_for(scene);
  const auto check = photo::read_photo(photo, wish);
  if (!check || check->zones.size() != 2) {
    fmt::print(stderr, "bench_photo: {}\n",
               check ? std::string("the frame is not read as two zones") : one_line(check.error()));
    return 1;
  }
  const auto whole = bench::median_timing(kRepeats, [&] { (void)photo::read_photo(photo, wish); });
  const auto pixels = bench::median_timing(kRepeats, [&] { (void)photo::decode_jpeg(photo); });
  const auto kept = bench::median_timing(kRepeats, [&] { (void)photo::clean_jpeg(photo); });
  fmt::print("## Photo\n\n{} × {} pixels, {:.1f} MB, turned by 90°, Display P3.\n\n", scene.width,
             scene.height, static_cast<double>(photo.size()) / 1e6);
  fmt::print("| work | 1 thread, processor [ms] |\n|---|--:|\n");
  fmt::print(
      "| photo to zones | {:.0f} |\n| its pixels alone | {:.0f} |\n| a photo to keep | {:.0f} "
      "|\n\n",
      whole.processor_ms, pixels.processor_ms, kept.processor_ms);
  bench::report_goal({"photo of 12 megapixels to zones", fmt::format("≤ {:g} ms", kGoalMs),
                      fmt::format("{:.0f} ms", whole.processor_ms), whole.processor_ms <= kGoalMs,
                      fmt::format("libjpeg, its pixels alone: {:.0f} ms", pixels.processor_ms),
                      fmt::format("{:.1f}", whole.processor_ms / pixels.processor_ms)});
  return 0;
}
