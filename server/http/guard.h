// Who may ask. A page of another site can send requests to this machine, and can give its own name our address; both
// show in what the browser sends of itself.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "server/http/message.h"

namespace outbye {

// "localhost", "127.0.0.1" and "[::1]", the address that was asked for, and more names by which others of the network
// reach this machine, all with the port.
class OwnNames {
 public:
  enum class Scheme { http, https };
  OwnNames(const std::string& address, std::uint16_t port, Scheme scheme = Scheme::http,
           std::vector<std::string> more = {});
  bool is_own_host(const std::string& host) const;      // a Host header
  bool is_own_origin(const std::string& origin) const;  // an Origin header

 private:
  std::vector<std::string> names_;  // in small letters, IPv6 in brackets
  std::uint16_t port_;
  Scheme scheme_;
};

// 421 for another host's name, 403 for another site's page. Nothing when it may ask.
std::optional<Response> refuse_strangers(const Request& request, const OwnNames& own);

// What every answer says of itself to the browser.
std::vector<std::pair<std::string, std::string>> security_headers();

// {"problems": [...]} with its status.
Response refusal(int status, Trouble::Kind kind, const std::string& where, const std::string& what);

}  // namespace outbye
