// The built program as a server: what it refuses, what it survives, and that nothing which was saved is lost.
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

using Server = test::StoreAtWork;

TEST_F(Server, PrintsItsAddressInOneLineAndEndsCleanly) {
  for (const int signal : {SIGTERM, SIGINT}) {
    Served served(store);
    EXPECT_EQ(served.printed(), "http://127.0.0.1:" + std::to_string(served.port()) + "/\n");
    EXPECT_EQ(served.json("GET", "/api/v1/version")["api"], 1);
    const int status = served.end(signal);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  }
}

TEST_F(Server, RefusesOtherHostsNamesAndOtherSitesPages) {
  const Served served(store);
  HttpConnection rebinding(served.port());
  ASSERT_TRUE(
      rebinding.send("GET /api/v1/rides HTTP/1.1\r\nHost: evil.example:" + std::to_string(served.port()) + "\r\n\r\n"));
  EXPECT_EQ(rebinding.receive().status, 421);
  EXPECT_EQ(served.ask("POST", "/api/v1/rides", "{}", "application/json", "Origin: http://evil.example\r\n").status,
            403);
  EXPECT_EQ(served.ask("POST", "/api/v1/rides", "{}", "text/plain").status, 415);
  EXPECT_EQ(served.ask("OPTIONS", "/api/v1/rides").status, 405);
  EXPECT_TRUE(served.json("GET", "/api/v1/rides")["rides"].empty());
}

TEST_F(Server, GivesNoAnswerWithoutItsSecurityHeaders) {
  const Served served(store);
  for (const char* target : {"/api/v1/version", "/api/v1/none", "/none.js", "/"}) {
    const auto answer = served.ask("GET", target);
    EXPECT_EQ(answer.headers.at("x-content-type-options"), "nosniff") << target;
    EXPECT_NE(answer.headers.at("content-security-policy").find("script-src 'self'"), std::string::npos) << target;
  }
}

TEST_F(Server, LeadsNoRequestIntoTheFileSystem) {
  const Served served(store);
  const std::string ride = make_ride(served);
  for (const char* target : {"/../outbye.sqlite", "/%2e%2e/outbye.sqlite", "/outbye.sqlite%00.js", "//etc/passwd.x",
                             "/..%2f..%2fetc/passwd", "/..%5c..%5cx", "/.%2e/.%2e/etc/passwd"}) {
    const auto answer = served.ask("GET", target);
    EXPECT_TRUE(answer.status == 400 || answer.status == 404) << target << " " << answer.status;
  }
  for (const char* name : {"..", "%2e%2e", "..%2fx", "a%00b", "%2fetc%2fpasswd", ".hidden", "c%3a%5cx"}) {
    const auto answer =
        served.ask("PUT", "/api/v1/rides/" + ride + "/files/" + name, "<gpx/>", "application/octet-stream");
    EXPECT_GE(answer.status, 400) << name;
  }
  EXPECT_EQ(served.ask("GET", "/" + std::string(5000, 'a')).status, 400);
  EXPECT_EQ(files_in(store / "files"), 0u);
}

TEST_F(Server, LimitsBodiesAndHeads) {
  const Served served(store);
  const std::string ride = make_ride(served);
  const std::string large = Json{{"base_revision", 1}, {"ride", {{"x", std::string(1'100'000, 'x')}}}}.dump();
  const auto refused = served.ask("PUT", "/api/v1/rides/" + ride, large);
  EXPECT_EQ(refused.status, 413);
  EXPECT_EQ(Json::parse(refused.body)["problems"][0]["kind"], "too_large");
  EXPECT_EQ(served.ask("GET", "/api/v1/version", "", "", "X: " + std::string(20'000, 'x') + "\r\n").status, 431);
  // Two gigabytes are refused by their length, before they come.
  HttpConnection film(served.port());
  ASSERT_TRUE(film.send("PUT /api/v1/rides/" + ride +
                        "/files/film.mp4 HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(served.port()) +
                        "\r\nContent-Type: application/octet-stream\r\nContent-Length: 2147483648\r\n\r\n"));
  EXPECT_EQ(film.receive().status, 413);
  // And without a length by what came.
  HttpConnection chunked(served.port());
  ASSERT_TRUE(chunked.send("PUT /api/v1/rides/" + ride +
                           " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(served.port()) +
                           "\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"));
  const std::string chunk = "10000\r\n" + std::string(0x10000, 'x') + "\r\n";
  for (int i = 0; i < 40 && chunked.send(chunk); ++i) {
  }
  EXPECT_EQ(chunked.receive().status, 413);
}

TEST_F(Server, JudgesUploadsByTheirBytes) {
  const Served served(store);
  const std::string files = "/api/v1/rides/" + make_ride(served) + "/files/";
  const auto put = [&](const std::string& name, const std::string& bytes) {
    return served.ask("PUT", files + name, bytes, "application/octet-stream");
  };
  EXPECT_EQ(put("course.gpx", "MZ\x90 a program").status, 415);
  EXPECT_EQ(put("photo.jpg", "<script>alert(1)</script>").status, 415);
  EXPECT_EQ(put("large.jpg", "\xff\xd8\xff" + std::string(11 << 20, 'x')).status, 413);
  EXPECT_EQ(put("photo.html", "\xff\xd8\xff<script>alert(1)</script>").status, 201);
  EXPECT_EQ(served.ask("GET", files + "photo.html").headers.at("content-type"), "image/jpeg");
  EXPECT_EQ(put("course.gpx", "<gpx><script/></gpx>").status, 201);
  const auto course = served.ask("GET", files + "course.gpx");
  EXPECT_EQ(course.headers.at("content-type"), "application/octet-stream");
  EXPECT_EQ(course.headers.at("content-disposition").rfind("attachment", 0), 0u);
  EXPECT_EQ(course.body, "<gpx><script/></gpx>");
}

TEST_F(Server, ShowsWhatWasTypedAsDataOnly) {
  const Served served(store);
  const std::string name = "</script><img src=x onerror=alert(1)>\"'";
  const std::string ride = make_ride(served, name);
  const auto answer = served.ask("GET", "/api/v1/rides/" + ride);
  EXPECT_EQ(answer.headers.at("content-type"), "application/json");
  EXPECT_EQ(Json::parse(answer.body)["ride"]["name"], name);
  const auto missing = served.ask("GET", "/api/v1/rides/%3Cscript%3E");
  EXPECT_EQ(missing.status, 404);
  EXPECT_EQ(missing.headers.at("content-type"), "application/json");
}

TEST_F(Server, RefusesWhatIsNoHttp) {
  const Served served(store);
  for (const char* bytes : {"hello\r\n\r\n", "GET\r\n\r\n", "GET / HTTP/9.9\r\n\r\n",
                            "\x16\x03\x01\x02\x00\x01\x00\r\n\r\n", "GET / HTTP/1.1\r\nbad header\r\n\r\n",
                            "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n",
                            "GET http://other.example/ HTTP/1.1\r\nHost: x\r\n\r\n"}) {
    HttpConnection connection(served.port());
    ASSERT_TRUE(connection.send(bytes));
    const int status = connection.receive().status;
    EXPECT_TRUE(status == 400 || status == 0) << bytes << status;
  }
  EXPECT_EQ(served.ask("GET", "/api/v1/version").status, 200);
}

TEST_F(Server, AnswersOneRequestAfterAnotherOnAConnection) {
  const Served served(store);
  HttpConnection connection(served.port());
  const std::string ask = http_request("GET", "/api/v1/version", served.port());
  ASSERT_TRUE(connection.send(ask + ask));
  EXPECT_EQ(connection.receive().status, 200);
  EXPECT_EQ(connection.receive().status, 200);
}

TEST_F(Server, ServesOthersWhileConnectionsAreHeldOpen) {
  const Served served(store);
  std::vector<std::unique_ptr<HttpConnection>> held;
  for (int i = 0; i < 63; ++i) {
    held.push_back(std::make_unique<HttpConnection>(served.port()));
    ASSERT_TRUE(held.back()->send("GET / HT"));
  }
  EXPECT_EQ(served.ask("GET", "/api/v1/version").status, 200);
  held.push_back(std::make_unique<HttpConnection>(served.port()));
  ASSERT_TRUE(held.back()->send("GET / HT"));
  std::this_thread::yield();
  EXPECT_EQ(served.ask("GET", "/api/v1/version").status, 503);
  held.clear();
  int status = 0;
  for (int i = 0; i < 200 && status != 200; ++i) status = served.ask("GET", "/api/v1/version").status;
  EXPECT_EQ(status, 200);
}

TEST_F(Server, EndsAConnectionWhoseHeadDoesNotCome) {
  const Served served(store);
  HttpConnection slow(served.port());
  ASSERT_TRUE(slow.send("GET /api/v1/version HTTP/1.1\r\nHo"));
  EXPECT_TRUE(slow.is_closed());
}

TEST_F(Server, TellsTheSecondTabWhatTheFirstHasSaved) {
  const Served served(store);
  const std::string ride = "/api/v1/rides/" + make_ride(served);
  EXPECT_EQ(served.ask("PUT", ride, save(1, "the first tab")).status, 200);
  const auto late = served.ask("PUT", ride, save(1, "the second tab"));
  EXPECT_EQ(late.status, 409);
  const Json told = Json::parse(late.body);
  EXPECT_EQ(told["problems"][0]["kind"], "conflict");
  EXPECT_EQ(told["revision"], 2);
  EXPECT_EQ(told["ride"]["name"], "the first tab");
  EXPECT_EQ(served.json("GET", ride)["ride"]["name"], "the first tab");
}

TEST_F(Server, KeepsARideOfANewerVersionAndSaysThatItCannotPlanIt) {
  const Served served(store);
  const Json ride{{"version", 99}, {"name", "Tomorrow"}, {"wings", true}};
  const std::string id = served.json("POST", "/api/v1/rides", Json{{"ride", ride}}.dump())["id"];
  EXPECT_EQ(served.json("GET", "/api/v1/rides/" + id)["ride"], ride);
  const auto refused = served.ask("POST", "/api/v1/rides/" + id + "/engine/planRide", "{}");
  EXPECT_EQ(refused.status, 422);
  const Json problem = Json::parse(refused.body)["problems"][0];
  EXPECT_EQ(problem["where"], "version");
  EXPECT_NE(problem["what"].get<std::string>().find("newer than this outbye knows"), std::string::npos);
}

TEST_F(Server, NamesTheFieldThatIsWrong) {
  const Served served(store);
  const std::string id = make_ride(served);
  const Json ride{{"version", 1}, {"loops", {{{"name", "Red"}, {"speed_kmh", -3}}}}};
  const auto refused = served.ask("POST", "/api/v1/rides/" + id + "/engine/planRide", Json{{"ride", ride}}.dump());
  EXPECT_EQ(refused.status, 422);
  bool is_named = false;
  const Json told = Json::parse(refused.body);
  for (const Json& problem : told["problems"]) {
    is_named = is_named || problem["where"] == "loops[0].speed_kmh";
  }
  EXPECT_TRUE(is_named) << refused.body;
}

}  // namespace
}  // namespace outbye
