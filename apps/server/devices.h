#pragma once
// The devices that were let in: tablets, phones, the desk. Kept in one file of the data folder; of
// each device's secret only the SHA-256 is there, which is enough for a secret of 256 random bits.
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "huewright/process/moment.h"
#include "route.h"

namespace hw::server {

struct Device {
  std::string id, name;
  Role role = Role::assistant;
  std::string paired_at, seen_at;  ///< moments
  std::string secret_sha256;       ///< 64 hex digits
};

/// Most devices at a time [1]; house rule, no source.
inline constexpr std::size_t kMostDevices = 25;

/// Every device; of any thread.
class Devices {
 public:
  /// Reads a file, or starts without one. Errors: io, malformed.
  [[nodiscard]] static Result<std::unique_ptr<Devices>> open(std::string file);

  struct Paired {
    Device device;
    std::string secret;  ///< 64 hex digits; never told again
  };
  /// Lets a device in. known: id of the device that asks, if it was let in before; it gets a new
  /// secret and keeps its id. makes_room: the one not seen for longest goes where there are too
  /// many. Errors: conflict (too many), io.
  Result<Paired> pair(std::string name, Role role, const process::Moment& now,
                      std::string_view known, bool makes_room);
  /// The device whose secret this is.
  [[nodiscard]] std::optional<Device> of_secret(std::string_view secret) const;
  /// Notes that a device was here; on disk with save_seen().
  void saw(std::string_view id, const process::Moment& now);
  Result<void> save_seen();
  [[nodiscard]] std::vector<Device> all() const;
  /// Error: unknown_name, io.
  Result<void> revoke(std::string_view id);

 private:
  explicit Devices(std::string file) : file_(std::move(file)) {}
  Result<void> write(std::vector<Device> next);
  mutable std::mutex mutex_;
  std::string file_;
  std::vector<Device> devices_;
  bool seen_changed_ = false;
};

}  // namespace hw::server
