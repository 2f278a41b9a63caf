// huewright client import: clients from another program, looked at before they are added.
#include "huewright/book/newcomers.h"

#include <fmt/format.h>

#include <algorithm>

#include "huewright/wire/csv.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

bool is_card(std::string_view text) {
  constexpr std::string_view kBegin = "BEGIN:VCARD";
  const auto at = text.find_first_not_of("\xEF\xBB\xBF\r\n ");
  return at != std::string_view::npos &&
         std::ranges::equal(text.substr(at, kBegin.size()), kBegin, [](char a, char b) {
           return (a >= 'a' && a <= 'z' ? static_cast<char>(a - 'a' + 'A') : a) == b;
         });
}

/// language: English for a program.
std::string state_of(const book::Newcomer& one, Language language) {
  if (!one.wrong.empty()) return retold(language, one.wrong);
  if (one.known_as.empty()) return std::string(said(language, "new"));
  return said(language, "there already, {0}", {one.known_as});
}

std::string list_text(const wire::Contacts& contacts, const std::vector<book::Newcomer>& all) {
  std::string text;
  for (const std::string& column : contacts.columns) text += "column " + column + '\n';
  for (const book::Newcomer& one : all) {
    std::string told = one.contact.name;
    for (const std::string& part :
         {one.contact.phone, one.contact.email, state_of(one, spoken())}) {
      if (!part.empty()) told += "; " + part;
    }
    text += as_it_is(told, 10, said(spoken(), "line {0}", {std::to_string(one.contact.line)}));
  }
  for (const wire::LeftOut& left : contacts.left_out) {
    text += as_it_is(said(spoken(), "left out: {0}", {retold(spoken(), left.why)}), 10,
                     said(spoken(), "line {0}", {std::to_string(left.line)}));
  }
  return text;
}

std::string list_json(const wire::Contacts& contacts, std::vector<book::Newcomer> all,
                      double added) {
  using wire::Object;
  using wire::Value;
  double left_out = static_cast<double>(contacts.left_out.size());
  return wire::encode_fields([&](Object& object) {
           wire::number(object.required("added", ""), added);
           wire::number(object.required("left_out", ""), left_out);
           object.required("clients", "")
               .list(
                   {0, all.size()}, all.size(), [](std::size_t) {},
                   [&](std::size_t i, Value& entry) {
                     entry.object([&](Object& one) {
                       double line = static_cast<double>(all[i].contact.line);
                       std::string state = state_of(all[i], Language::en);
                       wire::number(one.required("line", ""), line);
                       one.required("name", "")
                           .text(all[i].contact.name, all[i].contact.name.size());
                       one.required("state", "").text(state, state.size());
                     });
                   });
         }) +
         '\n';
}

}  // namespace

Result<Said> import_clients(const Asked& asked, book::Folder& book) {
  const auto file = word_at(asked, 0, "a file of contacts (vCard or CSV), or - for standard input");
  if (!file) return tl::unexpected(file.error());
  const auto text = read_input(*file, wire::kMostCsvBytes);
  if (!text) return tl::unexpected(text.error());
  const auto contacts = is_card(*text) ? wire::read_vcards(*text) : wire::read_contact_table(*text);
  if (!contacts) {
    Error error = contacts.error();
    error.where = name_of_input(*file) + (error.where.empty() ? "" : ": " + error.where);
    return tl::unexpected(error);
  }
  const auto all = book::look_at(book.store(), contacts->read);
  if (!all) return tl::unexpected(all.error());
  const auto fresh = std::ranges::count_if(*all, &book::Newcomer::can_come);
  if (!asked.options.contains("--write")) {
    if (asked.json) return Said{list_json(*contacts, *all, 0)};
    return Said{list_text(*contacts, *all) +
                as_it_is(said(spoken(),
                              "{0} would be added. Nothing is written yet: say it again with "
                              "--write.",
                              {std::to_string(fresh)}))};
  }
  const auto hand = hand_of(asked);
  if (!hand) return tl::unexpected(hand.error());
  const auto added = book::add_newcomers(book.store(), *all, *hand);
  if (!added) return tl::unexpected(added.error());
  if (asked.json) return Said{list_json(*contacts, *all, static_cast<double>(*added))};
  return Said{as_it_is(said(spoken(), "{0} added, {1} there already, {2} left out.",
                            {std::to_string(*added), std::to_string(all->size() - *added),
                             std::to_string(contacts->left_out.size())}))};
}

}  // namespace hw::apps
