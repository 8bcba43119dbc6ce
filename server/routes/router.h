// The table of routes, and the way from a request to one of them.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/disk/blobs.h"
#include "server/engine_calls/engine_calls.h"
#include "server/http/limits.h"
#include "server/http/message.h"
#include "server/map/ride_maps.h"
#include "server/storage/store.h"
#include "server/tasks/task_runner.h"

namespace outbye {

// What routes work with.
struct Backstage {
  Store& store;
  const Blobs& blobs;
  EngineCalls& engine;
  RideMaps& maps;
  TaskRunner& tasks;
  Limits limits{};
};

// What stands at the places of a pattern: "/rides/{id}" gives {"rID"}.
using InPath = std::vector<std::string>;

enum class Takes { nothing, json, engine_json, file, bundle };

struct ApiRoute {
  std::string method;
  std::string pattern;  // below /api/v1: "/rides/{id}/files/{name}"
  Takes takes{Takes::nothing};
  std::function<Response(Backstage&, Request&, const InPath&)> answer;
};

// Each in its own file.
std::vector<ApiRoute> about_routes();
std::vector<ApiRoute> ride_routes();
std::vector<ApiRoute> state_routes();
std::vector<ApiRoute> file_routes();
std::vector<ApiRoute> bundle_routes();
std::vector<ApiRoute> keepsake_routes();
std::vector<ApiRoute> engine_routes();
std::vector<ApiRoute> map_routes();
std::vector<ApiRoute> task_routes();
std::vector<ApiRoute> sheet_routes();

const std::vector<ApiRoute>& all_routes();

struct FoundRoute {
  const ApiRoute* route{};  // null: there is none
  InPath places;
  std::string allowed;  // the methods of that path, when only the method is wrong
};
FoundRoute find_route(const std::string& method, const std::vector<std::string>& path);

// What to do with the body of an API request: 404, 405, 415 or a limit.
Admission admit_api(const Request& request, Backstage& backstage);
Response answer_api(Request& request, Backstage& backstage);

// Pieces for routes.

Response json_response(int status, const Json& value);
Response refused(const std::vector<Trouble>& troubles);
// 204
Response nothing_to_say();
// The body as a JSON object. Errors: bad_input, too_large.
Answer<Json> body_object(const Request& request);
// A field that must be an object or a text.
Answer<Json> object_in(const Json& body, const char* name);
Answer<std::string> text_in(const Json& body, const char* name);

}  // namespace outbye
