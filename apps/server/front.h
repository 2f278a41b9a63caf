#pragma once
// Everything between a socket and a handler: who asks, whether they may, and what the answer wears.
#include <functional>
#include <mutex>
#include <string>
#include <variant>
#include <vector>

#include "answers.h"
#include "devices.h"
#include "head.h"
#include "huewright/base/language.h"
#include "match.h"
#include "own_routes.h"
#include "rates.h"
#include "server_limits.h"
#include "service.h"
#include "workers.h"

namespace hw::server {

class Front {
 public:
  Front(Service& service, Workers& workers, Devices& devices, Answers& answers, OwnRoutes& own,
        const Limits& limits, std::string folder);

  /// A request that may go on to its body.
  struct Passed {
    Match match;
    Request request;
    Caller caller;
    std::string key;            ///< Idempotency-Key; empty: none
    std::size_t most_body = 0;  ///< [bytes]
    bool listens = false;       ///< answered by the event stream
    Language language = Language::en;
  };
  /// A request by its header alone: the answer, where that says enough, or what may go on. On the
  /// thread of the network.
  [[nodiscard]] std::variant<Reply, Passed> look(const Door& door, const Head& head);

  /// Runs the handler on another thread; `done` is called once, on any thread.
  void answer(Passed passed, std::string body, std::function<void(Reply)> done);

  [[nodiscard]] const Limits& limits() const { return limits_; }
  /// Nothing more is written to the book; why: one line for the people who try. From any thread.
  void close_for_writing(std::string why);
  /// Called once, on the thread of the network, when the first page was given.
  void set_first_page(std::function<void()> given) { first_page_ = std::move(given); }
  /// What the door of the certificate shows.
  void set_trust_page(std::function<Reply(const Target&)> page) { trust_page_ = std::move(page); }

 private:
  [[nodiscard]] std::variant<Reply, Passed> looked(const Door& door, const Head& head);
  [[nodiscard]] std::variant<Reply, Passed> looked_at_api(const Door& door, const Head& head,
                                                          Target target);
  [[nodiscard]] std::optional<Reply> refused_device(const Door& door, const Head& head,
                                                    Passed& passed);
  [[nodiscard]] std::optional<std::chrono::milliseconds> wait_of(const std::string& key, Rate rate);
  [[nodiscard]] std::optional<Reply> refused_rate(const Passed& passed);
  [[nodiscard]] std::optional<Reply> refused_write(const Head& head, Passed& passed);
  [[nodiscard]] Reply ran(const Passed& passed);
  [[nodiscard]] Reply run(const Passed& passed);
  void run_once(const Passed& passed, const std::function<void(Reply)>& done);

  Service& service_;
  Workers& workers_;
  Devices& devices_;
  Answers& answers_;
  OwnRoutes& own_;
  Limits limits_;
  std::string folder_;  ///< of the book, for the room on its disk
  std::vector<Route> own_routes_;
  Rates rates_;
  std::mutex read_only_mutex_;
  std::string read_only_;
  std::function<void()> first_page_;
  std::function<Reply(const Target&)> trust_page_;
};

}  // namespace hw::server
