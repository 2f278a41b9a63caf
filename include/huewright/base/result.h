#pragma once
// What a function returns when the caller's input may be wrong: a value, or one mendable Error.
// Refusals (process/rules.h) are ordinary values, never Errors.
#include <string>
#include <tl/expected.hpp>
#include <utility>

namespace hw {

enum class ErrorCode {
  malformed,     ///< the text is not what the format asks for
  missing,       ///< a required value is absent
  out_of_range,  ///< a value lies outside its stated range
  unknown_name,  ///< a name that no table or list holds
  conflict,      ///< values that exclude each other
  unreachable,   ///< a wish that the stated inputs cannot meet
  io,            ///< a file could not be read or written
};

/// One mendable fault. `message` says what is wrong with the value and its limit, `where` names the
/// file, line or JSON path, `hint` says how to mend it. None holds a line break.
struct Error {
  ErrorCode code = ErrorCode::malformed;
  std::string message;
  std::string where;
  std::string hint;
};

template <class T>
using Result = tl::expected<T, Error>;

/// Builds the failed branch of a Result.
[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string message,
                                                std::string where = {}, std::string hint = {}) {
  return tl::unexpected<Error>(Error{code, std::move(message), std::move(where), std::move(hint)});
}

/// The one line a person sees: "where: message; hint", a ? for each control character.
[[nodiscard]] std::string one_line(const Error& error);

}  // namespace hw
