#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <fstream>

#include "certificates.h"
#include "server/running.h"
#include "server/tls_client.h"
#include "x509.h"

namespace hw::test {
namespace {

using server::certificates_of;
using server::Lan;
using server::Role;
using testing::HasSubstr;
using testing::Not;

constexpr std::time_t kDay = 86'400;  // s
const Lan kSalon{"desk", {"192.168.7.20"}};

/// A server with its doors to a network of this name.
class OnLan : public testing::Test {
 protected:
  void SetUp() override {
    server_ = std::make_unique<Running>([this](server::Settings& settings) {
      settings.lan = true;
      settings.lan_now = [this] { return lan_; };
    });
    const Answer file = asked((*server_)->trust_port(),
                              {.target = "/huewright-authority.crt", .host = trust_host()});
    ASSERT_EQ(file.status, 200);
    EXPECT_EQ(file.header("content-type"), "application/x-x509-ca-cert");
    authority_ = file.body;
  }
  [[nodiscard]] std::string trust_host() const {
    return "127.0.0.1:" + std::to_string((*server_)->trust_port());
  }
  /// Asks over TLS, by a name that the certificate must have.
  Answer asked_safely(Ask ask, const std::string& name = "127.0.0.1") {
    const std::uint16_t port = (*server_)->tls_port();
    const TlsWire wire(port, authority_, name);
    if (!wire.is_open()) return {};
    ask.host = name + ":" + std::to_string(port);
    ask.headers.push_back("Origin: https://" + ask.host);
    if (!ask.cookie.empty()) ask.headers.push_back("Cookie: __Host-huewright=" + ask.cookie);
    ask.cookie.clear();
    wire.send(bytes_of(ask, port));
    std::string heard = wire.receive();
    for (;;) {
      std::string copy = heard;
      Answer answer = take_answer(copy);
      const std::string piece = answer.status == 0 ? wire.receive() : "";
      if (piece.empty()) return answer;
      heard += piece;
    }
  }

  Lan lan_ = kSalon;
  std::unique_ptr<Running> server_;
  std::string authority_;
};

TEST_F(OnLan, AnswersByEveryNameUnderItsAuthority) {
  for (const char* name :
       {"127.0.0.1", "localhost", "huewright.local", "desk", "desk.local", "192.168.7.20"}) {
    EXPECT_EQ(asked_safely({.target = "/api/v1/health"}, name).status, 200) << name;
  }
  const TlsWire other((*server_)->tls_port(), authority_, "elsewhere.example");
  EXPECT_FALSE(other.is_open());
  EXPECT_THAT(other.why_not(), HasSubstr("ostname mismatch"));
  const TlsWire stranger((*server_)->tls_port(), "", "127.0.0.1");
  EXPECT_FALSE(stranger.is_open());
}

TEST_F(OnLan, TakesTls12AndNewerAlone) {
  const std::uint16_t port = (*server_)->tls_port();
  EXPECT_FALSE(TlsWire(port, authority_, "127.0.0.1", TLS1_1_VERSION).is_open());
  EXPECT_TRUE(TlsWire(port, authority_, "127.0.0.1", TLS1_2_VERSION).is_open());
  EXPECT_TRUE(TlsWire(port, authority_, "127.0.0.1", TLS1_3_VERSION).is_open());
  // And no words without TLS.
  const Wire plain(port);
  plain.send(bytes_of({.target = "/api/v1/health"}, port));
  EXPECT_THAT(plain.receive(), Not(HasSubstr("HTTP/1.1")));
  EXPECT_EQ(asked_safely({.target = "/api/v1/health"}).status, 200);
}

TEST_F(OnLan, LetsATabletInWithACookieOfItsOwn) {
  const Answer answer = asked_safely(
      {.method = "POST",
       .target = "/api/v1/pair",
       .body = R"({"code":")" + (*server_)->code_for(Role::owner) + R"(","name":"tablet"})"});
  ASSERT_EQ(answer.status, 200) << answer.body;
  const std::string cookie = answer.header("set-cookie");
  const std::string name = "__Host-huewright=";
  ASSERT_TRUE(cookie.starts_with(name)) << cookie;
  EXPECT_THAT(cookie, HasSubstr("; Secure"));
  EXPECT_THAT(cookie, HasSubstr("; Path=/; HttpOnly; SameSite=Strict"));
  const std::string secret = cookie.substr(name.size(), 64);
  EXPECT_EQ(asked_safely({.target = "/api/v1/devices", .cookie = secret}).status, 200);
  const Answer code = asked_safely({.method = "POST",
                                    .target = "/api/v1/pairings",
                                    .body = R"({"role":"assistant"})",
                                    .cookie = secret});
  EXPECT_THAT(code.body, HasSubstr("\"url\":\"https://192.168.7.20:" +
                                   std::to_string((*server_)->tls_port()) + "/#code="));
}

TEST_F(OnLan, TheOwnersCodeOfThisMachineIsGoodHereAlone) {
  const std::string link = (*server_)->owner_link();
  const std::string code = link.substr(link.find('=') + 1);
  const std::string body = R"({"code":")" + code + R"(","name":"tablet"})";
  const Ask ask{.method = "POST", .target = "/api/v1/pair", .body = body};
  EXPECT_EQ(asked_safely(ask).status, 403);
  EXPECT_EQ(asked(server_->port(), ask).status, 200);
}

TEST_F(OnLan, WithoutTlsThereIsTheCertificateAlone) {
  const std::uint16_t port = (*server_)->trust_port();
  const Answer page = asked(port, {.target = "/", .host = trust_host()});
  EXPECT_EQ(page.status, 200);
  EXPECT_THAT(page.body, HasSubstr((*server_)->fingerprint()));
  EXPECT_THAT(page.body, HasSubstr((*server_)->links().lan + "/"));
  EXPECT_THAT(page.body, Not(HasSubstr("PRIVATE")));
  for (const server::Route& route : server::every_route()) {
    const std::string target(route.pattern);
    EXPECT_EQ(asked(port, {.target = target, .host = trust_host()}).status, 404) << target;
    EXPECT_EQ(asked(port, {.method = "POST", .target = target, .body = "{}", .host = trust_host()})
                  .status,
              405)
        << target;
  }
  EXPECT_EQ(asked(port, {.target = "/", .host = "elsewhere.example"}).status, 421);
}

TEST_F(OnLan, FollowsTheMachineToAnotherAddress) {
  EXPECT_EQ(asked_safely({.target = "/api/v1/health"}, "192.168.7.99").status, 0);
  lan_.addresses = {"192.168.7.99"};
  ASSERT_TRUE((*server_)->look_at_lan());
  EXPECT_EQ(asked_safely({.target = "/api/v1/health"}, "192.168.7.99").status, 200);
  EXPECT_THAT((*server_)->links().lan, HasSubstr("192.168.7.99"));
  EXPECT_EQ(asked_safely({.target = "/api/v1/health"}, "192.168.7.20").status, 0);
}

TEST(ServerLan, NeedsANetwork) {
  const TemporaryFolder folder;
  server::Settings settings;
  settings.port = 0;
  settings.lan = true;
  settings.lan_now = [] { return Lan{"desk", {}}; };
  const auto made = server::Server::open(book::Folder::open(folder.path()).value(), settings);
  ASSERT_FALSE(made);
  EXPECT_EQ(one_line(made.error()),
            "--lan: this machine is on no private network; connect it to the salon's network, or "
            "serve without --lan");
}

TEST(ServerLan, KnowsPrivateNetworksByTheirEdges) {
  for (const char* inside : {"10.0.0.0", "10.255.255.255", "172.16.0.1", "172.31.255.255",
                             "192.168.0.1", "169.254.9.9", "127.0.0.1"}) {
    EXPECT_TRUE(server::is_private(inside)) << inside;
  }
  for (const char* outside : {"9.255.255.255", "11.0.0.0", "172.15.255.255", "172.32.0.0",
                              "192.167.1.1", "192.169.0.0", "8.8.8.8", "fd00::1", "desk", ""}) {
    EXPECT_FALSE(server::is_private(outside)) << outside;
  }
}

TEST(ServerCertificates, AreKeptUntilNamesOrTimeChangeThem) {
  const TemporaryFolder folder;
  const std::time_t now = 1'750'000'000;
  const auto first = certificates_of(folder.path(), kSalon, now).value();
  EXPECT_TRUE(first.is_new);
  const auto again = certificates_of(folder.path(), kSalon, now + 300 * kDay).value();
  EXPECT_FALSE(again.is_new);
  EXPECT_EQ(again.server.chain_pem, first.server.chain_pem);
  const auto late = certificates_of(folder.path(), kSalon, now + 370 * kDay).value();
  EXPECT_TRUE(late.is_new);
  const auto moved =
      certificates_of(folder.path(), Lan{"desk", {"10.0.0.5"}}, now + 370 * kDay).value();
  EXPECT_TRUE(moved.is_new);
  EXPECT_EQ(moved.fingerprint, first.fingerprint);  // nobody has to trust anew
  const auto renamed = certificates_of(folder.path(), Lan{"front.example", {"10.0.0.5"}}, now);
  ASSERT_TRUE(renamed);  // the authority may not vouch for that name, so it is left out
  EXPECT_EQ(renamed->fingerprint, first.fingerprint);
  EXPECT_FALSE(certificates_of(folder.path(), kSalon, now + 3650 * kDay));
  for (const char* name : {"authority", "server"}) {
    struct stat status {};
    ASSERT_EQ(::stat((folder.path() + "/tls/" + name + ".key").c_str(), &status), 0);
    EXPECT_EQ(status.st_mode & 0777U, 0600U) << name;
  }
}

TEST(ServerCertificates, TheAuthorityIsOfNoUseOutsideTheHouse) {
  const TemporaryFolder folder;
  const std::time_t now = 1'750'000'000;
  ASSERT_TRUE(certificates_of(folder.path(), kSalon, now));
  const auto text = [&](const std::string& name) {
    std::ifstream in(folder.path() + "/tls/authority." + name);
    return std::string{std::istreambuf_iterator<char>(in), {}};
  };
  const auto key = server::key_of_pem(text("key"));
  const auto cert = server::cert_of_pem(text("crt"));
  const auto vouches = [&](const std::string& names) {
    const auto mine = server::new_key();
    const auto made =
        server::new_cert({"x",
                          now - kDay,
                          now + kDay,
                          {{NID_ext_key_usage, "serverAuth"}, {NID_subject_alt_name, names}}},
                         mine.get(), cert.get(), key.get());
    return server::is_vouched_for(made.get(), cert.get(), now);
  };
  EXPECT_TRUE(vouches("DNS:huewright.local"));
  EXPECT_TRUE(vouches("DNS:desk"));
  EXPECT_TRUE(vouches("IP:192.168.1.1"));
  EXPECT_FALSE(vouches("DNS:bank.example"));
  EXPECT_FALSE(vouches("DNS:huewright.local,DNS:bank.example"));
  EXPECT_FALSE(vouches("IP:8.8.8.8"));
  EXPECT_FALSE(vouches("IP:2001:db8::1"));
}

TEST(ServerCertificates, AFileThatIsNoneIsSaidInOneLine) {
  const std::time_t now = 1'750'000'000;
  for (const char* name : {"authority.key", "authority.crt"}) {
    const TemporaryFolder folder;
    ASSERT_TRUE(certificates_of(folder.path(), kSalon, now));
    std::ofstream(folder.path() + "/tls/" + name) << "no key";
    const auto made = certificates_of(folder.path(), kSalon, now);
    ASSERT_FALSE(made);
    EXPECT_THAT(one_line(made.error()), HasSubstr(name));
  }
  // The server's own is simply made again.
  const TemporaryFolder folder;
  ASSERT_TRUE(certificates_of(folder.path(), kSalon, now));
  std::ofstream(folder.path() + "/tls/server.key") << "no key";
  EXPECT_TRUE(certificates_of(folder.path(), kSalon, now).value().is_new);
}

}  // namespace
}  // namespace hw::test
