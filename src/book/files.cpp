#include "huewright/book/files.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "huewright/base/error_part.h"

namespace hw::book {
namespace {

namespace fs = std::filesystem;

tl::unexpected<Error> trouble(const std::string& path) {
  return fail(ErrorCode::io, system_words(errno), path,
              "see that the disk has room and that you may write there");
}

/// A file that is closed on every way out.
class Open {
 public:
  Open(const std::string& path, int flags) : file_(::open(path.c_str(), flags | O_CLOEXEC, 0600)) {}
  ~Open() {
    if (file_ >= 0) ::close(file_);
  }
  Open(const Open&) = delete;
  Open& operator=(const Open&) = delete;
  [[nodiscard]] int get() const { return file_; }

 private:
  int file_;
};

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t done = ::write(file, bytes.data(), bytes.size());
    if (done < 0 && errno == EINTR) continue;
    if (done < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(done));
  }
  return true;
}

}  // namespace

Result<std::string> read_file(const std::string& path) {
  const Open file(path, O_RDONLY);
  if (file.get() < 0) return trouble(path);
  std::string bytes;
  constexpr std::size_t kPiece = 1U << 16U;
  std::string piece(kPiece, '\0');
  for (;;) {
    const ssize_t got = ::read(file.get(), piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return trouble(path);
    if (got == 0) return bytes;
    bytes.append(piece, 0, static_cast<std::size_t>(got));
  }
}

Result<void> sync_path(const std::string& path) {
  const Open file(path, O_RDONLY);
  if (file.get() < 0 || ::fsync(file.get()) != 0) return trouble(path);
  return {};
}

Result<void> write_file(const std::string& path, std::string_view bytes) {
  const std::string beside = path + ".new";
  {
    const Open file(beside, O_WRONLY | O_CREAT | O_TRUNC);
    if (file.get() < 0 || !write_all(file.get(), bytes) || ::fsync(file.get()) != 0) {
      auto error = trouble(path);
      ::unlink(beside.c_str());
      return error;
    }
  }
  if (::rename(beside.c_str(), path.c_str()) != 0) return trouble(path);
  const std::string above = fs::path(path).parent_path().string();
  return sync_path(above.empty() ? "." : above);
}

Result<void> make_folder(const std::string& path) {
  std::error_code problem;
  if (fs::is_directory(path, problem)) return {};
  fs::create_directories(path, problem);
  if (!problem) fs::permissions(path, fs::perms::owner_all, problem);
  if (problem) {
    return fail(ErrorCode::io, system_words(problem.value()), path,
                "choose a folder that you may write to");
  }
  return {};
}

}  // namespace hw::book
