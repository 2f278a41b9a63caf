#include "book_server.h"

#include <fmt/format.h>

#include <array>

#include "book_fill.h"
#include "book_measure.h"
#include "huewright/book/files.h"
#include "huewright/book/folder.h"

namespace hw::bench {
namespace {

constexpr std::array kWorks{kFind, kOpen, kOpenPlans, kAppend, kSync};

Measured on_sqlite(const std::string& folder, const Salon& salon) {
  (void)value_of(fill(folder, salon));
  return measured_open(folder, salon);
}

Measured on_server(const std::string& folder, const std::string& connection, const Salon& salon) {
  for (const std::string& part : {folder, folder + "/photos"}) {
    if (auto made = book::make_folder(part); !made) give_up(one_line(made.error()));
  }
  if (auto named = book::write_file(folder + "/connection", connection + '\n'); !named) {
    give_up(one_line(named.error()));
  }
  {
    const auto book = value_of(book::Folder::open(folder));
    (void)value_of(fill(book->store().sql(), salon));
    // A server does so by itself sooner or later, hardly before a run as short as this ends.
    if (auto known = book->store().sql().script("ANALYZE"); !known) {
      give_up(one_line(known.error()));
    }
  }
  return measured_open(folder, salon);
}

}  // namespace

void print_servers(const std::string& folder, const std::string& connection, const Salon& salon) {
  const Measured file = on_sqlite(folder + "/sqlite", salon);
  const Measured server = on_server(folder + "/postgresql", connection, salon);
  constexpr double kHalf = 0.5;
  constexpr double kP99 = 0.99;
  fmt::print(
      "\n### The same salon on both databases\n\n{} clients, {} visits; the server on a socket of "
      "this machine. Times are the wall clock's.\n\n"
      "| work | SQLite, median [ms] | 99 % [ms] | PostgreSQL, median [ms] | 99 % [ms] | ratio of "
      "medians |\n|---|--:|--:|--:|--:|--:|\n",
      salon.clients(), salon.visits());
  for (const char* work : kWorks) {
    const std::vector<double>& one = file.of.at(work).wall_ms;
    const std::vector<double>& other = server.of.at(work).wall_ms;
    fmt::print("| {} | {:.2f} | {:.2f} | {:.2f} | {:.2f} | {:.1f} |\n", work, at_part(one, kHalf),
               at_part(one, kP99), at_part(other, kHalf), at_part(other, kP99),
               at_part(other, kHalf) / at_part(one, kHalf));
  }
  if (file.found != server.found || file.looked_for != server.looked_for) {
    give_up(fmt::format("SQLite found {} of {} people, PostgreSQL {} of {}", file.found,
                        file.looked_for, server.found, server.looked_for));
  }
}

}  // namespace hw::bench
