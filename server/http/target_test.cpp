#include "server/http/target.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

using Segments = std::vector<std::string>;

TEST(Target, IsTakenApartAndDecoded) {
  const auto target = parse_target("/api/v1/rides/r1/files/My%20caf%C3%A9.gpx?before=7&q=a+b%26c");
  ASSERT_TRUE(target);
  EXPECT_EQ(target->path, (Segments{"api", "v1", "rides", "r1", "files", "My caf\xC3\xA9.gpx"}));
  EXPECT_EQ(target->query.at("before"), "7");
  EXPECT_EQ(target->query.at("q"), "a b&c");
}

TEST(Target, OfThePageItselfIsEmpty) { EXPECT_TRUE(parse_target("/")->path.empty()); }

TEST(Target, NeverLeadsToAnotherFolder) {
  for (const char* bad : {"/../etc/passwd", "/a/../b", "/a/..", "/./a", "/%2e%2e/a", "/%2E./a", "/a%2fb", "/a%2F..%2Fb",
                          "/a%5cb", "/..%5c..", "/a\\b"}) {
    EXPECT_FALSE(parse_target(bad)) << bad;
  }
}

TEST(Target, HoldsNoControlCharactersAndIsUtf8) {
  for (const char* bad : {"/a%00b", "/a%0ab", "/a%0d%0aSet-Cookie:x", "/a%7f", "/%ff", "/%c0%ae%c0%ae/", "/%ed%a0%80",
                          "/a%", "/a%4", "/a%zz", "/?a=%00"}) {
    EXPECT_FALSE(parse_target(bad)) << bad;
  }
}

TEST(Target, IsTheWayFromTheRootOfThisServerAndNoOther) {
  for (const char* bad : {"", "a", "http://other.example/a", "*", "other.example:80", "/a#b"}) {
    EXPECT_FALSE(parse_target(bad)) << bad;
  }
}

TEST(Target, IsRefusedWhenItIsLong) {
  EXPECT_TRUE(parse_target("/" + std::string(4000, 'a')));
  EXPECT_FALSE(parse_target("/" + std::string(5000, 'a')));
}

TEST(Target, ComesBackFromItsEncoding) {
  const std::string name = "a b/\xC3\xA9%?#\"'<>.gpx";
  const auto target = parse_target("/?x=" + encoded(name));
  ASSERT_TRUE(target);
  EXPECT_EQ(target->query.at("x"), name);
}

}  // namespace
}  // namespace outbye
