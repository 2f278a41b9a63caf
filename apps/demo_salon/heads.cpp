#include "heads.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>

#include "huewright/colour/difference.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kHeads = 1'200'000'000;  // stream

/// In the order in which clients get them, so that a small salon sees much as well; left out are
/// those that are about a day's clock or shelf, and those whom nothing may be done to.
constexpr std::array kHeadsInTurn = {"01-coils-to-mahogany",  "03-relaxed-lengths",
                                     "05-a-third-white",      "25-movement-wanted",
                                     "12-black-box-colour",   "16-fine-short",
                                     "02-old-dark-ends",      "07-light-ends-going-dark",
                                     "08-blond-to-red-brown", "11-red-to-brown",
                                     "15-low-porosity-coils", "20-test-lapsed",
                                     "19-no-skin-test",       "22-pregnant",
                                     "26-sensitive-scalp",    "27-as-last-time",
                                     "30-little-money",       "31-four-hours",
                                     "32-two-hands",          "35-read-by-instrument",
                                     "06-four-fifths-white",  "10-orange-after-a-lift",
                                     "13-henna-suspected",    "14-swimmers-green",
                                     "17-coarse-long",        "28-a-photo-of-copper",
                                     "29-a-swatch-each",      "33-little-stock",
                                     "36-meet-the-ends"};

constexpr const char* kShelf = "medium";

Result<std::string> text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) {
    return fail(ErrorCode::io, "cannot be read", path, "name the folder of the cases: --cases");
  }
  return std::string(std::istreambuf_iterator<char>(in), {});
}

template <class Message>
Result<Message> read(const std::string& path) {
  const auto text = text_of(path);
  if (!text) return tl::unexpected(text.error());
  auto message = wire::decode<Message>(*text);
  if (message) return message;
  Error error = message.error();
  error.where = path + ": " + error.where;
  return tl::unexpected(error);
}

/// A level by eye is as far off as an eye, and a head is not its neighbour's.
void vary_reading(plan::Reading& reading, double levels) {
  constexpr double kLstarPerLevel = 5;  // about, for what is only meant to differ
  if (reading.level) reading.level = std::clamp(*reading.level + levels, 1.0, 9.5);
  if (reading.lab) reading.lab->l += kLstarPerLevel * levels;
}

std::string wish_of(const wire::CaseFile& file, Chance& chance) {
  constexpr std::array kWords = {"{}, please", "something like {}", "{} as in the picture",
                                 "{}, but not too bright", "back to {}"};
  const std::string word = file.target && file.target->source == plan::TargetSource::look
                               ? file.target->look
                           : file.target ? "this colour"
                                         : "lighter hair";
  return fmt::format(fmt::runtime(chance.pick(kWords)), word);
}

}  // namespace

Result<Stock> read_cases(const std::string& cases) {
  Stock stock;
  for (const char* name : kHeadsInTurn) {
    auto file = read<wire::CaseFile>(fmt::format("{}/{}.json", cases, name));
    if (!file) return tl::unexpected(file.error());
    stock.heads.push_back(*std::move(file));
  }
  auto shelf = read<wire::ShelfFile>(fmt::format("{}/shelves/{}.json", cases, kShelf));
  if (!shelf) return tl::unexpected(shelf.error());
  stock.shelf = std::move(shelf->shelf);
  // Soap caps hold water; a bowl is only known when all of it was weighed.
  process::Product water;
  water.id = "water";
  water.words = "from the tap";
  water.level = 0;
  stock.shelf.push_back(water);
  return stock;
}

FirstHead first_head(const Stock& stock, std::uint64_t seed, std::size_t client) {
  Chance chance(seed, kHeads + client);
  FirstHead made{stock.heads[client % stock.heads.size()], {}};
  plan::Case& head = made.file.head;
  made.file.shelf_file.clear();
  head.tests.reset();
  head.visit_at.reset();
  head.asked_at.reset();
  head.person.skin_test = process::SkinTest::not_done;
  head.person.consent = process::Consent::not_asked;
  const double longer = chance.uniform(0.85, 1.2);
  const double lighter = 0.5 * std::round(chance.uniform(-1, 1));
  for (plan::ZoneCase& zone : head.zones) {
    zone.from_cm = std::round(10 * longer * zone.from_cm) / 10;
    zone.to_cm = std::round(10 * longer * zone.to_cm) / 10;
    const bool natural = !zone.past.old_colour && zone.past.lightened == 0;
    for (plan::Reading& reading : zone.readings) vary_reading(reading, natural ? lighter : 0);
    if (zone.white_percent > 0) {
      zone.white_percent = std::clamp(zone.white_percent + chance.uniform(-8, 8), 0.0, 100.0);
    }
  }
  head.strand_um = std::clamp(head.strand_um + 3 * chance.normal(), 50.0, 100.0);
  head.hairs_per_cm2 = std::clamp(head.hairs_per_cm2 * chance.factor(0.08), 80.0, 320.0);
  head.habits.washes_per_week =
      std::clamp(std::round(2 * head.habits.washes_per_week * chance.factor(0.3)) / 2, 0.5, 5.0);
  made.wish = wish_of(made.file, chance);
  return made;
}

std::string another_look(const plan::Target& now, Chance& chance) {
  constexpr double kNear = 6, kFar = 22;  // CIEDE2000: another colour, not another world
  std::vector<std::string> words;
  for (const plan::Look& look : plan::default_looks()) {
    const auto target = plan::look(look.word);
    const double away = colour::delta_e_2000(now.centre, target->centre);
    const bool darker = target->centre.l <= now.centre.l + 4;
    if (away > kNear && away < kFar && darker && look.level > 2) words.push_back(look.word);
  }
  return words.empty() ? "chestnut" : chance.pick(words);
}

}  // namespace hw::demo
