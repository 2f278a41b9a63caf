#include "huewright/wire/contact.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>

#include "huewright/base/control.h"
#include "huewright/base/error_part.h"
#include "huewright/wire/csv.h"
#include "text_lines.h"

namespace hw::wire {
namespace {

// ---- vCard -------------------------------------------------------------------------------------

/// How much a property is preferred: 1 most, 100 least, 101 where nothing is said.
/// Source: RFC 6350 section 5.3 (PREF); TYPE=PREF is its form in version 3.0.
int preference_of(const std::string& parameters) {
  constexpr int kNone = 101;
  if (parameters.find("TYPE=PREF") != std::string::npos) return 1;
  const std::size_t at = parameters.find("PREF=");
  if (at == std::string::npos) return kNone;
  int number = kNone;
  const char* from = parameters.data() + at + std::string_view("PREF=").size();
  std::from_chars(from, parameters.data() + parameters.size(), number);
  return number >= 1 && number <= 100 ? number : kNone;
}

/// Parts of a structured value, each unescaped, without empty ones, run together.
std::string joined(std::string_view value, const char* between) {
  std::string text;
  for (const std::string& part : parts_of(value, ';')) {
    for (const std::string& item : parts_of(part, ',')) {
      const std::string plain = unescaped(item);
      if (!plain.empty()) text += (text.empty() ? "" : between) + plain;
    }
  }
  return text;
}

/// A name from its parts: prefixes, given, additional, family, suffixes.
std::string name_of_parts(std::string_view value) {
  constexpr std::array<std::size_t, 5> kOrder{3, 1, 2, 0, 4};
  const auto parts = parts_of(value, ';');
  std::string name;
  for (const std::size_t i : kOrder) {
    if (i >= parts.size()) continue;
    const std::string part = joined(parts[i], " ");
    if (!part.empty()) name += (name.empty() ? "" : " ") + part;
  }
  return name;
}

/// A telephone without the form it came in: tel:+1-555-555-0100;ext=102.
std::string phone_of(std::string_view value) {
  if (value.starts_with("tel:")) value.remove_prefix(4);
  std::string text(value);
  if (const std::size_t at = text.find(";ext="); at != std::string::npos) {
    text.replace(at, std::string_view(";ext=").size(), " ext ");
  }
  return unescaped(text);
}

class Card {
 public:
  explicit Card(std::size_t line) { contact_.line = line; }
  void take(const ContentLine& line) {
    const std::string& value = line.value;
    if (line.name == "FN") prefer(contact_.name, 0, line, unescaped(value));
    if (line.name == "N") parts_ = name_of_parts(value);
    if (line.name == "TEL") prefer(contact_.phone, 1, line, phone_of(value));
    if (line.name == "EMAIL") prefer(contact_.email, 2, line, unescaped(value));
    if (line.name == "ADR") prefer(contact_.address, 3, line, joined(value, ", "));
    if (line.name == "LANG") prefer(contact_.language, 4, line, unescaped(value));
    if (line.name == "NOTE") prefer(contact_.notes, 5, line, unescaped(value));
  }
  [[nodiscard]] Contact contact() const {
    Contact whole = contact_;
    if (whole.name.empty()) whole.name = parts_;
    return whole;
  }

 private:
  void prefer(std::string& into, std::size_t which, const ContentLine& line, std::string value) {
    const int preference = preference_of(line.parameters);
    if (value.empty() || (!into.empty() && preference >= best_[which])) return;
    into = std::move(value);
    best_[which] = preference;
  }
  Contact contact_;
  std::string parts_;
  std::array<int, 6> best_{};
};

bool is(const ContentLine& line, std::string_view name, std::string_view value) {
  return line.name == name && std::ranges::equal(line.value, value, [](char a, char b) {
           return (a >= 'a' && a <= 'z' ? static_cast<char>(a - 'a' + 'A') : a) == b;
         });
}

// ---- Tables ------------------------------------------------------------------------------------

enum class Column { name, first, last, phone, email, address, language, notes };

struct Heading {
  std::string_view word;
  Column column;
};
// In letters without accents or signs; common words of address books, no source. First and last
// names are put together, so that "nom" or "nome" alone is taken for the whole.
constexpr std::array kHeadings{Heading{"name", Column::name},
                               Heading{"fullname", Column::name},
                               Heading{"client", Column::name},
                               Heading{"nombre", Column::first},
                               Heading{"nombrecompleto", Column::name},
                               Heading{"nomcomplet", Column::name},
                               Heading{"nomecompleto", Column::name},
                               Heading{"firstname", Column::first},
                               Heading{"givenname", Column::first},
                               Heading{"prenom", Column::first},
                               Heading{"nome", Column::first},
                               Heading{"lastname", Column::last},
                               Heading{"surname", Column::last},
                               Heading{"familyname", Column::last},
                               Heading{"nom", Column::last},
                               Heading{"apellido", Column::last},
                               Heading{"apellidos", Column::last},
                               Heading{"sobrenome", Column::last},
                               Heading{"apelido", Column::last},
                               Heading{"phone", Column::phone},
                               Heading{"phonenumber", Column::phone},
                               Heading{"telephone", Column::phone},
                               Heading{"mobile", Column::phone},
                               Heading{"mobilephone", Column::phone},
                               Heading{"telefono", Column::phone},
                               Heading{"movil", Column::phone},
                               Heading{"portable", Column::phone},
                               Heading{"telefone", Column::phone},
                               Heading{"telemovel", Column::phone},
                               Heading{"celular", Column::phone},
                               Heading{"email", Column::email},
                               Heading{"emailaddress", Column::email},
                               Heading{"mail", Column::email},
                               Heading{"correo", Column::email},
                               Heading{"correoelectronico", Column::email},
                               Heading{"courriel", Column::email},
                               Heading{"address", Column::address},
                               Heading{"direccion", Column::address},
                               Heading{"adresse", Column::address},
                               Heading{"endereco", Column::address},
                               Heading{"morada", Column::address},
                               Heading{"language", Column::language},
                               Heading{"idioma", Column::language},
                               Heading{"langue", Column::language},
                               Heading{"lingua", Column::language},
                               Heading{"notes", Column::notes},
                               Heading{"note", Column::notes},
                               Heading{"notas", Column::notes},
                               Heading{"remarques", Column::notes}};

/// The letters of a heading, lower case, accents of western Europe taken off.
std::string letters_of(std::string_view heading) {
  constexpr std::array<std::pair<std::string_view, char>, 12> kAccents{{{"á", 'a'},
                                                                        {"à", 'a'},
                                                                        {"ã", 'a'},
                                                                        {"ç", 'c'},
                                                                        {"é", 'e'},
                                                                        {"É", 'e'},
                                                                        {"ê", 'e'},
                                                                        {"í", 'i'},
                                                                        {"ó", 'o'},
                                                                        {"õ", 'o'},
                                                                        {"ô", 'o'},
                                                                        {"ú", 'u'}}};
  std::string letters;
  for (std::size_t i = 0; i < heading.size(); ++i) {
    const char c = heading[i];
    if (c >= 'a' && c <= 'z') letters += c;
    if (c >= 'A' && c <= 'Z') letters += static_cast<char>(c - 'A' + 'a');
    for (const auto& [accent, plain] : kAccents) {
      if (heading.substr(i).starts_with(accent)) letters += plain;
    }
  }
  return letters;
}

std::optional<Column> column_of(std::string_view heading) {
  const std::string letters = letters_of(heading);
  const auto at = std::ranges::find(kHeadings, letters, &Heading::word);
  return at == kHeadings.end() ? std::nullopt : std::optional(at->column);
}

constexpr std::array<std::string_view, 8> kColumnWords{
    "name", "first name", "last name", "phone", "e-mail", "address", "language", "notes"};

struct Columns {
  std::vector<std::optional<Column>> by_cell;
  [[nodiscard]] bool has(Column column) const {
    return std::ranges::find(by_cell, std::optional(column)) != by_cell.end();
  }
};

/// The first cell of a row that stands in a column and is not empty.
std::string cell_of(const CsvRow& row, const Columns& columns, Column wanted) {
  for (std::size_t i = 0; i < std::min(row.cells.size(), columns.by_cell.size()); ++i) {
    if (columns.by_cell[i] == wanted && !row.cells[i].empty()) return plain_text(row.cells[i]);
  }
  return {};
}

Contact contact_of(const CsvRow& row, const Columns& columns) {
  Contact contact;
  contact.line = row.line;
  contact.name = cell_of(row, columns, Column::name);
  if (contact.name.empty()) {
    const std::string first = cell_of(row, columns, Column::first);
    const std::string last = cell_of(row, columns, Column::last);
    contact.name = first + (first.empty() || last.empty() ? "" : " ") + last;
  }
  contact.phone = cell_of(row, columns, Column::phone);
  contact.email = cell_of(row, columns, Column::email);
  contact.address = cell_of(row, columns, Column::address);
  contact.language = cell_of(row, columns, Column::language);
  contact.notes = cell_of(row, columns, Column::notes);
  return contact;
}

/// Text on one line, or on several, without control characters and without blanks round it.
std::string clean(std::string_view text, bool several) {
  std::string kept;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = control_at(text, at);
    const bool stays = length == 0 || (several && (text[at] == '\n' || text[at] == '\t'));
    if (!text.substr(at).starts_with("\r\n")) kept += stays ? text[at] : ' ';
    at += length == 0 ? 1 : length;
  }
  constexpr std::string_view kBlank = " \n\t";
  const std::size_t from = kept.find_first_not_of(kBlank);
  if (from == std::string::npos) return {};
  return kept.substr(from, kept.find_last_not_of(kBlank) + 1 - from);
}

void put(Contacts& contacts, Contact contact) {
  for (std::string* text :
       {&contact.name, &contact.phone, &contact.email, &contact.address, &contact.language}) {
    *text = clean(*text, false);
  }
  contact.notes = clean(contact.notes, true);
  if (contact.name.empty()) {
    contacts.left_out.push_back({contact.line, "no name"});
  } else {
    contacts.read.push_back(std::move(contact));
  }
}

}  // namespace

Result<Contacts> read_vcards(std::string_view text) {
  text = without_mark(text);
  if (auto fit = check_text(
          text, kMostCsvBytes,
          error_part("save it as UTF-8; the program that wrote it has a setting for it"));
      !fit)
    return tl::unexpected(fit.error());
  Contacts contacts;
  std::optional<Card> card;
  std::size_t opened = 0;
  for (const ContentLine& line : content_lines(text)) {
    if (is(line, "BEGIN", "VCARD")) {
      if (card) break;
      card.emplace(line.line);
      opened = line.line;
    } else if (card && is(line, "END", "VCARD")) {
      put(contacts, card->contact());
      card.reset();
    } else if (card) {
      card->take(line);
    }
  }
  if (card) {
    return fail(ErrorCode::malformed, "the card that begins here is never ended", line_name(opened),
                "end it with END:VCARD, or export the contacts again");
  }
  if (contacts.read.empty() && contacts.left_out.empty()) {
    return fail(ErrorCode::malformed, "holds no card", {}, "a card begins with BEGIN:VCARD");
  }
  return contacts;
}

Result<Contacts> read_contact_table(std::string_view text) {
  const auto rows = read_csv(text);
  if (!rows) return tl::unexpected(rows.error());
  if (rows->empty()) {
    return fail(ErrorCode::malformed, "holds no row", {}, "put the names of its columns first");
  }
  Columns columns;
  Contacts contacts;
  for (const std::string& heading : rows->front().cells) {
    columns.by_cell.push_back(column_of(heading));
    const auto column = columns.by_cell.back();
    contacts.columns.push_back(
        clean(heading, false) + ": " +
        (column ? std::string(kColumnWords[static_cast<std::size_t>(*column)]) : "left out"));
  }
  if (!columns.has(Column::name) && !columns.has(Column::first) && !columns.has(Column::last)) {
    return fail(ErrorCode::malformed, "no column is a name", line_name(rows->front().line),
                "call one \"name\", or two \"first name\" and \"last name\"");
  }
  for (std::size_t i = 1; i < rows->size(); ++i) put(contacts, contact_of((*rows)[i], columns));
  return contacts;
}

}  // namespace hw::wire
