// huewright shelf count and reorder: what is really there, and what to order.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "huewright/book/ids.h"
#include "huewright/book/reorder.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

Result<double> grams_of(const Asked& asked) {
  const auto word = word_at(asked, 1, "grams found by weighing");
  if (!word) return tl::unexpected(word.error());
  double grams = 0;
  const auto read = std::from_chars(word->data(), word->data() + word->size(), grams);
  const bool whole = read.ec == std::errc() && read.ptr == word->data() + word->size();
  if (whole && std::isfinite(grams)) return grams;
  return fail(ErrorCode::malformed, "\"" + *word + "\" is no number", "GRAMS",
              "give grams as 412.5");
}

std::string advice_text(const book::OnShelf& on, const book::Advice& advice) {
  if (!advice.known) {
    return fmt::format("{:<28} too little is known: {} weeks of the ledger, stock {}\n",
                       advice.product, advice.weeks, on.known ? "known" : "never counted");
  }
  std::string order = "-";
  if (advice.order) {
    order = advice.packs > 0
                ? said(spoken(), "order {0} of {1} g",
                       {std::to_string(advice.packs), decimal(spoken(), on.product.size_g, 0)})
                : said(spoken(), "order {0} g", {decimal(spoken(), advice.order_g, 0)});
  }
  return fmt::format("{:<28} {:>8} {:>8} {:>8} {:>8}  {}\n", advice.product, plain(advice.grams, 0),
                     plain(advice.week_g, 1), plain(advice.weeks_left, 1),
                     plain(advice.order_at_g, 0), order);
}

}  // namespace

Result<Said> count_product(const Asked& asked, book::Folder& book) {
  const auto id = word_at(asked, 0, "the id of a product");
  if (!id) return tl::unexpected(id.error());
  const auto grams = grams_of(asked);
  if (!grams) return tl::unexpected(grams.error());
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const auto shelf = book::shelf_of(book.store());
  if (!shelf) return tl::unexpected(shelf.error());
  const auto at = std::ranges::find_if(
      *shelf, [&](const book::OnShelf& on) { return on.product.product.id == *id; });
  const bool before = at != shelf->end() && at->known;
  const book::Fact fact =
      book::make_fact(book::new_id(), *id, hand->at, hand->by, book::CountFact{*grams});
  auto done = stored(asked, book, {&fact, 1}, *id, [](std::size_t, const std::string& key) {
    return key == "subject" ? "PRODUCT" : "GRAMS";
  });
  if (!done || asked.json || !before) return done;
  const std::string found = decimal(spoken(), *grams, 1);
  const std::string ledger = decimal(spoken(), at->grams, 1);
  const std::string apart = decimal(spoken(), std::abs(*grams - at->grams), 1);
  return Said{as_it_is(*grams < at->grams
                           ? said(spoken(), "{0}: {1} g found, {2} g by the ledger, {3} g missing.",
                                  {*id, found, ledger, apart})
                           : said(spoken(), "{0}: {1} g found, {2} g by the ledger, {3} g more.",
                                  {*id, found, ledger, apart}))};
}

Result<Said> reorder(const Asked& asked, book::Folder& book) {
  const auto shelf = book::shelf_of(book.store());
  if (!shelf) return tl::unexpected(shelf.error());
  std::vector<book::Advice> all;
  std::string text = fmt::format("{:<28} {:>8} {:>8} {:>8} {:>8}\n", "product", "grams", "a week",
                                 "weeks", "order at");
  for (const book::OnShelf& on : *shelf) {
    const auto ledger = book.store().ledger(on.product.product.id);
    if (!ledger) return tl::unexpected(ledger.error());
    all.push_back(book::advise(on, *ledger, now().utc));
    text += advice_text(on, all.back());
  }
  if (!asked.json) {
    return Said{all.empty() ? "The shelf is empty: huewright shelf add FILE.\n" : text};
  }
  return Said{wire::encode_fields([&](wire::Object& object) {
                object.required("products", "")
                    .list(
                        {0, all.size()}, all.size(), [](std::size_t) {},
                        [&](std::size_t i, wire::Value& entry) {
                          entry.object([&](wire::Object& one) {
                            book::Advice& advice = all[i];
                            double packs = advice.packs;
                            one.required("product", "").text(advice.product, advice.product.size());
                            one.required("known", "").flag(advice.known);
                            wire::number(one.required("grams", ""), advice.grams);
                            wire::number(one.required("week_g", ""), advice.week_g);
                            wire::number(one.required("week_sd_g", ""), advice.week_sd_g);
                            wire::number(one.required("weeks_left", ""), advice.weeks_left);
                            wire::number(one.required("order_at_g", ""), advice.order_at_g);
                            one.required("order", "").flag(advice.order);
                            wire::number(one.required("order_g", ""), advice.order_g);
                            wire::number(one.required("packs", ""), packs);
                          });
                        });
              }) +
              '\n'};
}

}  // namespace hw::apps
