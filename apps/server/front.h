#pragma once
// Everything between a socket and a handler: who asks, whether they may, and what the answer wears.
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "head.h"
#include "route.h"
#include "server_limits.h"
#include "service.h"
#include "target.h"
#include "workers.h"

namespace hw::server {

class Front {
 public:
  Front(Service& service, Workers& workers, const Limits& limits);

  /// A request that may go on to its body.
  struct Passed {
    const Route* route = nullptr;
    Request request;
    std::size_t most_body = 0;  ///< [bytes]
  };
  /// A request by its header alone: the answer, where that says enough, or what may go on.
  [[nodiscard]] std::variant<Reply, Passed> look(const Door& door, const Head& head);

  /// Runs the handler on another thread; `done` is called once, on any thread.
  void answer(Passed passed, std::string body, std::function<void(Reply)> done);

  [[nodiscard]] const Limits& limits() const { return limits_; }

 private:
  [[nodiscard]] std::variant<Reply, Passed> looked(const Door& door, const Head& head);
  Service& service_;
  Workers& workers_;
  Limits limits_;
};

/// The route that a path names, with what stands for each {…}; and the methods it knows.
struct Match {
  const Route* route = nullptr;  ///< null: no route of this method
  std::vector<std::string> parts;
  std::string allow;  ///< "GET, HEAD, POST"; empty: no such path
};
[[nodiscard]] Match match_of(std::span<const Route> all, std::string_view method,
                             const Target& target);

}  // namespace hw::server
