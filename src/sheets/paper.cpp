// Layout by Pango, drawing by Cairo. Lengths are points, 1/72 inch.
#include "huewright/sheets/paper.h"

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>
#include <qrencode.h>

#include <algorithm>
#include <cstring>
#include <memory>

#include "huewright/colour/screen.h"

namespace hw::sheets {
namespace {

constexpr double kMargin = 51;  // 18 mm
constexpr double kFoot = 28;    // room of the last line of a page
constexpr double kGap = 7;      // between blocks
constexpr double kText = 10.5;  // size of words
constexpr double kSmall = 9;
constexpr double kHeading = 13;
constexpr double kTitle = 20;
constexpr double kCellPad = 3.5;
constexpr double kTile = 64;  // height of a swatch
constexpr double kCode = 96;  // side of a code
constexpr const char* kFont = "Inter";

struct Size {
  double width, height;
};
Size size_of(Paper paper) {
  return paper == Paper::a4 ? Size{595.276, 841.89} : Size{612, 792};
}

template <class T, void (*release)(T*)>
struct Release {
  void operator()(T* made) const { release(made); }
};
void unref(PangoLayout* layout) {
  g_object_unref(layout);
}
using Layout = std::unique_ptr<PangoLayout, Release<PangoLayout, unref>>;
using Surface = std::unique_ptr<cairo_surface_t, Release<cairo_surface_t, cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, Release<cairo_t, cairo_destroy>>;
using QrCode = std::unique_ptr<QRcode, Release<QRcode, QRcode_free>>;

cairo_status_t append(void* to, const unsigned char* data, unsigned size) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

/// What is left of a PNG's bytes while it is read.
struct Reading {
  std::string_view rest;
};
cairo_status_t read_on(void* from, unsigned char* data, unsigned size) {
  auto& reading = *static_cast<Reading*>(from);
  if (reading.rest.size() < size) return CAIRO_STATUS_READ_ERROR;
  std::memcpy(data, reading.rest.data(), size);
  reading.rest.remove_prefix(size);
  return CAIRO_STATUS_SUCCESS;
}

/// A structure element for as long as it lives.
class Tag {
 public:
  Tag(cairo_t* context, const char* name, const std::string& attributes = {})
      : context_(context), name_(name) {
    cairo_tag_begin(context_, name_, attributes.empty() ? nullptr : attributes.c_str());
  }
  ~Tag() { cairo_tag_end(context_, name_); }
  Tag(const Tag&) = delete;
  Tag& operator=(const Tag&) = delete;

 private:
  cairo_t* context_;
  const char* name_;
};

class Sheet {
 public:
  Sheet(const Document& document, Paper paper) : document_(document), size_(size_of(paper)) {
    surface_.reset(cairo_pdf_surface_create_for_stream(append, &bytes_, size_.width, size_.height));
    const auto put = [&](cairo_pdf_metadata_t what, const std::string& text) {
      cairo_pdf_surface_set_metadata(surface_.get(), what, text.c_str());
    };
    put(CAIRO_PDF_METADATA_TITLE, document.title);
    put(CAIRO_PDF_METADATA_CREATOR, "Huewright");
    if (!document.made_on.empty()) {
      put(CAIRO_PDF_METADATA_CREATE_DATE, document.made_on + "T00:00:00Z");
      put(CAIRO_PDF_METADATA_MOD_DATE, document.made_on + "T00:00:00Z");
    }
    context_.reset(cairo_create(surface_.get()));
  }

  Result<std::string> draw() {
    {
      const Tag whole(cairo(), "Document");
      at_ = kMargin;
      write("H1", document_.title, kTitle, true);
      if (!document_.under.empty()) write("P", document_.under, kText, false);
      at_ += kGap;
      for (const Block& block : document_.blocks) {
        auto done = std::visit([this](const auto& one) { return put(one); }, block);
        if (!done) return tl::unexpected(done.error());
      }
      end_page();
    }
    context_.reset();
    cairo_surface_finish(surface_.get());
    if (cairo_surface_status(surface_.get()) != CAIRO_STATUS_SUCCESS) {
      return fail(ErrorCode::io,
                  fmt::format("the sheet could not be drawn: {}",
                              cairo_status_to_string(cairo_surface_status(surface_.get()))),
                  "sheet", "see that there is memory");
    }
    return std::move(bytes_);
  }

 private:
  [[nodiscard]] cairo_t* cairo() const { return context_.get(); }
  [[nodiscard]] double width() const { return size_.width - 2 * kMargin; }
  [[nodiscard]] double bottom() const { return size_.height - kMargin - kFoot; }

  [[nodiscard]] Layout layout(const std::string& text, double size, bool strong,
                              double room) const {
    Layout made(pango_cairo_create_layout(cairo()));
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family(font, kFont);
    pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango_font_description_set_weight(font, strong ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(made.get(), font);
    pango_font_description_free(font);
    pango_layout_set_width(made.get(), static_cast<int>(room * PANGO_SCALE));
    pango_layout_set_wrap(made.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_text(made.get(), text.c_str(), static_cast<int>(text.size()));
    return made;
  }
  static double height_of(const Layout& made) {
    int height = 0;
    pango_layout_get_size(made.get(), nullptr, &height);
    return static_cast<double>(height) / PANGO_SCALE;
  }
  void show(const Layout& made, double x, double y) const {
    cairo_move_to(cairo(), x, y);
    pango_cairo_show_layout(cairo(), made.get());
  }

  void end_page() {
    ++page_;
    const Layout foot = layout(document_.foot, kSmall, false, width() - 40);
    const double y = size_.height - kMargin - std::max(0.0, height_of(foot) - kSmall);
    show(foot, kMargin, y);
    show(layout(std::to_string(page_), kSmall, false, 40), size_.width - kMargin - 12, y);
    cairo_show_page(cairo());
    at_ = kMargin;
  }
  /// Goes on to the next page where a block of that height does not fit any more.
  void need(double height) {
    if (at_ + height > bottom() && at_ > kMargin) end_page();
  }

  void write(const char* tag, const std::string& text, double size, bool strong,
             double indent = 0) {
    const Layout made = layout(text, size, strong, width() - indent);
    const double height = height_of(made);
    if (height < bottom() - kMargin) {
      need(height);
      const Tag paragraph(cairo(), tag);
      show(made, kMargin + indent, at_);
      at_ += height;
      return;
    }
    // Longer than a page: line by line.
    const Tag paragraph(cairo(), tag);
    for (int i = 0; i < pango_layout_get_line_count(made.get()); ++i) {
      PangoLayoutLine* line = pango_layout_get_line_readonly(made.get(), i);
      const double step = size * 1.35;
      need(step);
      cairo_move_to(cairo(), kMargin + indent, at_ + size);
      pango_cairo_show_layout_line(cairo(), line);
      at_ += step;
    }
  }

  Result<void> put(const Heading& heading) {
    constexpr double kCompany = 60;  // a heading does not stand alone at the foot of a page
    at_ += kGap;
    need(kHeading + kCompany);
    write("H2", heading.text, kHeading, true);
    at_ += kGap / 2;
    return {};
  }
  Result<void> put(const Words& words) {
    write("P", words.text, kText, words.strong);
    at_ += kGap;
    return {};
  }
  Result<void> put(const Bullets& bullets) {
    constexpr double kIndent = 12;
    const Tag list(cairo(), "L");
    for (const std::string& text : bullets.texts) {
      const Layout made = layout(text, kText, false, width() - kIndent);
      need(height_of(made));
      const double mark = at_;
      const Tag item(cairo(), "LI");
      show(layout("–", kText, false, kIndent), kMargin, mark);
      write("LBody", text, kText, false, kIndent);
      at_ += kGap / 3;
    }
    at_ += kGap;
    return {};
  }

  Result<void> put(const Rows& table) {
    std::vector<double> widths = table.widths;
    if (widths.empty()) widths.assign(table.columns.size(), 1.0);
    double sum = 0;
    for (const double one : widths) sum += one;
    for (double& one : widths) one *= width() / sum;
    double height = row_height(table.columns, widths, true);
    for (const auto& row : table.rows) height += row_height(row, widths, false);
    if (height < (bottom() - kMargin) / 2) need(height);  // a short one stays whole
    const Tag whole(cairo(), "Table");
    put_row(table.columns, widths, true);
    for (const auto& row : table.rows) {
      if (at_ + row_height(row, widths, false) > bottom()) {
        end_page();
        put_row(table.columns, widths, true);
      }
      put_row(row, widths, false);
    }
    at_ += kGap;
    return {};
  }
  [[nodiscard]] double row_height(const std::vector<std::string>& cells,
                                  const std::vector<double>& widths, bool head) const {
    double height = 0;
    for (std::size_t i = 0; i < std::min(cells.size(), widths.size()); ++i) {
      height = std::max(height, height_of(layout(cells[i], kText, head, widths[i] - 2 * kCellPad)));
    }
    return height + 2 * kCellPad;
  }
  void put_row(const std::vector<std::string>& cells, const std::vector<double>& widths,
               bool head) {
    const double height = row_height(cells, widths, head);
    need(height);
    const Tag row(cairo(), "TR");
    double x = kMargin;
    for (std::size_t i = 0; i < std::min(cells.size(), widths.size()); ++i) {
      const Tag cell(cairo(), head ? "TH" : "TD");
      show(layout(cells[i], kText, head, widths[i] - 2 * kCellPad), x + kCellPad, at_ + kCellPad);
      x += widths[i];
    }
    at_ += height;
    rule(head ? 1.0 : 0.4);
  }
  void rule(double thick) {
    cairo_set_line_width(cairo(), thick);
    cairo_move_to(cairo(), kMargin, at_);
    cairo_line_to(cairo(), kMargin + width(), at_);
    cairo_stroke(cairo());
  }

  Result<void> put(const Swatches& all) {
    if (all.swatches.empty()) return {};
    const double each = width() / static_cast<double>(all.swatches.size());
    double words = 0;
    for (const Swatch& one : all.swatches) {
      words = std::max(words, height_of(layout(one.words, kSmall, false, each - 2 * kCellPad)));
    }
    need(kTile + words + 2 * kCellPad);
    double x = kMargin;
    for (const Swatch& one : all.swatches) {
      const auto screen = colour::to_screen(one.lab, colour::ScreenSpace::srgb);
      {
        const Tag figure(cairo(), "Figure");
        cairo_set_source_rgb(cairo(), screen.r, screen.g, screen.b);
        cairo_rectangle(cairo(), x, at_, each, kTile);  // they touch
        cairo_fill(cairo());
      }
      cairo_set_source_rgb(cairo(), 0, 0, 0);
      const Tag paragraph(cairo(), "P");
      show(layout(one.words, kSmall, false, each - 2 * kCellPad), x + (x > kMargin ? kCellPad : 0),
           at_ + kTile + kCellPad);
      x += each;
    }
    at_ += kTile + words + 2 * kCellPad + kGap;
    return {};
  }

  Result<void> put(const Picture& picture) {
    Reading reading{picture.png};
    const Surface image(cairo_image_surface_create_from_png_stream(read_on, &reading));
    if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS) {
      return fail(ErrorCode::malformed, "is no PNG picture", "sheet.picture", "draw it again");
    }
    const double scale = width() / cairo_image_surface_get_width(image.get());
    const double height = cairo_image_surface_get_height(image.get()) * scale;
    need(height);
    {
      const Tag figure(cairo(), "Figure");
      cairo_save(cairo());
      cairo_translate(cairo(), kMargin, at_);
      cairo_scale(cairo(), scale, scale);
      cairo_set_source_surface(cairo(), image.get(), 0, 0);
      cairo_paint(cairo());
      cairo_restore(cairo());
    }
    at_ += height + kGap / 2;
    if (!picture.words.empty()) write("P", picture.words, kSmall, false);
    at_ += kGap;
    return {};
  }

  Result<void> put(const Code& code) {
    const QrCode made(QRcode_encodeString8bit(code.text.c_str(), 0, QR_ECLEVEL_M));
    if (!made) {
      return fail(ErrorCode::out_of_range, "is too long for a code", "sheet.code",
                  "put less into it");
    }
    need(kCode);
    constexpr int kQuiet = 4;  // modules around it; the standard's own figure
    const double side = kCode / (made->width + 2 * kQuiet);
    {
      const Tag figure(cairo(), "Figure");
      for (int row = 0; row < made->width; ++row) {
        for (int column = 0; column < made->width; ++column) {
          if ((made->data[row * made->width + column] & 1U) == 0) continue;
          cairo_rectangle(cairo(), kMargin + (column + kQuiet) * side, at_ + (row + kQuiet) * side,
                          side, side);
        }
      }
      cairo_fill(cairo());
    }
    const double top = at_;
    const Layout words = layout(code.words, kText, false, width() - kCode - kGap);
    {
      const Tag paragraph(cairo(), "P");
      show(words, kMargin + kCode + kGap, top + (kCode - height_of(words)) / 2);
    }
    at_ = top + kCode + kGap;
    return {};
  }

  Result<void> put(const Blank& blank) {
    constexpr double kHand = 34;  // room to write
    need(kHand + 2 * kSmall);
    at_ += kHand;
    rule(0.6);
    at_ += kCellPad;
    write("P", blank.words, kSmall, false);
    at_ += kGap;
    return {};
  }

  const Document& document_;
  Size size_;
  std::string bytes_;
  Surface surface_;
  Context context_;
  double at_ = kMargin;
  int page_ = 0;
};

bool is_text(const std::string& text) {
  return g_utf8_validate(text.data(), static_cast<gssize>(text.size()), nullptr) != 0;
}

/// Whether every text of a block can be written.
struct AllText {
  bool operator()(const Heading& one) const { return is_text(one.text); }
  bool operator()(const Words& one) const { return is_text(one.text); }
  bool operator()(const Bullets& one) const { return std::ranges::all_of(one.texts, is_text); }
  bool operator()(const Rows& one) const {
    return std::ranges::all_of(one.columns, is_text) &&
           std::ranges::all_of(one.rows,
                               [](const auto& row) { return std::ranges::all_of(row, is_text); });
  }
  bool operator()(const Swatches& one) const {
    return std::ranges::all_of(one.swatches, is_text, &Swatch::words);
  }
  bool operator()(const Picture& one) const { return is_text(one.words); }
  bool operator()(const Code& one) const { return is_text(one.text) && is_text(one.words); }
  bool operator()(const Blank& one) const { return is_text(one.words); }
};

}  // namespace

Result<Paper> paper_named(std::string_view word) {
  if (word == "a4") return Paper::a4;
  if (word == "letter") return Paper::letter;
  return fail(ErrorCode::unknown_name, "\"" + std::string(word) + "\" is no paper", "paper",
              "give a4 or letter");
}

Result<std::string> pdf_of(const Document& document, Paper paper) {
  const bool readable =
      is_text(document.title) && is_text(document.under) && is_text(document.foot) &&
      std::ranges::all_of(document.blocks,
                          [](const Block& block) { return std::visit(AllText{}, block); });
  if (!readable) {
    return fail(ErrorCode::malformed, "is not text in UTF-8", "sheet", "mend the record's words");
  }
  return Sheet(document, paper).draw();
}

}  // namespace hw::sheets
