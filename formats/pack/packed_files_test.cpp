#include "formats/pack/packed_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/json_text/json_text.h"

namespace outbye {
namespace {

TEST(Sha256, GivesTheDigestOfThePublishedExample) {
  // FIPS 180-2, appendix B.1.
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(Base64, GivesThePublishedExamples) {
  // RFC 4648, section 10.
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

TEST(FilesJson, ListsEachFileWithItsSizeByName) {
  const Json list = Json::parse(files_json({{"b.js", "12345"}, {"a.js", "abc"}}));
  ASSERT_EQ(list["files"].size(), 2U);
  EXPECT_EQ(list["files"][0]["file"], "a.js");
  EXPECT_EQ(list["files"][0]["sha256"], sha256("abc"));
  EXPECT_EQ(list["files"][1]["bytes"], 5);
}

TEST(FilesJson, HasAnotherMarkWhenAnyFileIsAnother) {
  const auto mark = [](const std::vector<PackedFile>& files) { return Json::parse(files_json(files))["mark"]; };
  const Json before = mark({{"a", "1"}, {"b", "2"}});
  EXPECT_EQ(before, mark({{"b", "2"}, {"a", "1"}}));
  EXPECT_NE(before, mark({{"a", "1"}, {"b", "3"}}));
  EXPECT_NE(before, mark({{"a", "1"}, {"c", "2"}}));
  EXPECT_NE(before, mark({{"a", "1"}}));
}

TEST(Manifest, NamesIconsThatAreDrawnAtTheirSize) {
  Ride ride;
  ride.name = "Hollin Dale";
  const Json manifest = Json::parse(manifest_json(ride));
  EXPECT_EQ(manifest["name"], "Hollin Dale");
  const auto icons = icon_files();
  ASSERT_TRUE(icons);
  for (const Json& icon : manifest["icons"]) {
    const auto file =
        std::find_if(icons->begin(), icons->end(), [&](const PackedFile& one) { return one.name == icon["src"]; });
    ASSERT_NE(file, icons->end()) << icon;
    ASSERT_EQ(file->bytes.substr(0, 8), "\x89PNG\r\n\x1a\n");
    // PNG, IHDR: width in bytes 16 to 19, most significant first.
    const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(file->bytes[i])); };
    const unsigned width = (byte(18) << 8) + byte(19);
    EXPECT_EQ(icon["sizes"], std::to_string(width) + "x" + std::to_string(width));
  }
}

TEST(PlainFileName, IsTakenByEveryFileSystem) {
  EXPECT_EQ(plain_file_name("Mill Ford.JPG", 3), "3-mill-ford.jpg");
  EXPECT_EQ(plain_file_name("photos/../\xc3\x9c x.png", 1), "1-x.png");
  EXPECT_EQ(plain_file_name("", 2), "2");
}

}  // namespace
}  // namespace outbye
