// The listener: takes connections, hands their requests to the site, and ends cleanly.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "core/base/result.h"
#include "server/http/limits.h"
#include "server/http/message.h"

namespace outbye {

class HttpServer {
 public:
  // Listens at once; port 0: any free one. Errors: bad_input for an address that is none or a port that is taken.
  static Result<HttpServer> listen(const std::string& address, std::uint16_t port, const Limits& limits);
  HttpServer(HttpServer&&) noexcept;
  ~HttpServer();

  // From then on HTTPS, TLS 1.2 or later, with this certificate (and those up to its root) and its key, PEM; before
  // run(). Plain HTTP is sent on to it. Errors: bad_input where they do not go together.
  Result<void> use_tls(const std::string& certificates, const std::string& key);

  std::uint16_t port() const;
  // Serves until stop(), SIGINT or SIGTERM; then waits for the requests at work.
  void run(const Site& site);
  void stop();  // from any thread

 private:
  struct Parts;
  explicit HttpServer(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace outbye
