// huewright backup, restore, doctor: the book kept.
#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>

#include "huewright/book/backup.h"
#include "huewright/book/sealed.h"
#include "input.h"
#include "open_book.h"
#include "page.h"

namespace hw::apps {
namespace {

std::string list_json(std::string_view key, std::vector<std::string> lines) {
  return wire::encode_fields([&](wire::Object& object) {
           wire::texts(object.required(key, ""), lines, {0, lines.size()}, 0);
         }) +
         '\n';
}

/// The passphrase of a sealed backup: the first line of --passphrase's file, or of the environment.
Result<std::string> passphrase_of(const Asked& asked) {
  const std::string file = option_of(asked, "--passphrase");
  if (!file.empty()) {
    auto text = read_input(file);
    if (!text) return text;
    return text->substr(0, text->find_first_of("\r\n"));
  }
  const char* said = std::getenv("HUEWRIGHT_PASSPHRASE");
  if (said != nullptr) return std::string(said);
  return fail(ErrorCode::missing, "no passphrase is given", "--passphrase",
              "give a file whose first line it is, - to be asked, or set HUEWRIGHT_PASSPHRASE");
}

}  // namespace

Result<Said> run_backup(const Asked& asked) {
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const auto name = book::make_backup(**book, now());
  if (!name) return tl::unexpected(name.error());
  const auto names = book::backups_of((*book)->path());
  if (!names) return tl::unexpected(names.error());
  const auto dropped = book::backups_to_drop(*names);
  for (const std::string& old : dropped) {
    std::error_code ignored;
    std::filesystem::remove_all((*book)->path() + "/backups/" + old, ignored);
  }
  const std::string sealed = option_of(asked, "--sealed");
  if (!sealed.empty()) {
    const auto passphrase = passphrase_of(asked);
    if (!passphrase) return tl::unexpected(passphrase.error());
    if (auto done = book::seal_backup((*book)->path(), *name, sealed, *passphrase); !done) {
      return tl::unexpected(done.error());
    }
  }
  if (asked.json) return Said{list_json("backups", {*name})};
  return Said{as_it_is(said(
      spoken(), "Backup {0}, looked through. {1} kept, {2} dropped.",
      {*name, std::to_string(names->size() - dropped.size()), std::to_string(dropped.size())}))};
}

Result<Said> run_restore(const Asked& asked) {
  const auto path = book_path(asked);
  if (!path) return tl::unexpected(path.error());
  if (asked.options.contains("--undo")) {
    if (auto done = book::undo_restore(*path); !done) return tl::unexpected(done.error());
    return Said{as_it_is(said(spoken(), "The book of before the restore is back."))};
  }
  std::string wanted = asked.words.empty() ? "" : asked.words.front();
  if (const std::string sealed = option_of(asked, "--sealed"); !sealed.empty()) {
    const auto passphrase = passphrase_of(asked);
    if (!passphrase) return tl::unexpected(passphrase.error());
    // Opening it makes the data folder where there is none yet.
    if (const auto made = book::Folder::open(*path); !made) return tl::unexpected(made.error());
    auto name = book::open_sealed(*path, sealed, *passphrase);
    if (!name) return tl::unexpected(name.error());
    wanted = *std::move(name);
  }
  if (wanted.empty()) {
    const auto names = book::backups_of(*path);
    if (!names) return tl::unexpected(names.error());
    if (asked.json) return Said{list_json("backups", *names)};
    std::string text;
    for (const std::string& name : *names) text += name + '\n';
    return Said{text.empty() ? as_it_is(said(spoken(), "No backups yet.")) : text};
  }
  const auto before = book::restore_backup(*path, wanted, now());
  if (!before) return tl::unexpected(before.error());
  return Said{
      as_it_is(said(spoken(), "{0} is the book now. The one of before: {1}.", {wanted, *before}))};
}

Result<Said> run_doctor(const Asked& asked) {
  const auto book = open_book(asked);
  if (!book) return tl::unexpected(book.error());
  const bool unclean = (*book)->was_unclean();
  if (asked.options.contains("--mend")) {
    if (auto made = (*book)->store().rebuild(); !made) return tl::unexpected(made.error());
  }
  auto findings = book::examine_folder(**book, now());
  if (!findings) return tl::unexpected(findings.error());
  if (unclean)
    findings->push_back("the last program did not close the book; nothing is wrong by itself");
  if (asked.json) return Said{list_json("findings", *findings)};
  if (findings->empty()) return Said{as_it_is(said(spoken(), "Nothing is wrong."))};
  std::string text;
  for (const std::string& finding : *findings) text += wrapped(finding, 2, "- ");
  return Said{text};
}

}  // namespace hw::apps
