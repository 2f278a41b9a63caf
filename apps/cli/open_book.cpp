#include "open_book.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <ctime>

#include "huewright/base/control.h"
#include "huewright/book/shelf_facts.h"
#include "huewright/wire/case_file.h"
#include "page.h"

namespace hw::apps {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

/// A fact's body as a person reads it: the JSON object without its outer braces.
std::string body_text(const book::Fact& fact) {
  constexpr std::size_t kLong = 300;  // bytes; a plan's case and answer are thousands
  if (fact.body.size() > kLong) return fmt::format("{} bytes, see --json", fact.body.size());
  return fact.body.substr(1, fact.body.size() - 2);
}

}  // namespace

std::string option_of(const Asked& asked, std::string_view flag) {
  const auto at = asked.options.find(flag);
  return at == asked.options.end() ? "" : at->second;
}

process::Moment now() {
  const auto utc = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const std::time_t seconds = std::chrono::system_clock::to_time_t(utc);
  std::tm local{};
  localtime_r(&seconds, &local);
  return {utc, std::chrono::minutes(local.tm_gmtoff / 60)};
}

Result<std::string> book_path(const Asked& asked) {
  std::string path = option_of(asked, "--book");
  if (path.empty()) path = environment("HUEWRIGHT_BOOK");
  if (path.empty()) {
    return fail(ErrorCode::missing, "no data folder is named", "--book",
                "give --book FOLDER, or set HUEWRIGHT_BOOK");
  }
  return path;
}

Result<std::unique_ptr<book::Folder>> open_book(const Asked& asked) {
  const auto path = book_path(asked);
  if (!path) return tl::unexpected(path.error());
  return book::Folder::open(*path);
}

Result<book::Hand> hand_of(const Asked& asked) {
  std::string by = option_of(asked, "--by");
  if (by.empty()) by = environment("HUEWRIGHT_BY");
  if (by.empty()) {
    return fail(ErrorCode::missing, "nobody is named who writes this", "--by",
                "give --by NAME, or set HUEWRIGHT_BY");
  }
  bool plain = by.size() <= book::kMostName;
  for (std::size_t at = 0; at < by.size(); ++at) plain = plain && control_at(by, at) == 0;
  if (plain) return book::Hand{by, process::iso_text(now())};
  return fail(ErrorCode::malformed, "is no name", "--by",
              fmt::format("give at most {} plain letters", book::kMostName));
}

Result<std::string> word_at(const Asked& asked, std::size_t i, std::string_view what) {
  if (i + 1 < asked.words.size()) return asked.words[i + 1];
  return fail(ErrorCode::missing, fmt::format("{} is missing", what), "command line",
              "huewright --help explains");
}

Result<Said> run_verb(const Asked& asked, std::span<const Verb> verbs) {
  std::string names;
  for (const Verb& verb : verbs) names += (names.empty() ? "" : ", ") + std::string(verb.name);
  if (asked.words.empty()) {
    return fail(ErrorCode::missing, "nothing is asked of the book", "command line",
                "give one of " + names);
  }
  for (const Verb& verb : verbs) {
    if (verb.name != asked.words.front()) continue;
    const auto book = open_book(asked);
    if (!book) return tl::unexpected(book.error());
    return verb.run(asked, **book);
  }
  return fail(ErrorCode::unknown_name, "\"" + asked.words.front() + "\" is nothing it can do",
              "command line", "give one of " + names);
}

Result<Said> stored(const Asked& asked, book::Folder& book, std::span<const book::Fact> facts,
                    const std::string& subject, const book::Place& place) {
  const auto places = book.store().append(facts);
  if (!places) return tl::unexpected(book::in_input(places.error(), place));
  if (!asked.json) {
    // The id stands first, for whoever cuts it out of the line.
    return Said{as_it_is(facts.size() == 1 ? said(spoken(), "{0}  (1 fact written)", {subject})
                                           : said(spoken(), "{0}  ({1} facts written)",
                                                  {subject, std::to_string(facts.size())}))};
  }
  std::vector<std::string> ids;
  for (const book::Fact& fact : facts) ids.push_back(fact.id);
  std::string id = subject;
  return Said{wire::encode_fields([&](wire::Object& object) {
                object.required("id", "").text(id, id.size());
                wire::texts(object.required("facts", ""), ids, {0, ids.size()}, 0);
              }) +
              '\n'};
}

Result<Said> record(const Asked& asked, book::Folder& book, book::About about) {
  const auto subject = word_at(asked, 0, fmt::format("the id of a {}", word_of(about)));
  if (!subject) return tl::unexpected(subject.error());
  const auto file = message_at<book::RecordFile>(asked, 1);
  if (!file) return tl::unexpected(file.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const std::string input = name_of_input(asked.words[2]) + ": ";
  if (const auto fit = book::must_be_about(file->facts, about, input + "facts"); !fit) {
    return tl::unexpected(fit.error());
  }
  const auto facts = book::filled(file->facts, *subject, *hand);
  for (std::size_t i = 0; i < facts.size(); ++i) {
    if (facts[i].kind == "lesson") {
      return fail(ErrorCode::conflict, "a lesson is not written by hand",
                  input + fmt::format("facts[{}].kind", i),
                  "leave it out: huewright visit finish writes it");
    }
    if (facts[i].kind != book::ProductFact::kKind) continue;
    const auto product = book::body_of<book::ProductFact>(facts[i]).product;
    const auto sound =
        wire::check_product(product, input + fmt::format("facts[{}].body.product", i));
    if (!sound) return tl::unexpected(sound.error());
  }
  return stored(asked, book, facts, *subject, [&](std::size_t i, const std::string& key) {
    if (key == "subject") return fmt::format("the id of a {}", word_of(about));
    return input + fmt::format("facts[{}]{}{}", i, key.empty() ? "" : ".", key);
  });
}

book::Place in_body(const Asked& asked, std::size_t word) {
  return [input = name_of_input(asked.words[word + 1])](std::size_t, const std::string& key) {
    constexpr std::string_view kBody = "body.";
    return input + (key.starts_with(kBody) ? ": " + key.substr(kBody.size()) : std::string());
  };
}

std::string facts_text(std::span<const book::Fact> facts) {
  std::string text;
  for (const book::Fact& fact : facts) {
    const std::string label = fmt::format("  {}  {:<12} ", fact.at.substr(0, 16), fact.kind);
    text += wrapped(
        body_text(fact) + "  — " + fact.by + (fact.amends.empty() ? "" : ", amends " + fact.amends),
        label.size(), label);
  }
  return text;
}

}  // namespace hw::apps
