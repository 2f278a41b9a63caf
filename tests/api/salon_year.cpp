#include "salon_year.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>

namespace hw::test {
namespace {

using nlohmann::json;

constexpr int kOpen = 10 * 60;     // minute of the day
constexpr int kOpening = 371;      // days ago: the first visit is booked, the shelf stands
constexpr int kStockTaking = 183;  // days ago
constexpr int kPriceRise = 150;    // likewise, and so on
constexpr int kBackup = 160;
constexpr int kErasure = 100;
constexpr int kTestHolds = 84;  // days a skin test carries to the next visit (job: 12 weeks)
constexpr Cents kDeposit = 2000;

std::string source(const std::string& path) {
  return std::string(std::getenv("HW_SOURCE_DIR")) + "/" + path;
}

json read_json(const std::string& path) {
  std::ifstream in(path);
  return json::parse(in);
}

double number(long long value, int digits) {
  return std::stod(decimal(value, digits));
}

json fact(const char* kind, const ClockTime& at, json body) {
  return {{"kind", kind}, {"at", at.iso()}, {"body", std::move(body)}};
}

/// Of one tube, bottle or tub: what is in it, what it costs, and so on. Invented.
struct Stocked {
  const char* id;
  Tenths size;
  Cents price;
  int lead_days;
  Cents order_cost;
  int packs;       ///< bought to begin with
  Tenths least;    ///< more is bought below it
  int packs_more;  ///< so many
};
constexpr Stocked kStocked[] = {
    {"powder-open", 5000, 2790, 5, 0, 1, 0, 0},
    {"cream-scalp", 5000, 3450, 10, 650, 2, 1000, 1},
    {"dev-3", 10000, 985, 7, 495, 2, 6000, 2},
    {"dev-6", 10000, 985, 7, 495, 1, 0, 0},
    {"dev-9", 10000, 985, 7, 495, 1, 0, 0},
    {"wash-mild", 10000, 1190, 3, 0, 1, 0, 0},
    {"demi-mahogany-walnut", 600, 725, 14, 495, 6, 1200, 5},
    {"demi-red-hazel", 600, 725, 35, 495, 6, 1200, 4},
    {"demi-copper-straw", 600, 725, 14, 495, 2, 0, 0},
    {"demi-walnut", 600, 640, 9, 0, 5, 1200, 4},
    {"demi-clear", 5000, 2200, 14, 0, 1, 0, 0},
    {"mask-red-hazel", 2500, 1505, 21, 495, 3, 1200, 2},
    {"mask-clear", 2500, 1105, 21, 495, 1, 0, 0},
};

}  // namespace

Ran SalonYear::run(const std::string& arguments, const std::string& input) const {
  return run_program(arguments, input,
                     "HUEWRIGHT_BOOK=" + folder() + "/salon HUEWRIGHT_BY=Ines " + kZone);
}

json SalonYear::answer(const std::string& arguments, const std::string& input,
                       int exit_code) const {
  const Ran ran = run(arguments + " --json", input);
  EXPECT_EQ(ran.exit_code, exit_code) << arguments << '\n' << ran.err << input;
  json said = json::parse(ran.out, nullptr, false);
  EXPECT_FALSE(said.is_discarded()) << arguments << '\n' << ran.out.substr(0, 500);
  return said;
}

const SalonClient& SalonYear::client(const std::string& name) const {
  return *std::ranges::find(clients, name, &SalonClient::name);
}

const OwnVisit& SalonYear::visit_of(const std::string& name, int ago) const {
  const SalonClient& who = client(name);
  const auto which = static_cast<std::size_t>(std::ranges::find(who.agos, ago) - who.agos.begin());
  return own.visits.at(who.visits.at(which));
}

Tenths SalonYear::some(Tenths least, Tenths most) {
  chance_ = chance_ * 6364136223846793005ULL + 1442695040888963407ULL;
  return least +
         static_cast<Tenths>((chance_ >> 33) % static_cast<unsigned long long>(most - least));
}

void SalonYear::record(const std::string& subject, const Facts& facts, const char* command) {
  answer(std::string(command) + " record " + subject + " -", json{{"facts", facts}}.dump());
}

SalonYear::SalonYear(const std::string& kind) : today(now_in_the_salon().day), book_(kind) {
  std::filesystem::create_directories(folder() + "/salon");
  if (kind == "postgresql") {
    std::ofstream(folder() + "/salon/connection") << book_.connection() << '\n';
  }
  set_up_shelf();
  set_up_clients();
  for (int ago = kOpening; ago > 0; --ago) live(ago);
  // One who was to come comes two days later.
  SalonClient& moved = *std::ranges::find(clients, "Lea Novak", &SalonClient::name);
  OwnVisit& next = own.visits.at(moved.visits.back());
  next.starts.day += 2;
  record(moved.visits.back(),
         json::array(
             {fact("booked", at(1, kOpen),
                   {{"client", moved.id}, {"starts_at", next.starts.iso()}, {"minutes", 150}})}));
}

void SalonYear::move(const std::string& product, Tenths grams, const std::string& why, int ago) {
  const ClockTime when = at(ago, 9 * 60);
  record(product,
         json::array({fact("movement", when, {{"grams", number(grams, 1)}, {"why", why}})}),
         "shelf");
  own.shelf[product].moves.push_back({why, "", when.iso(), when.day, grams});
}

void SalonYear::set_up_shelf() {
  const json shelf = read_json(source("cases/shelves/small.json"));
  for (const json& on : shelf["shelf"]) {
    json product = on;
    product.erase("price_per_g");  // the tube has a price
    product.erase("stock_g");
    const Stocked& stocked =
        *std::ranges::find_if(kStocked, [&](const Stocked& one) { return on["id"] == one.id; });
    answer("shelf add -", json{{"product", product},
                               {"size_g", number(stocked.size, 1)},
                               {"price", number(stocked.price, 2)},
                               {"lead_days", stocked.lead_days},
                               {"order_cost", number(stocked.order_cost, 2)}}
                              .dump());
    own.shelf[stocked.id] = {
        stocked.size, stocked.price, stocked.order_cost, stocked.lead_days, {}};
    move(stocked.id, stocked.packs * stocked.size, "bought", kOpening);
  }
}

void SalonYear::restock(int ago) {
  constexpr int kQuiet = 42;  // days at the end in which only what would run out is bought
  for (const Stocked& stocked : kStocked) {
    const Tenths least = ago > kQuiet ? stocked.least : stocked.least / 2;
    if (stocked.packs_more == 0 || own.shelf[stocked.id].grams() >= least) continue;
    move(stocked.id, (ago > kQuiet ? stocked.packs_more : 1) * stocked.size, "bought", ago);
  }
}

void SalonYear::set_up_clients() {
  const std::string mahogany = "demi-mahogany-walnut";
  const std::string walnut = "demi-walnut";
  const std::string red = "demi-red-hazel";
  // The salon is closed on today's day of the week, so that no visit lies on the edge of a week.
  clients = {
      {"Ada Mensah", mahogany, 360, 42, 78, 8450}, {"Zoë Okafor", mahogany, 358, 84, 85, 9620},
      {"Ana Bell", mahogany, 355, 42, 78, 7999},   {"Ama Boateng", walnut, 354, 49, 101, 6710},
      {"Bea Lind", walnut, 352, 42, 90, 7035},     {"Rosa Quint", mahogany, 349, 35, 120, 8890},
      {"Mara Tilde", walnut, 347, 42, 95, 9105},   {"Lea Novak", red, 345, 56, 80, 10310},
      {"Nia Obi", red, 341, 42, 78, 8633},         {"Pia Sand", red, 340, 42, 110, 7407}};
  for (SalonClient& client : clients) {
    const json person{{"name", client.name}, {"growth_cm_per_month", number(client.growth, 2)}};
    if (client.name == "Pia Sand") {  // who came before, on a paper card
      card_price = 18090;
      const ClockTime then = at(460, kOpen);
      const json facts{
          {{"kind", "outcome"}, {"body", {{"zone", "roots"}, {"level", 5}}}},
          {{"kind", "price"}, {"body", {{"money", number(card_price, 2)}}}},
          {{"kind", "payment"}, {"body", {{"money", number(card_price, 2)}, {"for", "visit"}}}}};
      client.id =
          answer("client card -",
                 json{{"client", person},
                      {"visits", json::array({json{{"starts_at", then.iso()}, {"facts", facts}}})}}
                     .dump())["id"];
    } else {
      client.id = answer("client add -", person.dump())["id"];
    }
    int ago = client.first_ago;
    client.agos.push_back(ago);
    while (ago > 0) {
      constexpr int kTooLate = 271;  // after this visit Ana stays away for a day more than 12 weeks
      const bool late = client.name == "Ana Bell" && ago == kTooLate;
      ago -= late ? kTestHolds + 1 : client.gap;
      if (client.name != "Bea Lind" || ago > kErasure) client.agos.push_back(ago);
    }
  }
}

void SalonYear::live(int ago) {
  constexpr int kDaysBefore = 10;
  constexpr int kTestBefore = 3;
  for (SalonClient& client : clients) {
    if (client.name == "Bea Lind" && ago <= kErasure) continue;
    for (std::size_t i = 0; i < client.agos.size(); ++i) {
      const bool last = client.agos[i] <= 0;  // booked when the one before ends
      if (ago == client.agos[i] + kDaysBefore && !last) book_visit(client, i);
      const bool first = i == 0;
      const bool again =
          client.name == "Ana Bell" && i > 0 && client.agos[i - 1] == 271 - kTestHolds - 1;
      if (ago == client.agos[i] + kTestBefore && (first || again)) skin_test(client, ago);
      if (ago == client.agos[i] && ago > 0) have_visit(client, i);
      if (last && i > 0 && ago == client.agos[i - 1]) book_visit(client, i);
    }
  }
  special(ago);
  restock(ago);
}

void SalonYear::book_visit(SalonClient& client, std::size_t which) {
  constexpr int kAfternoon = 14 * 60;
  const ClockTime starts = at(client.agos[which], which % 2 == 0 ? kOpen : kAfternoon);
  const std::string id = answer("visit book -", json{{"client", client.id},
                                                     {"starts_at", starts.iso()},
                                                     {"minutes", 150},
                                                     {"wish", "what " + client.name + " wishes"}}
                                                    .dump())["id"];
  client.visits.push_back(id);
  OwnVisit& visit = own.visits[id];
  visit.client = client.name;
  visit.starts = starts;
  if (client.agos[which] <= 0) return;  // no deposit yet
  visit.paid += kDeposit;
  const ClockTime paid{starts.day - 8, kOpen};
  record(id,
         json::array(
             {fact("quote", paid,
                   {{"low_money", 60}, {"high_money", 120}, {"low_h", 2}, {"high_h", 3}}),
              fact("payment", paid,
                   {{"money", number(kDeposit, 2)}, {"for", "deposit"}, {"way", "transfer"}})}));
}

void SalonYear::skin_test(SalonClient& client, int ago) {
  const ClockTime on = at(ago, 18 * 60);
  const ClockTime read{on.day + 2, on.minute + 30};  // 48.5 h later, 49.5 or 47.5 if clocks change
  const ClockTime late{read.day, read.minute + 60};
  const bool forward = hours_ahead(read.day) > hours_ahead(on.day);
  record(client.id,
         json::array({fact("skin_test", on,
                           {{"product", "house demi"},
                            {"shade", client.shade},
                            {"applied_at", on.iso()},
                            {"read_at", (forward ? late : read).iso()},
                            {"result", "clear"}})}),
         "client");
}

SalonYear::Facts SalonYear::pour(const std::string& visit, const std::string& bowl,
                                 const std::string& product, Tenths grams, const ClockTime& at,
                                 const std::string& fact_id) {
  own.visits[visit].bowls[bowl].grams[product] += grams;
  own.shelf[product].moves.push_back({"poured", visit, at.iso(), at.day, -grams});
  Facts made =
      fact("pour", at, {{"bowl", bowl}, {"product", product}, {"grams", number(grams, 1)}});
  if (!fact_id.empty()) made["id"] = fact_id;
  return made;
}

void SalonYear::colour(const SalonClient& client, const std::string& id, const ClockTime& start,
                       Facts& facts) {
  const ClockTime mixed{start.day, start.minute + 40};
  const ClockTime rinsed{start.day, start.minute + 75};
  const Tenths grams = client.name == "Rosa Quint" && today - start.day == 209 ? 550
                       : client.name == "Ana Bell" && today - start.day == 313 ? 600
                                                                               : some(243, 371);
  amendable_[id] = own.shelf[client.shade].moves.size();
  facts.push_back(pour(id, "1", client.shade, grams, mixed, "pour-" + id));
  facts.push_back(pour(id, "1", "dev-3", grams + grams / 2, mixed));
  facts.push_back(fact("apply", mixed, {{"bowl", "1"}, {"zone", "roots"}}));
  facts.push_back(fact("reading", rinsed,
                       {{"zone", "roots"}, {"when", "check"}, {"level", 4}, {"seen", "wiped"}}));
  facts.push_back(fact("rinse", rinsed, json::object()));
  OwnBowl& bowl = own.visits[id].bowls["1"];
  if (some(0, 10) < 3) {  // squeezed out too much, before it was mixed
    const Tenths back = some(11, 49);
    bowl.grams[client.shade] -= back;
    own.shelf[client.shade].moves.push_back({"put back", id, mixed.iso(), mixed.day, back});
    facts.push_back(fact("leftover", mixed,
                         {{"bowl", "1"}, {"product", client.shade}, {"grams", number(back, 1)}}));
  }
  bowl.thrown_away = some(5, 80);
  facts.push_back(
      fact("leftover", rinsed, {{"bowl", "1"}, {"grams", number(bowl.thrown_away, 1)}}));
  if (some(0, 3) == 0) {
    facts.push_back(pour(id, "2", "mask-red-hazel", some(150, 300), rinsed));
    facts.push_back(fact("apply", rinsed, {{"bowl", "2"}, {"zone", "lengths"}}));
  }
}

void SalonYear::pay(const std::string& id, const SalonClient& client, std::size_t which,
                    const ClockTime& start, Facts& facts) {
  constexpr int kTwoWeeks = 14;
  OwnVisit& visit = own.visits[id];
  const int ago = client.agos[which];
  Cents price = client.fee + (which % 3 == 2 ? 1255 : 0);
  const ClockTime end{start.day, start.minute + 150};
  const auto payment = [&](Cents money, const char* what_for, const ClockTime& when) {
    visit.paid += money;
    return fact("payment", when, {{"money", number(money, 2)}, {"for", what_for}, {"way", "card"}});
  };
  if (client.name == "Mara Tilde" && ago == 263) {  // a comma too far to the right, seen at once
    json wrong = fact("price", end, {{"money", number(price * 10, 2)}});
    wrong["id"] = "price-" + id;
    facts.push_back(wrong);
    json right = fact("price", end, {{"money", number(price, 2)}});
    right["amends"] = "price-" + id;
    facts.push_back(right);
  } else {
    facts.push_back(fact("price", end, {{"money", number(price, 2)}}));
  }
  if (client.name == "Lea Novak" && ago == 121) {  // takes a mask home
    price += 1990;
    facts.push_back(fact("price", end, {{"money", number(price, 2)}, {"how", "with a mask"}}));
    facts.push_back(payment(1990, "products", end));
  }
  visit.price = price;
  const Cents rest = price - visit.paid;
  if (client.name == "Nia Obi") {
    facts.push_back(payment(rest / 3, "visit", end));
    if (ago > kTwoWeeks) {
      facts.push_back(payment(rest - rest / 3, "visit", {end.day + kTwoWeeks, kOpen}));
    }
  } else {
    facts.push_back(payment(rest, "visit", end));
  }
  if (client.name == "Lea Novak" && ago == 233) {  // was not happy: some of it goes back
    facts.push_back(payment(-1515, "refund", end));
    visit.price = price - 1515;
    facts.push_back(fact("price", end, {{"money", number(*visit.price, 2)}}));
  }
}

void SalonYear::have_visit(SalonClient& client, std::size_t which) {
  const std::string id = client.visits[which];
  OwnVisit& visit = own.visits[id];
  const int ago = client.agos[which];
  const ClockTime start = visit.starts;
  if (client.name == "Mara Tilde" && ago == 305) {  // does not come; the deposit stays
    visit.stage = "cancelled";
    record(id, json::array({fact("cancelled", start, {{"why", "did not come"}})}));
    return;
  }
  const bool too_late = client.name == "Ana Bell" && ago == 271 - kTestHolds - 1;
  const bool reacted = client.name == "Ama Boateng" && ago < 100;
  if (which == 0 && ago >= 354) plan(client, which, true);
  if ((client.name == "Ada Mensah" && ago == 318) || (client.name == "Zoë Okafor" && ago == 274) ||
      too_late || (reacted && ago == 60)) {
    plan(client, which, false);
  }
  Facts facts = json::array();
  facts.push_back(fact("reading", start, {{"zone", "roots"}, {"when", "before"}, {"level", 2.5}}));
  if (too_late || reacted) {
    facts.push_back(
        fact("change", start,
             {{"change", "washed and dressed, no colour"}, {"agreed_by", client.name}}));
    facts.push_back(fact("treatment", start, {{"done", "mask and twists"}}));
  } else {
    colour(client, id, start, facts);
  }
  facts.push_back(fact("outcome", start, {{"zone", "roots"}, {"level", 4}}));
  pay(id, client, which, start, facts);
  // Refreshed after five weeks; half an inch grown, 13 mm, at the client's own growth. A mean month
  // is 365.25/12 days.
  constexpr int kFiveWeeks = 35;
  const JulianDay grown = 13LL * 36525 / (12LL * client.growth * 10);
  visit.refresh_on = date_text(start.day + kFiveWeeks);
  // Two are looked at sooner: one was yesterday, one is today.
  if (client.name == "Pia Sand" && ago == 4) visit.refresh_on = date_text(today - 1);
  if (client.name == "Nia Obi" && ago == 5) visit.refresh_on = date_text(today);
  visit.regrowth_on = date_text(start.day + grown);
  facts.push_back(fact("aftercare", {start.day, start.minute + 150},
                       {{"words", "what " + client.name + " was told"},
                        {"refresh_on", visit.refresh_on},
                        {"regrowth_on", visit.regrowth_on}}));
  record(id, facts);
  answer("visit finish " + id);
  visit.stage = "finished";
}

void SalonYear::plan(SalonClient& client, std::size_t which, bool from_file) {
  const std::string id = client.visits[which];
  const ClockTime start = own.visits[id].starts;
  std::string input;
  std::string arguments = "visit plan " + id;
  if (from_file) {
    json head = read_json(source("cases/01-coils-to-mahogany.json"));
    head["shelf"] = read_json(source("cases/shelves/small.json"))["shelf"];
    head.erase("shelf_file");
    head["visit_at"] = start.iso();
    head["asked_at"] = at(client.agos[which] + 1, kOpen).iso();
    for (json& test : head["tests"]["skin_tests"]) {
      test["applied_at"] = at(client.agos[which] + 5, kOpen).iso();
      test["read_at"] = at(client.agos[which] + 2, kOpen).iso();
    }
    input = head.dump();
    arguments += " -";
  }
  const Ran ran = run(arguments + " --json", input);
  EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 3) << ran.err;
  json said = json::parse(ran.out, nullptr, false);
  EXPECT_FALSE(said.is_discarded()) << ran.err;
  if (from_file) return;
  plans[client.name + " " + std::to_string(client.agos[which])] = {ran.exit_code, said, start,
                                                                   own.shelf};
}

void SalonYear::amend_pour(const std::string& name, int ago, Tenths wrong, Tenths right) {
  const SalonClient& who = client(name);
  const auto which = static_cast<std::size_t>(std::ranges::find(who.agos, ago) - who.agos.begin());
  const std::string id = who.visits.at(which);
  OwnVisit& visit = own.visits[id];
  Moved& moved = own.shelf[who.shade].moves[amendable_.at(id)];
  EXPECT_EQ(moved.grams, -wrong);
  moved.grams = -right;
  visit.bowls["1"].grams[who.shade] += right - wrong;
  json better = fact("pour", {visit.starts.day, visit.starts.minute + 40},
                     {{"bowl", "1"}, {"product", who.shade}, {"grams", number(right, 1)}});
  better["amends"] = "pour-" + id;
  record(id, json::array({better}));
}

void SalonYear::take_stock() {
  const JulianDay day = today - kStockTaking;
  for (auto& [id, product] : own.shelf) {
    constexpr Tenths kMissing = 125;
    const bool short_of_it = id == "demi-walnut";
    const Tenths found = product.grams() - (short_of_it ? kMissing : 0);
    const Ran ran = run("shelf count " + id + " " + decimal(found, 1));
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    if (short_of_it) said_at_count = ran.out;
    product.moves.push_back({"counted", "", "", day, found, true});
  }
}

/// A whole visit that never was, taken out by putting yesterday's backup back.
void SalonYear::lose_a_mistake() {
  const std::string name = answer("backup")["backups"][0];
  sleep(1);  // backups are named by the second
  const SalonClient& client = clients.front();
  const std::string id =
      answer("visit book -",
             json{{"client", client.id}, {"starts_at", at(kBackup, kOpen).iso()}}.dump())["id"];
  record(id, json::array({fact("pour", at(kBackup, kOpen),
                               {{"bowl", "1"}, {"product", client.shade}, {"grams", 500}}),
                          fact("price", at(kBackup, kOpen), {{"money", 777}})}));
  sleep(1);
  const Ran restored = run("restore " + name);
  EXPECT_EQ(restored.exit_code, 0) << restored.err;
  EXPECT_EQ(run("visit show " + id).exit_code, 2);
}

void SalonYear::special(int ago) {
  if (ago == 312) amend_pour("Ana Bell", 313, 600, 400);       // before the stock-taking
  if (ago == 175) amend_pour("Rosa Quint", 209, 550, 350);     // after it
  if (ago == 121) move("mask-red-hazel", -2500, "sold", ago);  // the one Lea takes home
  if (ago == 200) move("demi-walnut", -30, "spoilt", ago);
  if (ago == kStockTaking) take_stock();
  if (ago == kBackup) lose_a_mistake();
  if (ago == kPriceRise) {
    json product = answer("shelf list");
    for (json& on : product["shelf"]) {
      if (on["product"]["id"] != "demi-red-hazel") continue;
      own.shelf["demi-red-hazel"].price = 790;
      record("demi-red-hazel",
             json::array({fact("product", at(ago, kOpen),
                               {{"product", on["product"]},
                                {"size_g", 60},
                                {"price", 7.9},
                                {"lead_days", 35},
                                {"order_cost", 4.95}})}),
             "shelf");
    }
  }
  if (ago == 105) {
    record(client("Ama Boateng").id,
           json::array({fact(
               "allergy", at(ago, kOpen),
               {{"to", "hair dye"}, {"happened", "itching and swelling"}, {"told_by", "client"}})}),
           "client");
  }
  if (ago == kErasure) {
    EXPECT_EQ(answer("client erase " + client("Bea Lind").id)["erased"], true);
  }
}

}  // namespace hw::test
