#pragma once
// Scenes and wishes that most photo tests begin with.
#include "huewright/photo/read.h"
#include "support/photo_scene.h"

namespace hw::test {

inline photo::ReadWish wish_for(const PhotoScene& scene) {
  photo::ReadWish wish;
  const auto shares = line_shares(scene);
  for (std::size_t i = 0; i + 1 < shares.size(); i += 2) {
    wish.line.push_back({shares[i], shares[i + 1]});
  }
  wish.length_cm = 30;
  return wish;
}

/// A scene in daylight with a sheet of its kind and two zones of hair.
inline PhotoScene usual_scene(int kind = 0) {
  PhotoScene scene;
  scene.kind = kind;
  scene.tag_ids = photo::tag_ids({static_cast<photo::ChartKind>(kind), 90, 60});
  scene.light = colour::illuminant(colour::Illuminant::d65);
  scene.camera = cameras()[0];
  scene.zones = {{0.4, strands()[2].reflectance}, {1, strands()[5].reflectance}};
  return scene;
}

}  // namespace hw::test
