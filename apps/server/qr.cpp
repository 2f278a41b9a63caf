#include "qr.h"

#include <qrencode.h>

#include <memory>

namespace hw::server {
namespace {

constexpr std::size_t kMostBytes = 500;  // guess: our links have a tenth of it
constexpr int kQuiet = 4;                // modules round the code (ISO/IEC 18004)

}  // namespace

Result<std::vector<std::string>> qr_rows(std::string_view text) {
  if (text.empty() || text.size() > kMostBytes) {
    return fail(ErrorCode::out_of_range, "the text is empty or too long for a QR code", "qr",
                "keep it to 500 bytes");
  }
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString8bit(std::string(text).c_str(), 0, QR_ECLEVEL_M), QRcode_free);
  if (!code) return fail(ErrorCode::out_of_range, "the text makes no QR code", "qr", "shorten it");
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::string> rows(width, std::string(width, '0'));
  for (std::size_t y = 0; y < width; ++y) {
    for (std::size_t x = 0; x < width; ++x) {
      if ((code->data[y * width + x] & 1U) != 0) rows[y][x] = '1';
    }
  }
  return rows;
}

std::string qr_text(const std::vector<std::string>& rows) {
  const int width = static_cast<int>(rows.size());
  const auto light = [&](int x, int y) {
    const bool inside = x >= 0 && y >= 0 && x < width && y < width;
    return !inside || rows[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] == '0';
  };
  std::string text;
  for (int y = -kQuiet; y < width + kQuiet; y += 2) {
    for (int x = -kQuiet; x < width + kQuiet; ++x) {
      const bool above = light(x, y);
      const bool below = y + 1 < width + kQuiet && light(x, y + 1);
      text += above ? (below ? "█" : "▀") : (below ? "▄" : " ");
    }
    text += '\n';
  }
  return text;
}

}  // namespace hw::server
