#pragma once
// One connection: requests one after the other, each read within its limits, answered, or refused
// and hung up. Included by net_plain.cpp and net_tls.cpp alone.
#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/http.hpp>
#include <deque>
#include <limits>
#include <optional>

#include "net_inside.h"
#include "replies.h"
#include "text.h"

namespace hw::server {

namespace http = boost::beast::http;

/// How a stream of some kind starts and ends.
template <class Stream>
struct Manner;

template <class Stream>
class TalkOver final : public Talk, public std::enable_shared_from_this<TalkOver<Stream>> {
 public:
  template <class... Parts>
  TalkOver(Net::Inside& net, Listener& listener, std::string peer, Parts&&... parts)
      : net_(net),
        listener_(listener),
        peer_(std::move(peer)),
        stream_(std::forward<Parts>(parts)...),
        buffer_(kMostBuffered) {
    net_.talks.insert(this);
    ++listener_.talks;
    ++listener_.talks_of_peer[peer_];
  }
  ~TalkOver() override { net_.talk_ended(this, listener_, peer_); }

  void begin() {
    socket().expires_after(limits().header_time);
    Manner<Stream>::greet(stream_, [self = this->shared_from_this()](beast::error_code failed) {
      if (!failed) self->wait_for_request(self->limits().header_time);
    });
  }

  void wind_up() override {
    if (!busy_) cut();
  }
  void cut() override {
    beast::error_code ignored;
    socket().socket().shutdown(Tcp::socket::shutdown_both, ignored);
    socket().close();
  }

 private:
  static constexpr std::size_t kMostBuffered = 64U << 10U;  // bytes; guess
  static constexpr std::size_t kPiece = 4096;               // bytes; guess
  static constexpr std::size_t kMostDiscarded = 1U << 20U;  // bytes read after a refusal; guess

  [[nodiscard]] const Limits& limits() const { return net_.front.limits(); }
  beast::tcp_stream& socket() { return beast::get_lowest_layer(stream_); }
  auto self() { return this->shared_from_this(); }

  /// Between two requests a connection may stay silent for longer than inside one.
  void wait_for_request(std::chrono::milliseconds time) {
    busy_ = false;
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(limits().header_bytes));
    // Set by the route once the header is read. "None" would be less than any length here.
    parser_->body_limit(std::numeric_limits<std::uint64_t>::max());
    if (buffer_.size() > 0) return read_header();
    if (net_.stopping) return cut();
    socket().expires_after(time);
    stream_.async_read_some(buffer_.prepare(kPiece),
                            [self = self()](beast::error_code failed, std::size_t got) {
                              self->buffer_.commit(got);
                              if (!failed) self->read_header();
                            });
  }

  void read_header() {
    busy_ = true;
    socket().expires_after(limits().header_time);
    http::async_read_header(
        stream_, buffer_, *parser_,
        [self = self()](beast::error_code failed, std::size_t) { self->on_header(failed); });
  }

  void on_header(beast::error_code failed) {
    if (failed == http::error::header_limit || failed == http::error::buffer_overflow) {
      return refuse(refusal(431, "the header is longer than 8 KiB", "header", "send less"));
    }
    if (failed == beast::error::timeout || failed == http::error::end_of_stream) return;
    if (failed) {
      if (failed.category() != make_error_code(http::error::bad_method).category()) return;
      return refuse(refusal(400, "this is no HTTP request", "header", "ask with HTTP/1.1"));
    }
    const auto& message = parser_->get();
    Head head;
    head.method = std::string(message.method_string());
    head.target = std::string(message.target());
    head.peer = peer_;
    for (const auto& field : message) {
      head.fields.emplace_back(lower({field.name_string().data(), field.name_string().size()}),
                               std::string(field.value()));
    }
    head_only_ = head.method == "HEAD";
    if (head.fields.size() > limits().header_fields) {
      return refuse(refusal(431, "the header has more than 100 fields", "header", "send fewer"));
    }
    auto looked = net_.front.look(listener_.door, head);
    if (auto* reply = std::get_if<Reply>(&looked)) {
      const bool has_body = parser_->chunked() || parser_->content_length().value_or(0) > 0;
      return has_body ? refuse(std::move(*reply)) : deliver(std::move(*reply));
    }
    passed_ = std::get<Front::Passed>(std::move(looked));
    if (passed_.listens && !head_only_) return listen();
    begin_body();
  }

  void begin_body() {
    if (parser_->content_length().value_or(0) > passed_.most_body) return refuse(too_long());
    parser_->body_limit(passed_.most_body);
    body_until_ = Clock::now() + limits().silence + time_for(passed_.most_body);
    if (!lower(view(parser_->get()[http::field::expect])).starts_with("100-")) return read_body();
    static constexpr std::string_view kGoOn = "HTTP/1.1 100 Continue\r\n\r\n";
    socket().expires_after(limits().silence);
    asio::async_write(stream_, asio::buffer(kGoOn.data(), kGoOn.size()),
                      [self = self()](beast::error_code failed, std::size_t) {
                        if (!failed) self->read_body();
                      });
  }

  void read_body() {
    if (parser_->is_done()) return ask();
    if (Clock::now() > body_until_) return refuse(too_slow());
    socket().expires_after(limits().silence);
    http::async_read_some(stream_, buffer_, *parser_,
                          [self = self()](beast::error_code failed, std::size_t) {
                            if (!failed) return self->read_body();
                            if (failed == http::error::body_limit)
                              self->refuse(too_long());
                            else if (failed.category() == http_category())
                              self->refuse(no_body());
                          });
  }

  void ask() {
    socket().expires_never();
    const bool keep = parser_->get().keep_alive();
    std::string body = std::move(parser_->get().body());
    // Taken out of the box by the call, so that no other thread is ever the last to hold a talk.
    auto box = std::make_shared<std::shared_ptr<TalkOver>>(self());
    net_.front.answer(std::move(passed_), std::move(body), [box, keep, &io = net_.io](Reply reply) {
      asio::post(io, [self = std::move(*box), keep, reply = std::move(reply)]() mutable {
        self->deliver(std::move(reply), keep);
      });
    });
  }

  void deliver(Reply reply) { deliver(std::move(reply), parser_->get().keep_alive()); }
  void deliver(Reply reply, bool keep) {
    const bool keeps = keep && !net_.stopping;
    answer_.emplace();
    answer_->version(11);
    answer_->result(static_cast<unsigned>(reply.status));
    for (const auto& [name, value] : reply.headers) answer_->insert(name, value);
    const bool no_content = reply.status == 304 || reply.status == 204;
    if (!no_content) {
      answer_->set(http::field::content_type, reply.type);
      answer_->content_length(reply.body.size());
    }
    answer_->keep_alive(keeps);
    socket().expires_after(limits().silence + time_for(reply.body.size()));
    if (!head_only_ && !no_content) answer_->body() = std::move(reply.body);
    http::async_write(stream_, *answer_,
                      [self = self(), keeps](beast::error_code failed, std::size_t) {
                        self->answer_.reset();
                        if (failed) return;
                        if (keeps) return self->wait_for_request(self->limits().idle_time);
                        self->part();
                      });
  }

  /// An answer before the body was read: the connection cannot be used again.
  void refuse(Reply reply) {
    if (reply.headers.empty()) dress(reply);
    deliver(std::move(reply), false);
  }

  /// Says goodbye, then reads for a moment what the other side still sends, so that the answer is
  /// not lost in a reset.
  void part() {
    socket().expires_after(limits().silence);
    Manner<Stream>::part(stream_, [self = self()](beast::error_code) {
      beast::error_code ignored;
      self->socket().socket().shutdown(Tcp::socket::shutdown_send, ignored);
      self->discard(0);
    });
  }
  void discard(std::size_t so_far) {
    if (so_far > kMostDiscarded || net_.stopping) return;
    buffer_.clear();
    socket().async_read_some(buffer_.prepare(kPiece),
                             [self = self(), so_far](beast::error_code failed, std::size_t got) {
                               if (!failed) self->discard(so_far + got);
                             });
  }

  /// The header of an event stream; from then on the other side only listens.
  void listen() {
    Reply reply;
    reply.type = "text/event-stream";
    dress(reply);
    std::string header = "HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Type: " + reply.type;
    for (const auto& [name, value] : reply.headers) header += "\r\n" + name + ": " + value;
    header += "\r\n\r\nretry: 3000\n\n" + net_.greeting();
    listening = passed_.request.device;
    busy_ = false;
    socket().expires_never();
    say(std::make_shared<const std::string>(std::move(header)));
    hear();
  }
  /// Whether the listener is still there shows in reading, where nothing is expected.
  void hear() {
    buffer_.clear();
    stream_.async_read_some(buffer_.prepare(kPiece),
                            [self = self()](beast::error_code failed, std::size_t) {
                              if (failed)
                                self->cut();
                              else
                                self->hear();
                            });
  }
  void say(const std::shared_ptr<const std::string>& text) override {
    unsent_bytes_ += text->size();
    const bool stuck = !unsent_.empty() && Clock::now() > sent_until_;
    if (stuck || unsent_bytes_ > limits().stream_bytes) return cut();
    unsent_.push_back(text);
    if (unsent_.size() == 1) send_first();
  }
  void send_first() {
    sent_until_ = Clock::now() + limits().stream_time;
    asio::async_write(stream_, asio::buffer(*unsent_.front()),
                      [self = self()](beast::error_code failed, std::size_t) {
                        if (failed) return self->cut();
                        self->unsent_bytes_ -= self->unsent_.front()->size();
                        self->unsent_.pop_front();
                        if (!self->unsent_.empty()) self->send_first();
                      });
  }

  static std::string_view view(beast::string_view text) { return {text.data(), text.size()}; }
  static const beast::error_category& http_category() {
    return make_error_code(http::error::bad_chunk).category();
  }
  [[nodiscard]] std::chrono::milliseconds time_for(std::size_t bytes) const {
    return std::chrono::milliseconds(bytes * 1000 / limits().slowest_bytes_per_s);
  }
  static Reply too_long() {
    return refusal(413, "the body is longer than this address takes", "body", "send less");
  }
  static Reply too_slow() {
    return refusal(408, "the body came too slowly", "body", "send it again");
  }
  static Reply no_body() {
    return refusal(400, "the body is not framed as HTTP/1.1 has it", "body", "send it anew");
  }

  Net::Inside& net_;
  Listener& listener_;
  std::string peer_;
  Stream stream_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  std::optional<http::response<http::string_body>> answer_;
  Front::Passed passed_;
  Clock::time_point body_until_, sent_until_;
  std::deque<std::shared_ptr<const std::string>> unsent_;  ///< events; the first is on its way
  std::size_t unsent_bytes_ = 0;
  bool head_only_ = false;
  bool busy_ = true;  ///< a request is under way
};

}  // namespace hw::server
