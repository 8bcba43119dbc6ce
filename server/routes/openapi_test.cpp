// docs/openapi.json says what there is: no more, no less.
#include "server/routes/openapi.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/base/text.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

const Json& openapi() {
  static const Json json = Json::parse(openapi_texts().front().text);
  return json;
}

TEST(OpenApi, NamesEveryRouteAndNoOther) {
  std::set<std::string> served;
  for (const ApiRoute& route : all_routes()) served.insert(in_lower_case(route.method) + " " + route.pattern);
  std::set<std::string> written;
  for (const auto& [path, methods] : openapi()["paths"].items()) {
    for (const auto& [method, operation] : methods.items()) written.insert(method + " " + path);
  }
  EXPECT_EQ(served, written);
  EXPECT_EQ(openapi()["openapi"], "3.1.0");
  EXPECT_EQ(openapi()["servers"][0]["url"], "/api/v1");
}

TEST(OpenApi, SaysWhatBodyEachRouteTakes) {
  for (const ApiRoute& route : all_routes()) {
    const Json& operation = openapi()["paths"][route.pattern][in_lower_case(route.method)];
    const bool takes_json = route.takes == Takes::json || route.takes == Takes::engine_json;
    const bool takes_bytes = route.takes == Takes::file || route.takes == Takes::bundle;
    const bool has_body = operation.contains("requestBody");
    EXPECT_EQ(has_body, takes_json || takes_bytes) << route.pattern;
    if (!has_body) continue;
    const Json& content = operation["requestBody"]["content"];
    EXPECT_EQ(content.contains("application/json"), takes_json) << route.pattern;
    EXPECT_EQ(content.contains("application/octet-stream"), takes_bytes) << route.pattern;
  }
}

TEST(OpenApi, DeclaresWhatStandsInThePath) {
  for (const auto& [path, methods] : openapi()["paths"].items()) {
    for (const auto& [method, operation] : methods.items()) {
      const std::string& pattern = path;
      std::size_t declared = 0;
      for (const Json& parameter : operation.value("parameters", Json::array())) {
        if (parameter["in"] != "path") continue;
        ++declared;
        EXPECT_NE(pattern.find("{" + parameter["name"].get<std::string>() + "}"), std::string::npos) << pattern;
      }
      EXPECT_EQ(declared, static_cast<std::size_t>(std::count(pattern.begin(), pattern.end(), '{'))) << pattern;
    }
  }
}

TEST(OpenApi, KnowsTheCallsOfTheEngine) {
  std::set<std::string> written;
  for (const Json& parameter : openapi()["paths"]["/rides/{id}/engine/{call}"]["post"]["parameters"]) {
    if (parameter["name"] != "call") continue;
    for (const Json& name : parameter["schema"]["enum"]) written.insert(name.get<std::string>());
  }
  const auto names = EngineCalls::names();
  EXPECT_EQ(written, std::set<std::string>(names.begin(), names.end()));
}

// Every "$ref" leads somewhere.
void check_references(const Json& value) {
  if (value.is_object() && value.contains("$ref")) {
    const std::string to = value["$ref"];
    ASSERT_EQ(to.rfind("#/", 0), 0u);
    EXPECT_TRUE(openapi().contains(Json::json_pointer(to.substr(1)))) << to;
  }
  if (!value.is_structured()) return;
  for (const Json& part : value) check_references(part);
}
TEST(OpenApi, RefersToWhatItHas) { check_references(openapi()); }

}  // namespace
}  // namespace outbye
