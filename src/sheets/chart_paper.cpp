// Everything is in millimetres here; Cairo scales to points.
#include "huewright/sheets/chart_paper.h"

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <array>
#include <memory>
#include <utility>

namespace hw::sheets {
namespace {

constexpr double kPointsPerMm = 72 / 25.4;
constexpr double kMargin = 8;      // that printers leave white
constexpr double kWords = 46;      // height of the words below the sheet
constexpr double kLetter = 10.5;   // points, size of the words
constexpr double kMeasured = 100;  // line to check the print by
constexpr const char* kFont = "Inter";

struct DestroySurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct DestroyContext {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
struct Unref {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};

cairo_status_t append(void* to, const unsigned char* data, unsigned size) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

struct Size {
  double width, height;
};

/// Text from an upper left corner; its height. Set in points: in millimetres letters stand
/// unevenly.
double write(cairo_t* cairo, const std::string& text, double x, double y, double room,
             bool strong) {
  cairo_save(cairo);
  cairo_translate(cairo, x, y);
  cairo_scale(cairo, 1 / kPointsPerMm, 1 / kPointsPerMm);
  const std::unique_ptr<PangoLayout, Unref> layout(pango_cairo_create_layout(cairo));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, kFont);
  pango_font_description_set_absolute_size(font, kLetter * PANGO_SCALE);
  pango_font_description_set_weight(font, strong ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_width(layout.get(), static_cast<int>(room * kPointsPerMm * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text(layout.get(), text.c_str(), static_cast<int>(text.size()));
  cairo_tag_begin(cairo, "P", nullptr);
  cairo_move_to(cairo, 0, 0);
  pango_cairo_show_layout(cairo, layout.get());
  cairo_tag_end(cairo, "P");
  cairo_restore(cairo);
  int height = 0;
  pango_layout_get_size(layout.get(), nullptr, &height);
  return static_cast<double>(height) / PANGO_SCALE / kPointsPerMm;
}

void draw_tags(cairo_t* cairo, const photo::ChartSheet& sheet) {
  constexpr double kCell = photo::kTagMm / (photo::kTagCells - 2);
  const auto ids = photo::tag_ids(sheet);
  for (std::size_t k = 0; k < ids.size(); ++k) {
    const std::vector<bool> cells = photo::tag_cells(ids[k]);
    const photo::PointMm corner = photo::tag_corner(sheet, k);
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (!cells[i]) continue;
      const double column = static_cast<double>(i % photo::kTagCells) - 1;
      const double row = static_cast<double>(i / photo::kTagCells) - 1;
      cairo_rectangle(cairo, corner.x + column * kCell, corner.y + row * kCell, kCell, kCell);
    }
  }
  // One shape: no hairlines between its cells.
  cairo_set_antialias(cairo, CAIRO_ANTIALIAS_NONE);
  cairo_fill(cairo);
  cairo_set_antialias(cairo, CAIRO_ANTIALIAS_DEFAULT);
}

void draw_window(cairo_t* cairo, const photo::ChartSheet& sheet) {
  constexpr double kHair = 0.15;
  constexpr std::array kDashes{1.5, 1.5};
  cairo_set_line_width(cairo, kHair);
  cairo_set_dash(cairo, kDashes.data(), static_cast<int>(kDashes.size()), 0);
  cairo_rectangle(cairo, 0, 0, sheet.width_mm, sheet.height_mm);
  cairo_stroke(cairo);
  cairo_set_dash(cairo, nullptr, 0, 0);
}

void draw_measure(cairo_t* cairo, double x, double y) {
  constexpr double kThick = 0.25;
  constexpr double kEnd = 1.5;
  cairo_set_line_width(cairo, kThick);
  for (const double end : {0.0, kMeasured}) {
    cairo_move_to(cairo, x + end, y - kEnd);
    cairo_line_to(cairo, x + end, y + kEnd);
  }
  cairo_move_to(cairo, x, y);
  cairo_line_to(cairo, x + kMeasured, y);
  cairo_stroke(cairo);
}

std::string_view what_lies_there(photo::ChartKind kind, Language language) {
  switch (kind) {
    case photo::ChartKind::patches_before:
      return said(language, "a 24-patch chart made before November 2014");
    case photo::ChartKind::patches_after:
      return said(language, "a 24-patch chart made in November 2014 or later");
    case photo::ChartKind::grey_card:
      break;
  }
  return said(language, "a grey card of 18 % reflectance");
}

}  // namespace

Result<std::string> chart_paper(const photo::ChartSheet& sheet, Paper paper, Language language) {
  if (auto good = photo::check_sheet(sheet); !good) return tl::unexpected(good.error());
  constexpr double kRound = photo::kTagGapMm + photo::kTagMm;  // on each side of the window
  const double wide = sheet.width_mm + 2 * kRound;
  const double high = sheet.height_mm + 2 * kRound;
  Size size = paper == Paper::a4 ? Size{210, 297} : Size{215.9, 279.4};
  const auto fits = [&](double words) {
    return wide <= size.width - 2 * kMargin && high + words <= size.height - 2 * kMargin;
  };
  if (!fits(kWords)) std::swap(size.width, size.height);
  // Where they do not fit below, the words stand in the window and are cut out with it.
  const bool inside = !fits(kWords);
  if (inside && !fits(0)) {
    return fail(ErrorCode::out_of_range,
                fmt::format("a window of {} × {} mm does not fit on the paper", sheet.width_mm,
                            sheet.height_mm),
                "window", "use a smaller chart");
  }
  std::string bytes;
  const std::unique_ptr<cairo_surface_t, DestroySurface> surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, size.width * kPointsPerMm,
                                          size.height * kPointsPerMm));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE,
                                 std::string(said(language, "Sheet round a chart")).c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Huewright");
  // The same sheet is the same bytes.
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                 "2000-01-01T00:00:00Z");
  {
    const std::unique_ptr<cairo_t, DestroyContext> context(cairo_create(surface.get()));
    cairo_t* cairo = context.get();
    cairo_scale(cairo, kPointsPerMm, kPointsPerMm);
    cairo_tag_begin(cairo, "Document", nullptr);
    cairo_save(cairo);
    cairo_translate(cairo, (size.width - sheet.width_mm) / 2, kMargin + kRound);
    cairo_tag_begin(cairo, "Figure", nullptr);
    draw_tags(cairo, sheet);
    draw_window(cairo, sheet);
    cairo_tag_end(cairo, "Figure");
    cairo_restore(cairo);
    constexpr double kIn = 8;  // mm from the edge of the window
    double y = kMargin + (inside ? kRound + kIn : high + 3);
    const double room = inside ? sheet.width_mm - 2 * kIn : size.width - 4 * kMargin;
    const double x = (size.width - room) / 2;
    y += write(cairo,
               said(language, "For {0}, window {1} × {2} mm",
                    {what_lies_there(sheet.kind, language), std::to_string(sheet.width_mm),
                     std::to_string(sheet.height_mm)}),
               x, y, room, true);
    y += write(
        cairo,
        std::string(said(
            language,
            "Print in true size (100 %, no fitting) on white, matt paper. Cut out the window along "
            "the broken line and lay the sheet on the chart, so that the window shows its patches "
            "edge to edge, the brown one at the upper left, or all grey. Hold it flat beside the "
            "strand, in the same light, with no shadow and no shine on it.")),
        x, y + 1, room, false);
    draw_measure(cairo, x, y + 5);
    write(cairo, std::string(said(language, "This line is 100 mm.")), x + kMeasured + 4, y + 2.5,
          room - kMeasured - 4, false);
    cairo_tag_end(cairo, "Document");
    cairo_show_page(cairo);
  }
  cairo_surface_finish(surface.get());
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) {
    return fail(ErrorCode::io,
                fmt::format("the sheet could not be drawn: {}",
                            cairo_status_to_string(cairo_surface_status(surface.get()))),
                "sheet", "see that there is memory");
  }
  return bytes;
}

}  // namespace hw::sheets
