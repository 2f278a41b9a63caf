// huewright shelf: what stands there, what a gram costs, what moved.
#include <fmt/format.h>

#include "huewright/book/ids.h"
#include "huewright/book/next_case.h"
#include "huewright/wire/case_file.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr std::size_t kDate = 10;  // letters of an ISO date

using wire::Object;
using wire::Value;

Result<Said> list(const Asked& asked, book::Folder& book) {
  auto shelf = book::shelf_of(book.store());
  if (!shelf) return tl::unexpected(shelf.error());
  if (asked.json) {
    return Said{wire::encode_fields([&](Object& object) {
                  object.required("shelf", "")
                      .list(
                          {0, shelf->size()}, shelf->size(), [](std::size_t) {},
                          [&](std::size_t i, Value& entry) {
                            entry.object([&](Object& one) {
                              wire::number(one.required("grams", ""), (*shelf)[i].grams);
                              one.required("known", "").flag((*shelf)[i].known);
                              one.required("opened_at", "")
                                  .text((*shelf)[i].opened_at, (*shelf)[i].opened_at.size());
                              one.required("lot", "").text((*shelf)[i].lot, (*shelf)[i].lot.size());
                              describe(one, (*shelf)[i].product);
                            });
                          });
                }) +
                '\n'};
  }
  if (shelf->empty()) return Said{"The shelf is empty: huewright shelf add FILE.\n"};
  std::string text =
      fmt::format("{:>9}  {:>9}  {:<10}  {:<24}  {}\n", "grams", "a gram", "opened", "product", "");
  for (const book::OnShelf& on : *shelf) {
    const double gram = on.product.size_g > 0 ? on.product.price / on.product.size_g
                                              : on.product.product.price_per_g;
    text += told_line(fmt::format(
        "{:>9}  {:>9}  {:<10}  {:<24}  {}",
        on.known ? decimal(spoken(), on.grams, 1) : std::string(said(spoken(), "not known")),
        decimal(spoken(), gram, 3), on.opened_at.substr(0, kDate), on.product.product.id,
        on.product.product.words));
  }
  return Said{text};
}

Result<Said> add(const Asked& asked, book::Folder& book) {
  const auto product = message_at<book::ProductFact>(asked, 0);
  if (!product) return tl::unexpected(product.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const std::string input = name_of_input(asked.words[1]) + ": product";
  if (const auto sound = wire::check_product(product->product, input); !sound) {
    return tl::unexpected(sound.error());
  }
  const std::string id = product->product.id;
  const book::Fact fact = book::make_fact(book::new_id(), id, hand->at, hand->by, *product);
  return stored(asked, book, {&fact, 1}, id, [&](std::size_t i, const std::string& key) {
    return key == "subject" ? input + ".id" : in_body(asked, 0)(i, key);
  });
}

/// A whole shelf file, with the stock it states as bought.
Result<Said> load(const Asked& asked, book::Folder& book) {
  const auto file = message_at<wire::ShelfFile>(asked, 0);
  if (!file) return tl::unexpected(file.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  std::vector<book::Fact> facts;
  std::vector<std::string> places;
  for (const process::Product& product : file->shelf) {
    book::ProductFact made;
    made.product = product;
    made.product.stock.reset();
    const std::string place =
        fmt::format("{}: shelf[{}]", name_of_input(asked.words[1]), &product - file->shelf.data());
    if (const auto sound = wire::check_product(product, place); !sound) {
      return tl::unexpected(sound.error());
    }
    facts.push_back(book::make_fact(book::new_id(), product.id, hand->at, hand->by, made));
    places.push_back(place);
    if (!product.stock) continue;
    facts.push_back(book::make_fact(book::new_id(), product.id, hand->at, hand->by,
                                    book::CountFact{product.stock->value()}));
    places.push_back(place);
  }
  return stored(asked, book, facts, "shelf", [&](std::size_t i, const std::string& key) {
    return key == "subject" ? places[i] + ".id" : places[i];
  });
}

Result<Said> ledger(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a product");
  if (!id) return tl::unexpected(id.error());
  const auto lines = book.store().ledger(*id);
  if (!lines) return tl::unexpected(lines.error());
  if (asked.json) {
    return Said{wire::encode_fields([&](Object& object) {
                  object.required("movements", "")
                      .list(
                          {0, lines->size()}, lines->size(), [](std::size_t) {},
                          [&](std::size_t i, Value& entry) {
                            entry.object([&](Object& one) {
                              book::LedgerLine line = (*lines)[i];
                              const auto put = [&](std::string_view key, std::string& text) {
                                one.required(key, "").text(text, text.size());
                              };
                              put("at", line.at);
                              put("why", line.why);
                              put("visit", line.visit);
                              wire::number(one.required("grams", ""), line.grams);
                              one.required("counted", "").flag(line.counted);
                            });
                          });
                }) +
                '\n'};
  }
  std::string text;
  double grams = 0;
  for (const book::LedgerLine& line : *lines) {
    grams = line.counted ? line.grams : grams + line.grams;
    text += fmt::format("{}  {:<10} {:>9}  {:>9}  {}\n", line.at.substr(0, 16), line.why,
                        line.counted ? "=" + plain(line.grams, 1) : plain(line.grams, 1),
                        plain(grams, 1), line.visit);
  }
  return Said{text.empty() ? "Nothing moved yet.\n" : text};
}

Result<Said> record_product(const Asked& asked, book::Folder& book) {
  return record(asked, book, book::About::product);
}

}  // namespace

Result<Said> run_shelf(const Asked& asked) {
  static constexpr std::array kVerbs{Verb{"list", list},      Verb{"add", add},
                                     Verb{"load", load},      Verb{"record", record_product},
                                     Verb{"ledger", ledger},  Verb{"count", count_product},
                                     Verb{"reorder", reorder}};
  return run_verb(asked, kVerbs);
}

}  // namespace hw::apps
