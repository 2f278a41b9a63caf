// The shelf: what stands there, what a gram costs, what moved, what to order.
#include "handler_parts.h"
#include "handlers.h"
#include "huewright/book/ids.h"
#include "huewright/book/reorder.h"

namespace hw::server {
namespace {

Json product_json(const book::OnShelf& on) {
  Json one = Json::parse(wire::encode(on.product.product));
  one["grams"] = on.grams;
  one["known"] = on.known;
  one["opened_at"] = on.opened_at;
  one["lot"] = on.lot;
  one["size_g"] = on.product.size_g;
  one["price"] = on.product.price;
  one["lead_days"] = on.product.lead_days;
  one["order_cost"] = on.product.order_cost;
  return one;
}

}  // namespace

Result<Reply> shelf(Service& service, const Request&) {
  const auto book = service.book();
  const auto all = book::shelf_of(book.store());
  if (!all) return tl::unexpected(all.error());
  Json body;
  body["shelf"] = Json::array();
  for (const book::OnShelf& on : *all) body["shelf"].push_back(product_json(on));
  return reply(body);
}

Result<Reply> add_product(Service& service, const Request& request) {
  const auto product = message_of<book::ProductFact>(request.body);
  if (!product) return tl::unexpected(product.error());
  if (const auto sound = wire::check_product(product->product, "product"); !sound) {
    return tl::unexpected(sound.error());
  }
  const book::Hand hand = service.hand(request.name);
  const std::string& id = product->product.id;
  const book::Fact fact = book::make_fact(book::new_id(), id, hand.at, hand.by, *product);
  return stored(service, {&fact, 1}, book::About::product, id, true);
}

Result<Reply> record_product(Service& service, const Request& request) {
  return record(service, request, book::About::product);
}

Result<Reply> ledger(Service& service, const Request& request) {
  const auto book = service.book();
  const auto lines = book.store().ledger(request.parts.at(0));
  if (!lines) return tl::unexpected(lines.error());
  Json body;
  body["movements"] = Json::array();
  double grams = 0;
  for (const book::LedgerLine& line : *lines) {
    grams = line.counted ? line.grams : grams + line.grams;
    Json one;
    one["at"] = line.at;
    one["why"] = line.why;
    one["visit"] = line.visit;
    one["grams"] = line.grams;
    one["counted"] = line.counted;
    one["left"] = grams;
    body["movements"].push_back(one);
  }
  return reply(body);
}

Result<Reply> reorder(Service& service, const Request&) {
  const auto book = service.book();
  const auto all = book::shelf_of(book.store());
  if (!all) return tl::unexpected(all.error());
  Json body;
  body["products"] = Json::array();
  for (const book::OnShelf& on : *all) {
    const auto lines = book.store().ledger(on.product.product.id);
    if (!lines) return tl::unexpected(lines.error());
    const book::Advice advice = book::advise(on, *lines, service.now().utc);
    Json one;
    one["product"] = advice.product;
    one["words"] = on.product.product.words;
    one["known"] = advice.known;
    one["grams"] = advice.grams;
    one["week_g"] = advice.week_g;
    one["weeks_left"] = advice.weeks_left;
    one["order_at_g"] = advice.order_at_g;
    one["order"] = advice.order;
    one["order_g"] = advice.order_g;
    one["packs"] = advice.packs;
    body["products"].push_back(one);
  }
  return reply(body);
}

}  // namespace hw::server
