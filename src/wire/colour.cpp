#include "huewright/wire/colour.h"

#include <cmath>

#include "huewright/colour/difference.h"
#include "huewright/hair/ladder.h"

namespace hw::wire {
namespace {

using colour::HairLab;

// Widest numbers that are taken [as named]; house rules, no source: far outside what an instrument
// reports, near enough that nothing overflows.
constexpr NumberRule kLightness{.low = -100, .high = 1000};
constexpr NumberRule kOpponent{.low = -1000, .high = 1000};
constexpr NumberRule kReflectance{.low = -1, .high = 100};
constexpr NumberRule kPower{.low = 0, .high = 1e12};
constexpr double kMostPigment = 10;  // % of hair mass; more than twice the blackest hair
constexpr CountRule kSamples{1, 20000};
constexpr CountRule kPairs{0, 100000};

HairLab lab_of(const Triple& t) {
  return {t[0], t[1], t[2]};
}

void describe_samples(Object& object, SpectrumSamples& samples, const NumberRule& rule) {
  number(object.required("start_nm", "wavelength of the first value"), samples.start_nm,
         {.low = 100, .high = 3000, .unit = "nm"});
  number(object.required("step_nm", "between two values"), samples.step_nm,
         {.low = 0, .high = 1000, .unit = "nm", .above_low = true});
  numbers(object.required("values", "one per wavelength; one value alone is held everywhere"),
          samples.values, kSamples, rule);
}

void describe_xyz(Object& object, XyzAsk& ask) {
  object.required("spectrum", "reflectance, 1 for the perfect diffuser").object([&](Object& inner) {
    describe_samples(inner, ask.spectrum, kReflectance);
  });
  auto light = static_cast<std::size_t>(ask.named);  // names stand in the order of the enum
  object.optional("illuminant", "a CIE name, or relative power as a spectrum")
      .word_or_object(ask.own_light, light, colour::illuminant_names(),
                      [&](Object& inner) { describe_samples(inner, ask.light, kPower); });
  ask.named = static_cast<colour::Illuminant>(light);
  using enum colour::Observer;
  static constexpr std::array kObservers{deg2, deg10};
  static constexpr std::array<std::string_view, 2> kWords{"2deg", "10deg"};
  word(object.optional("observer", "CIE 1931 or 1964"), ask.observer, kObservers, kWords);
}

void describe_difference(Object& object, DifferenceAsk& ask) {
  Value& pairs = object.required("pairs", "[reference, sample], each [L, a, b]");
  pairs.list(
      kPairs, ask.pairs.size(), [&](std::size_t size) { ask.pairs.resize(size); },
      [&](std::size_t i, Value& pair) {
        pair.list(
            {2, 2}, 2, [](std::size_t) {},
            [&](std::size_t j, Value& lab) {
              triple(lab, ask.pairs[i][j], kLightness, kOpponent);
            });
      });
}

void describe_tress(Object& object, TressAsk& ask) {
  const NumberRule pigment{.low = 0, .high = kMostPigment, .unit = "% of hair mass"};
  number(object.required("eumelanin_percent", "dark pigment"), ask.eumelanin_percent, pigment);
  number(object.required("pheomelanin_percent", "red-yellow pigment"), ask.pheomelanin_percent,
         pigment);
  number(object.optional("warm_percent", "residue of lifted dark pigment"), ask.warm_percent,
         pigment);
  number(object.required("strand_um", "diameter of the circle of equal area"), ask.strand,
         {.low = 20, .high = 180, .unit = "µm"});
  using enum TressAsk::BaseKind;
  static constexpr std::array kBases{natural, lifted, white};
  static constexpr std::array<std::string_view, 3> kWords{"natural", "lifted", "white"};
  word(object.optional("base", "what the strand absorbs beside pigment"), ask.base, kBases, kWords);
}

void describe_screen(Object& object, ScreenAsk& ask) {
  triple(object.required("lab", "colour in daylight, 10 degrees: [L, a, b]"), ask.lab, kLightness,
         kOpponent);
  using enum colour::ScreenSpace;
  static constexpr std::array kSpaces{srgb, display_p3};
  static constexpr std::array<std::string_view, 2> kWords{"srgb", "display-p3"};
  word(object.required("space", "what the screen shows"), ask.space, kSpaces, kWords);
}

Result<colour::Spectrum> on_grid(const SpectrumSamples& samples, const std::string& where) {
  std::vector<double> values = samples.values;
  if (values.size() == 1) values.push_back(values[0]);  // ends are held: one value is flat
  auto spectrum = colour::resample(samples.start_nm, samples.step_nm, values);
  if (!spectrum) {
    Error error = spectrum.error();
    error.where = where;
    return tl::unexpected(error);
  }
  return spectrum;
}

Result<colour::Viewing> viewing_of(const XyzAsk& ask) {
  if (!ask.own_light) return colour::viewing(ask.named, ask.observer);
  const auto light = on_grid(ask.light, "illuminant");
  if (!light) return tl::unexpected(light.error());
  auto seen = colour::viewing(*light, ask.observer);
  if (!seen) {
    Error error = seen.error();
    error.where = "illuminant.values";
    return tl::unexpected(error);
  }
  return seen;
}

Result<ColourAnswer> answer_one(const XyzAsk& ask) {
  const auto seen = viewing_of(ask);
  if (!seen) return tl::unexpected(seen.error());
  const auto spectrum = on_grid(ask.spectrum, "spectrum");
  if (!spectrum) return tl::unexpected(spectrum.error());
  const auto xyz = colour::xyz_under(*spectrum, *seen);
  const auto lab = colour::xyz_to_lab(xyz);
  if (!std::isfinite(xyz.x + xyz.y + xyz.z + lab.l + lab.a + lab.b)) {
    return fail(ErrorCode::out_of_range, "this light is too faint to compute with",
                "illuminant.values", "scale the powers so that the largest is about 100");
  }
  return XyzAnswer{{xyz.x, xyz.y, xyz.z}, {lab.l, lab.a, lab.b}};
}

Result<ColourAnswer> answer_one(const DifferenceAsk& ask) {
  DifferenceAnswer out;
  for (const auto& [reference, sample] : ask.pairs) {
    const HairLab one = lab_of(reference);
    const HairLab two = lab_of(sample);
    out.de00.push_back(colour::delta_e_2000(one, two));
    out.de76.push_back(colour::delta_e_76(one, two));
    out.de94.push_back(colour::delta_e_94(one, two));
    out.cmc21.push_back(colour::delta_e_cmc(one, two));
  }
  return out;
}

Result<ColourAnswer> answer_one(const TressAsk& ask) {
  hair::Strand strand;
  strand.eumelanin_percent = ask.eumelanin_percent;
  strand.pheomelanin_percent = ask.pheomelanin_percent;
  strand.warm_percent = ask.warm_percent;
  strand.strand_um = ask.strand;
  if (ask.base == TressAsk::BaseKind::lifted) strand.base = hair::kLiftedBase;
  if (ask.base == TressAsk::BaseKind::white) strand.base = hair::kWhiteBase;
  const HairLab lab = hair::tress_lab(strand);
  return TressAnswer{{lab.l, lab.a, lab.b}, hair::default_ladder().level_of(lab.l)};
}

Result<ColourAnswer> answer_one(const ScreenAsk& ask) {
  const auto rgb = colour::to_screen(lab_of(ask.lab), ask.space);
  return ScreenAnswer{{rgb.r, rgb.g, rgb.b}, rgb.in_gamut};
}

/// Makes the variant hold the alternative that "ask" names.
template <std::size_t I = 0>
void hold(ColourRequest& request, std::size_t index) {
  if constexpr (I < std::variant_size_v<ColourRequest>) {
    if (index == I) {
      request.emplace<I>();
    } else {
      hold<I + 1>(request, index);
    }
  }
}

void describe_one(Object& object, XyzAnswer& answer) {
  triple(object.required("xyz", "[X, Y, Z], Y = 100 for the perfect diffuser"), answer.xyz);
  triple(object.required("lab", "[L, a, b] by the white of that light"), answer.lab);
}

void describe_one(Object& object, DifferenceAnswer& answer) {
  numbers(object.required("de00", "CIEDE2000, one per pair"), answer.de00, kPairs);
  numbers(object.required("de76", "CIE 1976"), answer.de76, kPairs);
  numbers(object.required("de94", "CIE 1994, graphic arts"), answer.de94, kPairs);
  numbers(object.required("cmc21", "CMC 2:1"), answer.cmc21, kPairs);
}

void describe_one(Object& object, TressAnswer& answer) {
  triple(object.required("lab", "[L, a, b] in daylight, 10 degrees"), answer.lab);
  number(object.required("level", "depth, 1 black to 10 lightest blond"), answer.level);
}

void describe_one(Object& object, ScreenAnswer& answer) {
  triple(object.required("rgb", "[r, g, b], encoded, 0 to 1"), answer.rgb);
  object.required("in_gamut", "the screen can show it").flag(answer.in_gamut);
}

}  // namespace

Result<ColourAnswer> answer(const ColourRequest& request) {
  return std::visit([](const auto& ask) { return answer_one(ask); }, request);
}

void describe(Object& object, ColourRequest& request) {
  static constexpr std::array<std::string_view, 4> kAsks{"xyz", "difference", "tress", "screen"};
  std::size_t index = request.index();
  object.cases("ask", "which question", kAsks, index, [&](std::size_t asked, Object& inner) {
    if (asked != request.index()) hold(request, asked);
    if (auto* ask = std::get_if<XyzAsk>(&request)) describe_xyz(inner, *ask);
    if (auto* ask = std::get_if<DifferenceAsk>(&request)) describe_difference(inner, *ask);
    if (auto* ask = std::get_if<TressAsk>(&request)) describe_tress(inner, *ask);
    if (auto* ask = std::get_if<ScreenAsk>(&request)) describe_screen(inner, *ask);
  });
}

void describe(Object& object, ColourAnswer& answer) {
  std::visit([&](auto& one) { describe_one(object, one); }, answer);
}

}  // namespace hw::wire
