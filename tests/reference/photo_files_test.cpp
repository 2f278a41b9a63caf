// Files of other people's cameras, from packages of the system: EXIF fields, orientation, profiles.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "huewright/photo/jpeg.h"
#include "profile.h"
#include "support/reference.h"

namespace hw::photo::test {
namespace {

using hw::test::Source;
using hw::test::test_table;

const std::string kExifFolder = "/usr/share/gocode/src/github.com/rwcarlsen/goexif/exif/";
const std::string kTurnedFolder =
    "/usr/share/gocode/src/github.com/disintegration/imaging/testdata/";

std::string file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  EXPECT_TRUE(in) << path << " is not there; scripts/install test brings it";
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The EXIF segment of a file that is cut off behind it: markers are walked by a reader of the
/// test's own.
std::string exif_segment(const std::string& bytes) {
  std::size_t at = 2;
  while (at + 4 <= bytes.size() && static_cast<unsigned char>(bytes[at]) == 0xFF) {
    const auto size = static_cast<std::size_t>(static_cast<unsigned char>(bytes[at + 2])) * 256 +
                      static_cast<unsigned char>(bytes[at + 3]);
    if (static_cast<unsigned char>(bytes[at + 1]) == 0xE1 &&
        bytes.compare(at + 4, 4, "Exif") == 0) {
      return bytes.substr(at + 4, size - 2);
    }
    at += 2 + size;
  }
  return {};
}

double quotient(const std::string& text) {
  double over = 0;
  double under = 1;
  char slash = 0;
  std::istringstream(text) >> over >> slash >> under;
  return over == 0 ? 0 : over / under;
}

TEST(PhotoFiles, exif_fields_of_38_pictures_are_those_their_package_expects) {
  const Source source{"goexif_samples", "regression expectations"};
  const Table table = test_table("photo/exif_expected.csv");
  ASSERT_EQ(table.rows(), 38U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    const auto text = [&](const char* column) { return *table.text(row, column); };
    const std::string name = text("file");
    const std::string segment = exif_segment(file(kExifFolder + "samples/" + name));
    ASSERT_FALSE(segment.empty()) << name;
    const Exif exif = read_exif(segment);
    const auto expect = [&](const char* what, double wanted, double got) {
      EXPECT_PUBLISHED(name + " " + what, source, wanted, got, 1e-9);
    };
    expect("orientation", text("orientation").empty() ? 1 : *table.number(row, "orientation"),
           exif.orientation);
    expect("exposure [s]", quotient(text("exposure")), exif.exposure_s.value_or(0));
    expect("f-number", quotient(text("f_number")), exif.f_number.value_or(0));
    expect("ISO", text("iso").empty() ? 0 : *table.number(row, "iso"), exif.iso.value_or(0));
    if (text("flash").empty()) {
      EXPECT_FALSE(exif.flash) << name;
    } else {
      expect("flash fired", static_cast<int>(*table.number(row, "flash")) & 1,
             exif.flash.value_or(false) ? 1 : 0);
    }
    if (!text("white_balance").empty()) {
      expect("white balance by hand", *table.number(row, "white_balance"),
             exif.manual_white.value_or(false) ? 1 : 0);
    }
    if (!text("colour_space").empty()) {
      expect("says sRGB", *table.number(row, "colour_space") == 1 ? 1 : 0,
             exif.says_srgb.value_or(false) ? 1 : 0);
    }
  }
}

TEST(PhotoFiles, one_picture_in_eight_orientations_is_one_picture_upright) {
  const Source source{"orientation_samples", "orientation_0 to orientation_8"};
  const auto plain = decode_jpeg(file(kTurnedFolder + "orientation_0.jpg"));
  ASSERT_TRUE(plain) << one_line(plain.error());
  for (int i = 1; i <= 8; ++i) {
    const std::string name = "orientation_" + std::to_string(i) + ".jpg";
    const auto picture = decode_jpeg(file(kTurnedFolder + name));
    ASSERT_TRUE(picture) << name << ": " << one_line(picture.error());
    EXPECT_PUBLISHED(name + " tag", source, i, picture->exif.orientation, 0.5);
    const Picture turned = upright(*picture);
    ASSERT_EQ(turned.width, 50U) << name;
    ASSERT_EQ(turned.height, 70U) << name;
    double apart = 0;
    for (std::size_t k = 0; k < turned.rgb.size(); ++k) {
      apart += std::abs(turned.rgb[k] - plain->rgb[k]) / static_cast<double>(turned.rgb.size());
    }
    // Blocks of JPEG lie otherwise in each: a few steps of 255; a wrong turn is apart by 30.
    EXPECT_PUBLISHED(name + " mean step from the plain one", source, 0, apart, 3);
  }
}

TEST(PhotoFiles, broken_exif_of_the_same_package_ends_in_bounded_time) {
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(kExifFolder + "corrupt")) {
    const std::string bytes = file(entry.path());
    EXPECT_LE(read_exif(exif_segment(bytes)).orientation, 8);
    const auto picture = decode_jpeg(bytes);
    if (!picture) {
      EXPECT_FALSE(picture.error().message.empty());
    }
    ++files;
  }
  EXPECT_EQ(files, 3U);
}

TEST(PhotoFiles, profile_columns_are_those_a_second_reader_has) {
  const Source source{"debian_profiles", "colorant columns"};
  const Table table = test_table("photo/profile_columns.csv");
  ASSERT_EQ(table.rows(), 4U);
  for (std::size_t row = 0; row < table.rows(); ++row) {
    Picture picture;
    const std::string path = *table.text(row, "file");
    picture.icc = file(path);
    const auto profile = profile_of(picture);
    ASSERT_TRUE(profile) << path << ": " << one_line(profile.error());
    constexpr std::array kColours{"red", "green", "blue"};
    constexpr std::array kAxes{"x", "y", "z"};
    for (std::size_t c = 0; c < 3; ++c) {
      for (std::size_t axis = 0; axis < 3; ++axis) {
        const std::string column = std::string(kColours[c]) + "_" + kAxes[axis];
        EXPECT_PUBLISHED(path + " " + column, source, *table.number(row, column),
                         profile->to_xyz[axis][c], 5e-7);
      }
    }
  }
}

TEST(PhotoFiles, profiles_that_are_no_matrix_are_turned_down_in_one_line) {
  for (const char* path : {"/usr/share/color/icc/ITULab.icc", "/usr/share/color/icc/Gray.icc",
                           "/usr/share/color/argyll/ref/lab2lab.icm"}) {
    Picture picture;
    picture.icc = file(path);
    const auto profile = profile_of(picture);
    ASSERT_FALSE(profile) << path;
    EXPECT_NE(profile.error().message.find("profile"), std::string::npos) << path;
  }
  Picture picture;
  picture.icc = "no profile at all";
  EXPECT_FALSE(profile_of(picture));
}

}  // namespace
}  // namespace hw::photo::test
