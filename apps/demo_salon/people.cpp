#include "people.h"

#include <fmt/format.h>

#include "huewright/book/store.h"
#include "huewright/plan/learn.h"
#include "pen.h"

namespace hw::demo {
namespace {

constexpr std::uint64_t kPeople = 1'000'000'000, kEyes = 1'100'000'000;  // streams

struct Tongue {
  const char* language;
  std::array<const char*, 6> given;
  std::array<const char*, 5> family;
};

/// Family names are words of the trade or of the landscape, so that they are plainly made up.
constexpr std::array<Tongue, 12> kTongues{{
    {"en",
     {"Imogen", "Delphine", "Tamsin", "Keziah", "Odette", "Maud"},
     {"Copperfold", "Hazelwick", "Twistle", "Amberley-Foam", "O'Ringlet"}},
    {"de",
     {"Käthe", "Jördis", "Anneliese", "Gundula", "Frauke", "Zoë"},
     {"Lockenhügel", "Färbermühl", "Strähnweiß", "Kupferbach", "Bürstenau"}},
    {"fr",
     {"Hélène", "Anaïs", "Solène", "Gaëlle", "Fantine", "Noémie"},
     {"Châtainval", "Bouclette", "Desmèches", "Rousselune", "Peigneciel"}},
    {"yo",
     {"Adéọlá", "Fúnmiláyọ̀", "Títílayọ̀", "Bùnmi", "Ṣadé", "Yétúndé"},
     {"Irunwura", "Àwọ̀dára", "Odòpupa", "Ewédúdú", "Òkèmọ́"}},
    {"pl",
     {"Łucja", "Bożena", "Żaneta", "Grażyna", "Świętosława", "Jadwiga"},
     {"Warkoczyk", "Rudogórska", "Grzebieńska", "Kędziorek", "Łąkowłosa"}},
    {"pt",
     {"Inês", "Conceição", "Lurdes", "Graça", "Antónia", "Érica"},
     {"Caracóis", "Cobrelinda", "Pentenova", "Madeixa", "Rioruivo"}},
    {"tr",
     {"Çiğdem", "Gülşen", "Işıl", "Ömür", "Şule", "Tuğba"},
     {"Saçlıdağ", "Bakırkaya", "Örgücü", "Kınalıgöl", "Tarakbaş"}},
    {"es",
     {"Begoña", "Itziar", "Ximena", "Rocío", "Belén", "Macarena"},
     {"Rizofino", "Cobreluz", "Peñatrenza", "Castañuelo", "Montecana"}},
    {"so",
     {"Hodan", "Ifrah", "Sagal", "Ladan", "Ubah", "Deqa"},
     {"Timacade", "Midabyare", "Buurcas", "Dhulmadow", "Webicad"}},
    {"vi",
     {"Bích", "Thảo", "Ngọc", "Quỳnh", "Hạnh", "Diễm"},
     {"Tócmây", "Nâusông", "Lượcvàng", "Suốiđỏ", "Núixoăn"}},
    {"sv",
     {"Åsa", "Märta", "Gunnvor", "Svea", "Ylva", "Öllegård"},
     {"Lockström", "Kopparåker", "Hårviken", "Flätsjö", "Rödbäck"}},
    {"hr",
     {"Đurđica", "Željka", "Snježana", "Višnja", "Zorica", "Nediljka"},
     {"Kovrčić", "Bakreni-Žal", "Pletenica", "Češljar", "Smeđogorac"}},
}};

/// Numbers that regulators of four countries keep for films and books.
std::string phone(Chance& chance) {
  switch (chance.below(4)) {
    case 0:
      return fmt::format("07700 900{:03}", chance.below(1000));
    case 1:
      return fmt::format("202-555-01{:02}", chance.below(100));
    case 2:
      return fmt::format("06 39 98 {:02} {:02}", chance.below(100), chance.below(100));
    default:
      return fmt::format("+49 30 23125 {:03}", chance.below(1000));
  }
}

std::string email(const std::string& given, Chance& chance) {
  std::string plain;
  for (const std::string& word : book::search_words(given)) plain += word;
  constexpr std::array kPlaces = {"example.com", "example.org", "example.net"};
  return fmt::format("{}{}@{}", plain, chance.below(100), chance.pick(kPlaces));
}

constexpr std::array kNotes = {"",
                               "",
                               "",
                               "Comes by bus, sometimes late.",
                               "Likes it quiet.",
                               "Swims twice a week.",
                               "Tea without milk.",
                               "Sits badly for long: a break each hour."};

}  // namespace

std::array<Colourist, 3> colourists(std::uint64_t seed) {
  std::array<Colourist, 3> all{{{"Ilke", "window", 0, false, 1.0},
                                {"Moa", "middle", 0, true, 0.95},
                                {"Teju", "door", 0, false, 1.1}}};
  Chance chance(seed, kEyes);
  const double sd = plan::factor_prior(plan::FactorKind::reader_bias).sd_between;
  for (Colourist& one : all) one.bias = sd * chance.normal();
  return all;
}

book::PersonFact person(std::uint64_t seed, std::size_t client) {
  // Walks over all languages; within one, over given and family names that share no divisor.
  Chance chance(seed, kPeople + client);
  const Tongue& tongue = kTongues[client % kTongues.size()];
  const std::size_t turn = client / kTongues.size();
  const char* given = tongue.given[turn % tongue.given.size()];
  const std::string family = tongue.family[turn % tongue.family.size()];
  // After thirty turns the pairs come again, with a second name.
  const std::size_t again = turn / (tongue.given.size() * tongue.family.size());
  const std::string second =
      again == 0 ? "" : "-" + std::string(tongue.family[(turn + again) % tongue.family.size()]);
  book::PersonFact made;
  made.name = fmt::format("{} {}{}", given, family, second);
  made.phone = phone(chance);
  if (!chance.one_in(3)) made.email = email(given, chance);
  made.language = tongue.language;
  made.birth_band = "adult";
  made.notes = chance.pick(kNotes);
  return made;
}

}  // namespace hw::demo
