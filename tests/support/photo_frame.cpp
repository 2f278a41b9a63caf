// Writes rendered photos for the tests of the page: hw_test_photo_frame FOLDER.
//   strand.jpg    a strand of three colours beside the sheet
//   later.jpg     the same strand, its lengths lighter, a little darker exposed
//   no-sheet.jpg  without the sheet; glare.jpg: a lamp on the chart
#include <fstream>
#include <iostream>

#include "support/photo_wish.h"

int main(int count, char** words) {
  using namespace hw::test;
  if (count != 2) {
    std::cerr << "hw_test_photo_frame FOLDER\n";
    return 2;
  }
  const auto write = [&](const std::string& name, const PhotoScene& scene) {
    std::ofstream(std::string(words[1]) + "/" + name, std::ios::binary) << render(scene);
  };
  PhotoScene scene = usual_scene();
  scene.zones = {{0.15, strands()[1].reflectance},
                 {0.7, strands()[3].reflectance},
                 {1, strands()[5].reflectance}};
  write("strand.jpg", scene);
  PhotoScene later = scene;
  later.exposure = 0.7;
  later.seed = 5;
  later.zones[1].reflectance = strands()[4].reflectance;
  write("later.jpg", later);
  PhotoScene bare = scene;
  bare.tags = false;
  write("no-sheet.jpg", bare);
  PhotoScene shining = scene;
  shining.glare = 0.25;
  shining.exposure = 0.6;
  write("glare.jpg", shining);
  return 0;
}
