#include "formats/pack/single_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/json_text/json_text.h"

namespace outbye {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const char* const page_html =
    "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>Day</title>\n"
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'self'\">\n"
    "<link rel=\"manifest\" href=\"manifest.webmanifest\"><link rel=\"icon\" href=\"./icon.svg\" "
    "type=\"image/svg+xml\">\n"
    "<!-- <script src=\"old.js\"></script> -->\n"
    "<script type=\"module\" crossorigin src=\"./assets/day-1a2b.js\"></script>\n"
    "<link rel=\"stylesheet\" crossorigin href=\"./assets/day.css\"></head>\n"
    "<body><main id=\"app\"></main></body></html>\n";

std::vector<PackedFile> page_files() {
  return {{"index.html", page_html},
          {"icon.svg", "<svg/>"},
          {"assets/day-1a2b.js", "start(\"</script><!--\");"},
          {"assets/day.css", "body{background:url(\"./dot.png\")}"},
          {"assets/dot.png", "PNG"},
          {"sw.js", "unused"}};
}

SingleFileData data() { return {R"({"ride":"</script>"})", R"({"a":[1,"<!--"]})", "engine(`</SCRIPT>`)", "\0asm\x01"}; }

// The text of the element of this id.
std::string element(const std::string& html, const std::string& id) {
  const auto from = html.find(" id=\"" + id + "\">");
  if (from == std::string::npos) return "";
  const auto start = html.find('>', from) + 1;
  return html.substr(start, html.find("</script>", start) - start);
}

TEST(SingleFile, HoldsScriptsStylesAndPicturesOfThePage) {
  const auto html = single_file(page_files(), data());
  ASSERT_TRUE(html) << html.error().what;
  EXPECT_THAT(*html, HasSubstr("<script type=\"module\">start(\"\\x3C/script>\\x3C!--\");</script>"));
  EXPECT_THAT(*html, HasSubstr("<style>body{background:url(data:image/png;base64," + base64("PNG") + ")}</style>"));
  EXPECT_THAT(*html, HasSubstr("<link rel=\"icon\" href=\"data:image/svg+xml;base64,"));
}

TEST(SingleFile, NamesNoOtherFile) {
  const auto html = single_file(page_files(), data());
  ASSERT_TRUE(html);
  EXPECT_THAT(*html, Not(HasSubstr("assets/")));
  EXPECT_THAT(*html, Not(HasSubstr("manifest")));
  EXPECT_THAT(*html, Not(HasSubstr("'self'")));
  EXPECT_THAT(*html, HasSubstr("default-src 'none'"));
}

TEST(SingleFile, GivesItsDataBackAsItWas) {
  const auto html = single_file(page_files(), data());
  ASSERT_TRUE(html);
  EXPECT_EQ(Json::parse(element(*html, "outbye-page")), Json::parse(data().page));
  EXPECT_EQ(Json::parse(element(*html, "outbye-ride")), Json::parse(data().ride));
  EXPECT_EQ(element(*html, "outbye-wasm"), base64(data().engine_wasm));
  EXPECT_EQ(element(*html, "outbye-engine"), "engine(`\\x3C/SCRIPT>`)");
}

TEST(SingleFile, HasOneEndOfScriptForEachBeginning) {
  const auto html = single_file(page_files(), data());
  ASSERT_TRUE(html);
  const auto count = [&](const std::string& what) {
    std::size_t n = 0;
    for (std::size_t at = 0; (at = html->find(what, at)) != std::string::npos; at += what.size()) ++n;
    return n;
  };
  // One of each stands in the comment.
  EXPECT_EQ(count("<script"), 6U);
  EXPECT_EQ(count("</script>"), 6U);
}

TEST(SingleFile, RefusesAPageThatNamesAFileItDoesNotHave) {
  auto files = page_files();
  files.erase(files.begin() + 2);
  const auto html = single_file(files, data());
  ASSERT_FALSE(html);
  EXPECT_EQ(html.error().kind, Problem::Kind::bad_input);
  EXPECT_THAT(html.error().what, HasSubstr("./assets/day-1a2b.js"));
}

TEST(SingleFile, RefusesAScriptThatImportsAnother) {
  auto files = page_files();
  files[2].bytes = "import{a}from\"./other.js\";a()";
  const auto html = single_file(files, data());
  ASSERT_FALSE(html);
  EXPECT_THAT(html.error().what, HasSubstr("imports another"));
}

TEST(SingleFile, RefusesAFolderWithoutAPage) { EXPECT_FALSE(single_file({{"a.js", ""}}, data())); }

}  // namespace
}  // namespace outbye
