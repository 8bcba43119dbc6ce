#include "server/bundle/bundle.h"

#include <gtest/gtest.h>
#include <zip.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

namespace outbye {
namespace {

namespace fs = std::filesystem;

class Bundle : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "outbye-bundle-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }

  fs::path file(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return folder_ / name;
  }
  // An archive as any program may make one.
  fs::path archive_of(const std::vector<std::pair<std::string, std::string>>& entries) const {
    const fs::path path = folder_ / "made.zip";
    zip_t* archive = zip_open(path.c_str(), ZIP_CREATE | ZIP_TRUNCATE, nullptr);
    for (const auto& [name, bytes] : entries) {
      zip_file_add(archive, name.c_str(), zip_source_buffer(archive, bytes.data(), bytes.size(), 0), 0);
    }
    EXPECT_EQ(zip_close(archive), 0);
    return path;
  }
  Answer<UnpackedBundle> read(const fs::path& path, const BundleLimits& limits = {}) const {
    return read_bundle(path, limits, [this] { return TempFile::make(folder_); });
  }

  fs::path folder_;
};

std::string bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST_F(Bundle, ComesBackAsItWasWritten) {
  const std::string course(200'000, 'x');
  const fs::path target = folder_ / "out.zip";
  ASSERT_TRUE(write_bundle(R"({"name":"Ride"})", {{"course.gpx", file("a", course)}}, target));
  const auto bundle = read(target);
  ASSERT_TRUE(bundle);
  EXPECT_EQ(bundle->ride, R"({"name":"Ride"})");
  ASSERT_EQ(bundle->files.size(), 1U);
  EXPECT_EQ(bundle->files[0].name, "course.gpx");
  EXPECT_EQ(bytes_of(bundle->files[0].bytes.path()), course);
}

TEST_F(Bundle, WithAFolderInANameIsRefused) {
  for (const char* name : {"../evil.gpx", "a/b.gpx", "/etc/passwd", "..\\evil.gpx"}) {
    const auto bundle = read(archive_of({{"ride.json", "{}"}, {name, "x"}}));
    ASSERT_FALSE(bundle) << name;
    EXPECT_EQ(bundle.error()[0].kind, Trouble::Kind::bad_input) << name;
  }
}

TEST_F(Bundle, WithoutARideIsRefused) {
  const auto bundle = read(archive_of({{"course.gpx", "x"}}));
  ASSERT_FALSE(bundle);
  EXPECT_NE(bundle.error()[0].what.find("ride.json"), std::string::npos);
}

TEST_F(Bundle, ThatUnpacksToTooMuchIsRefusedAndLeavesNothing) {
  const fs::path path = archive_of({{"ride.json", "{}"}, {"course.gpx", std::string(3'000'000, 'x')}});
  ASSERT_LT(fs::file_size(path), 10'000U);  // it is a small file that swells
  BundleLimits limits;
  limits.all_bytes = 1'000'000;
  const auto bundle = read(path, limits);
  ASSERT_FALSE(bundle);
  EXPECT_EQ(bundle.error()[0].kind, Trouble::Kind::too_large);
  EXPECT_EQ(std::distance(fs::directory_iterator(folder_), {}), 1);  // the archive alone
}

TEST_F(Bundle, WithTooManyFilesIsRefused) {
  BundleLimits limits;
  limits.files = 2;
  EXPECT_FALSE(read(archive_of({{"ride.json", "{}"}, {"a", "x"}, {"b", "x"}}), limits));
}

TEST_F(Bundle, ThatIsCutOffIsRefused) {
  const fs::path path = archive_of({{"ride.json", "{}"}, {"a", "x"}});
  fs::resize_file(path, fs::file_size(path) / 2);
  EXPECT_FALSE(read(path));
}

}  // namespace
}  // namespace outbye
