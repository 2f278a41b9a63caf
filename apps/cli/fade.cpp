#include "huewright/wire/fade.h"

#include <fmt/format.h>

#include "command.h"
#include "huewright/hair/words.h"
#include "huewright/wire/json.h"
#include "page.h"

namespace hw::apps {
namespace {

/// Depth and tone; what shows through is no warmth of a lift.
std::string words_of(const colour::HairLab& lab) {
  const auto words = hair::describe(lab);
  return fmt::format("level {:.1f}, {}, {}", words.level, words.level_name, words.tone);
}

std::string report(const Look& look, const wire::FadeAnswer& answer) {
  std::string out =
      fmt::format("wash   dye left            {}colour\n", look.swatches ? "     " : "");
  for (const auto& row : answer.series) {
    const colour::HairLab lab{row.lab[0], row.lab[1], row.lab[2]};
    const std::string block = swatch(look, lab, 4);
    const auto percent = [](double share) { return fixed(spoken(), 100 * share, 0); };
    const std::string left =
        said(spoken(), "{0} % ({1} to {2})",
             {percent(row.dye_left), percent(row.dye_left_low), percent(row.dye_left_high)});
    out += fmt::format("{:>4}  {:<18}  {}{}{}\n", row.wash, left, block, block.empty() ? "" : " ",
                       words_of(lab));
  }
  out += '\n';
  out += as_it_is(said(spoken(),
                       "The share left should lie between the two figures 8 times in 10. Screens "
                       "and paper show colours roughly; compare with a strand in daylight."));
  return out + closing_text();
}

}  // namespace

Result<Said> run_fade(const Asked& asked) {
  const auto request = wire::decode<wire::FadeRequest>(asked.text);
  if (!request) return tl::unexpected(request.error());
  const auto answer = wire::answer(*request);
  if (!answer) return tl::unexpected(answer.error());
  return Said{asked.json ? wire::encode(*answer) + '\n' : report(asked.look, *answer), kExitDone};
}

}  // namespace hw::apps
