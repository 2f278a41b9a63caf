#pragma once
// What a stranger may ask of the server. All are house rules, no source, unless a line says
// otherwise.
#include <chrono>
#include <cstddef>
#include <cstdint>

namespace hw::server {

struct Limits {
  std::size_t header_bytes = 8192;  ///< request line and header
  std::size_t header_fields = 100;
  std::chrono::milliseconds header_time{10'000};  ///< from the first byte to the last
  std::chrono::milliseconds idle_time{60'000};    ///< between two requests of a connection
  std::chrono::milliseconds silence{5'000};       ///< of a body, or of a reader of an answer
  std::size_t slowest_bytes_per_s = 100'000;      ///< of a body or an answer, beside `silence`
  std::size_t connections = 400;                  ///< of one door
  std::size_t connections_of_peer = 250;          ///< of one address, on the salon's network
  std::size_t stream_bytes = 256U << 10U;         ///< unsent, before a listening page is let go
  std::chrono::milliseconds stream_time{60'000};  ///< for one event to leave
  double rates_times = 1;                         ///< how many times the usual rates are allowed
  std::size_t waiting = 64;                       ///< requests before the handlers
  std::uint64_t least_free_bytes = 500'000'000;   ///< on the disk of the book, for a write
  std::chrono::milliseconds clock_every{20'000};  ///< moment told to every open page
  std::chrono::milliseconds housekeeping_every{600'000};
  std::chrono::milliseconds stop_time{5'000};  ///< for requests under way when it is to stop
};

}  // namespace hw::server
