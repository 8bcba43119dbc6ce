#include "server/tls/machine.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <unistd.h>

#include <algorithm>

namespace outbye {

std::vector<std::string> machine_addresses() {
  std::vector<std::string> v4, v6;
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return {};
  for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || (one->ifa_flags & IFF_LOOPBACK) != 0 || (one->ifa_flags & IFF_UP) == 0) continue;
    char text[INET6_ADDRSTRLEN] = "";
    if (one->ifa_addr->sa_family == AF_INET) {
      const auto* address = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
      if (::inet_ntop(AF_INET, &address->sin_addr, text, sizeof text) != nullptr) v4.emplace_back(text);
    } else if (one->ifa_addr->sa_family == AF_INET6) {
      const auto* address = reinterpret_cast<const sockaddr_in6*>(one->ifa_addr);
      if (IN6_IS_ADDR_LINKLOCAL(&address->sin6_addr)) continue;
      if (::inet_ntop(AF_INET6, &address->sin6_addr, text, sizeof text) != nullptr) v6.emplace_back(text);
    }
  }
  ::freeifaddrs(all);
  v4.insert(v4.end(), v6.begin(), v6.end());
  v4.erase(std::unique(v4.begin(), v4.end()), v4.end());
  return v4;
}

std::vector<std::string> machine_names() {
  char text[256] = "";
  if (::gethostname(text, sizeof text - 1) != 0) return {};
  std::string name = text;
  for (char& c : name) c = static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
  if (name.empty() || name == "localhost") return {};
  if (name.find('.') != std::string::npos) return {name};
  return {name, name + ".local"};
}

}  // namespace outbye
