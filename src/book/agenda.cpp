#include "huewright/book/agenda.h"

#include <algorithm>
#include <set>

#include "huewright/book/visit.h"
#include "huewright/process/moment.h"

namespace hw::book {
namespace {

using Entries = std::vector<wire::CalendarEntry>;

void add_day(Entries& entries, const VisitState& visit, const std::string& date,
             std::chrono::year_month_day today, const std::string& what, const std::string& who) {
  if (date.empty()) return;
  const auto day = process::date_from_iso(date);
  if (!day || *day < today) return;
  wire::CalendarEntry entry;
  entry.uid = visit.id + "-" + what + "@huewright";
  entry.day = *day;
  entry.summary = (what == "refresh" ? "Colour refresh due" : "Regrowth due") + who;
  entries.push_back(std::move(entry));
}

Result<std::string> name_of(Store& store, const std::string& client, bool own) {
  if (own) return std::string();
  const auto line = store.client(client);
  if (!line) return tl::unexpected(line.error());
  return ": " + (line->erased ? std::string("erased") : line->name);
}

}  // namespace

Result<Entries> agenda_of(Store& store, const process::Moment& now, const std::string& client) {
  const std::chrono::year_month_day today = process::local_date(now);
  const std::chrono::sys_seconds start = std::chrono::sys_days(today) - now.offset;
  const std::string utc = process::iso_text(process::Moment{start, std::chrono::minutes(0)});
  const std::string from = utc.substr(0, utc.find('+')) + "Z";  // as the list of visits has it
  if (!client.empty()) {
    if (const auto known = store.client(client); !known) return tl::unexpected(known.error());
  }
  const auto lines = client.empty() ? store.visits_between("", "~") : store.visits_of(client);
  if (!lines) return tl::unexpected(lines.error());
  Entries entries;
  // Last first, so that the first finished visit of a client is the one that counts.
  std::vector<VisitLine> last_first = *lines;
  std::ranges::sort(last_first, std::ranges::greater{},
                    [](const VisitLine& line) { return std::pair(line.starts_at, line.id); });
  std::set<std::string> finished;
  for (const VisitLine& line : last_first) {
    const bool comes = line.starts_at >= from && line.stage != VisitStage::asked &&
                       line.stage != VisitStage::cancelled;
    const bool counts = line.stage == VisitStage::finished && finished.insert(line.client).second;
    if (!comes && !counts) continue;
    const auto facts = store.facts_of(About::visit, line.id);
    if (!facts) return tl::unexpected(facts.error());
    const VisitState visit = visit_of(*facts);
    const auto who = name_of(store, line.client, !client.empty());
    if (!who) return tl::unexpected(who.error());
    const auto at = process::moment_from_iso(visit.booked.starts_at);
    if (comes && at) {
      wire::CalendarEntry entry;
      entry.uid = visit.id + "@huewright";
      entry.starts = at->utc;
      entry.length = std::chrono::minutes(static_cast<int>(visit.booked.minutes));
      entry.summary = "Hair visit" + *who;
      if (client.empty()) entry.description = visit.booked.wish;
      entries.push_back(std::move(entry));
    }
    if (counts && visit.aftercare) {
      add_day(entries, visit, visit.aftercare->refresh_on, today, "refresh", *who);
      add_day(entries, visit, visit.aftercare->regrowth_on, today, "regrowth", *who);
    }
  }
  return entries;
}

}  // namespace hw::book
