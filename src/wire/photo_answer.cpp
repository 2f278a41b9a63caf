#include "huewright/wire/photo_answer.h"

#include <array>

namespace hw::photo {

// Entries of lists: the list helper of fields.h finds them here.
void describe(wire::Object& object, PatchError& patch);
void describe(wire::Object& object, Station& station);
void describe(wire::Object& object, PhotoZone& zone);
void describe(wire::Object& object, ZoneChange& change);

namespace {

constexpr std::size_t kMostName = 200;    // bytes of a name
constexpr std::size_t kMostWords = 1000;  // bytes of a sentence

void put(wire::Object& object, std::string_view key, std::string_view what, double value) {
  wire::number(object.required(key, what), value);
}

void put(wire::Object& object, std::string_view key, std::string_view what,
         std::optional<double> value) {
  wire::number(object.optional(key, what), value);
}

void put_count(wire::Object& object, std::string_view key, std::string_view what,
               std::size_t value) {
  constexpr std::uint64_t kMost = 1'000'000'000;
  wire::count(object.required(key, what), value, 0, kMost);
}

void put_text(wire::Object& object, std::string_view key, std::string_view what,
              std::string value) {
  object.required(key, what).text(value, kMostWords);
}

void put_lab(wire::Object& object, std::string_view key, std::string_view what,
             const colour::HairLab& lab) {
  wire::Triple triple{lab.l, lab.a, lab.b};
  wire::triple(object.required(key, what), triple);
}

void put_triple(wire::Object& object, std::string_view key, std::string_view what, Lab3 value) {
  wire::triple(object.required(key, what), value);
}

}  // namespace

void describe(wire::Object& object, PatchError& patch) {
  object.required("name", "of the patch").text(patch.name, kMostName);
  put(object, "de00", "CIEDE2000 of the fit on the others", patch.de00);
}

void describe(wire::Object& object, Station& station) {
  put(object, "share", "of the line, from the scalp", station.share);
  put_lab(object, "lab", "CIE Lab, D65 and 10°", station.lab);
}

void describe(wire::Object& object, PhotoZone& zone) {
  put(object, "from_share", "of the line", zone.from_share);
  put(object, "to_share", "of the line", zone.to_share);
  put(object, "from_cm", "from the scalp", zone.from_cm);
  put(object, "to_cm", "from the scalp", zone.to_cm);
  put_lab(object, "lab", "CIE Lab, D65 and 10°", zone.lab);
  put_triple(object, "sd", "1 sd of all errors, per axis", zone.sd);
  put_triple(object, "shine_sd", "the part of sd that no chart tells", zone.shine);
  std::vector<double> covariance(zone.covariance.begin(), zone.covariance.end());
  object.required("reading", "for the readings of a zone in a case file")
      .object([&](wire::Object& fields) {
        put_text(fields, "by", "as a case file says it", "photo");
        put_lab(fields, "lab", "CIE Lab, D65 and 10°", zone.lab);
        wire::numbers(fields.required("covariance", "of its errors, row by row"), covariance,
                      {9, 9});
      });
  put_triple(object, "spread", "of the hair along the stretch, 1 sd", zone.spread);
  put_text(object, "words", "for reading", zone.words);
}

void describe(wire::Object& object, ZoneChange& change) {
  put(object, "from_share", "of the line", change.from_share);
  put(object, "to_share", "of the line", change.to_share);
  put(object, "from_cm", "from the scalp", change.from_cm);
  put(object, "to_cm", "from the scalp", change.to_cm);
  put_lab(object, "before", "CIE Lab, D65 and 10°", change.before);
  put_lab(object, "after", "CIE Lab, D65 and 10°", change.after);
  put_triple(object, "change", "after minus before, per axis", change.change);
  put_triple(object, "sd", "1 sd of the change, per axis", change.sd);
  put_triple(object, "apart_sd", "what it would be if the photos shared nothing", change.apart_sd);
  put(object, "de00", "CIEDE2000 of the change", change.de00);
}

namespace {

void describe_file(wire::Object& object, FileFacts& file) {
  put_count(object, "width_px", "upright", file.width);
  put_count(object, "height_px", "upright", file.height);
  wire::count(object.required("orientation", "the tag that was obeyed, 1 as stored"),
              file.orientation, 1, 8);
  object.required("colour_space", "of the embedded profile").text(file.colour_space, kMostName);
  object.required("colour_space_assumed", "the file names none").flag(file.colour_space_assumed);
  put(object, "exposure_s", "seconds", file.exposure_s);
  if (file.iso) put(object, "iso", "as the camera says", static_cast<double>(*file.iso));
  if (file.flash) object.required("flash", "it fired").flag(*file.flash);
}

void describe_chart(wire::Object& object, ChartFacts& chart) {
  put_text(object, "kind", "of chart, as the sheet says", std::string(name_of(chart.sheet.kind)));
  put_count(object, "window_width_mm", "mm", static_cast<std::size_t>(chart.sheet.width_mm));
  put_count(object, "window_height_mm", "mm", static_cast<std::size_t>(chart.sheet.height_mm));
  put_text(object, "model", "what was fitted", chart.model);
  if (!chart.patches.empty()) {
    put(object, "median_de00", "of patches left out in turn", chart.median_de00);
    put(object, "most_de00", "likewise, the worst", chart.most_de00);
    wire::objects(object.required("patches", "each as the others would read it"), chart.patches,
                  {0, 24});
  }
  put(object, "uneven", "brightest over darkest light over the sheet", chart.uneven);
  object.required("turned", "the chart lies upside down").flag(chart.turned);
  wire::texts(object.required("left_out", "patches that were not used, and why"), chart.left_out,
              {0, 24}, kMostWords);
}

}  // namespace

void describe(wire::Object& object, PhotoReading& reading) {
  object.required("photo", "the file").object([&](wire::Object& fields) {
    describe_file(fields, reading.file);
  });
  if (reading.chart) {
    object.required("chart", "what lies in the sheet's window").object([&](wire::Object& fields) {
      describe_chart(fields, *reading.chart);
    });
    put(object, "length_cm", "of the strand", reading.length_cm);
    if (reading.length_cm) {
      object.required("length_by_chart", "measured on the sheet's plane, not given")
          .flag(reading.length_by_chart);
    }
    wire::objects(object.required("stations", "colour along the strand"), reading.stations,
                  {0, 1000});
    wire::objects(object.required("zones", "stretches of one colour, from the scalp"),
                  reading.zones, {0, 100});
  } else {
    object.required("words", "without a chart there is no number").text(reading.words, kMostWords);
  }
  wire::texts(object.required("cautions", "what to mind"), reading.cautions, {0, 20}, kMostWords);
}

void describe(wire::Object& object, PhotoChange& change) {
  object.required("one_light", "one light and camera took both").flag(change.one_light);
  put(object, "light_apart_de00", "median CIEDE2000 between the patches of the two",
      change.light_apart);
  wire::objects(object.required("changes", "stretches, from the scalp"), change.zones, {0, 100});
  object.required("before", "the first photo").object([&](wire::Object& fields) {
    describe(fields, change.before);
  });
  object.required("after", "the second photo").object([&](wire::Object& fields) {
    describe(fields, change.after);
  });
  wire::texts(object.required("cautions", "what to mind"), change.cautions, {0, 20}, kMostWords);
}

}  // namespace hw::photo
