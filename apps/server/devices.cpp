#include "devices.h"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <memory>

#include "huewright/book/files.h"
#include "huewright/book/folder.h"
#include "huewright/book/ids.h"
#include "huewright/wire/json.h"

namespace hw::server {

constexpr std::size_t kSecretBytes = 32;  // 256 bits
constexpr std::size_t kHexDigits = 64;
constexpr std::size_t kMostText = 100;  // bytes

static void describe(wire::Object& object, Device& device) {
  constexpr std::array kRoles{Role::assistant, Role::colourist, Role::owner};
  constexpr std::array<std::string_view, 3> kWords{"assistant", "colourist", "owner"};
  object.required("id", "of the device").text(device.id, kMostText);
  object.required("name", "as its people call it").text(device.name, kMostText);
  wire::word(object.required("role", "what it may do"), device.role, kRoles, kWords);
  object.required("paired_at", "moment").text(device.paired_at, kMostText);
  object.required("seen_at", "moment").text(device.seen_at, kMostText);
  object.required("secret_sha256", "of its secret").text(device.secret_sha256, kHexDigits);
}

namespace {

struct DevicesFile {
  std::vector<Device> devices;
};

void describe(wire::Object& object, DevicesFile& file) {
  wire::objects(object.required("devices", "that were let in"), file.devices, {0, kMostDevices});
}

std::string new_secret() {
  std::array<unsigned char, kSecretBytes> bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  std::array<char, kHexDigits + 1> hex{};
  sodium_bin2hex(hex.data(), hex.size(), bytes.data(), bytes.size());
  return {hex.data(), kHexDigits};
}

}  // namespace

Result<std::unique_ptr<Devices>> Devices::open(std::string file) {
  std::unique_ptr<Devices> devices(new Devices(file));
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return devices;
  const auto text = book::read_file(file);
  if (!text) return tl::unexpected(text.error());
  auto read = wire::decode<DevicesFile>(*text);
  if (!read) {
    Error error = read.error();
    error.where = file + (error.where.empty() ? "" : ": " + error.where);
    error.hint = "move the file away; every device is then let in anew";
    return tl::unexpected(error);
  }
  devices->devices_ = std::move(read->devices);
  return devices;
}

/// Puts a list in place of the one in use, on disk first. The lock is held.
Result<void> Devices::write(std::vector<Device> next) {
  DevicesFile file{std::move(next)};
  if (auto done = book::write_file(file_, wire::encode(file) + '\n'); !done) return done;
  devices_ = std::move(file.devices);
  seen_changed_ = false;
  return {};
}

Result<Devices::Paired> Devices::pair(std::string name, Role role, const process::Moment& now,
                                      std::string_view known, bool makes_room) {
  const std::lock_guard lock(mutex_);
  std::vector<Device> next = devices_;
  Paired paired;
  paired.secret = new_secret();
  const std::string moment = process::iso_text(now);
  paired.device = {book::new_id(), std::move(name), role,
                   moment,         moment,          book::sha256_of(paired.secret)};
  const auto before = std::ranges::find(next, known, &Device::id);
  if (before != next.end()) {
    paired.device.id = before->id;
    *before = paired.device;
  } else {
    if (next.size() >= kMostDevices) {
      if (!makes_room) {
        return fail(ErrorCode::conflict, "25 devices are let in already", "devices",
                    "take one out first");
      }
      next.erase(std::ranges::min_element(next, {}, &Device::seen_at));
    }
    next.push_back(paired.device);
  }
  if (auto done = write(std::move(next)); !done) return tl::unexpected(done.error());
  return paired;
}

std::optional<Device> Devices::of_secret(std::string_view secret) const {
  if (secret.size() != kHexDigits) return std::nullopt;
  const std::string hash = book::sha256_of(secret);
  const std::lock_guard lock(mutex_);
  const auto at = std::ranges::find(devices_, hash, &Device::secret_sha256);
  if (at == devices_.end()) return std::nullopt;
  return *at;
}

void Devices::saw(std::string_view id, const process::Moment& now) {
  const std::lock_guard lock(mutex_);
  const auto at = std::ranges::find(devices_, id, &Device::id);
  if (at == devices_.end()) return;
  at->seen_at = process::iso_text(now);
  seen_changed_ = true;
}

Result<void> Devices::save_seen() {
  const std::lock_guard lock(mutex_);
  if (!seen_changed_) return {};
  return write(devices_);
}

std::vector<Device> Devices::all() const {
  const std::lock_guard lock(mutex_);
  return devices_;
}

Result<void> Devices::revoke(std::string_view id) {
  const std::lock_guard lock(mutex_);
  std::vector<Device> next = devices_;
  if (std::erase_if(next, [&](const Device& device) { return device.id == id; }) == 0) {
    return fail(ErrorCode::unknown_name, "there is no such device", "id", "GET devices lists them");
  }
  return write(std::move(next));
}

}  // namespace hw::server
