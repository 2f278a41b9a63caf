#pragma once
// Heads that clients start from: the invented ones of a folder of cases, varied within reason.
#include <string>
#include <vector>

#include "huewright/wire/case_file.h"
#include "pen.h"
#include "people.h"

namespace hw::demo {

/// What a client comes with, as the salon is told and reads it.
struct FirstHead {
  wire::CaseFile file;  ///< without its shelf, which is the salon's
  std::string wish;     ///< in the client's words
};

/// The heads of a folder and the salon's shelf. cases: path of the folder. Errors: io; a case that
/// cannot be read.
struct Stock {
  std::vector<wire::CaseFile> heads;
  std::vector<process::Product> shelf;
};
[[nodiscard]] Result<Stock> read_cases(const std::string& cases);

/// The head of a client: one of them, a little longer or shorter, lighter or darker, finer or
/// denser, washed more or less often.
[[nodiscard]] FirstHead first_head(const Stock& stock, std::uint64_t seed, std::size_t client);

/// Another colour that a client may wish for the next time, in one word.
[[nodiscard]] std::string another_look(const plan::Target& now, Chance& chance);

}  // namespace hw::demo
