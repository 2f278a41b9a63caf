#pragma once
// A file layer for SQLite that lies as a disk does when the power goes: it knows what was written
// but not yet synced, can show a folder as it would be found after a cut, and can fail any
// operation.
#include <cstdint>
#include <functional>
#include <string>

namespace hw::test {

/// What of an operation fails, from the k-th on or once.
enum class Fault { none, write, sync, open, full };

class LossyDisk {
 public:
  /// Registers the layer under a name of its own.
  LossyDisk();
  ~LossyDisk();
  LossyDisk(const LossyDisk&) = delete;
  LossyDisk& operator=(const LossyDisk&) = delete;

  [[nodiscard]] const std::string& name() const { return name_; }
  /// Called before each write, sync and truncation, with its number from 1.
  void before_each(std::function<void(std::int64_t)> call);
  /// Copies the files of a folder as they would be found had the power gone now: all that was
  /// written after a file's last sync is as it was before.
  void copy_as_after_a_cut(const std::string& folder, const std::string& to) const;
  /// The k-th operation of that kind fails, and with `for_ever` all after it. k: from 1.
  void fail(Fault fault, std::int64_t k, bool for_ever);
  void mend();
  /// Whether the fault has struck.
  [[nodiscard]] bool struck() const;

 private:
  std::string name_;
};

}  // namespace hw::test
