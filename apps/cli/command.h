#pragma once
// One file per command; the table in commands.cpp is all that main knows of them.
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/base/language.h"
#include "huewright/base/result.h"
#include "look.h"

namespace hw::apps {

inline constexpr int kExitDone = 0;
inline constexpr int kExitMendable = 2;  ///< the input can be mended; one line says how
inline constexpr int kExitRefused = 3;   ///< a refusal stands; the whole answer is printed

/// What a command is given.
struct Asked {
  std::string text;   ///< of the input; empty for commands that take a word
  std::string input;  ///< name of the input file, or "-"; paths in it start from its folder
  std::string word;   ///< of commands that take one
  std::vector<std::string> words;  ///< of commands that take several
  bool json = false;
  Look look;
  std::optional<Language> language;  ///< that was asked for, beside the environment's
  std::map<std::string, std::string, std::less<>> options;  ///< by flag, such as "--chart"
};

/// What a command says on standard output, and how the program ends.
struct Said {
  std::string out;
  int exit_code = kExitDone;
  bool exact = false;  ///< for a program to read, not a person: never told in another language
};

struct Option {
  std::string_view flag;   ///< "--chart"
  std::string_view value;  ///< what stands after it, for --help: "FILE.png"; empty: a switch
  std::string_view what;
};

struct Command {
  std::string_view name;
  std::string_view what;    ///< one line for --help
  std::string_view schema;  ///< name of its input (wire::schemas()); empty: takes a word instead
  Result<Said> (*run)(const Asked& asked);
  std::span<const Option> options = {};
  std::string_view words = {};  ///< what it takes instead of one file: "find TEXT | show ID"
};

/// Every command, in the order of --help.
[[nodiscard]] std::span<const Command> commands();

[[nodiscard]] Result<Said> run_bowl(const Asked& asked);
[[nodiscard]] Result<Said> run_colour(const Asked& asked);
[[nodiscard]] Result<Said> run_lift(const Asked& asked);
[[nodiscard]] Result<Said> run_plan(const Asked& asked);
[[nodiscard]] Result<Said> run_deposit(const Asked& asked);
[[nodiscard]] Result<Said> run_fade(const Asked& asked);
[[nodiscard]] Result<Said> run_client(const Asked& asked);
[[nodiscard]] Result<Said> run_visit(const Asked& asked);
[[nodiscard]] Result<Said> run_shelf(const Asked& asked);
[[nodiscard]] Result<Said> run_backup(const Asked& asked);
[[nodiscard]] Result<Said> run_restore(const Asked& asked);
[[nodiscard]] Result<Said> run_doctor(const Asked& asked);
[[nodiscard]] Result<Said> run_export(const Asked& asked);
[[nodiscard]] Result<Said> run_import(const Asked& asked);
[[nodiscard]] Result<Said> run_serve(const Asked& asked);
[[nodiscard]] Result<Said> run_evidence(const Asked& asked);
[[nodiscard]] Result<Said> run_sheet(const Asked& asked);
[[nodiscard]] Result<Said> run_read(const Asked& asked);
[[nodiscard]] Result<Said> run_schema(const Asked& asked);

}  // namespace hw::apps
