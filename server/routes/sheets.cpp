// Sheets of paper as PDF.
#include "server/engine_calls/sheets.h"

#include "server/routes/ride_files.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

Response pdf(Backstage& backstage, Request& request, const InPath& places, Json asked) {
  const auto state = backstage.store.newest_state(places[0]);
  if (!state) return refused(state.error());
  auto files = stored_files(backstage.store, backstage.blobs, places[0]);
  if (!files) return refused(files.error());
  asked["sheet"] = places[1];
  auto made =
      sheet_of_ride(backstage.engine, {state->text.document, std::move(*files), std::move(asked), request.is_wanted});
  if (!made) return refused(made.error());
  Response response;
  response.type = "application/pdf";
  response.body = std::move(*made);
  response.headers = {{"Content-Disposition", "inline; filename=\"" + places[1] + ".pdf\""},
                      {"Cache-Control", "private, no-store"}};
  return response;
}

// Of the stored ride: an address to open or to fetch.
Response show(Backstage& backstage, Request& request, const InPath& places) {
  Json asked = Json::object();
  for (const char* name : {"paper", "mark"}) {
    const auto given = request.query.find(name);
    if (given != request.query.end()) asked[name] = given->second;
  }
  return pdf(backstage, request, places, std::move(asked));
}

// Of the ride in the request, or else the stored one.
Response make(Backstage& backstage, Request& request, const InPath& places) {
  auto body = body_object(request);
  return body ? pdf(backstage, request, places, std::move(*body)) : refused(body.error());
}

}  // namespace

std::vector<ApiRoute> sheet_routes() {
  return {{"GET", "/rides/{id}/sheets/{sheet}", Takes::nothing, show},
          {"POST", "/rides/{id}/sheets/{sheet}", Takes::engine_json, make}};
}

}  // namespace outbye
