#include "huewright/photo/exif.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace hw::photo {
namespace {

// Tags: CIPA DC-008, tables 4 and 5.
constexpr std::uint32_t kOrientation = 0x0112;
constexpr std::uint32_t kExifTable = 0x8769;
constexpr std::uint32_t kExposureTime = 0x829A;
constexpr std::uint32_t kFNumber = 0x829D;
constexpr std::uint32_t kIso = 0x8827;
constexpr std::uint32_t kFlash = 0x9209;
constexpr std::uint32_t kColorSpace = 0xA001;
constexpr std::uint32_t kWhiteBalance = 0xA403;
// Types: TIFF 6.0, section 2.
constexpr std::uint32_t kShort = 3;
constexpr std::uint32_t kLong = 4;
constexpr std::uint32_t kRational = 5;

constexpr std::size_t kEntryBytes = 12;
constexpr std::size_t kMostEntries = 512;  // of one table; house rule, no source: cameras write 60

/// Bytes in the order the block itself names; reading outside gives nothing.
class Block {
 public:
  Block(std::string_view bytes, bool little) : bytes_(bytes), little_(little) {}

  [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t size) const {
    if (at > bytes_.size() || bytes_.size() - at < size) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
      const std::size_t place = little_ ? at + size - 1 - i : at + i;
      value = value << 8U | static_cast<std::uint8_t>(bytes_[place]);
    }
    return value;
  }

 private:
  std::string_view bytes_;
  bool little_;
};

struct Entry {
  std::uint32_t tag = 0;
  std::uint32_t type = 0;
  std::uint32_t count = 0;
  std::size_t value_at = 0;  ///< of the four bytes that hold the value or its offset
};

/// One whole number of a SHORT or LONG entry.
std::optional<std::uint32_t> whole(const Block& block, const Entry& entry) {
  if (entry.count < 1) return std::nullopt;
  if (entry.type == kShort) {
    // More than two values no longer fit into the entry.
    if (entry.count <= 2) return block.number(entry.value_at, 2);
    const auto offset = block.number(entry.value_at, 4);
    return offset ? block.number(*offset, 2) : std::nullopt;
  }
  if (entry.type == kLong && entry.count == 1) return block.number(entry.value_at, 4);
  return std::nullopt;
}

/// A quotient above 0 of a RATIONAL entry.
std::optional<double> quotient(const Block& block, const Entry& entry) {
  if (entry.type != kRational || entry.count != 1) return std::nullopt;
  const auto offset = block.number(entry.value_at, 4);
  if (!offset) return std::nullopt;
  const auto over = block.number(*offset, 4);
  const auto under = block.number(std::size_t{*offset} + 4, 4);
  if (!over || !under || *over == 0 || *under == 0) return std::nullopt;
  return static_cast<double>(*over) / static_cast<double>(*under);
}

void take(const Block& block, const Entry& entry, Exif& exif) {
  const auto number = whole(block, entry);
  switch (entry.tag) {
    case kOrientation:
      if (number && *number >= 1 && *number <= 8) exif.orientation = static_cast<int>(*number);
      return;
    case kExposureTime:
      exif.exposure_s = quotient(block, entry);
      return;
    case kFNumber:
      exif.f_number = quotient(block, entry);
      return;
    case kIso: {
      constexpr std::uint32_t kMostIso = 10'000'000;
      if (number && *number > 0 && *number <= kMostIso) exif.iso = static_cast<int>(*number);
      return;
    }
    case kWhiteBalance:
      if (number && *number <= 1) exif.manual_white = *number == 1;
      return;
    case kFlash:
      if (number) exif.flash = (*number & 1U) != 0;  // bit 0: fired
      return;
    case kColorSpace:
      if (number) exif.says_srgb = *number == 1;
      return;
    default:
      return;
  }
}

/// Reads one table; the offset of the EXIF table where this one names it.
std::optional<std::uint32_t> read_table(const Block& block, std::size_t at, Exif& exif) {
  std::optional<std::uint32_t> further;
  const auto count = block.number(at, 2);
  if (!count || *count > kMostEntries) return further;
  for (std::size_t i = 0; i < *count; ++i) {
    const std::size_t start = at + 2 + i * kEntryBytes;
    const auto tag = block.number(start, 2);
    const auto type = block.number(start + 2, 2);
    const auto values = block.number(start + 4, 4);
    if (!tag || !type || !values || !block.number(start + 8, 4)) return further;
    const Entry entry{*tag, *type, *values, start + 8};
    if (*tag == kExifTable) {
      further = whole(block, entry);
    } else {
      take(block, entry, exif);
    }
  }
  return further;
}

}  // namespace

Exif read_exif(std::string_view segment) {
  using namespace std::string_view_literals;
  Exif exif;
  constexpr std::string_view kHead = "Exif\0\0"sv;
  if (!segment.starts_with(kHead)) return exif;
  segment.remove_prefix(kHead.size());
  const bool little = segment.starts_with("II*\0"sv);
  if (!little && !segment.starts_with("MM\0*"sv)) return exif;
  const Block block(segment, little);
  const auto first = block.number(4, 4);
  if (!first) return exif;
  if (const auto second = read_table(block, *first, exif)) (void)read_table(block, *second, exif);
  return exif;
}

}  // namespace hw::photo
