#include "server/http/static_files.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "server/http/target.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

struct Page : ::testing::Test {
  Page() {
    fs::create_directories(folder / "web/assets");
    write("secret.txt", "not for the page");
    write("web/index.html", "<!doctype html>");
    write("web/assets/main-1a2b.js", "let a;");
    write("web/assets/main-1a2b.js.br", "packed");
    write("web/assets/main-1a2b.js.gz", "packed too");
    fs::create_symlink(folder / "secret.txt", folder / "web/link.txt");
  }
  ~Page() override { fs::remove_all(folder); }

  void write(const std::string& name, const std::string& text) const { std::ofstream(folder / name) << text; }

  Response get(const std::string& target, std::map<std::string, std::string> headers = {},
               const std::string& method = "GET") {
    Request request;
    request.method = method;
    const auto parsed = parse_target(target);
    if (!parsed) {
      ADD_FAILURE() << target;
      return {};
    }
    request.path = parsed->path;
    request.headers = std::move(headers);
    return files.answer(request);
  }
  static std::string header(const Response& response, const std::string& name) {
    for (const auto& [known, value] : response.headers) {
      if (known == name) return value;
    }
    return "";
  }

  static fs::path fresh_folder() {
    std::string name = (fs::temp_directory_path() / "outbye-page-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) std::abort();
    return name;
  }

  fs::path folder{fresh_folder()};
  StaticFiles files{(folder / "web")};
};

TEST_F(Page, IsServedAtTheRootAndAtPlacesWithinIt) {
  for (const char* target : {"/", "/index.html", "/rides/r1/day"}) {
    const auto response = get(target);
    EXPECT_EQ(response.status, 200);
    EXPECT_EQ(response.file, folder / "web/index.html");
    EXPECT_EQ(response.type, "text/html; charset=utf-8");
  }
}

TEST_F(Page, ServesWhatIsInItsFolderAndNothingElse) {
  EXPECT_EQ(get("/assets/main-1a2b.js").status, 200);
  for (const char* target : {"/secret.txt", "/link.txt", "/assets/main-1a2b.js.gz", "/assets/none.js",
                             "/assets/index.html", "/etc/passwd.txt", "//etc/passwd.txt"}) {
    EXPECT_EQ(get(target).status, 404) << target;
  }
}

TEST_F(Page, ComesPackedToThoseWhoCanUnpackIt) {
  const auto br = get("/assets/main-1a2b.js", {{"accept-encoding", "gzip, deflate, br"}});
  EXPECT_EQ(header(br, "Content-Encoding"), "br");
  EXPECT_EQ(br.file, folder / "web/assets/main-1a2b.js.br");
  EXPECT_EQ(br.type, "text/javascript; charset=utf-8");
  EXPECT_EQ(header(br, "Vary"), "Accept-Encoding");
  EXPECT_EQ(header(get("/assets/main-1a2b.js", {{"accept-encoding", "gzip, br;q=0"}}), "Content-Encoding"), "gzip");
  EXPECT_EQ(header(get("/assets/main-1a2b.js"), "Content-Encoding"), "");
}

TEST_F(Page, IsNotSentAgainWhenItIsTheSame) {
  const auto first = get("/");
  const auto tag = header(first, "ETag");
  ASSERT_FALSE(tag.empty());
  const auto again = get("/", {{"if-none-match", tag}});
  EXPECT_EQ(again.status, 304);
  EXPECT_FALSE(again.file);
  EXPECT_EQ(header(first, "Cache-Control"), "no-cache");
  EXPECT_NE(header(get("/assets/main-1a2b.js"), "Cache-Control").find("immutable"), std::string::npos);
}

TEST_F(Page, IsListedAnewWhenItWasBuiltAnew) {
  EXPECT_EQ(get("/assets/new.js").status, 404);
  write("web/assets/new.js", "let b;");
  write("web/index.html", "<!doctype html><title>New</title>");
  EXPECT_EQ(get("/assets/new.js").status, 200);
}

TEST_F(Page, TakesNothingIn) { EXPECT_EQ(get("/index.html", {}, "POST").status, 405); }

TEST_F(Page, SaysHowToGetThePageWhenThereIsNone) {
  fs::remove(folder / "web/index.html");
  const auto response = get("/");
  EXPECT_EQ(response.status, 404);
  EXPECT_NE(response.body.find("./run build"), std::string::npos);
}

}  // namespace
}  // namespace outbye
