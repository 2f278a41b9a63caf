// huewright: the program. Reads the command line, opens the input, runs one command, prints.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>

#include "command.h"
#include "input.h"
#include "page.h"

namespace hw::apps {
namespace {

constexpr int kExitBroken = 1;  // a fault of ours, or standard output is gone

/// What the command line asks for, command by command.
struct Wanted {
  const Command* command = nullptr;
  std::string input;  // file, "-", or a word
  std::vector<std::string> words;
  bool json = false;
  std::map<std::string, std::string, std::less<>> options;
  std::string language;  // a tag; empty: the environment's
};

/// The language that POSIX's variables ask for, in the order in which they count.
Language language_of_environment() {
  for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
    const char* tag = std::getenv(name);
    if (tag != nullptr && *tag != 0) return language_of(tag).value_or(Language::en);
  }
  return Language::en;
}

/// "bowl, colour, lift": names of all commands, or of those that read a file.
std::string list_of(bool readers_only) {
  std::string out;
  for (const Command& command : commands()) {
    if (readers_only && command.schema.empty()) continue;
    if (!out.empty()) out += ", ";
    out += readers_only ? command.schema : command.name;
  }
  return out;
}

std::string footer() {
  std::string out = "Input files are described by\n";
  for (const Command& command : commands()) {
    if (command.schema.empty()) continue;
    out += "  schemas/" + std::string(command.schema) + ".schema.json\n";
  }
  return out +
         "Exit codes: 0 done; 2 the input can be mended, one line says how;\n"
         "3 a refusal stands, the answer is printed all the same.";
}

void add_command(CLI::App& program, const Command& command, Wanted& wanted) {
  auto* sub = program.add_subcommand(std::string(command.name), std::string(command.what));
  sub->fallthrough();  // --language may stand behind it
  if (!command.words.empty()) {
    sub->add_option("WORDS", wanted.words, std::string(command.words))->type_name("");
    sub->add_flag("--json", wanted.json, "print the exact answer as JSON");
  } else if (command.schema.empty()) {
    sub->add_option("NAME", wanted.input, "one of " + list_of(true))->required();
  } else {
    sub->add_option("FILE", wanted.input, "JSON file, or - for standard input");
    sub->add_flag("--json", wanted.json, "print the exact answer as JSON");
    sub->footer("The input is described in schemas/" + std::string(command.schema) +
                ".schema.json");
  }
  for (const Option& option : command.options) {
    if (option.value.empty()) {
      sub->add_flag_callback(
          std::string(option.flag),
          [&wanted, flag = std::string(option.flag)] { wanted.options[flag] = ""; },
          std::string(option.what));
      continue;
    }
    sub->add_option_function<std::string>(
           std::string(option.flag),
           [&wanted, flag = std::string(option.flag)](const std::string& value) {
             wanted.options[flag] = value;
           },
           std::string(option.what))
        ->type_name(std::string(option.value));
  }
  sub->callback([&wanted, &command] { wanted.command = &command; });
}

/// The one place that prints an error; in the language of the reports.
int complain(const Error& error) {
  std::fprintf(stderr, "%s\n", one_line(retold(spoken(), error)).c_str());
  return kExitMendable;
}

/// --language of a command line that was not taken apart yet; else the environment's.
Language language_of_command_line(int count, char** arguments) {
  for (int i = 1; i < count; ++i) {
    const std::string_view one = arguments[i];
    constexpr std::string_view kFlag = "--language";
    if (!one.starts_with(kFlag)) continue;
    const bool joined = one.size() > kFlag.size() && one[kFlag.size()] == '=';
    if (!joined && i + 1 == count) break;
    const auto language =
        language_of(joined ? one.substr(kFlag.size() + 1) : std::string_view(arguments[i + 1]));
    if (language) return *language;
  }
  return language_of_environment();
}

int print(const Said& said, bool json) {
  const std::string out = json || said.exact ? said.out : told_by_line(said.out);
  const bool whole = std::fwrite(out.data(), 1, out.size(), stdout) == out.size();
  if (whole && std::fflush(stdout) == 0) return said.exit_code;
  std::fprintf(stderr, "standard output: the answer could not be written whole\n");
  return kExitBroken;
}

int run(const Wanted& wanted) {
  std::optional<Language> language;
  if (!wanted.language.empty()) {
    const auto named = language_named(wanted.language, "--language");
    if (!named) return complain(named.error());
    language = *named;
  }
  Asked asked;
  asked.json = wanted.json;
  asked.language = language;
  asked.look = look_of_terminal();
  asked.options = wanted.options;
  asked.words = wanted.words;
  // plan --client takes its case from the book.
  const bool reads = !wanted.command->schema.empty() &&
                     !(wanted.command->name == "plan" && wanted.options.contains("--client"));
  if (reads) {
    if (wanted.input.empty()) {
      return complain({ErrorCode::missing, "no input file is given", "command line",
                       "name a file, or - for standard input"});
    }
    auto text = read_input(wanted.input);
    if (!text) return complain(text.error());
    asked.text = *std::move(text);
    asked.input = wanted.input;
  } else {
    asked.word = wanted.input;
  }
  const auto said = wanted.command->run(asked);
  if (said) return print(*said, wanted.json);
  Error error = said.error();
  if (reads) {
    const std::string name = name_of_input(wanted.input);
    error.where = error.where.empty() ? name : name + ": " + error.where;
  }
  return complain(error);
}

int run_command_line(int count, char** arguments) {
  CLI::App program("Huewright: what a lightening bowl does to a strand, minute by minute.",
                   "huewright");
  program.set_version_flag("--version", "huewright " HW_VERSION);
  program.require_subcommand(1);
  program.footer(footer());
  Wanted wanted;
  speak(language_of_command_line(count, arguments));
  program.add_option("--language", wanted.language, "of what is printed: en, es, fr or pt")
      ->type_name("TAG");
  for (const Command& command : commands()) add_command(program, command, wanted);
  const std::string_view first = count > 1 ? arguments[1] : "";
  const bool known = std::ranges::any_of(
      commands(), [&](const Command& command) { return command.name == first; });
  if (!known && !first.starts_with('-')) {
    const bool none = first.empty();
    return complain({none ? ErrorCode::missing : ErrorCode::unknown_name,
                     none ? "no command is given" : "\"" + std::string(first) + "\" is no command",
                     "command line", "give one of " + list_of(false) + ", or --help"});
  }
  try {
    program.parse(count, arguments);
  } catch (const CLI::ParseError& problem) {
    if (problem.get_exit_code() == 0) return program.exit(problem);  // --help, --version
    return complain(
        {ErrorCode::malformed, problem.what(), "command line", "huewright --help explains"});
  }
  return run(wanted);
}

}  // namespace
}  // namespace hw::apps

int main(int count, char** arguments) {
  try {
    return hw::apps::run_command_line(count, arguments);
  } catch (const std::exception& problem) {
    std::fprintf(stderr, "huewright: a fault in the program itself (%s); please report it\n",
                 problem.what());
    return hw::apps::kExitBroken;
  }
}
