// Moments and dated tests of a case.
#include <array>

#include "case_parts.h"

namespace hw::wire {
namespace {

constexpr std::size_t kMostName = 200;  // bytes of a product's or a shade's name

constexpr std::string_view kMomentForm =
    R"(^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?(Z|[+-]\d{2}:\d{2})$)";
constexpr std::string_view kDateForm = R"(^\d{4}-\d{2}-\d{2}$)";

/// Keeps what a reader of text gives, or passes on its error.
template <class Made, class Into>
Result<void> keep(Result<Made> made, Into& into) {
  if (!made) return tl::unexpected(std::move(made).error());
  into = *std::move(made);
  return {};
}

void moment(Value& value, process::Moment& into) {
  value.formatted(process::iso_text(into), kMomentForm, [&](std::string_view text) {
    return keep(process::moment_from_iso(text), into);
  });
}

void moment(Value& value, std::optional<process::Moment>& into) {
  if (!value.wanted(into.has_value())) return;
  process::Moment given = into.value_or(process::Moment{});
  moment(value, given);
  into = given;
}

void date(Value& value, std::optional<std::chrono::year_month_day>& into) {
  if (!value.wanted(into.has_value())) return;
  std::chrono::year_month_day given = into.value_or(process::local_date(process::Moment{}));
  value.formatted(process::iso_text(given), kDateForm,
                  [&](std::string_view text) { return keep(process::date_from_iso(text), given); });
  into = given;
}

}  // namespace
}  // namespace hw::wire

namespace hw::process {

void describe(wire::Object& object, ColourName& colour) {
  object.required("product", "the product's name, as on the shelf")
      .text(colour.product, wire::kMostName);
  object.required("shade", "id of the shade on the shelf").text(colour.shade, wire::kMostName);
}

void describe(wire::Object& object, SkinTestRecord& test) {
  describe(object, test.colour);
  wire::moment(object.required("applied_at", "when it was put on, ISO 8601 with its offset"),
               test.applied);
  wire::moment(object.optional("read_at", "when somebody looked, ISO 8601 with its offset"),
               test.read);
  static constexpr std::array kResults{SkinTest::not_done, SkinTest::clear, SkinTest::positive};
  static constexpr std::array<std::string_view, 3> kWords{"not_done", "clear", "positive"};
  wire::word(object.optional("result", "what was seen then"), test.result, kResults, kWords);
}

void describe(wire::Object& object, ColourVisit& visit) {
  wire::moment(object.required("at", "ISO 8601 with its offset"), visit.when);
  wire::objects(object.required("colours", "oxidative colours of that visit"), visit.colours,
                {0, 50});
}

void describe(wire::Object& object, TestsRecord& record) {
  wire::objects(object.optional("skin_tests", "each with its times"), record.skin_tests, {0, 200});
  wire::objects(object.optional("visits", "earlier ones with oxidative colour"), record.visits,
                {0, 500});
  wire::date(object.optional("last_relaxer_or_smoothing", "date of that service, YYYY-MM-DD"),
             record.last_relaxer_or_smoothing);
}

}  // namespace hw::process

namespace hw::wire {

void describe_dates(Object& object, plan::Case& head) {
  moment(object.optional("visit_at", "when the first bowl would go on, ISO 8601 with its offset"),
         head.visit_at);
  moment(object.optional("asked_at", "when this is asked, ISO 8601 with its offset; at the visit"),
         head.asked_at);
  Value& tests = object.optional("tests", "dated skin tests and colours");
  if (!tests.wanted(head.tests.has_value())) return;
  process::TestsRecord record = head.tests.value_or(process::TestsRecord{});
  tests.object([&](Object& fields) { process::describe(fields, record); });
  head.tests = std::move(record);
}

namespace {

/// A path of the record as the file has it: read_at for read, product and shade unwrapped.
std::string as_in_file(std::string where) {
  const auto ends = [&](std::string_view with) { return where.ends_with(with); };
  if (ends(".read")) where += "_at";
  if (ends(".colour")) where.resize(where.size() - std::string_view(".colour").size());
  return where;
}

/// Days since the last relaxer, from its date, for hair that had one and does not say.
void fill_texture(plan::Case& head) {
  const auto days = process::days_since_relaxer_or_smoothing(*head.tests, *head.visit_at);
  for (plan::ZoneCase& zone : head.zones) {
    process::TextureServices& past = zone.facts.texture;
    const bool served = past.relaxed_hydroxide || past.relaxed_other || past.smoothed;
    if (served && !past.days_since_relaxer_or_smoothing) {
      past.days_since_relaxer_or_smoothing = days;
    }
  }
}

}  // namespace

Result<void> check_dates(plan::Case& head) {
  if (head.asked_at && head.visit_at && *head.asked_at > *head.visit_at) {
    return fail(ErrorCode::conflict, "this is asked after the visit", "asked_at",
                "check both times and their offsets");
  }
  if ((head.asked_at || head.tests) && !head.visit_at) {
    return fail(ErrorCode::missing, "nobody says when the visit is", "visit_at",
                "give the time of the first bowl, as 2025-03-30T10:00+02:00");
  }
  if (!head.tests) return {};
  if (head.person.skin_test != process::SkinTest::not_done) {
    return fail(ErrorCode::conflict, "skin tests are told twice", "person.skin_test",
                "leave it out: tests says it with dates");
  }
  const auto record = process::checked(*head.tests, "tests");
  if (!record) {
    Error error = record.error();
    error.where = as_in_file(error.where);
    return tl::unexpected(error);
  }
  fill_texture(head);
  return {};
}

}  // namespace hw::wire
