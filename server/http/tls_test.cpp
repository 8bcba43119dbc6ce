// HTTPS as a client sees it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <thread>

#include "server/http/http_server.h"
#include "server/tls/identity.h"
#include "tests/support/http_client.h"
#include "tests/support/https_client.h"
#include "tests/support/store_folder.h"

namespace outbye {
namespace {

using test::http_request;
using test::HttpConnection;
using test::HttpsClient;
using ::testing::HasSubstr;
using ::testing::StartsWith;

Instant today() { return Instant{std::chrono::system_clock::now().time_since_epoch()}; }

// Made once: a key takes its time.
const TlsIdentity& identity() {
  static const TlsIdentity one = *make_own_identity({"localhost", "127.0.0.1"}, today());
  return one;
}

class Secured {
 public:
  explicit Secured(std::function<Response(Request&)> answer, Limits limits = short_limits(), Admission admission = {})
      : server_(*HttpServer::listen("127.0.0.1", 0, limits)) {
    EXPECT_TRUE(server_.use_tls(identity().certificates, identity().key));
    const Site site{[admission](const Request&) { return admission; }, std::move(answer)};
    thread_ = std::thread([this, site] { server_.run(site); });
  }
  Secured(const Secured&) = delete;
  Secured& operator=(const Secured&) = delete;
  ~Secured() {
    server_.stop();
    thread_.join();
  }
  std::uint16_t port() const { return server_.port(); }

  static Limits short_limits() {
    Limits limits;
    limits.head_time = std::chrono::milliseconds(1000);
    limits.idle_time = std::chrono::milliseconds(1000);
    limits.piece_time = std::chrono::milliseconds(1000);
    return limits;
  }

 private:
  HttpServer server_;
  std::thread thread_;
};

Response hello(Request&) {
  Response response;
  response.type = "text/plain";
  response.body = "hello";
  return response;
}

std::string closing_get(std::uint16_t port) { return http_request("GET", "/", port, "", "", "Connection: close\r\n"); }

TEST(Tls, AnswersWhoTrustsItsCertificateByNameAndByAddress) {
  const Secured server(hello);
  for (const char* name : {"localhost", "127.0.0.1"}) {
    HttpsClient client(server.port(), identity().certificates, name);
    ASSERT_TRUE(client.is_open()) << client.why();
    ASSERT_TRUE(client.send(closing_get(server.port())));
    const std::string answer = client.receive();
    EXPECT_THAT(answer, StartsWith("HTTP/1.1 200"));
    EXPECT_THAT(answer, HasSubstr("\r\n\r\nhello"));
    EXPECT_TRUE(client.ended_well());
  }
}

TEST(Tls, IsRefusedByWhoDoesNotTrustItsCertificate) {
  const Secured server(hello);
  HttpsClient stranger(server.port(), "", "localhost");
  EXPECT_FALSE(stranger.is_open());
  HttpsClient misled(server.port(), identity().certificates, "bank.example");
  EXPECT_FALSE(misled.is_open());
}

TEST(Tls, SpeaksVersion12OrLater) {
  const Secured server(hello);
  HttpsClient older(server.port(), identity().certificates, "localhost", TLS1_2_VERSION);
  EXPECT_EQ(older.version(), "TLSv1.2");
  HttpsClient old(server.port(), identity().certificates, "localhost", TLS1_1_VERSION);
  EXPECT_FALSE(old.is_open());
}

TEST(Tls, AnswersSeveralRequestsOnOneConnection) {
  const Secured server(hello);
  HttpsClient client(server.port(), identity().certificates, "localhost");
  for (int i = 0; i < 3; ++i) {
    ASSERT_TRUE(client.send(http_request("GET", "/", server.port())));
    EXPECT_THAT(client.receive(1), StartsWith("HTTP/1.1 200"));
  }
}

TEST(Tls, SendsAFileWhole) {
  const test::StoreFolder folder;
  const std::string bytes(3'000'000, 'x');
  std::ofstream(folder.path() / "large", std::ios::binary) << bytes;
  const Secured server([&](Request&) {
    Response response;
    response.type = "application/octet-stream";
    response.file = folder.path() / "large";
    return response;
  });
  HttpsClient client(server.port(), identity().certificates, "localhost");
  ASSERT_TRUE(client.send(closing_get(server.port())));
  const std::string answer = client.receive();
  ASSERT_THAT(answer.substr(0, 20), StartsWith("HTTP/1.1 200"));
  EXPECT_EQ(answer.substr(answer.find("\r\n\r\n") + 4), bytes);
}

TEST(Tls, TakesABody) {
  std::string taken;
  Admission admission;
  admission.most_bytes = 1 << 20;
  const Secured server(
      [&](Request& request) {
        taken = request.body;
        return hello(request);
      },
      Secured::short_limits(), admission);
  HttpsClient client(server.port(), identity().certificates, "localhost");
  const std::string body(300'000, 'y');
  ASSERT_TRUE(client.send(http_request("PUT", "/", server.port(), body, "text/plain", "Connection: close\r\n")));
  EXPECT_THAT(client.receive(), StartsWith("HTTP/1.1 200"));
  EXPECT_EQ(taken, body);
}

TEST(Tls, SendsWhoSpeaksPlainHttpToTheSameAddressThere) {
  const Secured server(hello);
  HttpConnection plain(server.port());
  ASSERT_TRUE(plain.send(http_request("GET", "/a/b?c=d", server.port())));
  const auto answer = plain.receive();
  EXPECT_EQ(answer.status, 308);
  EXPECT_EQ(answer.headers.at("location"), "https://127.0.0.1:" + std::to_string(server.port()) + "/a/b?c=d");
}

TEST(Tls, DoesNotRepeatTheNameOfAStranger) {
  Admission admission;
  admission.refusal = Response{};
  admission.refusal->status = 421;
  const Secured server(hello, Secured::short_limits(), admission);
  HttpConnection plain(server.port());
  ASSERT_TRUE(plain.send("GET / HTTP/1.1\r\nHost: evil.example\r\n\r\n"));
  const auto answer = plain.receive();
  EXPECT_EQ(answer.status, 421);
  EXPECT_EQ(answer.headers.count("location"), 0U);
}

TEST(Tls, EndsAHandshakeThatDoesNotCome) {
  const Secured server(hello);
  HttpConnection silent(server.port());
  EXPECT_TRUE(silent.is_closed());
  HttpConnection half(server.port());
  ASSERT_TRUE(half.send(std::string("\x16\x03\x01\x02\x00\x01\x00", 7)));
  EXPECT_TRUE(half.is_closed());
}

TEST(Tls, IsNotBegunWithAKeyThatDoesNotFit) {
  auto server = HttpServer::listen("127.0.0.1", 0, {});
  ASSERT_TRUE(server);
  const TlsIdentity other = *make_own_identity({"localhost"}, today());
  EXPECT_FALSE(server->use_tls(identity().certificates, other.key));
  EXPECT_FALSE(server->use_tls("no certificate", other.key));
}

}  // namespace
}  // namespace outbye
