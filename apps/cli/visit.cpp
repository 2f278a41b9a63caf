// huewright visit: what happens from the booking to the next one.
#include <fmt/format.h>

#include <charconv>
#include <thread>

#include "book_answers.h"
#include "case_input.h"
#include "huewright/book/ids.h"
#include "huewright/book/lessons.h"
#include "huewright/book/planning.h"
#include "huewright/book/replay.h"
#include "open_book.h"
#include "page.h"
#include "plan_report.h"
#include "replay_report.h"

namespace hw::apps {
namespace {

std::string lines_text(const std::vector<book::VisitLine>& visits) {
  std::string text;
  for (const book::VisitLine& visit : visits) {
    text += fmt::format("{}  {:<20}  {:<10}  {}\n", visit.id,
                        visit.starts_at.empty() ? "no date" : visit.starts_at, word_of(visit.stage),
                        visit.client);
  }
  return text.empty() ? "No visits.\n" : text;
}

Result<Said> list(const Asked& asked, book::Folder& book) {
  const auto client = word_at(asked, 0, "the id of a client");
  if (!client) return tl::unexpected(client.error());
  if (const auto known = book.store().client(*client); !known) {
    return tl::unexpected(known.error());
  }
  const auto visits = book.store().visits_of(*client);
  if (!visits) return tl::unexpected(visits.error());
  return Said{asked.json ? visits_json(*visits) : lines_text(*visits)};
}

/// The visits of one local day.
Result<Said> day(const Asked& asked, book::Folder& book) {
  const auto word = word_at(asked, 0, "a date");
  if (!word) return tl::unexpected(word.error());
  const auto date = process::date_from_iso(*word, "date");
  if (!date) return tl::unexpected(date.error());
  const auto offset = now().offset;
  const auto start = std::chrono::sys_seconds(std::chrono::sys_days(*date)) - offset;
  const auto utc = [](std::chrono::sys_seconds at) {
    const std::string text = process::iso_text(process::Moment{at, std::chrono::minutes(0)});
    return text.substr(0, text.find('+')) + "Z";
  };
  const auto visits = book.store().visits_between(utc(start), utc(start + std::chrono::days(1)));
  if (!visits) return tl::unexpected(visits.error());
  return Said{asked.json ? visits_json(*visits) : lines_text(*visits)};
}

Result<Said> book_visit(const Asked& asked, book::Folder& book) {
  const auto booking = message_at<book::BookedFact>(asked, 0);
  if (!booking) return tl::unexpected(booking.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const std::string id = book::new_id();
  const book::Fact fact = book::make_fact(book::new_id(), id, hand->at, hand->by, *booking);
  return stored(asked, book, {&fact, 1}, id, in_body(asked, 0));
}

std::string state_text(const book::VisitState& visit) {
  std::string text = as_it_is(said(spoken(), "Visit {0}, {1}, client {2}",
                                   {visit.id, said(spoken(), word_of(visit.stage)), visit.client}));
  for (const book::BowlState& bowl : visit.bowls) {
    std::string grams;
    for (const auto& [product, amount] : bowl.grams) {
      grams += fmt::format("{}{} g {}", grams.empty() ? "" : ", ", plain(amount, 1), product);
    }
    std::string zones;
    for (const std::string& zone : bowl.zones) zones += (zones.empty() ? "" : ", ") + zone;
    text += wrapped(fmt::format("{}; on {}; {} g left over", grams, zones.empty() ? "-" : zones,
                                plain(bowl.left_over_g, 1)),
                    10, "bowl " + bowl.name);
  }
  if (visit.price) {
    text += as_it_is(said(spoken(), "{0}, paid {1}, owed {2}",
                          {decimal(spoken(), *visit.price, 2), decimal(spoken(), visit.paid, 2),
                           decimal(spoken(), visit.owed(), 2)}),
                     10, said(spoken(), "price"));
  }
  return text + '\n';
}

Result<Said> show(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a visit");
  if (!id) return tl::unexpected(id.error());
  if (const auto known = book.store().visit(*id); !known) return tl::unexpected(known.error());
  const auto facts = book.store().facts_of(book::About::visit, *id);
  if (!facts) return tl::unexpected(facts.error());
  if (asked.json) return Said{facts_json(*id, *facts)};
  return Said{state_text(book::visit_of(*facts)) + facts_text(*facts)};
}

Result<Said> record_visit(const Asked& asked, book::Folder& book) {
  return record(asked, book, book::About::visit);
}

/// The course that --course names, held to those there are.
Result<std::size_t> course_of(const Asked& asked, std::size_t courses) {
  const std::string text = option_of(asked, "--course");
  if (text.empty()) return std::min<std::size_t>(1, courses);
  std::size_t course = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), course);
  if (read.ec == std::errc() && read.ptr == text.data() + text.size() && course <= courses) {
    return course;
  }
  return fail(ErrorCode::out_of_range, fmt::format("the plan has {} courses", courses), "--course",
              "give its number, from 1; 0 to choose none");
}

/// The case of a visit: of a file, or from the book.
Result<book::NextCase> case_of(const Asked& asked, book::Folder& book, const std::string& visit) {
  if (asked.words.size() > 2) {
    Asked of_file = asked;
    of_file.input = asked.words[2];
    const auto text = read_input(of_file.input);
    if (!text) return tl::unexpected(text.error());
    of_file.text = *text;
    auto file = read_case(of_file);
    if (file) return book::NextCase{*std::move(file), {}};
    Error error = file.error();
    error.where = name_of_input(of_file.input) + ": " + error.where;
    return tl::unexpected(error);
  }
  const auto facts = book.store().facts_of(book::About::visit, visit);
  if (!facts) return tl::unexpected(facts.error());
  const book::VisitState state = book::visit_of(*facts);
  // On the clock that it was booked by, which in winter is not the one of a summer's day.
  const auto at = process::moment_from_iso(state.booked.starts_at, "visit " + visit);
  if (!at) return tl::unexpected(at.error());
  return book::next_case_of(book.store(), state.client, *at);
}

Result<Said> plan_visit(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a visit");
  if (!id) return tl::unexpected(id.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  if (const auto known = book.store().visit(*id); !known) return tl::unexpected(known.error());
  const auto next = case_of(asked, book, *id);
  if (!next) return tl::unexpected(next.error());
  const auto as_read = wire::ready(next->file);
  if (!as_read) return tl::unexpected(as_read.error());
  const auto line = book.store().visit(*id);
  if (!line) return tl::unexpected(line.error());
  const auto learned = book::learned_for(book.store(), line->client);
  if (!learned) return tl::unexpected(learned.error());
  const Result<plan::Case> head = plan::with_learned(
      *as_read, *learned, {*id, line->client, std::string(book::kSalonName), hand->by});
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  auto plan = plan::plan_head(*head, *threads);
  if (!plan) return tl::unexpected(plan.error());
  wire::PlanAnswer answer{*head, *std::move(plan)};
  const auto course = course_of(asked, answer.plan.courses.size());
  if (!course) return tl::unexpected(course.error());
  const book::Fact fact = book::make_fact(book::new_id(), *id, hand->at, hand->by,
                                          book::plan_fact(HW_VERSION, next->file, answer, *course));
  const auto kept = book.store().append({&fact, 1});
  if (!kept) return tl::unexpected(kept.error());
  const int exit_code = answer.plan.refused() ? kExitRefused : kExitDone;
  if (asked.json) return Said{wire::encode(answer) + '\n', exit_code};
  std::string text;
  for (const std::string& told : next->told) text += wrapped(told, 2, "- ");
  for (const plan::Factor& factor : learned->factors) {
    if (!factor.sentence.empty()) text += wrapped(factor.sentence, 2, "- ");
  }
  return Said{text + (text.empty() ? "" : "\n") + plan_report(asked.look, answer), exit_code};
}

/// Ends a visit, and keeps what it taught.
Result<Said> finish(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a visit");
  if (!id) return tl::unexpected(id.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const auto line = book.store().visit(*id);
  if (!line) return tl::unexpected(line.error());
  const auto facts = book.store().facts_of(book::About::visit, *id);
  if (!facts) return tl::unexpected(facts.error());
  const auto shelf = book::shelf_of(book.store());
  if (!shelf) return tl::unexpected(shelf.error());
  const auto make = [&](const auto& body) {
    return book::make_fact(book::new_id(), *id, hand->at, hand->by, body);
  };
  std::vector<book::Fact> made{make(book::FinishedFact{})};
  const bool planned = book::visit_of(*facts).plan.has_value();
  if (planned) {
    const auto threads = make_thread_pool(std::thread::hardware_concurrency());
    const auto lesson = book::lesson_of(*facts, *shelf, *threads);
    if (!lesson) return tl::unexpected(lesson.error());
    made.push_back(make(*lesson));
  }
  const auto kept = book.store().append(made);
  if (!kept) return tl::unexpected(kept.error());
  const auto learned = book::learned_for(book.store(), line->client);
  if (!learned) return tl::unexpected(learned.error());
  const book::Fact salon = book::make_fact(
      book::new_id(), std::string(book::kSalonName), hand->at, hand->by,
      book::LearnedFact{static_cast<double>(learned->version), book::factors_json(*learned)});
  if (auto noted = book.store().append({&salon, 1}); !noted) return tl::unexpected(noted.error());
  if (asked.json) return Said{book::factors_json(*learned) + '\n'};
  std::string text = planned ? "Finished.\n" : "Finished. Without a plan it teaches nothing.\n";
  for (const plan::Factor& factor : learned->factors) {
    if (!factor.sentence.empty()) text += wrapped(factor.sentence, 2, "- ");
  }
  return Said{text};
}

/// A past visit, step by step.
Result<Said> replay(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a visit");
  if (!id) return tl::unexpected(id.error());
  auto source = book::replay_source(book.store(), *id);
  if (!source) return tl::unexpected(source.error());
  const auto threads = make_thread_pool(std::thread::hardware_concurrency());
  if (!source->head.zones.empty()) {
    auto plan = plan::plan_head(source->head, *threads);
    if (!plan) return tl::unexpected(plan.error());
    source->plan = *std::move(plan);
  }
  const book::Replay told = book::replay_of(*source, *threads);
  return Said{asked.json ? book::replay_json(told, false) + '\n' : replay_report(told)};
}

}  // namespace

Result<Said> run_visit(const Asked& asked) {
  static constexpr std::array kVerbs{Verb{"list", list},           Verb{"day", day},
                                     Verb{"book", book_visit},     Verb{"show", show},
                                     Verb{"record", record_visit}, Verb{"plan", plan_visit},
                                     Verb{"finish", finish},       Verb{"replay", replay},
                                     Verb{"calendar", calendar}};
  return run_verb(asked, kVerbs);
}

}  // namespace hw::apps
