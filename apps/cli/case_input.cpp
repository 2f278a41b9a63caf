#include "case_input.h"

#include <filesystem>

#include "huewright/plan/target.h"
#include "huewright/wire/json.h"
#include "input.h"

namespace hw::apps {
namespace {

/// A path from the folder of the input.
std::string beside(const Asked& asked, const std::string& file) {
  const auto folder = asked.input == "-" ? std::filesystem::path()
                                         : std::filesystem::path(asked.input).parent_path();
  return (folder / file).string();
}

Result<void> fetch_shelf(const Asked& asked, wire::CaseFile& file) {
  const auto option = asked.options.find("--shelf");
  std::string path = option != asked.options.end() ? option->second : "";
  if (path.empty() && !file.shelf_file.empty()) path = beside(asked, file.shelf_file);
  if (path.empty()) return {};
  const auto text = read_input(path);
  if (!text) return tl::unexpected(text.error());
  auto shelf = wire::decode<wire::ShelfFile>(*text);
  if (!shelf) {
    Error error = shelf.error();
    error.where = path + ": " + error.where;
    return tl::unexpected(error);
  }
  file.head.shelf = std::move(shelf->shelf);
  return {};
}

Result<void> fetch_looks(const Asked& asked, wire::CaseFile& file) {
  if (file.looks_file.empty()) return {};
  const std::string path = beside(asked, file.looks_file);
  const auto text = read_input(path);
  if (!text) return tl::unexpected(text.error());
  auto looks = plan::parse_looks(*text, path);
  if (!looks) return tl::unexpected(looks.error());
  if (looks->empty()) {
    return fail(ErrorCode::missing, "the list holds no look", path, "give a row to each look");
  }
  file.looks = *std::move(looks);
  return {};
}

}  // namespace

Result<wire::CaseFile> read_case(const Asked& asked) {
  auto file = wire::decode<wire::CaseFile>(asked.text);
  if (!file) return file;
  if (const auto shelf = fetch_shelf(asked, *file); !shelf) return tl::unexpected(shelf.error());
  if (const auto looks = fetch_looks(asked, *file); !looks) return tl::unexpected(looks.error());
  return file;
}

}  // namespace hw::apps
