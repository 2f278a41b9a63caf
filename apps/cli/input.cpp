#include "input.h"

#include <cstdio>
#include <filesystem>
#include <memory>

namespace hw::apps {
namespace {

Result<std::string> read_all(std::FILE* in, const std::string& name, std::size_t most) {
  std::string text(most + 1, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), in));
  if (std::ferror(in) != 0) {
    return fail(ErrorCode::io, "reading stopped half-way", name, "try again");
  }
  return text;
}

}  // namespace

std::string name_of_input(const std::string& file) {
  return file == "-" ? "standard input" : file;
}

Result<std::string> read_input(const std::string& file, std::size_t most) {
  const std::string name = name_of_input(file);
  if (file == "-") return read_all(stdin, name, most);
  std::error_code ignored;
  if (std::filesystem::is_directory(file, ignored)) {
    return fail(ErrorCode::io, "this is a folder", name, "name a file in it");
  }
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> in(std::fopen(file.c_str(), "rb"),
                                                           std::fclose);
  if (!in) {
    return fail(ErrorCode::io, "the file cannot be opened", name,
                "check its name and whether you may read it");
  }
  return read_all(in.get(), name, most);
}

}  // namespace hw::apps
