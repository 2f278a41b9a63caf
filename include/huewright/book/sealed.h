#pragma once
// A backup as one file that can leave the house: encrypted under a passphrase.
//   "huewright sealed 1\n", passes (u32), memory in KiB (u32), salt [16 bytes], stream header
//   [24 bytes]; then chunks of 64 KiB of plain text, each with 17 bytes of its own, the last tagged
//   as such. Numbers are little-endian. The plain text: entries of name length (u32), name, size
//   (u64), bytes. The key is Argon2id of the passphrase (RFC 9106); the stream is libsodium's
//   secretstream (XChaCha20-Poly1305).
#include <cstdint>
#include <string>
#include <string_view>

#include "huewright/base/result.h"

namespace hw::book {

/// Shortest passphrase taken [characters]; house rule, after the usual advice for a secret that is
/// the only factor.
inline constexpr std::size_t kLeastPassphrase = 15;

/// How dear a guess of the passphrase is. Least advised: 19 MiB and 2 passes (bib owasp_passwords).
struct SealCost {
  std::uint32_t passes = 3;
  std::uint32_t memory_kib = 64 * 1024;
};

/// Writes a finished backup of a data folder into one file, which must not be there. Memory does
/// not grow with the book. Errors: an unknown backup; a passphrase that is too short; a file that
/// is there (conflict); io.
[[nodiscard]] Result<void> seal_backup(const std::string& path, const std::string& name,
                                       const std::string& file, std::string_view passphrase,
                                       const SealCost& cost = {});

/// Puts a sealed backup back among the backups of a data folder, looked through, and gives its
/// name. What is there under that name already stays. Errors: a file that is none; a wrong
/// passphrase or a changed byte (the two cannot be told apart); a file cut short; io. An error
/// leaves nothing behind.
[[nodiscard]] Result<std::string> open_sealed(const std::string& path, const std::string& file,
                                              std::string_view passphrase);

}  // namespace hw::book
