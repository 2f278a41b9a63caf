#pragma once
// What holds of anything the book is handed: a fact that was decoded can be kept as it stands, and
// a folder of its own for drivers that need files.
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <span>
#include <string>
#include <string_view>

#include "fuzz_wire.h"
#include "huewright/book/client.h"
#include "huewright/book/record_file.h"
#include "huewright/book/visit.h"

namespace hw::fuzz {

/// A decoded fact passes, or is refused in one clean line; what passed passes again unchanged, and
/// what folds over it does not stumble.
inline void check_fact(const book::Fact& fact) {
  const auto good = book::checked(fact);
  if (!good) return check_error(good.error());
  const auto again = book::checked(*good);
  HW_CHECK(again.has_value() && *again == *good);
  const std::span<const book::Fact> one(&*good, 1);
  HW_CHECK(book::in_force(one).size() == 1);
  if (book::about(*good) == book::About::client) (void)book::client_of(one);
  if (book::about(*good) == book::About::visit) (void)book::visit_of(one);
}

inline book::Hand hand() {
  return {"Ines", "2025-05-14T10:00:00+02:00"};
}

/// An empty folder that goes when the driver ends; TMPDIR says where, best in memory.
class Sandbox {
 public:
  explicit Sandbox(const char* name)
      : path_((std::filesystem::temp_directory_path() /
               (std::string(name) + "-" + std::to_string(::getpid())))
                  .string()) {
    clear();
  }
  ~Sandbox() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Sandbox(const Sandbox&) = delete;
  Sandbox& operator=(const Sandbox&) = delete;
  void clear() const {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

inline void put_file(const std::string& path, std::string_view bytes) {
  std::ofstream out(path, std::ios::binary);
  out << bytes;
  out.close();
  HW_CHECK(!out.fail());
}

inline std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace hw::fuzz
