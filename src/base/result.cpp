#include "huewright/base/result.h"

#include <system_error>

#include "huewright/base/control.h"
#include "huewright/base/error_part.h"

namespace hw {

std::string system_words(int number) {
  return error_part("the system says: " + std::system_category().message(number));
}

std::string one_line(const Error& error) {
  std::string line = error.where.empty() ? error.message : error.where + ": " + error.message;
  if (!error.hint.empty()) {
    if (line.ends_with('.')) line.pop_back();  // a rule's own sentence, told within ours
    line += "; " + error.hint;
  }
  // What a person typed may stand in it and must not steer the terminal.
  for (std::size_t at = 0; at < line.size(); ++at) {
    const std::size_t length = control_at(line, at);
    if (length == 0) continue;
    const bool ends = line[at] == '\n' || line[at] == '\r';
    line.replace(at, length, ends ? " " : "?");
  }
  return line;
}

}  // namespace hw
