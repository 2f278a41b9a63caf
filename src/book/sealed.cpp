#include "huewright/book/sealed.h"

#include <sodium.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <vector>

#include "huewright/book/backup.h"
#include "huewright/book/files.h"
#include "verified_copy.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kMagic = "huewright sealed 1\n";
constexpr std::string_view kBookFile = "book.db";  // of a backup's folder
constexpr std::size_t kChunk = std::size_t{64} * 1024;
constexpr std::size_t kTag = crypto_secretstream_xchacha20poly1305_ABYTES;
constexpr unsigned char kLast = crypto_secretstream_xchacha20poly1305_TAG_FINAL;

using Key = std::array<unsigned char, crypto_secretstream_xchacha20poly1305_KEYBYTES>;
using Salt = std::array<unsigned char, crypto_pwhash_SALTBYTES>;
using Header = std::array<unsigned char, crypto_secretstream_xchacha20poly1305_HEADERBYTES>;

unsigned char* bytes(std::string& text) {
  return reinterpret_cast<unsigned char*>(text.data());
}

template <class Number>
std::string little_endian(Number number) {
  std::string text;
  for (std::size_t i = 0; i < sizeof(Number); ++i) {
    text += static_cast<char>(number >> (8 * i) & 0xFFU);
  }
  return text;
}

template <class Number>
Number from_little_endian(std::string_view text) {
  Number number = 0;
  for (std::size_t i = 0; i < sizeof(Number); ++i) {
    number |= static_cast<Number>(static_cast<unsigned char>(text[i])) << (8 * i);
  }
  return number;
}

tl::unexpected<Error> broken(const std::string& file) {
  return fail(ErrorCode::malformed,
              "cannot be opened: the passphrase is another, or a byte changed", file,
              "try the passphrase again, then another copy of the file");
}

Result<Key> key_of(std::string_view passphrase, const Salt& salt, const SealCost& cost) {
  Key key{};
  const int done =
      crypto_pwhash(key.data(), key.size(), passphrase.data(), passphrase.size(), salt.data(),
                    cost.passes, std::size_t{cost.memory_kib} * 1024, crypto_pwhash_ALG_ARGON2ID13);
  if (done == 0) return key;
  return fail(ErrorCode::io, "there is not enough memory to make the key", "passphrase",
              "close other programs and try again");
}

// ---- Writing -----------------------------------------------------------------------------------

class Sealer {
 public:
  Sealer(const std::string& file, const Key& key, const std::string& head)
      : file_(file), out_(file, std::ios::binary) {
    Header header{};
    crypto_secretstream_xchacha20poly1305_init_push(&state_, header.data(), key.data());
    out_ << head << std::string(header.begin(), header.end());
  }
  void add(std::string_view text) {
    while (!text.empty()) {
      const std::size_t room = kChunk - waiting_.size();
      waiting_ += text.substr(0, room);
      text.remove_prefix(std::min(room, text.size()));
      // A full chunk waits for the next byte, so that the last one can say that it is.
      if (waiting_.size() == kChunk && !text.empty()) push(0);
    }
    if (waiting_.size() == kChunk) push(0);
  }
  Result<void> finish() {
    push(kLast);
    out_.close();
    if (!out_) {
      return fail(ErrorCode::io, "could not be written whole", file_, "see that the disk has room");
    }
    return sync_path(file_);
  }

 private:
  void push(unsigned char tag) {
    std::string chunk(waiting_.size() + kTag, '\0');
    crypto_secretstream_xchacha20poly1305_push(&state_, bytes(chunk), nullptr, bytes(waiting_),
                                               waiting_.size(), nullptr, 0, tag);
    out_ << chunk;
    waiting_.clear();
  }
  std::string file_, waiting_;
  std::ofstream out_;
  crypto_secretstream_xchacha20poly1305_state state_{};
};

Result<void> add_entry(Sealer& sealer, const std::string& name, const fs::path& from) {
  std::error_code problem;
  const std::uint64_t size = fs::file_size(from, problem);
  if (problem) return trouble(from.string(), problem);
  sealer.add(little_endian(static_cast<std::uint32_t>(name.size())) + name + little_endian(size));
  std::ifstream in(from, std::ios::binary);
  std::string chunk(kChunk, '\0');
  std::uint64_t read = 0;
  while (in.read(chunk.data(), static_cast<std::streamsize>(chunk.size())) || in.gcount() > 0) {
    sealer.add(std::string_view(chunk).substr(0, static_cast<std::size_t>(in.gcount())));
    read += static_cast<std::uint64_t>(in.gcount());
  }
  if (read == size) return {};
  return fail(ErrorCode::io, "changed while it was read", from.string(), "make the backup again");
}

Result<void> seal_folder(const fs::path& backup, const std::string& name, Sealer& sealer) {
  sealer.add(little_endian(static_cast<std::uint32_t>(name.size())) + name +
             little_endian(std::uint64_t{0}));
  if (auto book = add_entry(sealer, std::string(kBookFile), backup / kBookFile); !book) return book;
  std::error_code problem;
  for (const auto& photo : fs::directory_iterator(backup / "photos", problem)) {
    const std::string entry = "photos/" + photo.path().filename().string();
    if (auto added = add_entry(sealer, entry, photo.path()); !added) return added;
  }
  return sealer.finish();
}

// ---- Reading -----------------------------------------------------------------------------------

/// The plain text of a sealed file, piece by piece. Nothing it gives out was changed.
class Opener {
 public:
  Opener(std::ifstream& in, const Key& key, const Header& header, const std::string& file)
      : in_(in), file_(file) {
    good_ =
        crypto_secretstream_xchacha20poly1305_init_pull(&state_, header.data(), key.data()) == 0;
  }
  /// The next `size` bytes.
  Result<std::string> take(std::size_t size) {
    while (plain_.size() - at_ < size) {
      if (auto more = pull(); !more) return tl::unexpected(more.error());
    }
    std::string text = plain_.substr(at_, size);
    at_ += size;
    return text;
  }
  /// Whether all was taken; the file must then really end.
  Result<bool> ended() {
    while (at_ == plain_.size() && !last_) {
      if (auto more = pull(); !more) return tl::unexpected(more.error());
    }
    return at_ == plain_.size();
  }

 private:
  Result<void> pull() {
    if (!good_) return broken(file_);
    if (last_) return fail(ErrorCode::malformed, "ends inside an entry", file_, "seal it again");
    std::string chunk(kChunk + kTag, '\0');
    in_.read(chunk.data(), static_cast<std::streamsize>(chunk.size()));
    chunk.resize(static_cast<std::size_t>(in_.gcount()));
    if (chunk.size() < kTag) {
      return fail(ErrorCode::malformed, "was cut short", file_, "use another copy of the file");
    }
    std::string text(chunk.size() - kTag, '\0');
    unsigned char tag = 0;
    if (crypto_secretstream_xchacha20poly1305_pull(&state_, bytes(text), nullptr, &tag,
                                                   bytes(chunk), chunk.size(), nullptr, 0) != 0) {
      return broken(file_);
    }
    last_ = tag == kLast;
    if (last_ && in_.peek() != std::ifstream::traits_type::eof()) {
      return fail(ErrorCode::malformed, "goes on behind its end", file_,
                  "use another copy of the file");
    }
    plain_ = plain_.substr(at_) + text;
    at_ = 0;
    return {};
  }
  std::ifstream& in_;
  std::string file_, plain_;
  std::size_t at_ = 0;
  bool good_ = false;
  bool last_ = false;
  crypto_secretstream_xchacha20poly1305_state state_{};
};

struct EntryHead {
  std::string name;
  std::uint64_t size = 0;
};

Result<EntryHead> next_entry(Opener& opener, const std::string& file) {
  constexpr std::uint32_t kMostName = 200;
  const auto length = opener.take(sizeof(std::uint32_t));
  if (!length) return tl::unexpected(length.error());
  const auto letters = from_little_endian<std::uint32_t>(*length);
  if (letters > kMostName) return broken(file);
  auto name = opener.take(letters);
  if (!name) return tl::unexpected(name.error());
  const auto size = opener.take(sizeof(std::uint64_t));
  if (!size) return tl::unexpected(size.error());
  return EntryHead{*std::move(name), from_little_endian<std::uint64_t>(*size)};
}

/// Whether an entry may be written below the backup's folder.
bool allowed(const std::string& name) {
  constexpr std::string_view kPhotos = "photos/";
  constexpr std::size_t kHexDigits = 64;
  return name == kBookFile ||
         (name.starts_with(kPhotos) && name.size() == kPhotos.size() + kHexDigits &&
          name.find_first_not_of("0123456789abcdef", kPhotos.size()) == std::string::npos);
}

Result<void> write_entry(Opener& opener, const EntryHead& entry, const std::string& to) {
  std::ofstream out(to, std::ios::binary);
  for (std::uint64_t left = entry.size; left > 0;) {
    const auto size = static_cast<std::size_t>(std::min<std::uint64_t>(left, kChunk));
    const auto text = opener.take(size);
    if (!text) return tl::unexpected(text.error());
    out << *text;
    left -= size;
  }
  out.close();
  if (!out)
    return fail(ErrorCode::io, "could not be written whole", to, "see that the disk has room");
  return sync_path(to);
}

Result<void> write_entries(Opener& opener, const std::string& file, const std::string& part) {
  for (const char* folder : {"", "/photos"}) {
    if (auto made = make_folder(part + folder); !made) return made;
  }
  bool has_book = false;
  for (;;) {
    const auto ended = opener.ended();
    if (!ended) return tl::unexpected(ended.error());
    if (*ended) break;
    const auto entry = next_entry(opener, file);
    if (!entry) return tl::unexpected(entry.error());
    if (!allowed(entry->name)) return broken(file);
    if (auto put = write_entry(opener, *entry, part + "/" + entry->name); !put) return put;
    has_book = has_book || entry->name == kBookFile;
  }
  if (has_book) return {};
  return fail(ErrorCode::malformed, "holds no book", file, "use another copy of the file");
}

struct SealHead {
  SealCost cost;
  Salt salt{};
  Header header{};
};

Result<SealHead> read_head(std::ifstream& in, const std::string& file) {
  constexpr std::uint32_t kMostPasses = 20;
  constexpr std::uint32_t kMostKib = 1024 * 1024;  // 1 GiB: more is a file meant to harm
  SealHead head;
  std::string text(
      kMagic.size() + 2 * sizeof(std::uint32_t) + head.salt.size() + head.header.size(), '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!in || !text.starts_with(kMagic)) {
    return fail(ErrorCode::malformed, "is no sealed backup", file,
                "name a file that huewright backup --sealed wrote");
  }
  std::size_t at = kMagic.size();
  head.cost.passes = from_little_endian<std::uint32_t>(std::string_view(text).substr(at));
  at += sizeof(std::uint32_t);
  head.cost.memory_kib = from_little_endian<std::uint32_t>(std::string_view(text).substr(at));
  at += sizeof(std::uint32_t);
  const bool fits = head.cost.passes >= 1 && head.cost.passes <= kMostPasses &&
                    head.cost.memory_kib >= 8 && head.cost.memory_kib <= kMostKib;
  if (!fits) return broken(file);
  std::copy_n(text.begin() + static_cast<std::ptrdiff_t>(at), head.salt.size(), head.salt.begin());
  at += head.salt.size();
  std::copy_n(text.begin() + static_cast<std::ptrdiff_t>(at), head.header.size(),
              head.header.begin());
  return head;
}

/// Writes a sealed file's entries into a folder beside its place; gives the backup's name.
Result<std::string> unpack(const std::string& file, std::string_view passphrase,
                           const std::string& part) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return fail(ErrorCode::io, "cannot be opened", file, "name a file that is there");
  const auto head = read_head(in, file);
  if (!head) return tl::unexpected(head.error());
  const auto key = key_of(passphrase, head->salt, head->cost);
  if (!key) return tl::unexpected(key.error());
  Opener opener(in, *key, head->header, file);
  const auto name = next_entry(opener, file);
  if (!name) return tl::unexpected(name.error());
  if (auto written = write_entries(opener, file, part); !written) {
    return tl::unexpected(written.error());
  }
  if (const auto facts = looked_through(part + "/book.db"); !facts) {
    return tl::unexpected(facts.error());
  }
  return name->name;
}

}  // namespace

Result<void> seal_backup(const std::string& path, const std::string& name, const std::string& file,
                         std::string_view passphrase, const SealCost& cost) {
  const auto backup = backup_in(path, name);
  if (!backup) return tl::unexpected(backup.error());
  if (passphrase.size() < kLeastPassphrase) {
    return fail(
        ErrorCode::out_of_range, "is too short", "passphrase",
        "take at least " + std::to_string(kLeastPassphrase) + " letters: four words or more");
  }
  if (fs::exists(file)) {
    return fail(ErrorCode::conflict, "is there already", file, "name a file that is not there yet");
  }
  if (sodium_init() < 0) return fail(ErrorCode::io, "the system gives no random numbers", file, {});
  Salt salt{};
  randombytes_buf(salt.data(), salt.size());
  const auto key = key_of(passphrase, salt, cost);
  if (!key) return tl::unexpected(key.error());
  const std::string part = file + ".part";
  Sealer sealer(part, *key,
                std::string(kMagic) + little_endian(cost.passes) + little_endian(cost.memory_kib) +
                    std::string(salt.begin(), salt.end()));
  auto done = seal_folder(*backup, name, sealer);
  std::error_code problem;
  if (done) fs::rename(part, file, problem);
  if (done && problem) done = trouble(file, problem);
  if (!done) fs::remove(part, problem);
  return done;
}

Result<std::string> open_sealed(const std::string& path, const std::string& file,
                                std::string_view passphrase) {
  if (sodium_init() < 0) return fail(ErrorCode::io, "the system gives no random numbers", file, {});
  const std::string part = path + "/backups/opening.part";
  std::error_code problem;
  fs::remove_all(part, problem);
  auto name = unpack(file, passphrase, part);
  const bool there = name && backup_in(path, *name).has_value();
  if (name && !is_backup_name(*name)) name = broken(file);
  if (name && !there) {
    fs::rename(part, path + "/backups/" + *name, problem);
    if (problem) name = trouble(path + "/backups/" + *name, problem);
  }
  fs::remove_all(part, problem);
  if (!name) return name;
  if (auto synced = sync_path(path + "/backups"); !synced) return tl::unexpected(synced.error());
  return name;
}

}  // namespace hw::book
