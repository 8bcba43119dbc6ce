#include "server/routes/site.h"

#include <exception>
#include <new>

namespace outbye {
namespace {

bool is_api(const Request& request) { return !request.path.empty() && request.path.front() == "api"; }

Admission admit(const Request& request, Backstage& backstage, const OwnNames& own) {
  Admission admission;
  admission.refusal = refuse_strangers(request, own);
  if (admission.refusal || !is_api(request)) return admission;
  if (request.path.size() < 2 || request.path[1] != "v1") {
    admission.refusal = refusal(404, Trouble::Kind::not_found, "address", "is none of docs/web-api.md, version 1");
    return admission;
  }
  return admit_api(request, backstage);
}

// The last catch, for what should not happen: one request fails and not the server.
Response answer(Request& request, Backstage& backstage, StaticFiles& page) {
  try {
    return is_api(request) ? answer_api(request, backstage) : page.answer(request);
  } catch (const std::bad_alloc&) {
    return refusal(500, Trouble::Kind::internal, "server", "ran out of memory; take a smaller map extract");
  } catch (const std::exception& error) {
    return refusal(500, Trouble::Kind::internal, "server", std::string("has a fault of its own: ") + error.what());
  }
}

}  // namespace

Site make_site(Backstage& backstage, StaticFiles& page, const OwnNames& own) {
  return {[&backstage, own](const Request& request) { return admit(request, backstage, own); },
          [&backstage, &page](Request& request) { return answer(request, backstage, page); }};
}

}  // namespace outbye
