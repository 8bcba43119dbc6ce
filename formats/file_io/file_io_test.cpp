#include "formats/file_io/file_io.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "formats/file_io/file_word.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

class FileIo : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "outbye-file-io-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }
  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::size_t files() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
  }
  fs::path folder_;
};

TEST_F(FileIo, ReadsBackWhatWasWritten) {
  const std::string bytes("a\0b\r\n\xff", 6);
  ASSERT_TRUE(write_whole_file(path("x"), bytes, Existing::keep));
  EXPECT_EQ(read_whole_file(path("x")).value(), bytes);
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileIo, NamesTheNearestFileWhenOneIsMissing) {
  ASSERT_TRUE(write_whole_file(path("ride.json"), "{}", Existing::keep));
  const auto read = read_whole_file(path("rdie.json"));
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().kind, Problem::Kind::not_found);
  EXPECT_NE(read.error().what.find("ride.json'?"), std::string::npos) << read.error().what;
}

TEST_F(FileIo, RefusesAFolder) {
  EXPECT_NE(read_whole_file(folder_.string()).error().what.find("is a folder"), std::string::npos);
  EXPECT_NE(write_whole_file(folder_.string(), "x", Existing::replace).error().what.find("is a folder"),
            std::string::npos);
}

TEST_F(FileIo, NeverReplacesAFileUnlessAsked) {
  ASSERT_TRUE(write_whole_file(path("x"), "old", Existing::keep));
  const auto again = write_whole_file(path("x"), "new", Existing::keep);
  ASSERT_FALSE(again);
  EXPECT_NE(again.error().what.find("--force"), std::string::npos);
  EXPECT_EQ(read_whole_file(path("x")).value(), "old");
  ASSERT_TRUE(write_whole_file(path("x"), "new", Existing::replace));
  EXPECT_EQ(read_whole_file(path("x")).value(), "new");
  EXPECT_EQ(files(), 1U);
}

TEST_F(FileIo, SaysWhichFolderIsMissing) {
  const auto written = write_whole_file(path("no/such/x"), "x", Existing::keep);
  ASSERT_FALSE(written);
  EXPECT_NE(written.error().what.find("there is no folder"), std::string::npos);
}

TEST_F(FileIo, KeepsASymbolicLinkAndReplacesItsTarget) {
  ASSERT_TRUE(write_whole_file(path("target"), "old", Existing::keep));
  fs::create_symlink(path("target"), path("link"));
  ASSERT_TRUE(write_whole_file(path("link"), "new", Existing::replace));
  EXPECT_TRUE(fs::is_symlink(path("link")));
  EXPECT_EQ(read_whole_file(path("target")).value(), "new");
}

TEST_F(FileIo, ReportsAFullDiskAndLeavesNothing) {
  if (!fs::exists("/dev/full")) GTEST_SKIP() << "no /dev/full here";
  const auto written = write_whole_file("/dev/full", "x", Existing::replace);
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().kind, Problem::Kind::cancelled);
}

TEST_F(FileIo, RefusesAFileBeyondTheLimit) {
  ASSERT_TRUE(write_whole_file(path("x"), "12345", Existing::keep));
  EXPECT_TRUE(read_whole_file(path("x"), 5));
  EXPECT_FALSE(read_whole_file(path("x"), 4));
}

TEST(FileWord, IsOfPlainLettersWithHyphensBetween) {
  EXPECT_EQ(file_word("Blue van, no. 2!"), "blue-van-no-2");
  EXPECT_EQ(file_word("\u05e8\u05db\u05d1"), "");
  EXPECT_EQ(file_word("abc def", 4), "abc");
}

}  // namespace
}  // namespace outbye
