// The engine over HTTP.
#include "server/routes/ride_files.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

Response answered(const Answer<Json>& answer) {
  return answer ? json_response(200, {{"value", *answer}}) : refused(answer.error());
}

Response ask(Backstage& backstage, Request& request, const InPath& places) {
  auto body = body_object(request);
  if (!body) return refused(body.error());
  const auto state = backstage.store.newest_state(places[0]);
  if (!state) return refused(state.error());
  auto files = stored_files(backstage.store, backstage.blobs, places[0]);
  if (!files) return refused(files.error());
  const RideQuestion question{state->text.document, std::move(*files), std::move(*body), request.is_wanted};
  return answered(backstage.engine.call(places[1], question));
}

}  // namespace

std::vector<ApiRoute> engine_routes() {
  return {{"POST", "/rides/{id}/engine/{call}", Takes::engine_json, ask},
          {"POST", "/engine/choices", Takes::engine_json,
           [](Backstage&, Request&, const InPath&) { return answered(EngineCalls::choices()); }}};
}

}  // namespace outbye
