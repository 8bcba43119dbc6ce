// The built program as a server that is killed, or whose disk is full: nothing which was saved is lost, nothing is half
// there.
#include <gtest/gtest.h>

#include <filesystem>
#include <thread>

#include "tests/support/store_at_work.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;
using test::http_request;
using test::HttpConnection;
using test::Served;

using KilledServer = test::StoreAtWork;

// Killed again and again in the middle of saves: what was answered is there, and no half file is.
TEST_F(KilledServer, HasEverySaveThatItAnsweredAfterItWasKilled) {
  std::string ride;
  std::uint64_t answered = 1;
  for (int round = 0; round < 6; ++round) {
    Served served(store);
    if (ride.empty()) ride = make_ride(served);
    // The save before the last kill may have been made and not answered.
    answered = served.json("GET", "/api/v1/rides/" + ride)["revision"];
    HttpConnection connection(served.port());
    const auto send_next = [&] {
      const std::string body = save(answered, "save " + std::to_string(answered + 1));
      return connection.send(http_request("PUT", "/api/v1/rides/" + ride, served.port(), body));
    };
    for (int i = 0; i < 5; ++i) {
      ASSERT_TRUE(send_next());
      ASSERT_EQ(connection.receive().status, 200);
      ++answered;
    }
    ASSERT_TRUE(send_next());
    served.end(SIGKILL);
    const Served again(store);
    const Json stored = again.json("GET", "/api/v1/rides/" + ride);
    EXPECT_GE(stored["revision"].get<std::uint64_t>(), answered);
    for (std::uint64_t revision = answered - 4; revision <= answered; ++revision) {
      const std::string target = "/api/v1/rides/" + ride + "/states/" + std::to_string(revision);
      EXPECT_EQ(again.json("GET", target)["ride"]["name"], "save " + std::to_string(revision));
    }
  }
}

TEST_F(KilledServer, LeavesNoHalfFileWhenItIsKilledDuringAnUpload) {
  std::string ride;
  {
    Served served(store);
    ride = make_ride(served);
    HttpConnection connection(served.port());
    const std::string whole = http_request("PUT", "/api/v1/rides/" + ride + "/files/course.gpx", served.port(),
                                           "<gpx>" + std::string(4 << 20, ' '), "application/octet-stream");
    ASSERT_TRUE(connection.send(std::string_view(whole).substr(0, whole.size() / 2)));
    while (files_in(store / "files") == 0) std::this_thread::yield();
    served.end(SIGKILL);
  }
  const Served served(store);
  EXPECT_TRUE(served.json("GET", "/api/v1/rides/" + ride)["files"].empty());
  EXPECT_EQ(files_in(store / "files"), 0u);
}

// A file that may not grow is what a full disk looks like to a program.
TEST_F(KilledServer, SaysThatTheDiskIsFullAndKeepsWhatWasSaved) {
  std::string ride;
  {
    const Served served(store);
    ride = "/api/v1/rides/" + make_ride(served, "before");
  }
  const Served served(store, 400'000);
  const auto upload =
      served.ask("PUT", ride + "/files/course.gpx", "<gpx>" + std::string(1 << 20, ' '), "application/octet-stream");
  EXPECT_EQ(upload.status, 507);
  EXPECT_EQ(files_in(store / "files"), 0u);
  int status = 200;
  std::uint64_t revision = 1;
  for (int i = 0; i < 100 && status == 200; ++i) {
    const auto answer = served.ask(
        "PUT", ride,
        Json{{"base_revision", revision}, {"ride", {{"name", "n"}, {"x", std::string(50'000, 'x')}}}}.dump());
    status = answer.status;
    if (status == 200) {
      revision = Json::parse(answer.body)["revision"];
    } else {
      const Json problem = Json::parse(answer.body)["problems"][0];
      EXPECT_EQ(problem["kind"], "storage");
      EXPECT_NE(problem["what"].get<std::string>().find("free some space"), std::string::npos);
    }
  }
  EXPECT_EQ(status, 507);
  EXPECT_EQ(served.json("GET", ride)["revision"], revision);
  EXPECT_EQ(served.json("GET", ride + "/states/1")["ride"]["name"], "before");
}

}  // namespace
}  // namespace outbye
