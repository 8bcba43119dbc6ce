#include "server/http/guard.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

constexpr const char* content_security_policy =
    "default-src 'self'; style-src 'self'; script-src 'self'; worker-src 'self' blob:; img-src 'self' data: blob:; "
    "connect-src 'self'; font-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors "
    "'none'";

}  // namespace

OwnNames::OwnNames(const std::string& address, std::uint16_t port, Scheme scheme, std::vector<std::string> more)
    : names_{"localhost", "127.0.0.1", "[::1]"}, port_(port), scheme_(scheme) {
  more.push_back(address);
  for (const auto& name : more) {
    names_.push_back(in_lower_case(name.find(':') == std::string::npos ? name : "[" + name + "]"));
  }
}

bool OwnNames::is_own_host(const std::string& host) const {
  const std::string ending = ":" + std::to_string(port_);
  const std::string lower = in_lower_case(host);
  const bool is_usual_port = port_ == (scheme_ == Scheme::http ? 80 : 443);
  return std::any_of(names_.begin(), names_.end(), [&](const std::string& name) {
    return lower == name + ending || (is_usual_port && lower == name);
  });
}

bool OwnNames::is_own_origin(const std::string& origin) const {
  const std::string scheme = scheme_ == Scheme::http ? "http://" : "https://";
  return origin.rfind(scheme, 0) == 0 && is_own_host(origin.substr(scheme.size()));
}

std::optional<Response> refuse_strangers(const Request& request, const OwnNames& own) {
  if (!own.is_own_host(request.header("host"))) {
    return refusal(421, Trouble::Kind::bad_input, "Host",
                   "is not this server's name; use the address that `outbye serve` printed");
  }
  const auto origin = request.headers.find("origin");
  if (origin != request.headers.end() && !own.is_own_origin(origin->second)) {
    return refusal(403, Trouble::Kind::bad_input, "Origin", "is a page of another site, which may not ask here");
  }
  const std::string site = request.header("sec-fetch-site");
  const bool changes = request.method != "GET" && request.method != "HEAD";
  if (changes && !site.empty() && site != "same-origin" && site != "none") {
    return refusal(403, Trouble::Kind::bad_input, "Origin", "is a page of another site, which may not ask here");
  }
  return std::nullopt;
}

std::vector<std::pair<std::string, std::string>> security_headers() {
  return {{"Content-Security-Policy", content_security_policy},
          {"X-Content-Type-Options", "nosniff"},
          {"X-Frame-Options", "DENY"},
          {"Referrer-Policy", "no-referrer"},
          {"Cross-Origin-Resource-Policy", "same-origin"},
          {"Cross-Origin-Opener-Policy", "same-origin"},
          {"Permissions-Policy", "geolocation=(), camera=(), microphone=(), payment=(), usb=()"}};
}

Response refusal(int status, Trouble::Kind kind, const std::string& where, const std::string& what) {
  Response response;
  response.status = status;
  response.body = problems_json({{kind, where, what}}).dump(-1, ' ', false, Json::error_handler_t::replace);
  return response;
}

}  // namespace outbye
