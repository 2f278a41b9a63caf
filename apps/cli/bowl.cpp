#include "huewright/wire/bowl.h"

#include <fmt/format.h>

#include "command.h"
#include "huewright/wire/json.h"
#include "page.h"

namespace hw::apps {
namespace {

std::string report(const process::Bowl& bowl, const wire::BowlAnswer& answer) {
  std::string out = findings_text(answer.found);
  out += as_it_is(bowl.on_scalp ? said(spoken(), "The bowl, for the scalp")
                                : said(spoken(), "The bowl, off the scalp")) +
         '\n';
  for (const auto& part : bowl.parts) {
    const double grams = part.grams.value();
    out += fmt::format("  {:<12}{:>8} g  {:>5.1f} %", process::name_of(part.kind), plain(grams, 1),
                       grams / answer.grams * 100);
    if (part.peroxide) out += fmt::format("   {} % peroxide", plain(part.peroxide->value(), 2));
    if (part.for_scalp) out += "   labelled for the scalp";
    out += '\n';
  }
  out += fmt::format("  {:<12}{:>8} g\n\n", "together", plain(answer.grams, 1));
  out += as_it_is(said(spoken(), "Ready mix: {0}.", {bowl_text(answer)}));
  return out + closing_text();
}

}  // namespace

Result<Said> run_bowl(const Asked& asked) {
  const auto request = wire::decode<wire::BowlRequest>(asked.text);
  if (!request) return tl::unexpected(request.error());
  const auto answer = wire::answer(*request);
  if (!answer) return tl::unexpected(answer.error());
  return Said{asked.json ? wire::encode(*answer) + '\n' : report(request->bowl, *answer),
              exit_code_of(answer->found)};
}

}  // namespace hw::apps
