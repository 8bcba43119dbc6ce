#include "server/http/guard.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

const OwnNames own("127.0.0.1", 8080);

Request asking(const std::string& method, std::map<std::string, std::string> headers) {
  Request request;
  request.method = method;
  request.headers = std::move(headers);
  return request;
}

int status(const std::string& method, const std::map<std::string, std::string>& headers) {
  const auto refused = refuse_strangers(asking(method, headers), own);
  return refused ? refused->status : 200;
}

TEST(Guard, LetsOwnNamesAsk) {
  for (const char* host : {"localhost:8080", "127.0.0.1:8080", "[::1]:8080", "LOCALHOST:8080"}) {
    EXPECT_EQ(status("GET", {{"host", host}}), 200) << host;
  }
}

// DNS rebinding: a name of the attacker's that leads to this machine.
TEST(Guard, RefusesOtherHostsNames) {
  for (const char* host : {"evil.example:8080", "evil.example", "127.0.0.1", "127.0.0.1:80", "localhost:8081",
                           "localhost.evil.example:8080", "127.0.0.1:8080.evil.example", "", "127.0.0.2:8080"}) {
    EXPECT_EQ(status("GET", {{"host", host}}), 421) << host;
  }
  EXPECT_EQ(status("GET", {}), 421);
}

TEST(Guard, LetsThePageOfThisServerAsk) {
  EXPECT_EQ(status("PUT", {{"host", "localhost:8080"}, {"origin", "http://localhost:8080"}}), 200);
}

TEST(Guard, RefusesPagesOfOtherSites) {
  for (const char* origin : {"http://evil.example", "https://localhost:8080", "http://localhost:8081", "null", "",
                             "http://localhost:8080.evil.example", "file://"}) {
    for (const char* method : {"GET", "POST", "PUT", "DELETE"}) {
      EXPECT_EQ(status(method, {{"host", "localhost:8080"}, {"origin", origin}}), 403) << origin;
    }
  }
}

TEST(Guard, RefusesChangesThatABrowserSaysComeFromElsewhere) {
  for (const char* site : {"cross-site", "same-site"}) {
    EXPECT_EQ(status("POST", {{"host", "localhost:8080"}, {"sec-fetch-site", site}}), 403);
  }
  EXPECT_EQ(status("POST", {{"host", "localhost:8080"}, {"sec-fetch-site", "same-origin"}}), 200);
}

TEST(Guard, KnowsTheAddressThatWasAskedFor) {
  const OwnNames home("192.168.1.20", 8080);
  EXPECT_TRUE(home.is_own_host("192.168.1.20:8080"));
  EXPECT_TRUE(OwnNames("fe80::1", 80).is_own_host("[fe80::1]"));
}

TEST(Guard, AllowsNoScriptInThePageAndNoOtherSite) {
  std::map<std::string, std::string> headers;
  for (const auto& [name, value] : security_headers()) headers[name] = value;
  const std::string policy = headers["Content-Security-Policy"];
  EXPECT_NE(policy.find("script-src 'self';"), std::string::npos);
  EXPECT_EQ(policy.find("unsafe"), std::string::npos);
  EXPECT_NE(policy.find("frame-ancestors 'none'"), std::string::npos);
  EXPECT_EQ(headers["X-Content-Type-Options"], "nosniff");
}

TEST(Guard, TakesTheNamesOfTheNetworkWhenTheyAreItsOwn) {
  const OwnNames home("0.0.0.0", 8443, OwnNames::Scheme::https, {"192.168.1.20", "fd00::7", "Laptop.local"});
  EXPECT_TRUE(home.is_own_host("192.168.1.20:8443"));
  EXPECT_TRUE(home.is_own_host("[fd00::7]:8443"));
  EXPECT_TRUE(home.is_own_host("laptop.local:8443"));
  EXPECT_FALSE(home.is_own_host("192.168.1.21:8443"));
  EXPECT_FALSE(home.is_own_host("192.168.1.20:8444"));
}

TEST(Guard, TakesOriginsOfItsOwnSchemeAlone) {
  const OwnNames secure("127.0.0.1", 443, OwnNames::Scheme::https);
  EXPECT_TRUE(secure.is_own_origin("https://127.0.0.1"));
  EXPECT_FALSE(secure.is_own_origin("http://127.0.0.1"));
  EXPECT_FALSE(secure.is_own_origin("http://127.0.0.1:443"));
  EXPECT_FALSE(own.is_own_origin("https://127.0.0.1:8080"));
}

}  // namespace
}  // namespace outbye
