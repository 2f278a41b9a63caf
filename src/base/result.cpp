#include "huewright/base/result.h"

namespace hw {

std::string one_line(const Error& error) {
  std::string line = error.where.empty() ? error.message : error.where + ": " + error.message;
  if (!error.hint.empty()) line += "; " + error.hint;
  for (char& c : line) {
    if (c == '\n' || c == '\r') c = ' ';
  }
  return line;
}

}  // namespace hw
