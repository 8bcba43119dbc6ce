#include "server/http/http_server.h"

#include <gtest/gtest.h>

#include <future>
#include <thread>

#include "tests/support/http_client.h"
#include "tests/support/store_folder.h"

namespace outbye {
namespace {

using test::http_request;
using test::HttpConnection;

// A server in this process, with little patience, that serves one function.
class Running {
 public:
  explicit Running(std::function<Response(Request&)> answer, Admission admission = {}, Limits limits = short_limits())
      : server_(*HttpServer::listen("127.0.0.1", 0, limits)) {
    const Site site{[admission](const Request&) { return admission; }, std::move(answer)};
    thread_ = std::thread([this, site] { server_.run(site); });
  }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  ~Running() {
    server_.stop();
    thread_.join();
  }
  std::uint16_t port() const { return server_.port(); }

  static Limits short_limits() {
    Limits limits;
    limits.head_time = std::chrono::milliseconds(200);
    limits.idle_time = std::chrono::milliseconds(300);
    limits.piece_time = std::chrono::milliseconds(200);
    return limits;
  }

 private:
  HttpServer server_;
  std::thread thread_;
};

Response empty(Request&) {
  Response response;
  response.status = 204;
  return response;
}

TEST(HttpServer, TellsTheWorkWhenWhoAskedHasGone) {
  std::promise<void> started;
  std::promise<bool> noticed;
  const Running running([&](Request& request) {
    started.set_value();
    const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(10);
    while (request.is_wanted() && std::chrono::steady_clock::now() < until) std::this_thread::yield();
    noticed.set_value(!request.is_wanted());
    return Response{};
  });
  {
    HttpConnection connection(running.port());
    ASSERT_TRUE(connection.send(http_request("GET", "/", running.port())));
    started.get_future().wait();
  }
  EXPECT_TRUE(noticed.get_future().get());
}

TEST(HttpServer, StillWantsAnAnswerThatIsWaitedFor) {
  bool was_wanted = false;
  const Running running([&](Request& request) {
    was_wanted = request.is_wanted();
    Response response;
    response.body = "{}";
    return response;
  });
  HttpConnection connection(running.port());
  ASSERT_TRUE(connection.send(http_request("GET", "/", running.port())));
  EXPECT_EQ(connection.receive().body, "{}");
  EXPECT_TRUE(was_wanted);
}

TEST(HttpServer, EndsConnectionsThatAreSlowOrIdle) {
  const Running running(empty);
  HttpConnection silent(running.port());
  EXPECT_TRUE(silent.is_closed());
  HttpConnection slow(running.port());
  ASSERT_TRUE(slow.send("GET / HTTP/1.1\r\n"));
  EXPECT_TRUE(slow.is_closed());
  HttpConnection idle(running.port());
  ASSERT_TRUE(idle.send(http_request("GET", "/", running.port())));
  EXPECT_EQ(idle.receive().status, 204);
  EXPECT_TRUE(idle.is_closed());
}

TEST(HttpServer, EndsAConnectionWhoseBodyDoesNotComeAndLeavesNoFile) {
  const test::StoreFolder folder;
  Admission admission;
  admission.to_disk = true;
  admission.folder = folder.path();
  admission.most_bytes = 1000;
  const Running running(empty, admission);
  HttpConnection connection(running.port());
  ASSERT_TRUE(connection.send("PUT / HTTP/1.1\r\nHost: x\r\nContent-Length: 100\r\n\r\nten bytes "));
  EXPECT_TRUE(connection.is_closed());
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(10);
  while (!std::filesystem::is_empty(folder.path()) && std::chrono::steady_clock::now() < until) {
  }
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(HttpServer, WritesAnUploadToDiskAsItComes) {
  const test::StoreFolder folder;
  Admission admission;
  admission.to_disk = true;
  admission.folder = folder.path();
  admission.most_bytes = 8 << 20;
  std::uint64_t size = 0;
  bool is_on_disk = false;
  const Running running(
      [&](Request& request) {
        size = request.upload->size();
        is_on_disk = std::filesystem::file_size(request.upload->path()) == size && request.body.empty();
        return empty(request);
      },
      admission);
  HttpConnection connection(running.port());
  const std::string body(5 << 20, 'x');
  ASSERT_TRUE(connection.send(http_request("PUT", "/", running.port(), body)));
  EXPECT_EQ(connection.receive().status, 204);
  EXPECT_EQ(size, body.size());
  EXPECT_TRUE(is_on_disk);
}

TEST(HttpServer, AnswersWhatIsAtWorkWhenItIsStopped) {
  std::promise<void> started;
  std::promise<void> stopped;
  auto running = std::make_unique<Running>([&](Request&) {
    started.set_value();
    stopped.get_future().wait();
    Response response;
    response.body = "{}";
    return response;
  });
  HttpConnection connection(running->port());
  ASSERT_TRUE(connection.send(http_request("GET", "/", running->port())));
  started.get_future().wait();
  std::thread stopper([&] { running.reset(); });
  stopped.set_value();
  EXPECT_EQ(connection.receive().body, "{}");
  stopper.join();
}

TEST(HttpServer, SaysWhichPortIsTaken) {
  const Running running(empty);
  const auto second = HttpServer::listen("127.0.0.1", running.port(), {});
  ASSERT_FALSE(second);
  EXPECT_NE(second.error().what.find("taken"), std::string::npos);
  EXPECT_FALSE(HttpServer::listen("no address", 0, {}));
}

}  // namespace
}  // namespace outbye
