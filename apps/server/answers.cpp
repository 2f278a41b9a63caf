#include "answers.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>

#include "huewright/base/error_part.h"
#include "huewright/book/files.h"
#include "huewright/wire/json.h"
#include "replies.h"

namespace hw::server {

constexpr std::size_t kMostText = 200;                   // bytes of a name or a moment
constexpr std::size_t kMostBody = std::size_t{1} << 20;  // bytes of one answer; guess

static void describe(wire::Object& object, Answers::Remembered& one) {
  object.required("device", "").text(one.keyed.device, kMostText);
  object.required("key", "").text(one.keyed.key, kMostText);
  object.required("sha256", "").text(one.keyed.sha256, kMostText);
  object.required("at", "").text(one.at, kMostText);
  wire::count(object.required("status", ""), one.reply.status, 200, 299);
  object.required("body", "").text(one.reply.body, kMostBody);
}

namespace {

std::string line_of(const Answers::Remembered& one) {
  return wire::encode(one) + '\n';
}

bool is_old(const Answers::Remembered& one, const process::Moment& now) {
  const auto at = process::moment_from_iso(one.at);
  return !at || process::hours_between(*at, now) >= kAnswerHours;
}

Reply used_otherwise() {
  return refusal(422, "this key was used for another request", "Idempotency-Key",
                 "make a new key for each thing to be done");
}

}  // namespace

Result<std::unique_ptr<Answers>> Answers::open(std::string file, const process::Moment& now) {
  std::unique_ptr<Answers> answers(new Answers(file));
  std::error_code ignored;
  if (std::filesystem::exists(file, ignored)) {
    const auto text = book::read_file(file);
    if (!text) return tl::unexpected(text.error());
    for (std::string_view rest = *text; !rest.empty();) {
      const std::size_t end = std::min(rest.find('\n'), rest.size());
      auto one = wire::decode<Remembered>(rest.substr(0, end));
      if (one && !is_old(*one, now)) answers->add(*std::move(one));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }
  if (auto done = answers->write_anew(); !done) return tl::unexpected(done.error());
  return answers;
}

/// Puts one among the others; the file is the caller's. The lock is held.
void Answers::add(Remembered remembered) {
  Name name{remembered.keyed.device, remembered.keyed.key};
  if (answers_.contains(name)) return;
  bytes_ += remembered.reply.body.size();
  order_.push_back(name);
  answers_.emplace(std::move(name), std::move(remembered));
  while (order_.size() > kMostAnswers || bytes_ > kMostAnswerBytes) drop_first();
}

void Answers::drop_first() {
  const auto at = answers_.find(order_.front());
  bytes_ -= at->second.reply.body.size();
  answers_.erase(at);
  order_.pop_front();
}

Result<void> Answers::append(std::string line) {
  const int file = ::open(file_.c_str(), O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, 0600);
  bool whole = file >= 0;
  std::string_view rest = line;
  while (whole && !rest.empty()) {
    const ssize_t done = ::write(file, rest.data(), rest.size());
    if (done > 0) rest.remove_prefix(static_cast<std::size_t>(done));
    whole = done > 0 || errno == EINTR;
  }
  whole = whole && ::fdatasync(file) == 0;
  const int problem = errno;
  if (file >= 0) ::close(file);
  if (whole) return {};
  return fail(ErrorCode::io, system_words(problem), file_, "see that the disk has room");
}

Result<void> Answers::write_anew() {
  std::string text;
  for (const Name& name : order_) text += line_of(answers_.at(name));
  lines_ = order_.size();
  return book::write_file(file_, text);
}

bool Answers::begin(const Keyed& keyed, const Done& done) {
  const Name name{keyed.device, keyed.key};
  Reply reply;
  {
    const std::lock_guard lock(mutex_);
    const auto known = answers_.find(name);
    const auto now = under_way_.find(name);
    if (known != answers_.end()) {
      reply = known->second.keyed.sha256 == keyed.sha256 ? known->second.reply : used_otherwise();
    } else if (now == under_way_.end()) {
      under_way_.emplace(name, UnderWay{keyed.sha256, {}});
      return true;
    } else if (now->second.sha256 == keyed.sha256) {
      now->second.waiting.push_back(done);
      return false;
    } else {
      reply = used_otherwise();
    }
  }
  done(std::move(reply));
  return false;
}

Result<void> Answers::finish(const Keyed& keyed, const Reply& reply, const process::Moment& now) {
  const bool keeps = reply.status >= 200 && reply.status < 300 &&
                     reply.type == "application/json" && reply.headers.empty() &&
                     reply.body.size() <= kMostBody;
  Result<void> stored;
  std::vector<Done> waiting;
  {
    const std::lock_guard lock(mutex_);
    const auto at = under_way_.find({keyed.device, keyed.key});
    if (at != under_way_.end()) {
      waiting = std::move(at->second.waiting);
      under_way_.erase(at);
    }
    if (keeps) {
      Remembered one{keyed, process::iso_text(now), reply};
      std::string line = line_of(one);
      add(std::move(one));
      // Twice as many lines as answers: time to leave out what was dropped.
      stored = ++lines_ > 2 * kMostAnswers ? write_anew() : append(std::move(line));
    }
  }
  for (const Done& done : waiting) done(reply);
  return stored;
}

Result<void> Answers::forget() {
  const std::lock_guard lock(mutex_);
  answers_.clear();
  order_.clear();
  bytes_ = 0;
  return write_anew();
}

Result<void> Answers::drop_old(const process::Moment& now) {
  const std::lock_guard lock(mutex_);
  const std::size_t before = order_.size();
  while (!order_.empty() && is_old(answers_.at(order_.front()), now)) drop_first();
  return order_.size() == before ? Result<void>{} : write_anew();
}

}  // namespace hw::server
