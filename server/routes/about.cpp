// What this server is.
#include "server/routes/openapi.h"
#include "server/routes/router.h"

namespace outbye {

std::vector<ApiRoute> about_routes() {
  return {{"GET", "/version", Takes::nothing,
           [](Backstage&, Request&, const InPath&) {
             return json_response(200, {{"name", "outbye"}, {"version", OUTBYE_VERSION}, {"api", 1}});
           }},
          {"GET", "/openapi.json", Takes::nothing, [](Backstage&, Request&, const InPath&) {
             Response response;
             response.body = openapi_texts().front().text;
             return response;
           }}};
}

}  // namespace outbye
