#include "server/routes/router.h"

#include <algorithm>

#include "server/http/guard.h"

namespace outbye {
namespace {

std::vector<std::string> segments(const std::string& pattern) {
  std::vector<std::string> parts;
  std::size_t at = 1;
  while (at <= pattern.size()) {
    const std::size_t end = std::min(pattern.find('/', at), pattern.size());
    parts.push_back(pattern.substr(at, end - at));
    at = end + 1;
  }
  return parts;
}

// `path` begins with "api", "v1".
bool fits(const std::string& pattern, const std::vector<std::string>& path, InPath& places) {
  const auto parts = segments(pattern);
  if (path.size() != parts.size() + 2) return false;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string& given = path[i + 2];
    if (parts[i].front() == '{') {
      if (given.empty()) return false;
      places.push_back(given);
    } else if (parts[i] != given) {
      return false;
    }
  }
  return true;
}

bool is_type(const Request& request, std::string_view type) {
  const std::string given = request.header("content-type");
  const std::string_view bare = std::string_view(given).substr(0, given.find(';'));
  return bare == type;
}

std::uint64_t most_bytes(const ApiRoute& route, const Limits& limits) {
  switch (route.takes) {
    case Takes::json:
      return limits.json_bytes;
    case Takes::engine_json:
      return limits.engine_bytes;
    case Takes::file:
    case Takes::bundle:
      return limits.file_bytes;
    case Takes::nothing:
      break;
  }
  return 0;
}

}  // namespace

const std::vector<ApiRoute>& all_routes() {
  static const std::vector<ApiRoute> routes = [] {
    std::vector<ApiRoute> all;
    for (const auto group : {about_routes, ride_routes, state_routes, file_routes, bundle_routes, keepsake_routes,
                             engine_routes, map_routes, task_routes, sheet_routes}) {
      auto more = group();
      std::move(more.begin(), more.end(), std::back_inserter(all));
    }
    return all;
  }();
  return routes;
}

FoundRoute find_route(const std::string& method, const std::vector<std::string>& path) {
  FoundRoute found;
  for (const ApiRoute& route : all_routes()) {
    InPath places;
    if (!fits(route.pattern, path, places)) continue;
    if (route.method == method || (method == "HEAD" && route.method == "GET")) {
      found.route = &route;
      found.places = std::move(places);
      return found;
    }
    found.allowed += (found.allowed.empty() ? "" : ", ") + route.method;
  }
  return found;
}

Admission admit_api(const Request& request, Backstage& backstage) {
  const auto refuse = [](Response response) {
    Admission admission;
    admission.refusal = std::move(response);
    return admission;
  };
  const FoundRoute found = find_route(request.method, request.path);
  if (found.route == nullptr && !found.allowed.empty()) {
    Response response = refusal(405, Trouble::Kind::bad_input, "method", "is not one of " + found.allowed);
    response.headers.emplace_back("Allow", found.allowed);
    return refuse(std::move(response));
  }
  if (found.route == nullptr) {
    return refuse(refusal(404, Trouble::Kind::not_found, "address", "is none of docs/web-api.md, version 1"));
  }
  const Takes takes = found.route->takes;
  const bool takes_json = takes == Takes::json || takes == Takes::engine_json;
  if (takes_json && !is_type(request, "application/json")) {
    return refuse(refusal(415, Trouble::Kind::bad_input, "Content-Type", "must be application/json"));
  }
  const bool takes_file = takes == Takes::file || takes == Takes::bundle;
  if (takes_file && !is_type(request, "application/octet-stream")) {
    return refuse(refusal(415, Trouble::Kind::bad_input, "Content-Type", "must be application/octet-stream"));
  }
  Admission admission;
  admission.to_disk = takes_file;
  admission.folder = backstage.blobs.folder();
  admission.most_bytes = most_bytes(*found.route, backstage.limits);
  return admission;
}

Response answer_api(Request& request, Backstage& backstage) {
  const FoundRoute found = find_route(request.method, request.path);
  if (found.route == nullptr) return refused({{Trouble::Kind::not_found, "address", "is none of this server's"}});
  return found.route->answer(backstage, request, found.places);
}

Response json_response(int status, const Json& value) {
  Response response;
  response.status = status;
  response.body = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  return response;
}

Response refused(const std::vector<Trouble>& troubles) {
  return json_response(troubles.empty() ? 500 : status_of(troubles.front().kind), problems_json(troubles));
}

Response nothing_to_say() {
  Response response;
  response.status = 204;
  return response;
}

Answer<Json> body_object(const Request& request) {
  auto body = parse_json(request.body, "request");
  if (!body) return tl::make_unexpected(trouble_of(std::vector<Problem>{body.error()}));
  if (!body->is_object()) return trouble(Trouble::Kind::bad_input, "request", "must be a JSON object");
  return std::move(*body);
}

Answer<Json> object_in(const Json& body, const char* name) {
  const auto found = body.find(name);
  if (found == body.end() || !found->is_object()) {
    return trouble(Trouble::Kind::bad_input, name, "must be a JSON object");
  }
  return *found;
}

Answer<std::string> text_in(const Json& body, const char* name) {
  const auto found = body.find(name);
  if (found == body.end() || !found->is_string()) return trouble(Trouble::Kind::bad_input, name, "must be a text");
  return found->get<std::string>();
}

}  // namespace outbye
