#pragma once
// A year of an invented salon through the command line: ten clients, some eighty visits, a shelf.
// What is typed is kept in books of the script's own at the same time, so that both can be
// compared.
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "own_books.h"
#include "program.h"
#include "support/books.h"

namespace hw::test {

struct SalonClient {
  std::string name, shade;
  int first_ago = 0;  ///< days before today of the first visit
  int gap = 42;       ///< days from visit to visit
  int growth = 78;    ///< hundredths of a centimetre a month
  Cents fee = 0;
  std::string id = {};
  std::vector<int> agos = {};            ///< of each visit; below 0: to come
  std::vector<std::string> visits = {};  ///< ids, in the same order
};

class SalonYear {
 public:
  /// Lives the year. kind: "sqlite" or "postgresql".
  explicit SalonYear(const std::string& kind);

  Ran run(const std::string& arguments, const std::string& input = "") const;
  /// The answer as JSON. The test fails where the program ends with neither `exit_code` nor an
  /// answer.
  nlohmann::json answer(const std::string& arguments, const std::string& input = "",
                        int exit_code = 0) const;
  [[nodiscard]] std::string folder() const { return book_.folder(); }
  [[nodiscard]] const SalonClient& client(const std::string& name) const;
  [[nodiscard]] const OwnVisit& visit_of(const std::string& name, int ago) const;

  OwnBooks own;
  JulianDay today = 0;
  std::vector<SalonClient> clients;
  /// What the program answered on the way.
  struct Planned {
    int exit_code = 0;
    nlohmann::json answer;
    ClockTime at;                             ///< of the visit
    std::map<std::string, OwnProduct> shelf;  ///< as it was then
  };
  std::map<std::string, Planned> plans;  ///< "Ada Mensah 318", from the book alone
  std::string said_at_count;             ///< by the stock-taking that found a difference
  Cents card_price = 0;                  ///< of the visit on an old paper card

 private:
  using Facts = nlohmann::json;
  struct Day;

  void set_up_shelf();
  void set_up_clients();
  void live(int ago);
  void special(int ago);
  void book_visit(SalonClient& client, std::size_t which);
  void skin_test(SalonClient& client, int ago);
  void have_visit(SalonClient& client, std::size_t which);
  void colour(const SalonClient& client, const std::string& id, const ClockTime& start,
              Facts& facts);
  void pay(const std::string& id, const SalonClient& client, std::size_t which,
           const ClockTime& start, Facts& facts);
  void plan(SalonClient& client, std::size_t which, bool from_file);
  void amend_pour(const std::string& name, int ago, Tenths wrong, Tenths right);
  void take_stock();
  void lose_a_mistake();
  void move(const std::string& product, Tenths grams, const std::string& why, int ago);
  void restock(int ago);
  Facts pour(const std::string& visit, const std::string& bowl, const std::string& product,
             Tenths grams, const ClockTime& at, const std::string& fact_id = {});
  void record(const std::string& subject, const Facts& facts, const char* command = "visit");
  [[nodiscard]] ClockTime at(int ago, int minute) const { return {today - ago, minute}; }
  Tenths some(Tenths least, Tenths most);

  FreshBook book_;
  std::map<std::string, std::size_t> amendable_;  ///< visit → place of its first pour in `moves`
  unsigned long long chance_ = 20260105;
};

}  // namespace hw::test
