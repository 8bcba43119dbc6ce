// By what other machines of the network reach this one.
#pragma once

#include <string>
#include <vector>

namespace outbye {

// IPv4 first, then IPv6, without loopback and link-local ones (which need the name of an interface with them).
std::vector<std::string> machine_addresses();

// "laptop", "laptop.local" (multicast DNS); empty where the machine has no name of its own.
std::vector<std::string> machine_names();

}  // namespace outbye
