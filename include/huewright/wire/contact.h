#pragma once
// People as other programs write them: vCard 4.0 (RFC 6350, 2011), and a table with a header row.
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/result.h"

namespace hw::wire {

/// What of a contact a salon keeps. Empty: not stated. Each is one line without control characters,
/// notes may have several; blanks round them are taken off.
struct Contact {
  std::size_t line = 1;  ///< of the file, where the contact begins
  std::string name, phone, email, address, language, notes;
};

/// What could not be taken, and why, for the preview.
struct LeftOut {
  std::size_t line = 1;
  std::string why;
};
struct Contacts {
  std::vector<Contact> read;
  std::vector<LeftOut> left_out;
  std::vector<std::string> columns;  ///< of a table: which column is taken for what, a line each
};

/// Contacts of a vCard 4.0 file; cards of versions 3.0 and 2.1 are read by the same properties. Of
/// several telephones, e-mails and languages the preferred one counts, else the first. The
/// formatted name is taken, else the parts of the name. A date of birth is left where it is: the
/// book keeps no dates of birth. A card without a name is left out. Errors: no card at all; a card
/// never ended (line); text that is not UTF-8.
[[nodiscard]] Result<Contacts> read_vcards(std::string_view text);

/// Contacts of a table whose first row names its columns, in English, Spanish, French or Portuguese
/// words ("name", "first name" and "last name", "phone", "e-mail", "address", "language",
/// "notes"). A row without a name is left out. Errors: as read_csv; no column that is a name (says
/// which words are known).
[[nodiscard]] Result<Contacts> read_contact_table(std::string_view text);

}  // namespace hw::wire
