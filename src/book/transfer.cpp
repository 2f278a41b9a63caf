#include "huewright/book/transfer.h"

#include <filesystem>
#include <fstream>
#include <set>

#include "each_fact.h"
#include "huewright/book/client_facts.h"
#include "huewright/book/files.h"
#include "huewright/book/record_file.h"
#include "huewright/book/visit_facts.h"
#include "tables.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kFormat = "huewright book";

struct Head {
  std::string format;
  double version = 0;
};

void describe(wire::Object& object, Head& head) {
  object.required("format", "which format").text(head.format, kMostName);
  wire::number(object.required("version", "of it"), head.version, {.low = 1, .high = 1000});
}

Result<void> must_be_new(const std::string& folder) {
  std::error_code problem;
  if (fs::exists(folder, problem) && !fs::is_empty(folder, problem)) {
    return fail(ErrorCode::conflict, "is there already and not empty", folder,
                "name a folder that is not there yet");
  }
  if (auto made = make_folder(folder + "/photos"); !made) return made;
  return make_folder(folder + "/tables");
}

/// book.jsonl and the photos that its facts name. Gives how many facts.
Result<std::int64_t> write_lines(Folder& folder, const std::string& to, const std::string& client) {
  const std::string file = to + "/book.jsonl";
  std::ofstream out(file, std::ios::binary);
  out << wire::encode(Head{std::string(kFormat), kExportVersion}) << '\n';
  std::int64_t count = 0;
  const auto done = each_fact(folder.store(), client, [&](const Fact& fact) -> Result<void> {
    out << wire::encode(fact) << '\n';
    ++count;
    if (fact.kind != PhotoFact::kKind) return {};
    const std::string name = body_of<PhotoFact>(fact).sha256;
    const auto bytes = folder.photo(name);
    // A photo that is gone is doctor's to tell; the rest of the book still goes out.
    return bytes ? write_file(to + "/photos/" + name, *bytes) : Result<void>{};
  });
  if (!done) return tl::unexpected(done.error());
  out.close();
  if (!out)
    return fail(ErrorCode::io, "could not be written whole", file, "see that the disk has room");
  if (auto synced = sync_path(file); !synced) return tl::unexpected(synced.error());
  return count;
}

std::string line_of(const std::string& file, std::int64_t line, const std::string& key) {
  return file + ": line " + std::to_string(line) + (key.empty() ? "" : ", " + key);
}

tl::unexpected<Error> at_line(Error error, const std::string& file, std::int64_t line) {
  // Each line is a text of its own, and its errors call it the first.
  constexpr std::string_view kFirst = "line 1, ";
  if (error.where.starts_with(kFirst)) error.where.erase(0, kFirst.size());
  error.where = line_of(file, line, error.where);
  return tl::unexpected(error);
}

Result<void> check_head(const std::string& line) {
  const auto head = wire::decode<Head>(line);
  if (!head) {
    return fail(ErrorCode::malformed, "is not how an exported book begins", {},
                "name a folder that was exported");
  }
  if (head->format == kFormat && head->version == kExportVersion) return {};
  return fail(ErrorCode::malformed, "is of another format or version", {},
              "export it again with this version of the program");
}

/// Batches of facts on their way in.
class Batch {
 public:
  Batch(Store& store, const std::string& file) : store_(store), file_(file) {}
  Result<void> add(Fact fact, std::int64_t line) {
    constexpr std::size_t kMost = 500;
    if (facts_.empty()) first_ = line;
    facts_.push_back(std::move(fact));
    return facts_.size() < kMost ? Result<void>{} : flush();
  }
  Result<void> flush() {
    if (facts_.empty()) return {};
    const auto places = store_.append(facts_);
    if (!places) {
      return tl::unexpected(in_input(places.error(), [&](std::size_t i, const std::string& key) {
        return line_of(file_, first_ + static_cast<std::int64_t>(i), key);
      }));
    }
    facts_.clear();
    return {};
  }

 private:
  Store& store_;
  const std::string& file_;
  std::vector<Fact> facts_;
  std::int64_t first_ = 0;  // line of the batch's first fact
};

/// A client erased where the export was made is erased here too.
Result<void> erase_here(Folder& folder, Batch& batch, const Fact& fact, const std::string& file,
                        std::int64_t line) {
  if (fact.kind != ErasedFact::kKind) return {};
  if (auto before = batch.flush(); !before) return before;
  const auto client = folder.store().client(fact.subject);
  if (!client || client->erased) return {};  // append says what is to be said
  auto erased = erase_with_photos(folder, fact.subject, fact);
  return erased ? erased : at_line(erased.error(), file, line);
}

}  // namespace

Result<std::int64_t> export_book(Folder& folder, const std::string& to, const std::string& client) {
  if (!client.empty()) {
    if (const auto known = folder.store().client(client); !known) {
      return tl::unexpected(known.error());
    }
  }
  if (auto made = must_be_new(to); !made) return tl::unexpected(made.error());
  std::int64_t count = 0;
  // One moment of the book for all of it, whoever writes meanwhile.
  const auto done = in_transaction(folder.store().sql(), false, [&]() -> Result<void> {
    const auto facts = write_lines(folder, to, client);
    if (!facts) return tl::unexpected(facts.error());
    count = *facts;
    return write_tables(folder.store(), to + "/tables", client);
  });
  if (!done) return tl::unexpected(done.error());
  return count;
}

Result<std::int64_t> import_book(Folder& folder, const std::string& from) {
  const std::string file = from + "/book.jsonl";
  std::ifstream in(file, std::ios::binary);
  if (!in) return fail(ErrorCode::io, "cannot be opened", file, "name a folder that was exported");
  Batch batch(folder.store(), file);
  std::string line;
  std::int64_t number = 0;
  while (std::getline(in, line)) {
    ++number;
    if (number == 1) {
      if (const auto head = check_head(line); !head) return at_line(head.error(), file, number);
      continue;
    }
    auto fact = wire::decode<Fact>(line);
    if (!fact) return at_line(fact.error(), file, number);
    if (const auto out = erase_here(folder, batch, *fact, file, number); !out) {
      return tl::unexpected(out.error());
    }
    if (auto added = batch.add(*std::move(fact), number); !added) {
      return tl::unexpected(added.error());
    }
  }
  if (number == 0) {
    return fail(ErrorCode::malformed, "is empty", file, "name a folder that was exported");
  }
  if (auto rest = batch.flush(); !rest) return tl::unexpected(rest.error());
  std::error_code problem;
  for (const auto& photo : fs::directory_iterator(from + "/photos", problem)) {
    const auto bytes = read_file(photo.path().string());
    if (!bytes) return tl::unexpected(bytes.error());
    if (sha256_of(*bytes) != photo.path().filename().string()) {
      return fail(ErrorCode::malformed, "is not the photo its name says", photo.path().string(),
                  "take it out of the folder, or export it again");
    }
    if (const auto kept = folder.keep_photo(*bytes); !kept) return tl::unexpected(kept.error());
  }
  return number - 1;
}

Result<void> erase_with_photos(Folder& folder, const std::string& client, const Fact& erased) {
  std::set<std::string> own, others;
  auto looked = each_fact(folder.store(), client, [&](const Fact& fact) -> Result<void> {
    if (fact.kind == PhotoFact::kKind) own.insert(body_of<PhotoFact>(fact).sha256);
    return {};
  });
  if (!looked) return looked;
  if (auto gone = folder.store().erase_client(client, erased); !gone) return gone;
  if (own.empty()) return {};
  auto left = each_fact(folder.store(), {}, [&](const Fact& fact) -> Result<void> {
    if (fact.kind == PhotoFact::kKind) others.insert(body_of<PhotoFact>(fact).sha256);
    return {};
  });
  if (!left) return left;
  for (const std::string& name : own) {
    std::error_code ignored;
    if (!others.contains(name)) fs::remove(folder.path() + "/photos/" + name, ignored);
  }
  return sync_path(folder.path() + "/photos");
}

}  // namespace hw::book
