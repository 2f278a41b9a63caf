#include "server.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <cstdio>
#include <ctime>
#include <mutex>
#include <thread>

#include "answers.h"
#include "devices.h"
#include "huewright/base/error_part.h"
#include "huewright/wire/json.h"
#include "own_routes.h"
#include "trust_page.h"

namespace hw::server {
namespace {

/// One server per data folder: a lock that ends with the process.
class OnlyOne {
 public:
  static Result<std::unique_ptr<OnlyOne>> take(const std::string& folder) {
    const std::string path = folder + "/serving";
    std::unique_ptr<OnlyOne> one(
        new OnlyOne(::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600)));
    if (one->file_ < 0) return fail(ErrorCode::io, "cannot be written", path, "see who owns it");
    if (::flock(one->file_, LOCK_EX | LOCK_NB) != 0) {
      return fail(ErrorCode::conflict, "another huewright serves this book", folder,
                  "stop that one, or give another --book");
    }
    return one;
  }
  ~OnlyOne() {
    if (file_ >= 0) ::close(file_);
  }
  OnlyOne(const OnlyOne&) = delete;
  OnlyOne& operator=(const OnlyOne&) = delete;

 private:
  explicit OnlyOne(int file) : file_(file) {}
  int file_;
};

std::string event(std::string_view name, const wire::Describe& fields) {
  return fmt::format("event: {}\ndata: {}\n\n", name, wire::encode_fields(fields));
}

std::string clock_event(const Service& service) {
  std::string now = process::iso_text(service.now());
  return event("clock", [&](wire::Object& object) { object.required("now", "").text(now, 0); });
}

std::string change_event(Change change) {
  return event("changed", [&](wire::Object& object) {
    object.required("about", "").text(change.about, 0);
    object.required("id", "").text(change.id, 0);
  });
}

void complain(const Result<void>& done) {
  if (!done) std::fprintf(stderr, "%s\n", one_line(done.error()).c_str());
}

}  // namespace

/// In this order: what stands below uses what stands above.
struct Server::Parts {
  Parts(const std::string& path, std::unique_ptr<book::Folder> folder, const Settings& settings_of,
        std::unique_ptr<Devices> devices_of)
      : settings(settings_of),
        devices(std::move(devices_of)),
        service(std::move(folder), make_thread_pool(std::thread::hardware_concurrency())),
        own(service, *devices, pairing),
        workers(std::make_unique<Workers>(settings.threads, settings.limits.waiting)),
        folder_path(path) {}

  Settings settings;
  std::unique_ptr<OnlyOne> only_one;
  std::unique_ptr<Devices> devices;
  std::unique_ptr<Answers> answers;
  Pairing pairing;
  Service service;
  OwnRoutes own;
  std::unique_ptr<Workers> workers;
  std::string folder_path;
  std::unique_ptr<Front> front;
  std::unique_ptr<Net> net;
  std::uint16_t port = 0;

  std::uint16_t tls_port = 0, trust_port = 0;
  std::mutex lan_mutex;  ///< of the two below, which the housekeeping changes
  Lan lan;
  Certificates certificates;
  std::jthread looks;  ///< through the book, while everything else goes on

  Result<void> open_doors();
  Result<void> open_lan();
  Result<void> read_lan();
  Result<void> look_at_lan();
  void set_lan_links();
  [[nodiscard]] std::uint16_t port_at(std::uint16_t steps) const;
  void examine(bool was_unclean);
  void heed(const Result<book::Findings>& findings) const;
  void start_clock();
};

/// What an unclean stop may have left is looked for before anybody writes; what a disk may have
/// done since a clean one, once the first page is up.
void Server::Parts::examine(bool was_unclean) {
  if (was_unclean) {
    settings.say("The last stop was not a clean one: the book is looked through first.");
    heed(service.book().store().examine());
    return;
  }
  front->set_first_page([this] {
    looks = std::jthread([this](const std::stop_token& stop) {
      // The lock is let go at once: the looking has a connection of its own.
      const book::Folder& folder = service.book().folder;
      heed(folder.examine_beside(stop));
    });
  });
}

void Server::Parts::heed(const Result<book::Findings>& findings) const {
  if (findings && findings->empty()) return;
  front->close_for_writing(error_part("something is wrong with the book, so nothing more is kept"));
  if (findings) {
    settings.say("Something is wrong with the book:");
    for (const std::string& finding : *findings) settings.say("  " + finding);
  } else {
    complain(tl::unexpected(findings.error()));
  }
  settings.say("Nothing more is written to it. huewright doctor says what to do.");
}

Result<void> Server::Parts::open_doors() {
  Door here;
  here.kind = Door::Kind::here;
  here.names = {"127.0.0.1", "localhost"};
  const auto opened = net->open("127.0.0.1", settings.port, std::move(here));
  if (!opened) return tl::unexpected(opened.error());
  port = *opened;
  own.set_links({fmt::format("http://127.0.0.1:{}", port), "", ""});
  return settings.lan ? open_lan() : Result<void>{};
}

/// The port behind another, unless any port will do.
std::uint16_t Server::Parts::port_at(std::uint16_t steps) const {
  return settings.port == 0 ? std::uint16_t{0} : static_cast<std::uint16_t>(settings.port + steps);
}

Result<void> Server::Parts::open_lan() {
  constexpr std::uint16_t kMostPort = 65'533;  // two more stand behind it
  if (settings.port > kMostPort) {
    return fail(ErrorCode::out_of_range, "leaves no room for the two ports of the network",
                "--port", "give a number up to 65533");
  }
  if (auto done = read_lan(); !done) return done;
  Door door;
  door.kind = Door::Kind::lan;
  door.names = lan.names();
  const auto tls = net->open_tls("0.0.0.0", port_at(1), door, certificates.server);
  if (!tls) return tl::unexpected(tls.error());
  door.kind = Door::Kind::trust;
  const auto plain = net->open("0.0.0.0", port_at(2), door);
  if (!plain) return tl::unexpected(plain.error());
  tls_port = *tls;
  trust_port = *plain;
  set_lan_links();
  front->set_trust_page([this](const Target& target) {
    const std::lock_guard lock(lan_mutex);
    return trust_page(target, certificates, own.links().lan);
  });
  return {};
}

/// What the network calls this machine, and certificates for it.
Result<void> Server::Parts::read_lan() {
  Lan now = settings.lan_now();
  if (now.addresses.empty()) {
    return fail(ErrorCode::unreachable, "this machine is on no private network", "--lan",
                "connect it to the salon's network, or serve without --lan");
  }
  auto made = certificates_of(folder_path, now, std::time(nullptr));
  if (!made) return tl::unexpected(made.error());
  const std::lock_guard lock(lan_mutex);
  lan = std::move(now);
  certificates = *std::move(made);
  return {};
}

void Server::Parts::set_lan_links() {
  const std::string& address = lan.addresses.front();
  own.set_links({fmt::format("http://127.0.0.1:{}", port),
                 fmt::format("https://{}:{}", address, tls_port),
                 fmt::format("http://{}:{}", address, trust_port)});
}

/// A lease that ran out gives the machine another address, and a year makes the certificate old.
Result<void> Server::Parts::look_at_lan() {
  if (!settings.lan) return {};
  const Lan before = lan;
  if (auto done = read_lan(); !done) return done;
  if (lan == before && !certificates.is_new) return {};
  set_lan_links();
  if (auto done = net->change_lan(lan.names(), certificates.server); !done) return done;
  if (lan != before) settings.say("This machine is now at " + own.links().lan + "/");
  return {};
}

void Server::Parts::start_clock() {
  net->set_greeting([this] { return clock_event(service); });
  service.listen([this](const Change& change) { net->tell(change_event(change)); });
  net->every(settings.limits.clock_every, [this] { net->tell(clock_event(service)); });
  net->every(settings.limits.housekeeping_every, [this] {
    const bool taken = workers->take([this] {
      complain(devices->save_seen());
      complain(answers->drop_old(service.now()));
      complain(look_at_lan());
    });
    if (!taken) return;  // too busy now; the next round does it
  });
}

Result<std::unique_ptr<Server>> Server::open(std::unique_ptr<book::Folder> folder,
                                             const Settings& settings) {
  const std::string path = folder->path();
  const bool was_unclean = folder->was_unclean();
  auto only_one = OnlyOne::take(path);
  if (!only_one) return tl::unexpected(only_one.error());
  auto devices = Devices::open(path + "/devices.json");
  if (!devices) return tl::unexpected(devices.error());
  auto parts = std::make_unique<Parts>(path, std::move(folder), settings, *std::move(devices));
  parts->only_one = *std::move(only_one);
  auto answers = Answers::open(path + "/answers.jsonl", parts->service.now());
  if (!answers) return tl::unexpected(answers.error());
  parts->answers = *std::move(answers);
  parts->front = std::make_unique<Front>(parts->service, *parts->workers, *parts->devices,
                                         *parts->answers, parts->own, settings.limits, path);
  parts->examine(was_unclean);
  parts->net = std::make_unique<Net>(*parts->front);
  if (auto done = parts->open_doors(); !done) return tl::unexpected(done.error());
  if (settings.heeds_signals) parts->net->heed_signals();
  parts->start_clock();
  parts->own.set_say(settings.say);
  parts->own.set_gone([net = parts->net.get()](const std::string& device) { net->hush(device); });
  return std::unique_ptr<Server>(new Server(std::move(parts)));
}

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

Server::~Server() {
  parts_->looks = {};
  parts_->workers.reset();
}

void Server::run() {
  parts_->net->run();
  parts_->looks = {};       // stopped
  parts_->workers.reset();  // what is still done is done before the book closes
  complain(parts_->devices->save_seen());
}

void Server::stop() {
  parts_->net->stop();
}

std::uint16_t Server::port() const {
  return parts_->port;
}

std::uint16_t Server::tls_port() const {
  return parts_->tls_port;
}

std::uint16_t Server::trust_port() const {
  return parts_->trust_port;
}

const std::string& Server::fingerprint() const {
  return parts_->certificates.fingerprint;
}

Links Server::links() const {
  return parts_->own.links();
}

Result<void> Server::look_at_lan() {
  return parts_->look_at_lan();
}

Service& Server::service() {
  return parts_->service;
}

std::string Server::owner_link() {
  return parts_->own.owner_link();
}

std::string Server::code_for(Role role) {
  return parts_->pairing.issue(role, false, Clock::now());
}

}  // namespace hw::server
