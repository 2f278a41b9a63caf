// huewright read: a photo of hair beside a chart, or two of one strand.
#include "huewright/photo/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "command.h"
#include "huewright/wire/photo_answer.h"
#include "input.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr double kBand90 = 1.645;  // sds of a normal to either side

/// Numbers between commas. Error (where: the flag): one that is none.
Result<std::vector<double>> numbers_of(std::string_view text, const std::string& flag) {
  std::vector<double> numbers;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(','), text.size());
    const std::string_view part = text.substr(0, end);
    double number = 0;
    const auto [stop, problem] = std::from_chars(part.data(), part.data() + part.size(), number);
    if (problem != std::errc() || stop != part.data() + part.size()) {
      return fail(ErrorCode::malformed, fmt::format("\"{}\" is no number", part), flag,
                  "give numbers between commas, such as 0.5,0.2,0.5,0.9");
    }
    numbers.push_back(number);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return numbers;
}

Result<std::vector<photo::PointShare>> line_of(const Asked& asked, const std::string& flag) {
  const auto numbers = numbers_of(option_of(asked, flag), flag);
  if (!numbers) return tl::unexpected(numbers.error());
  if (numbers->size() % 2 != 0) {
    return fail(ErrorCode::malformed, "an x without its y stands at the end", flag,
                "give x,y of each point from scalp to tip");
  }
  std::vector<photo::PointShare> line;
  for (std::size_t i = 0; i < numbers->size(); i += 2) {
    line.push_back({(*numbers)[i], (*numbers)[i + 1]});
  }
  return line;
}

Result<photo::ReadWish> wish_of(const Asked& asked, const std::string& line_flag) {
  photo::ReadWish wish;
  auto line = line_of(asked, line_flag);
  if (!line) return tl::unexpected(line.error());
  wish.line = *std::move(line);
  const auto number = [&](const std::string& flag) -> Result<std::optional<double>> {
    const auto numbers = numbers_of(option_of(asked, flag), flag);
    if (!numbers) return tl::unexpected(numbers.error());
    if (numbers->empty()) return std::optional<double>();
    if (numbers->size() > 1) {
      return fail(ErrorCode::malformed, "more than one number is given", flag, "give one");
    }
    return std::optional(numbers->front());
  };
  const auto length = number("--length");
  if (!length) return tl::unexpected(length.error());
  wish.length_cm = *length;
  const auto width = number("--width");
  if (!width) return tl::unexpected(width.error());
  if (*width) wish.width_share = **width;
  if (const std::string chart = option_of(asked, "--chart"); !chart.empty()) {
    const auto kind = photo::chart_kind_named(chart);
    if (!kind) return tl::unexpected(kind.error());
    wish.chart = *kind;
  }
  return wish;
}

/// An error of reading a photo, with the file's name in front.
tl::unexpected<Error> named(const std::string& file, Error error) {
  const std::string name = name_of_input(file);
  error.where = error.where.empty() || error.where == "photo" ? name : name + ": " + error.where;
  return tl::unexpected(std::move(error));
}

Result<std::string> bytes_of(const std::string& file) {
  return read_input(file, photo::JpegLimits{}.bytes);
}

std::string place_of(double from_share, double to_share, std::optional<double> from_cm,
                     std::optional<double> to_cm) {
  if (from_cm && to_cm) {
    return said(spoken(), "{0} to {1} cm",
                {fixed(spoken(), *from_cm, 1), fixed(spoken(), *to_cm, 1)});
  }
  return said(spoken(), "{0} to {1} %",
              {fixed(spoken(), 100 * from_share, 0), fixed(spoken(), 100 * to_share, 0)});
}

std::string lab_with_band(const colour::HairLab& lab, const photo::Lab3& sd) {
  const auto one = [](double value) { return fixed(spoken(), value, 1); };
  return fmt::format("L* {} ± {}; a* {} ± {}; b* {} ± {}", one(lab.l), one(kBand90 * sd[0]),
                     one(lab.a), one(kBand90 * sd[1]), one(lab.b), one(kBand90 * sd[2]));
}

std::string chart_text(const photo::ChartFacts& chart) {
  std::string out;
  if (chart.patches.empty()) {
    out += as_it_is(said(spoken(),
                         "Grey card: only white balance and exposure are fitted, so the band is "
                         "wide."));
  } else {
    out += as_it_is(said(spoken(),
                         "Chart {0}: each patch read by the fit on the others is off by {1} "
                         "CIEDE2000 (median), {2} at most. Fitted: {3}.",
                         {photo::name_of(chart.sheet.kind), fixed(spoken(), chart.median_de00, 1),
                          fixed(spoken(), chart.most_de00, 1), retold(spoken(), chart.model)}));
  }
  for (const std::string& patch : chart.left_out)
    out += as_it_is(said(spoken(), "Left out: {0}.", {retold(spoken(), patch)}), 2);
  return out;
}

std::string report(const Look& look, const photo::PhotoReading& reading) {
  constexpr std::size_t kSwatch = 4;  // terminal cells
  std::string out;
  if (!reading.chart) {
    out += wrapped(reading.words);
  } else {
    out += chart_text(*reading.chart) + "\n";
    for (const photo::PhotoZone& zone : reading.zones) {
      const std::string block = swatch(look, zone.lab, kSwatch);
      out +=
          fmt::format("{:>16}  {}{}{}\n{:>18}{}\n",
                      place_of(zone.from_share, zone.to_share, zone.from_cm, zone.to_cm), block,
                      block.empty() ? "" : "  ", zone.words, "", lab_with_band(zone.lab, zone.sd));
    }
    if (!reading.zones.empty()) {
      out += "\n" + as_it_is(said(spoken(),
                                  "Colours are for daylight and 10 degrees; ± holds nine times in "
                                  "ten, chart, light and hair together."));
      if (reading.length_by_chart) {
        out += as_it_is(said(spoken(),
                             "The strand is taken as {0} cm long, measured on the sheet's plane; "
                             "--length gives the stretched length.",
                             {fixed(spoken(), reading.length_cm.value_or(0), 0)}));
      }
    }
  }
  for (const std::string& caution : reading.cautions) out += wrapped(caution);
  return out;
}

std::string report(const Look&, const photo::PhotoChange& change) {
  std::string out;
  for (const photo::ZoneChange& zone : change.zones) {
    out += fmt::format(
        "{:>16}  L* {:+.1f} ± {:.1f}, a* {:+.1f} ± {:.1f}, b* {:+.1f} ± {:.1f}   {:.1f} "
        "CIEDE2000\n",
        place_of(zone.from_share, zone.to_share, zone.from_cm, zone.to_cm), zone.change[0],
        kBand90 * zone.sd[0], zone.change[1], kBand90 * zone.sd[1], zone.change[2],
        kBand90 * zone.sd[2], zone.de00);
  }
  out +=
      "\n" + as_it_is(said(spoken(),
                           "After minus before, in daylight and 10 degrees; ± holds nine times in "
                           "ten."));
  if (change.one_light) {
    out += as_it_is(said(spoken(),
                         "One light and camera took both, so what the chart's fit gets wrong "
                         "cancels."));
  }
  for (const auto* list : {&change.cautions, &change.before.cautions, &change.after.cautions}) {
    for (const std::string& caution : *list) out += wrapped(caution);
  }
  return out;
}

template <class Answer>
Said said_of(const Asked& asked, const Answer& answer) {
  if (asked.json) return {wire::encode(answer) + '\n'};
  return {report(asked.look, answer)};
}

}  // namespace

Result<Said> run_read(const Asked& asked) {
  constexpr std::size_t kMost = 2;
  if (asked.words.empty() || asked.words.size() > kMost) {
    return fail(ErrorCode::missing, "one photo is asked for, or two", "command line",
                "huewright read PHOTO.jpg [AFTER.jpg] --line x,y,x,y");
  }
  const auto wish = wish_of(asked, "--line");
  if (!wish) return tl::unexpected(wish.error());
  const auto first = bytes_of(asked.words[0]);
  if (!first) return tl::unexpected(first.error());
  if (asked.words.size() == 1) {
    const auto reading = photo::read_photo(*first, *wish);
    if (!reading) return named(asked.words[0], reading.error());
    return said_of(asked, *reading);
  }
  auto wish_after = wish;
  if (asked.options.contains("--line-after")) {
    wish_after = wish_of(asked, "--line-after");
    if (!wish_after) return tl::unexpected(wish_after.error());
  }
  const auto second = bytes_of(asked.words[1]);
  if (!second) return tl::unexpected(second.error());
  const auto change = photo::compare_photos(*first, *second, *wish, *wish_after);
  if (!change) return tl::unexpected(change.error());
  return said_of(asked, *change);
}

}  // namespace hw::apps
