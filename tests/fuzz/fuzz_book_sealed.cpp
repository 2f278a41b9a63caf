// Any bytes as a sealed backup. The first byte says which: a file as it stands, or (odd) plain text
// that whoever knows the passphrase sealed. In plain text, @book stands for the size and bytes of a
// whole book, so that the corpus need not hold one. The key is always a cheap one.
#include <sodium.h>

#include <algorithm>
#include <array>

#include "fuzz_book.h"
#include "huewright/book/backup.h"
#include "huewright/book/sealed.h"

namespace {

using namespace hw;

constexpr std::string_view kMagic = "huewright sealed 1\n";
constexpr std::string_view kPassphrase = "four words or even more";
constexpr std::size_t kChunk = std::size_t{64} * 1024;
constexpr std::uint32_t kLeastKib = 8;

std::string little_endian(std::uint64_t number, std::size_t bytes) {
  std::string text;
  for (std::size_t i = 0; i < bytes; ++i) text += static_cast<char>(number >> (8 * i) & 0xFFU);
  return text;
}

unsigned char* bytes(std::string& text) {
  return reinterpret_cast<unsigned char*>(text.data());
}

std::string sealed(std::string_view plain) {
  const std::string salt(crypto_pwhash_SALTBYTES, 's');
  // One passphrase, one salt: one key for the whole run.
  static const auto key = [&] {
    std::array<unsigned char, crypto_secretstream_xchacha20poly1305_KEYBYTES> made{};
    HW_CHECK(crypto_pwhash(made.data(), made.size(), kPassphrase.data(), kPassphrase.size(),
                           reinterpret_cast<const unsigned char*>(salt.data()), 1,
                           std::size_t{kLeastKib} * 1024, crypto_pwhash_ALG_ARGON2ID13) == 0);
    return made;
  }();
  std::string header(crypto_secretstream_xchacha20poly1305_HEADERBYTES, '\0');
  crypto_secretstream_xchacha20poly1305_state state;
  crypto_secretstream_xchacha20poly1305_init_push(&state, bytes(header), key.data());
  std::string file =
      std::string(kMagic) + little_endian(1, 4) + little_endian(kLeastKib, 4) + salt + header;
  for (bool last = false; !last;) {
    std::string text(plain.substr(0, kChunk));
    plain.remove_prefix(text.size());
    last = plain.empty();
    std::string chunk(text.size() + crypto_secretstream_xchacha20poly1305_ABYTES, '\0');
    crypto_secretstream_xchacha20poly1305_push(
        &state, bytes(chunk), nullptr, bytes(text), text.size(), nullptr, 0,
        last ? crypto_secretstream_xchacha20poly1305_TAG_FINAL : 0);
    file += chunk;
  }
  return file;
}

/// A file whose key costs little; what is beyond every limit stays, for it is refused first.
std::string cheap(std::string file) {
  constexpr std::uint32_t kMostPasses = 20;
  constexpr std::uint32_t kMostKib = 1024 * 1024;
  const auto tame = [&](std::size_t at, std::uint32_t least, std::uint32_t most) {
    if (file.size() < at + 4) return;
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      number |= static_cast<std::uint32_t>(static_cast<unsigned char>(file[at + i])) << (8 * i);
    }
    if (number > least && number <= most) file.replace(at, 4, little_endian(least, 4));
  };
  tame(kMagic.size(), 1, kMostPasses);
  tame(kMagic.size() + 4, kLeastKib, kMostKib);
  return file;
}

/// The bytes of a book with one client.
const std::string& a_book() {
  static const std::string whole = [] {
    const fuzz::Sandbox home("fuzz-sealed-book");
    const auto folder = book::Folder::open(home.path());
    HW_CHECK(folder.has_value());
    book::PersonFact ana;
    ana.name = "Ana";
    const auto fact = book::make_fact("f1", "c1", fuzz::hand().at, "Ines", ana);
    HW_CHECK((*folder)->store().append({&fact, 1}).has_value());
    const auto name = book::make_backup(**folder, *process::moment_from_iso(fuzz::hand().at));
    HW_CHECK(name.has_value());
    return fuzz::bytes_of(home.path() + "/backups/" + *name + "/book.db");
  }();
  return whole;
}

std::string with_book(std::string plain) {
  constexpr std::string_view kToken = "@book";
  const auto at = plain.find(kToken);
  if (at == std::string::npos) return plain;
  return plain.replace(at, kToken.size(), little_endian(a_book().size(), 8) + a_book());
}

std::size_t files_in(const std::string& folder) {
  const std::filesystem::directory_iterator all(folder);
  return static_cast<std::size_t>(std::ranges::distance(begin(all), end(all)));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  static const fuzz::Sandbox home("fuzz-sealed");
  home.clear();
  const std::string backups = home.path() + "/backups";
  std::filesystem::create_directory(backups);
  const std::string file = home.path() + "/away.sealed";
  const std::string rest(reinterpret_cast<const char*>(data) + 1, size - 1);
  fuzz::put_file(file, (data[0] & 1U) != 0 ? sealed(with_book(rest)) : cheap(rest));
  const auto name = book::open_sealed(home.path(), file, kPassphrase);
  HW_CHECK(files_in(home.path()) == 2);
  if (!name) {
    fuzz::check_error(name.error());
    HW_CHECK(std::filesystem::is_empty(backups));
    return 0;
  }
  const auto there = book::backups_of(home.path());
  HW_CHECK(there.has_value() && *there == std::vector<std::string>{*name});
  HW_CHECK(files_in(backups) == 1);
  HW_CHECK((data[0] & 1U) == 0 || rest.find("book.db") != std::string::npos);
  HW_CHECK(fuzz::bytes_of(backups + "/" + *name + "/book.db").starts_with("SQLite format 3"));
  HW_CHECK(name->find_first_not_of("0123456789-TZ") == std::string::npos);
  return 0;
}
