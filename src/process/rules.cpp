#include "huewright/process/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "findings.h"
#include "huewright/base/check.h"
#include "huewright/base/csv.h"
#include "process_tables.h"

namespace hw::process {
namespace {

/// Values closer than this to a limit count as on it: noise of arithmetic [unit of the rule].
constexpr double kEdgeNoise = 1e-9;

constexpr std::array<std::pair<RefusalKind, std::string_view>, 3> kKindWords{{
    {RefusalKind::never, "never"},
    {RefusalKind::not_until, "not_until"},
    {RefusalKind::caution, "caution"},
}};

struct RuleTable {
  std::vector<Rule> rules;
  std::string closing_advice;
};

RuleEdge edge_of(std::string_view word) {
  if (word == "above") return RuleEdge::above;
  if (word == "from") return RuleEdge::from;
  if (word == "below") return RuleEdge::below;
  HW_CHECK(word == "stated");
  return RuleEdge::stated;
}

/// The embedded table; a fault in it is a fault of the build, found by the first test that runs.
RuleTable read_table() {
  const auto table = parse_table(tables::rules, "process/rules.csv");
  HW_CHECK(table.has_value());
  RuleTable out;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto field = [&](std::string_view column) { return *table->text(row, column); };
    if (field("kind") == "advice") {
      out.closing_advice = field("text");
      continue;
    }
    const auto kind = refusal_kind_of(field("kind"));
    HW_CHECK(kind.has_value());
    Rule rule{field("id"),   *kind,         edge_of(field("edge")), std::nullopt,
              field("unit"), field("text"), field("source"),        field("grade")};
    if (rule.edge != RuleEdge::stated) rule.limit = *table->number(row, "limit");
    out.rules.push_back(std::move(rule));
  }
  HW_CHECK(!out.closing_advice.empty());
  return out;
}

const RuleTable& rule_table() {
  static const RuleTable table = read_table();
  return table;
}

/// Written so that a value that is no number counts as beyond.
bool is_beyond(RuleEdge edge, double value, double limit) {
  switch (edge) {
    case RuleEdge::above:
      return !(value <= limit + kEdgeNoise);
    case RuleEdge::from:
      return !(value < limit - kEdgeNoise);
    case RuleEdge::below:
      return !(value >= limit - kEdgeNoise);
    case RuleEdge::stated:
      break;
  }
  return false;
}

bool is_further_out(RuleEdge edge, double value, double than) {
  return edge == RuleEdge::below ? value < than : value > than;
}

void fill_in(std::string& text, std::string_view slot, double value) {
  const std::size_t at = text.find(slot);
  if (at != std::string::npos) text.replace(at, slot.size(), fmt::format("{:.10g}", value));
}

void put_in_order(std::vector<Refusal>& list) {
  std::stable_sort(list.begin(), list.end(), [](const Refusal& one, const Refusal& other) {
    return std::pair(one.kind, row_of(one.id)) < std::pair(other.kind, row_of(other.id));
  });
}

}  // namespace

std::string_view name_of(RefusalKind kind) {
  for (const auto& [known, word] : kKindWords) {
    if (known == kind) return word;
  }
  return "";
}

std::optional<RefusalKind> refusal_kind_of(std::string_view word) {
  for (const auto& [kind, known] : kKindWords) {
    if (known == word) return kind;
  }
  return std::nullopt;
}

bool holds_back(const std::vector<Refusal>& refusals) {
  return std::any_of(refusals.begin(), refusals.end(),
                     [](const Refusal& one) { return one.kind != RefusalKind::caution; });
}

bool forbids(const std::vector<Refusal>& refusals) {
  return std::any_of(refusals.begin(), refusals.end(),
                     [](const Refusal& one) { return one.kind == RefusalKind::never; });
}

std::span<const Rule> rules() {
  return rule_table().rules;
}

const std::string& closing_advice() {
  return rule_table().closing_advice;
}

double RuleSettings::limit(const Rule& rule) const {
  HW_CHECK(rule.limit.has_value());
  for (const OwnLimit& own : own_) {
    if (own.rule_id == rule.id) return own.limit;
  }
  return *rule.limit;
}

Result<RuleSettings> tightened(const std::vector<OwnLimit>& own, const std::string& where) {
  RuleSettings settings;
  for (std::size_t i = 0; i < own.size(); ++i) {
    const std::string path = fmt::format("{}[{}]", where, i);
    const auto all = rules();
    const auto rule = std::find_if(all.begin(), all.end(),
                                   [&](const Rule& one) { return one.id == own[i].rule_id; });
    if (rule == all.end()) {
      return fail(ErrorCode::unknown_name, fmt::format("no rule is called \"{}\"", own[i].rule_id),
                  path + ".rule", "use an id of data/process/rules.csv");
    }
    if (!rule->limit) {
      return fail(ErrorCode::conflict, fmt::format("rule \"{}\" has no limit", rule->id),
                  path + ".rule", "leave it out");
    }
    const double limit = own[i].limit;
    const bool looser = rule->edge == RuleEdge::below ? limit < *rule->limit : limit > *rule->limit;
    if (!std::isfinite(limit) || limit < 0 || looser) {
      return fail(ErrorCode::out_of_range,
                  fmt::format("{} would loosen \"{}\" (house limit {} {}) or is no limit", limit,
                              rule->id, *rule->limit, rule->unit),
                  path + ".limit", "a salon may tighten a limit, never loosen it");
    }
    for (const OwnLimit& earlier : settings.own_) {
      if (earlier.rule_id != rule->id) continue;
      return fail(ErrorCode::conflict, fmt::format("rule \"{}\" stands here twice", rule->id),
                  path + ".rule", "keep one of them");
    }
    settings.own_.push_back(own[i]);
  }
  return settings;
}

std::size_t row_of(std::string_view id) {
  const auto all = rules();
  const auto rule = std::find_if(all.begin(), all.end(), [&](const Rule& r) { return r.id == id; });
  HW_CHECK(rule != all.end());
  return static_cast<std::size_t>(rule - all.begin());
}

void Findings::raise_if(std::string_view id, bool fact) {
  const std::size_t row = row_of(id);
  HW_CHECK(rules()[row].edge == RuleEdge::stated);
  if (fact) raised_.emplace(row, std::nullopt);
}

void Findings::raise_beyond(std::string_view id, double value) {
  const Rule& rule = rules()[row_of(id)];
  HW_CHECK(rule.edge != RuleEdge::stated);
  if (is_beyond(rule.edge, value, limit(id))) raise_anyway(id, value);
}

void Findings::raise_anyway(std::string_view id, double value) {
  const std::size_t row = row_of(id);
  const auto [at, is_new] = raised_.emplace(row, value);
  if (!is_new && is_further_out(rules()[row].edge, value, *at->second)) at->second = value;
}

bool Findings::has(std::string_view id) const {
  return raised_.contains(row_of(id));
}

double Findings::limit(std::string_view id) const {
  return settings_.limit(rules()[row_of(id)]);
}

std::vector<Refusal> Findings::list() const {
  std::vector<Refusal> out;
  for (const auto& [row, found] : raised_) {
    const Rule& rule = rules()[row];
    Refusal refusal{rule.id, rule.kind, rule.text, rule.source};
    if (rule.limit) fill_in(refusal.text, "{limit}", settings_.limit(rule));
    if (found) fill_in(refusal.text, "{found}", *found);
    out.push_back(std::move(refusal));
  }
  return out;  // rows are visited in table order, and the table stands never, not_until, caution
}

std::vector<Refusal> merged(std::span<const std::vector<Refusal>> lists) {
  std::vector<Refusal> out;
  for (const auto& list : lists) {
    for (const Refusal& refusal : list) {
      const bool known = std::any_of(out.begin(), out.end(),
                                     [&](const Refusal& one) { return one.id == refusal.id; });
      if (!known) out.push_back(refusal);
    }
  }
  put_in_order(out);
  return out;
}

}  // namespace hw::process
