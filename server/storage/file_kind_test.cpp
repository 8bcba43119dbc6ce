#include "server/storage/file_kind.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

std::string kind(std::string_view start, std::uint64_t size = 1000) {
  const auto found = file_kind(start, size, "a file");
  return found ? *found : "refused";
}

TEST(FileKind, IsToldByTheBytes) {
  EXPECT_EQ(kind("<?xml version=\"1.0\"?>\n<gpx version=\"1.1\">"), "course");
  EXPECT_EQ(kind("\xef\xbb\xbf<gpx>"), "course");
  EXPECT_EQ(kind("<osm version=\"0.6\">"), "map");
  EXPECT_EQ(kind(std::string_view("\0\0\0\x0e\x0a\x09OSMHeader\x18", 16)), "map");
  EXPECT_EQ(kind("\x1f\x8b\x08"), "map");
  EXPECT_EQ(kind(std::string_view("\x00\x10\x00\x11", 4), 2'884'802), "elevation");
  EXPECT_EQ(kind("# a forecast\ntime,temperature_c,humidity_pct\n06:00,14,92\n"), "weather");
  EXPECT_EQ(kind("from,to,minutes\nVenue,Ford,12\n"), "drive_times");
  EXPECT_EQ(kind("{\"version\": 1, \"items\": []}"), "kit");
  EXPECT_EQ(kind("{\"version\": 1, \"id\": \"mine\", \"levels\": []}"), "rules");
  EXPECT_EQ(kind("\x89PNG\r\n\x1a\n"), "photo");
  EXPECT_EQ(kind("\xff\xd8\xff\xe0"), "photo");
  EXPECT_EQ(kind("RIFF\x10\x10\x10\x10WEBPVP8 "), "photo");
}

TEST(FileKind, RefusesWhatNoRideHasAndSaysWhatItIs) {
  EXPECT_EQ(kind("MZ\x90"), "refused");
  EXPECT_EQ(kind("\x7f"
                 "ELF"),
            "refused");
  EXPECT_EQ(kind("GIF89a\x01\x01"), "refused");
  EXPECT_EQ(kind("<!doctype html><script>alert(1)</script>"), "refused");
  EXPECT_EQ(kind("<svg xmlns=\"http://www.w3.org/2000/svg\">"), "refused");
  EXPECT_EQ(kind(""), "refused");
  EXPECT_NE(file_kind("PK\x03\x04", 9, "a.zip").error().front().what.find("ZIP"), std::string::npos);
}

TEST(FileKind, LetsABrowserShowPicturesOnly) {
  EXPECT_EQ(media_type("\xff\xd8\xff\xe0"), "image/jpeg");
  EXPECT_EQ(media_type("<svg>"), "application/octet-stream");
  EXPECT_EQ(media_type("<html>"), "application/octet-stream");
}

TEST(FileName, IsNeverAPath) {
  for (const char* bad : {"", ".", "..", ".hidden", "a/b", "a\\b", "/etc/passwd", "C:\\a", "a\nb", "a\x7f"}) {
    EXPECT_FALSE(check_file_name(bad)) << bad;
  }
  EXPECT_FALSE(check_file_name(std::string(121, 'a')));
  EXPECT_FALSE(check_file_name(std::string("a\0b", 3)));
  EXPECT_TRUE(check_file_name("My course (2).gpx"));
}

}  // namespace
}  // namespace outbye
