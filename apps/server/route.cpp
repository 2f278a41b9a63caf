#include "route.h"

#include <array>

#include "huewright/wire/json.h"
#include "text.h"

namespace hw::server {
namespace {

constexpr std::array<std::string_view, 4> kRoleWords{"none", "assistant", "colourist", "owner"};

}  // namespace

std::string_view word_of(Role role) {
  return kRoleWords.at(static_cast<std::size_t>(role));
}

Result<Role> role_of(std::string_view word) {
  for (std::size_t i = 1; i < kRoleWords.size(); ++i) {
    if (kRoleWords.at(i) == word) return static_cast<Role>(i);
  }
  return fail(ErrorCode::unknown_name, "\"" + printable(word) + "\" is no role", "role",
              "give assistant, colourist or owner");
}

int status_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::unknown_name:
      return 404;
    case ErrorCode::conflict:
      return 409;
    case ErrorCode::out_of_range:
    case ErrorCode::unreachable:
      return 422;
    case ErrorCode::io:
      return 500;
    case ErrorCode::malformed:
    case ErrorCode::missing:
      return 400;
  }
  return 500;
}

std::string error_json(const Error& error) {
  std::string what = printable(error.message);
  // A path on this machine is nobody's business on the network.
  std::string where = error.where.starts_with('/') ? "the book" : printable(error.where);
  std::string mend = printable(error.hint);
  return wire::encode_fields([&](wire::Object& object) {
    object.required("error", "").object([&](wire::Object& inner) {
      inner.required("what", "").text(what, what.size());
      inner.required("where", "").text(where, where.size());
      inner.required("mend", "").text(mend, mend.size());
    });
  });
}

}  // namespace hw::server
