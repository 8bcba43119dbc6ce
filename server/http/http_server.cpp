#include "server/http/http_server.h"

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>

#include "server/http/connection.h"

namespace outbye {

namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;

// In the order of their building: what is suspended in the context when it goes still counts itself off in `place`.
struct HttpServer::Parts {
  explicit Parts(const Limits& of_server) : limits(of_server) {}
  Limits limits;
  Site site;
  asio::thread_pool workers{4};
  ConnectionPlace place{site, limits, workers};
  asio::io_context context{1};
  tcp::acceptor acceptor{context};
  asio::steady_timer ending{context};
  std::uint16_t port{};

  void end_when_answered(std::chrono::steady_clock::time_point until) {
    if (place.busy == 0 || std::chrono::steady_clock::now() > until) return context.stop();
    ending.expires_after(std::chrono::milliseconds(20));
    ending.async_wait([this, until](const error_code&) { end_when_answered(until); });
  }
};

namespace {

asio::awaitable<void> accept_all(tcp::acceptor& acceptor, ConnectionPlace& place) {
  while (!place.is_ending) {
    error_code error;
    tcp::socket socket = co_await acceptor.async_accept(asio::redirect_error(asio::use_awaitable, error));
    if (error == asio::error::operation_aborted) co_return;
    if (error) {  // no descriptors left: wait for some to come free rather than spin
      asio::steady_timer timer(acceptor.get_executor(), std::chrono::milliseconds(100));
      co_await timer.async_wait(asio::redirect_error(asio::use_awaitable, error));
      continue;
    }
    asio::co_spawn(acceptor.get_executor(), serve_connection(std::move(socket), place), asio::detached);
  }
}

}  // namespace

HttpServer::HttpServer(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
HttpServer::HttpServer(HttpServer&&) noexcept = default;
HttpServer::~HttpServer() = default;

Result<HttpServer> HttpServer::listen(const std::string& address, std::uint16_t port, const Limits& limits) {
  error_code error;
  const auto ip = asio::ip::make_address(address == "localhost" ? "127.0.0.1" : address, error);
  if (error) return bad_input("--address", "'" + address + "' is no address; give one such as 127.0.0.1");
  auto parts = std::make_unique<Parts>(limits);
  const tcp::endpoint endpoint(ip, port);
  auto& acceptor = parts->acceptor;
  acceptor.open(endpoint.protocol(), error);
  if (!error) acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) acceptor.bind(endpoint, error);
  if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (error == asio::error::address_in_use) {
    return bad_input("--port", std::to_string(port) + " is taken by another program; give another, or 0 for any");
  }
  if (error) return bad_input("--address", "cannot be listened at: " + error.message());
  parts->port = acceptor.local_endpoint().port();
  return HttpServer(std::move(parts));
}

Result<void> HttpServer::use_tls(const std::string& certificates, const std::string& key) {
  asio::ssl::context tls(asio::ssl::context::tls_server);
  error_code error;
  SSL_CTX_set_min_proto_version(tls.native_handle(), TLS1_2_VERSION);
  SSL_CTX_set_options(tls.native_handle(), SSL_OP_NO_RENEGOTIATION);
  tls.use_certificate_chain(asio::buffer(certificates), error);
  if (error) return bad_input("certificate", "cannot be used: " + error.message());
  tls.use_private_key(asio::buffer(key), asio::ssl::context::pem, error);
  if (error || SSL_CTX_check_private_key(tls.native_handle()) != 1) {
    return bad_input("key", "cannot be used with the certificate");
  }
  parts_->place.tls.emplace(std::move(tls));
  return {};
}

std::uint16_t HttpServer::port() const { return parts_->port; }

void HttpServer::run(const Site& site) {
  parts_->site = site;
  auto& context = parts_->context;
  asio::signal_set signals(context, SIGINT, SIGTERM);
  signals.async_wait([this](const error_code& error, int) {
    if (!error) stop();
  });
  asio::co_spawn(context, accept_all(parts_->acceptor, parts_->place), asio::detached);
  context.run();  // until stop()
  parts_->workers.join();
}

void HttpServer::stop() {
  asio::post(parts_->context, [parts = parts_.get()] {
    parts->place.is_ending = true;
    error_code ignored;
    parts->acceptor.close(ignored);
    // What is at work is finished and answered, within reason.
    parts->end_when_answered(std::chrono::steady_clock::now() + std::chrono::seconds(3));
  });
}

}  // namespace outbye
