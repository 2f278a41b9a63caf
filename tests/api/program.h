#pragma once
// Runs the built program as a person or another program would.
#include <string>

namespace hw::test {

struct Ran {
  int exit_code = -1;
  std::string out;  ///< standard output
  std::string err;  ///< standard error
};

/// The program with these arguments (as a shell reads them) and this standard input.
/// before: words put before the program's name, such as "COLORTERM=truecolor".
Ran run_program(const std::string& arguments, const std::string& input = "",
                const std::string& before = "");

/// The same on a terminal of 80 columns: its standard output and error together, as `out`.
Ran run_on_terminal(const std::string& arguments, const std::string& input,
                    const std::string& before);

/// A file of its own with this content; it is gone when the guard is.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::string& content);
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile();
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

/// Requests of the interface, as a caller writes them.
inline const std::string kSoapCap =
    R"({"parts":[{"kind":"lightener","grams":30},{"kind":"developer","grams":60,)"
    R"("peroxide_percent":6},{"kind":"shampoo","grams":30},{"kind":"water","grams":30}],)"
    R"("on_scalp":false})";
/// A lift of level 3 with 1:2 and 6 %. rest: further keys, each after a comma.
std::string lift_request(double minutes, const std::string& rest = "");

}  // namespace hw::test
