#include "server/routes/packed_site.h"

#include <exception>

namespace outbye {
namespace {

// As for the planning page, and what the page of the day needs besides: WebAssembly, a worker from a blob, its own
// styles on elements, and the phone's position on the map.
constexpr const char* policy =
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval' blob:; worker-src 'self' blob:; style-src 'self' "
    "'unsafe-inline'; img-src 'self' data: blob:; media-src 'self' data: blob:; connect-src 'self' data: blob:; "
    "font-src 'self' data:; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
constexpr const char* permissions = "geolocation=(self), camera=(self), microphone=(), payment=(), usb=()";

Response answer(const Request& request, StaticFiles& files) {
  Response response;
  try {
    response = files.answer(request);
  } catch (const std::exception& error) {
    response = refusal(500, Trouble::Kind::internal, "server", std::string("has a fault of its own: ") + error.what());
  }
  response.headers.emplace_back("Content-Security-Policy", policy);
  response.headers.emplace_back("Permissions-Policy", permissions);
  return response;
}

}  // namespace

Site make_packed_site(StaticFiles& files, const OwnNames& own) {
  return {[own](const Request& request) {
            Admission admission;
            admission.refusal = refuse_strangers(request, own);
            return admission;  // no body is taken: most_bytes is 0
          },
          [&files](Request& request) { return answer(request, files); }};
}

}  // namespace outbye
