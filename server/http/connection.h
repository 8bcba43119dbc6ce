// One connection: its requests one after another, each within its limits. Internal to http.
#pragma once

// clang-format off: awaitable.hpp of Boost 1.74 needs <utility> before it
#include <utility>
// clang-format on

#include <atomic>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/thread_pool.hpp>
#include <optional>

#include "server/http/limits.h"
#include "server/http/message.h"

namespace outbye {

struct ConnectionPlace {
  const Site& site;
  const Limits& limits;
  boost::asio::thread_pool& workers;  // answers are worked out there
  std::atomic<std::size_t> open{0};
  std::atomic<std::size_t> waiting{0};  // for an answer
  std::atomic<std::size_t> busy{0};     // from the head of a request to the end of its answer
  std::atomic<bool> is_ending{false};
  std::optional<boost::asio::ssl::context> tls{};  // then HTTPS alone
};

boost::asio::awaitable<void> serve_connection(boost::asio::ip::tcp::socket socket, ConnectionPlace& place);

}  // namespace outbye
