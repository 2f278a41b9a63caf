// libjpeg's classic interface behind Results. Its errors leave by longjmp: the functions that call
// it hold nothing with a destructor, and what they fill belongs to their callers.
#include "huewright/photo/jpeg.h"

#include <fmt/format.h>

#include <array>
#include <csetjmp>
#include <cstdio>
#include <cstdlib>
#include <cstring>

// libjpeg's headers want the two above.
#include <jerror.h>
#include <jpeglib.h>

namespace hw::photo {
namespace {

constexpr std::size_t kMostProfile = std::size_t{4} << 20;   // bytes; house rule, no source
constexpr std::size_t kMostMemory = std::size_t{512} << 20;  // bytes of the decoder's own

/// What libjpeg is told to do instead of printing and exiting.
struct Guard {
  jpeg_error_mgr base{};  // first: libjpeg hands back a pointer to it
  std::jmp_buf back{};
  bool damaged = false;
  bool too_many_scans = false;
  int most_scans = 0;
};

Guard* guard_of(j_common_ptr info) {
  return reinterpret_cast<Guard*>(info->err);
}

void leave(j_common_ptr info) {
  std::longjmp(guard_of(info)->back, 1);
}

/// Warnings: bytes between markers and odd colour hints are harmless, the rest is damage.
void listen(j_common_ptr info, int level) {
  if (level >= 0) return;
  const int code = info->err->msg_code;
  if (code == JWRN_EXTRANEOUS_DATA || code == JWRN_ADOBE_XFORM) return;
  guard_of(info)->damaged = true;
}

void say_nothing(j_common_ptr) {}

void prepare(Guard& guard) {
  jpeg_std_error(&guard.base);
  guard.base.error_exit = leave;
  guard.base.emit_message = listen;
  guard.base.output_message = say_nothing;
}

/// Called between rows: ends a file that goes over the picture again and again.
void watch(j_common_ptr info) {
  Guard* guard = guard_of(info);
  if (reinterpret_cast<j_decompress_ptr>(info)->input_scan_number <= guard->most_scans) return;
  guard->too_many_scans = true;
  std::longjmp(guard->back, 1);
}

class Decoder {
 public:
  Decoder() { prepare(guard_); }
  ~Decoder() {
    if (made_) jpeg_destroy_decompress(&info_);
    std::free(profile_);
  }
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;

  bool read_header(std::string_view bytes) {
    info_.err = &guard_.base;
    if (setjmp(guard_.back) != 0) return false;
    jpeg_create_decompress(&info_);
    made_ = true;
    info_.mem->max_memory_to_use = static_cast<long>(kMostMemory);
    jpeg_mem_src(&info_, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    constexpr unsigned kWhole = 0xFFFF;
    jpeg_save_markers(&info_, JPEG_APP0 + 1, kWhole);
    jpeg_save_markers(&info_, JPEG_APP0 + 2, kWhole);
    return jpeg_read_header(&info_, TRUE) == JPEG_HEADER_OK;
  }

  bool read_profile() {
    if (setjmp(guard_.back) != 0) return false;
    return jpeg_read_icc_profile(&info_, &profile_, &profile_bytes_) == TRUE;
  }

  /// rows: room for 3 bytes a pixel.
  bool read_rows(std::uint8_t* rows, int most_scans, Chroma chroma) {
    guard_.most_scans = most_scans;
    watcher_.progress_monitor = watch;
    info_.progress = &watcher_;
    if (setjmp(guard_.back) != 0) return false;
    info_.out_color_space = JCS_RGB;
    info_.do_fancy_upsampling = chroma == Chroma::smooth ? TRUE : FALSE;
    if (jpeg_start_decompress(&info_) == FALSE) return false;
    const std::size_t stride = std::size_t{3} * info_.output_width;
    while (info_.output_scanline < info_.output_height) {
      JSAMPROW row = rows + stride * info_.output_scanline;
      (void)jpeg_read_scanlines(&info_, &row, 1);
    }
    return jpeg_finish_decompress(&info_) == TRUE;
  }

  [[nodiscard]] const jpeg_decompress_struct& info() const { return info_; }
  [[nodiscard]] const Guard& guard() const { return guard_; }
  [[nodiscard]] std::string profile() const {
    if (profile_ == nullptr || profile_bytes_ > kMostProfile) return {};
    return {reinterpret_cast<const char*>(profile_), profile_bytes_};
  }

 private:
  Guard guard_;
  jpeg_decompress_struct info_{};
  jpeg_progress_mgr watcher_{};
  bool made_ = false;
  JOCTET* profile_ = nullptr;
  unsigned profile_bytes_ = 0;
};

/// What a file is when it is no JPEG, by its first bytes; empty: not known.
std::string_view other_kind(std::string_view bytes) {
  using namespace std::string_view_literals;
  if (bytes.starts_with("\x89PNG"sv)) return "PNG";
  if (bytes.starts_with("GIF8"sv)) return "GIF";
  if (bytes.starts_with("%PDF"sv)) return "PDF";
  if (bytes.starts_with("II*\0"sv) || bytes.starts_with("MM\0*"sv)) return "TIFF or raw";
  if (bytes.starts_with("RIFF"sv) && bytes.substr(8).starts_with("WEBP"sv)) return "WebP";
  if (bytes.size() > 12 && bytes.substr(4, 4) == "ftyp"sv) {
    const std::string_view brand = bytes.substr(8, 4);
    if (brand == "avif"sv) return "AVIF";
    if (brand == "heic"sv || brand == "heix"sv || brand == "mif1"sv || brand == "hevc"sv ||
        brand == "msf1"sv) {
      return "HEIC";
    }
    return "video";
  }
  return {};
}

tl::unexpected<Error> no_jpeg(std::string_view bytes) {
  if (bytes.empty()) {
    return fail(ErrorCode::missing, "the file is empty", "photo", "send a photo as JPEG");
  }
  const std::string_view kind = other_kind(bytes);
  if (kind.empty()) {
    return fail(ErrorCode::malformed, "is no JPEG picture", "photo", "send a photo as JPEG");
  }
  return fail(ErrorCode::malformed, fmt::format("is a {} file, and only JPEG is read", kind),
              "photo",
              kind == "HEIC" ? "set the camera to its most compatible format, or export as JPEG"
                             : "export it as JPEG, without changing its colours");
}

tl::unexpected<Error> damaged() {
  return fail(ErrorCode::malformed, "the JPEG is damaged, so its colours cannot be trusted",
              "photo", "send the file again as the camera wrote it");
}

Exif exif_of(const jpeg_decompress_struct& info) {
  using namespace std::string_view_literals;
  for (auto* marker = info.marker_list; marker != nullptr; marker = marker->next) {
    if (marker->marker != JPEG_APP0 + 1) continue;
    const std::string_view segment(reinterpret_cast<const char*>(marker->data),
                                   marker->data_length);
    if (segment.starts_with("Exif\0\0"sv)) return read_exif(segment);
  }
  return {};
}

Result<void> within(const jpeg_decompress_struct& info, const JpegLimits& limits) {
  const std::size_t pixels = std::size_t{info.image_width} * info.image_height;
  if (pixels == 0) return damaged();
  if (pixels > limits.pixels) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} × {} pixels are more than the {} million that are read",
                            info.image_width, info.image_height, limits.pixels / 1'000'000),
                "photo", "make the picture smaller");
  }
  if (info.num_components != 1 && info.num_components != 3) {
    return fail(ErrorCode::malformed, "the JPEG is made for printing, in four inks", "photo",
                "export it as RGB");
  }
  return {};
}

/// What stands before the pixels; rgb stays empty.
Result<Picture> head_of(Decoder& decoder, std::string_view bytes, const JpegLimits& limits) {
  if (!bytes.starts_with("\xFF\xD8\xFF")) return no_jpeg(bytes);
  if (bytes.size() > limits.bytes) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{:.1f} MiB are more than the {} MiB that are read",
                            static_cast<double>(bytes.size()) / (1U << 20U), limits.bytes >> 20U),
                "photo", "make the picture smaller");
  }
  if (!decoder.read_header(bytes)) return damaged();
  if (auto fits = within(decoder.info(), limits); !fits) return tl::unexpected(fits.error());
  Picture picture;
  picture.width = decoder.info().image_width;
  picture.height = decoder.info().image_height;
  picture.grey = decoder.info().num_components == 1;
  picture.exif = exif_of(decoder.info());
  // A profile that is not whole is as good as none; the colours are then said to be assumed.
  if (decoder.read_profile()) picture.icc = decoder.profile();
  return picture;
}

class Encoder {
 public:
  Encoder() { prepare(guard_); }
  ~Encoder() {
    if (made_) jpeg_destroy_compress(&info_);
    std::free(bytes_);
  }
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;

  bool write(const Picture& picture, int quality) {
    info_.err = &guard_.base;
    if (setjmp(guard_.back) != 0) return false;
    jpeg_create_compress(&info_);
    made_ = true;
    jpeg_mem_dest(&info_, &bytes_, &size_);
    info_.image_width = static_cast<JDIMENSION>(picture.width);
    info_.image_height = static_cast<JDIMENSION>(picture.height);
    info_.input_components = 3;
    info_.in_color_space = JCS_RGB;
    jpeg_set_defaults(&info_);
    jpeg_set_quality(&info_, quality, TRUE);
    info_.comp_info[0].h_samp_factor = 1;
    info_.comp_info[0].v_samp_factor = 1;
    jpeg_start_compress(&info_, TRUE);
    if (!picture.icc.empty()) {
      jpeg_write_icc_profile(&info_, reinterpret_cast<const JOCTET*>(picture.icc.data()),
                             static_cast<unsigned>(picture.icc.size()));
    }
    while (info_.next_scanline < info_.image_height) {
      // libjpeg does not write through this pointer.
      auto* row = const_cast<JSAMPLE*>(picture.rgb.data() +
                                       std::size_t{3} * picture.width * info_.next_scanline);
      (void)jpeg_write_scanlines(&info_, &row, 1);
    }
    jpeg_finish_compress(&info_);
    return true;
  }
  [[nodiscard]] std::string bytes() const { return {reinterpret_cast<const char*>(bytes_), size_}; }

 private:
  Guard guard_;
  jpeg_compress_struct info_{};
  bool made_ = false;
  unsigned char* bytes_ = nullptr;
  unsigned long size_ = 0;
};

}  // namespace

Result<Picture> decode_jpeg(std::string_view bytes, const JpegLimits& limits, Chroma chroma) {
  Decoder decoder;
  auto picture = head_of(decoder, bytes, limits);
  if (!picture) return picture;
  picture->rgb.resize(3 * picture->width * picture->height);
  const bool whole = decoder.read_rows(picture->rgb.data(), limits.scans, chroma);
  if (decoder.guard().too_many_scans) {
    return fail(ErrorCode::out_of_range,
                fmt::format("the JPEG goes over its picture more than {} times", limits.scans),
                "photo", "save it anew as an ordinary JPEG");
  }
  if (!whole || decoder.guard().damaged) return damaged();
  return picture;
}

Result<std::string> encode_jpeg(const Picture& picture, int quality) {
  constexpr std::size_t kMostSide = JPEG_MAX_DIMENSION;
  if (picture.width == 0 || picture.height == 0 || picture.width > kMostSide ||
      picture.height > kMostSide || picture.rgb.size() != 3 * picture.width * picture.height) {
    return fail(ErrorCode::out_of_range,
                fmt::format("{} × {} pixels cannot be a JPEG", picture.width, picture.height),
                "photo", fmt::format("sides are 1 to {}", kMostSide));
  }
  Encoder encoder;
  if (!encoder.write(picture, quality)) {
    return fail(ErrorCode::io, "the JPEG could not be written", "photo",
                "see that there is memory");
  }
  return encoder.bytes();
}

}  // namespace hw::photo
