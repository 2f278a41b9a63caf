#pragma once
// What the network answers itself: letting devices in, listing them, taking them out.
#include <functional>
#include <span>
#include <string>

#include "devices.h"
#include "head.h"
#include "pairing.h"
#include "rates.h"
#include "service.h"

namespace hw::server {

/// Who asks, by which door.
struct Caller {
  const Door* door = nullptr;
  std::string peer;
};

/// Addresses of the server as a person types them, without the last slash.
struct Links {
  std::string here = {};   ///< "http://127.0.0.1:8463"
  std::string lan = {};    ///< "https://192.168.1.20:8464"; empty: no door to the network
  std::string trust = {};  ///< "http://192.168.1.20:8465"
};

class OwnRoutes {
 public:
  OwnRoutes(Service& service, Devices& devices, Pairing& pairing)
      : service_(service), devices_(devices), pairing_(pairing) {}

  struct Entry {
    Route route;                                                     ///< without a handler
    Result<Reply> (OwnRoutes::*run)(const Caller&, const Request&);  ///< null: the event stream
  };
  /// In the order of the OpenAPI file.
  [[nodiscard]] static std::span<const Entry> entries();

  /// How long somebody has to wait before a code is looked at again, after wrong ones.
  std::optional<std::chrono::milliseconds> must_wait(const Caller& caller);

  /// Set once the doors are open, and when the network calls this machine otherwise.
  void set_links(Links links) {
    const std::lock_guard lock(links_mutex_);
    links_ = std::move(links);
  }
  [[nodiscard]] Links links() const {
    const std::lock_guard lock(links_mutex_);
    return links_;
  }
  /// Lines for the person at the machine.
  void set_say(std::function<void(const std::string&)> say) { say_ = std::move(say); }
  /// Told when a device is taken out.
  void set_gone(std::function<void(const std::string& device)> gone) { gone_ = std::move(gone); }
  /// A code for this machine's own browser, as a link.
  [[nodiscard]] std::string owner_link();

 private:
  Result<Reply> pair(const Caller& caller, const Request& request);
  Result<Reply> list(const Caller& caller, const Request& request);
  Result<Reply> revoke(const Caller& caller, const Request& request);
  Result<Reply> let_in(const Caller& caller, const Request& request);

  Service& service_;
  Devices& devices_;
  Pairing& pairing_;
  Delays delays_;
  mutable std::mutex links_mutex_;
  Links links_;
  std::function<void(const std::string&)> say_ = [](const std::string&) {};
  std::function<void(const std::string&)> gone_ = [](const std::string&) {};
};

/// Every route: the network's own, then those of the handlers.
[[nodiscard]] std::vector<Route> every_route();

}  // namespace hw::server
