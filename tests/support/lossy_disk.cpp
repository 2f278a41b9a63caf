#include "lossy_disk.h"

#include <sqlite3.h>

#include <atomic>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <map>
#include <vector>

namespace hw::test {
namespace {

namespace fs = std::filesystem;

/// Bytes of a file as they were before something was written over them, newest last.
struct Undo {
  std::int64_t at = 0;
  std::string before;
  std::int64_t size_before = 0;
};

struct State {
  std::map<std::string, std::vector<Undo>> unsynced;  // by path
  std::function<void(std::int64_t)> call;
  std::int64_t operations = 0;
  Fault fault = Fault::none;
  std::int64_t left = 0;  // operations of the fault's kind before it strikes
  bool for_ever = false, struck = false;
};

// One disk at a time is in use by a test program.
State* disk = nullptr;
sqlite3_vfs* real = nullptr;

struct File {
  sqlite3_file base;
  char path[1024];
  sqlite3_file* inner() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File* of(sqlite3_file* file) {
  return reinterpret_cast<File*>(file);
}

bool strikes(Fault kind) {
  if (disk->fault != kind) return false;
  if (--disk->left > 0) return false;
  if (disk->left < 0 && !disk->for_ever) return false;
  disk->struck = true;
  return true;
}

void count() {
  ++disk->operations;
  if (disk->call) disk->call(disk->operations);
}

void remember(sqlite3_file* file, std::int64_t at, std::int64_t bytes) {
  sqlite3_file* inner = of(file)->inner();
  sqlite3_int64 size = 0;
  inner->pMethods->xFileSize(inner, &size);
  Undo undo{at, std::string(static_cast<std::size_t>(bytes), '\0'), size};
  const std::int64_t there = std::max<std::int64_t>(0, std::min<std::int64_t>(bytes, size - at));
  undo.before.resize(static_cast<std::size_t>(there));
  if (there > 0) inner->pMethods->xRead(inner, undo.before.data(), static_cast<int>(there), at);
  disk->unsynced[of(file)->path].push_back(std::move(undo));
}

int close(sqlite3_file* file) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods == nullptr ? SQLITE_OK : inner->pMethods->xClose(inner);
}
int read(sqlite3_file* file, void* into, int bytes, sqlite3_int64 at) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xRead(inner, into, bytes, at);
}
int write(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 at) {
  count();
  if (strikes(Fault::write)) return SQLITE_IOERR_WRITE;
  if (strikes(Fault::full)) return SQLITE_FULL;
  remember(file, at, bytes);
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xWrite(inner, from, bytes, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
  count();
  if (strikes(Fault::write)) return SQLITE_IOERR_TRUNCATE;
  sqlite3_file* inner = of(file)->inner();
  sqlite3_int64 now = 0;
  inner->pMethods->xFileSize(inner, &now);
  if (size < now) remember(file, size, now - size);
  return inner->pMethods->xTruncate(inner, size);
}
int sync(sqlite3_file* file, int flags) {
  count();
  if (strikes(Fault::sync)) return SQLITE_IOERR_FSYNC;
  disk->unsynced.erase(of(file)->path);
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xSync(inner, flags);
}
int file_size(sqlite3_file* file, sqlite3_int64* size) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xFileSize(inner, size);
}
int lock(sqlite3_file* file, int level) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xLock(inner, level);
}
int unlock(sqlite3_file* file, int level) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xUnlock(inner, level);
}
int check_lock(sqlite3_file* file, int* out) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xCheckReservedLock(inner, out);
}
int control(sqlite3_file* file, int what, void* with) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xFileControl(inner, what, with);
}
int sector(sqlite3_file* file) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xSectorSize(inner);
}
int device(sqlite3_file*) {
  return 0;
}  // promises nothing: no atomic writes, no safe appends
int shm_map(sqlite3_file* file, int page, int size, int extend, void volatile** out) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xShmMap(inner, page, size, extend, out);
}
int shm_lock(sqlite3_file* file, int offset, int n, int flags) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xShmLock(inner, offset, n, flags);
}
void shm_barrier(sqlite3_file* file) {
  sqlite3_file* inner = of(file)->inner();
  inner->pMethods->xShmBarrier(inner);
}
int shm_unmap(sqlite3_file* file, int remove) {
  sqlite3_file* inner = of(file)->inner();
  return inner->pMethods->xShmUnmap(inner, remove);
}

const sqlite3_io_methods kMethods{
    2,       close,  read,   write,   truncate, sync,        file_size, lock,    unlock, check_lock,
    control, sector, device, shm_map, shm_lock, shm_barrier, shm_unmap, nullptr, nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out) {
  of(file)->base.pMethods = nullptr;
  if (strikes(Fault::open)) return SQLITE_CANTOPEN;
  std::strncpy(of(file)->path, name == nullptr ? "" : name, sizeof(File::path) - 1);
  const int opened = real->xOpen(real, name, of(file)->inner(), flags, out);
  if (opened == SQLITE_OK) of(file)->base.pMethods = &kMethods;
  return opened;
}

}  // namespace

LossyDisk::LossyDisk() {
  static std::atomic<int> count_of = 0;
  name_ = "lossy" + std::to_string(++count_of);
  disk = new State;
  real = sqlite3_vfs_find(nullptr);
  auto* made = new sqlite3_vfs(*real);
  made->zName = name_.c_str();
  made->szOsFile = static_cast<int>(sizeof(File)) + real->szOsFile;
  made->xOpen = open;
  sqlite3_vfs_register(made, 0);
}

LossyDisk::~LossyDisk() {
  sqlite3_vfs* made = sqlite3_vfs_find(name_.c_str());
  sqlite3_vfs_unregister(made);
  delete made;
  delete disk;
  disk = nullptr;
}

void LossyDisk::before_each(std::function<void(std::int64_t)> call) {
  disk->call = std::move(call);
}

void LossyDisk::copy_as_after_a_cut(const std::string& folder, const std::string& to) const {
  fs::create_directories(to);
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (!entry.is_regular_file() || entry.path().extension() == ".db-shm") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(in), {}};
    const auto undone = disk->unsynced.find(entry.path().string());
    if (undone != disk->unsynced.end()) {
      for (auto undo = undone->second.rbegin(); undo != undone->second.rend(); ++undo) {
        bytes.resize(static_cast<std::size_t>(undo->size_before));
        std::copy(undo->before.begin(), undo->before.end(),
                  bytes.begin() + static_cast<std::ptrdiff_t>(undo->at));
      }
    }
    std::ofstream(fs::path(to) / entry.path().filename(), std::ios::binary) << bytes;
  }
}

void LossyDisk::fail(Fault fault, std::int64_t k, bool for_ever) {
  disk->fault = fault;
  disk->left = k;
  disk->for_ever = for_ever;
  disk->struck = false;
}

void LossyDisk::mend() {
  disk->fault = Fault::none;
}

bool LossyDisk::struck() const {
  return disk->struck;
}

}  // namespace hw::test
