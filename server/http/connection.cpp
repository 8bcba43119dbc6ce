#include "server/http/connection.h"

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/core/detect_ssl.hpp>
#include <boost/beast/http.hpp>
#include <boost/beast/ssl.hpp>
#include <limits>
#include <memory>

#include "core/base/text.h"
#include "server/http/guard.h"
#include "server/http/target.h"

namespace outbye {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using boost::system::error_code;
using std::chrono::steady_clock;

// Plain, or under TLS; time limits are those of the connection below.
using Plain = beast::tcp_stream;
using Secure = beast::ssl_stream<beast::tcp_stream>;
Plain& below(Plain& stream) { return stream; }
Plain& below(Secure& stream) { return stream.next_layer(); }

using Head = http::request_parser<http::empty_body>;
using Body = http::request_parser<http::buffer_body>;

auto into(error_code& error) { return asio::redirect_error(asio::use_awaitable, error); }

// Nothing when the request is not one that is taken at all.
std::optional<Request> request_of(const Head::value_type& head) {
  auto target = parse_target({head.target().data(), head.target().size()});
  if (!target || head.count(http::field::host) > 1) return std::nullopt;
  Request request;
  request.method = std::string(head.method_string());
  request.path = std::move(target->path);
  request.query = std::move(target->query);
  for (const auto& field : head) {
    request.headers[in_lower_case(std::string(field.name_string()))] = std::string(field.value());
  }
  return request;
}

template <class Message>
void add_head(Message& message, const Response& response, bool keep_alive) {
  message.version(11);
  message.result(static_cast<unsigned>(response.status));
  message.keep_alive(keep_alive);
  for (const auto& [name, value] : security_headers()) message.set(name, value);
  bool has_cache_rule = false;
  for (const auto& [name, value] : response.headers) {
    message.set(name, value);
    has_cache_rule = has_cache_rule || name == "Cache-Control";
  }
  if (!has_cache_rule) message.set(http::field::cache_control, "no-store");
  const bool has_body = response.file || !response.body.empty();
  if (has_body) message.set(http::field::content_type, response.type);
}

template <class Stream, class Message>
asio::awaitable<error_code> send_all(Stream& stream, Message& message, const Limits& limits, bool head_only) {
  error_code error;
  http::response_serializer<typename Message::body_type> serializer(message);
  if (head_only) {
    below(stream).expires_after(limits.piece_time);
    co_await http::async_write_header(stream, serializer, into(error));
    co_return error;
  }
  while (!serializer.is_done()) {
    below(stream).expires_after(limits.piece_time);
    co_await http::async_write_some(stream, serializer, into(error));
    if (error) co_return error;
  }
  co_return error_code{};
}

bool has_no_body(int status) { return status == 204 || status == 304; }

template <class Stream>
asio::awaitable<error_code> send(Stream& stream, Response response, const Limits& limits, bool head_only,
                                 bool keep_alive) {
  if (response.file) {
    error_code error;
    http::response<http::file_body> message;
    message.body().open(response.file->c_str(), beast::file_mode::scan, error);
    if (!error) {
      add_head(message, response, keep_alive);
      message.content_length(message.body().size());
      co_return co_await send_all(stream, message, limits, head_only);
    }
    response = refusal(500, Trouble::Kind::internal, "file", "is no longer there; reload the page");
  }
  http::response<http::string_body> message;
  add_head(message, response, keep_alive);
  message.body() = std::move(response.body);
  if (!has_no_body(response.status)) message.content_length(message.body().size());
  co_return co_await send_all(stream, message, limits, head_only);
}

// Under TLS the other side is told that this is the end, so that it knows it has all.
asio::awaitable<void> say_goodbye(Plain&, const Limits&) { co_return; }
asio::awaitable<void> say_goodbye(Secure& stream, const Limits& limits) {
  error_code ignored;
  below(stream).expires_after(std::min<std::chrono::milliseconds>(limits.piece_time, std::chrono::seconds(2)));
  co_await stream.async_shutdown(into(ignored));
}

// A browser that still sends does not look at the answer before a reset comes: take in what it sends for a while.
template <class Stream>
asio::awaitable<void> end_gently(Stream& stream, const Limits& limits) {
  error_code error;
  co_await say_goodbye(stream, limits);
  below(stream).socket().shutdown(asio::ip::tcp::socket::shutdown_send, error);
  std::vector<char> block(1 << 16);
  const auto until = steady_clock::now() + limits.head_time;
  while (!error && steady_clock::now() < until) {
    below(stream).expires_after(std::min<std::chrono::milliseconds>(limits.piece_time, std::chrono::seconds(2)));
    co_await below(stream).async_read_some(asio::buffer(block), into(error));
  }
}

// Reads the body to where it was admitted to. A response: why not.
template <class Stream>
asio::awaitable<std::optional<Response>> read_body(Stream& stream, beast::flat_buffer& buffer, Body& parser,
                                                   const Admission& admission, const Limits& limits, Request& request) {
  if (admission.to_disk) {
    auto file = TempFile::make(admission.folder);
    if (!file) co_return refusal(507, file.error().front().kind, file.error().front().where, file.error().front().what);
    request.upload = std::move(*file);
  }
  const auto until = steady_clock::now() + limits.body_time;
  std::vector<char> block(1 << 16);
  while (!parser.is_done()) {
    auto& body = parser.get().body();
    body.data = block.data();
    body.size = block.size();
    error_code error;
    below(stream).expires_after(limits.piece_time);
    co_await http::async_read(stream, buffer, parser, into(error));
    if (error == http::error::need_buffer) error = {};
    if (error == http::error::body_limit) {
      co_return refusal(413, Trouble::Kind::too_large, "body",
                        "is larger than the " + std::to_string(admission.most_bytes >> 20) + " MB taken here");
    }
    // A piece that does not come in its time has closed the connection already.
    if (error == beast::error::timeout || (!error && steady_clock::now() > until)) {
      co_return refusal(408, Trouble::Kind::cancelled, "body", "came too slowly; send it again");
    }
    if (error) co_return refusal(400, Trouble::Kind::bad_input, "body", "did not come whole; send it again");
    const std::string_view piece(block.data(), block.size() - body.size);
    if (!request.upload) {
      request.body += piece;
    } else if (const auto ok = request.upload->write(piece); !ok) {
      co_return refusal(507, ok.error().front().kind, ok.error().front().where, ok.error().front().what);
    }
  }
  co_return std::nullopt;
}

std::optional<Response> refuse_head(const error_code& error) {
  if (error == http::error::header_limit) {
    return refusal(431, Trouble::Kind::too_large, "headers", "are larger than taken here");
  }
  if (error == beast::error::timeout) return std::nullopt;
  const bool is_malformed = error.category() == make_error_code(http::error::bad_method).category();
  if (!is_malformed || error == http::error::end_of_stream || error == http::error::partial_message) {
    return std::nullopt;
  }
  return refusal(400, Trouble::Kind::bad_input, "request", "is not HTTP/1.1 as it should be");
}

// Counts while it lives.
class Counted {
 public:
  explicit Counted(std::atomic<std::size_t>& count) : count_(count), now_(++count) {}
  Counted(const Counted&) = delete;
  Counted& operator=(const Counted&) = delete;
  ~Counted() { --count_; }
  std::size_t now() const { return now_; }

 private:
  std::atomic<std::size_t>& count_;
  std::size_t now_;
};

asio::awaitable<Response> work_out(ConnectionPlace& place, Request& request) {
  const Counted waiting(place.waiting);
  if (waiting.now() > place.limits.waiting) {
    co_return refusal(503, Trouble::Kind::internal, "server", "has too much to do; try again in a moment");
  }
  auto answer = [&place, &request]() -> asio::awaitable<Response> { co_return place.site.answer(request); };
  co_return co_await asio::co_spawn(place.workers.get_executor(), std::move(answer), asio::use_awaitable);
}

// Lets the work look whether who asked has closed the connection, which is how a browser drops a request.
void watch_for_end(asio::ip::tcp::socket& socket, Request& request) {
  auto has_gone = std::make_shared<std::atomic<bool>>(false);
  request.is_wanted = [has_gone] { return !*has_gone; };
  const int descriptor = socket.native_handle();
  socket.async_wait(asio::ip::tcp::socket::wait_read, [has_gone, descriptor](const error_code& error) {
    char byte = 0;
    if (!error && ::recv(descriptor, &byte, 1, MSG_PEEK | MSG_DONTWAIT) == 0) *has_gone = true;
  });
}

enum class Next { another, end, end_gently };

template <class Stream>
asio::awaitable<Next> serve_request(Stream& stream, beast::flat_buffer& buffer, ConnectionPlace& place, bool is_first) {
  const Limits& limits = place.limits;
  error_code error;
  Head head;
  head.header_limit(limits.head_bytes);
  head.body_limit(std::numeric_limits<std::uint64_t>::max());  // judged below; Boost 1.74 refuses all for "none"
  if (!is_first && buffer.size() == 0) {
    // Wait for the next request apart, so that its head has its own time.
    below(stream).expires_after(limits.idle_time);
    const auto room = buffer.prepare(4096);
    const std::size_t n = co_await stream.async_read_some(room, into(error));
    if (error) co_return Next::end;
    buffer.commit(n);
  }
  below(stream).expires_after(limits.head_time);
  co_await http::async_read_header(stream, buffer, head, into(error));
  if (error) {
    auto refused = refuse_head(error);
    if (!refused) co_return Next::end;
    co_await send(stream, std::move(*refused), limits, false, false);
    co_return Next::end_gently;
  }
  const Counted busy(place.busy);
  const bool head_only = head.get().method() == http::verb::head;
  auto request = request_of(head.get());
  if (!request) {
    co_await send(stream, refusal(400, Trouble::Kind::bad_input, "request", "asks for no place that there could be"),
                  limits, head_only, false);
    co_return Next::end_gently;
  }
  const Admission admission = place.site.admit(*request);
  const bool has_body = head.chunked() || head.content_length().value_or(0) > 0;
  const bool is_too_large = !admission.refusal && head.content_length().value_or(0) > admission.most_bytes;
  if (admission.refusal || is_too_large) {
    Response refused =
        admission.refusal
            ? *admission.refusal
            : refusal(413, Trouble::Kind::too_large, "body",
                      "is larger than the " + std::to_string(admission.most_bytes >> 20) + " MB taken here");
    const bool goes_on = !has_body && head.keep_alive();
    const auto failed = co_await send(stream, std::move(refused), limits, head_only, goes_on);
    co_return failed ? Next::end : goes_on ? Next::another : Next::end_gently;
  }
  if (beast::iequals(head.get()[http::field::expect], "100-continue")) {
    http::response<http::empty_body> go_on(http::status::continue_, 11);
    co_await http::async_write(stream, go_on, into(error));
    if (error) co_return Next::end;
  }
  const bool keep_alive = head.keep_alive() && !place.is_ending;
  Body body(std::move(head));
  body.body_limit(admission.most_bytes);
  auto refused = co_await read_body(stream, buffer, body, admission, limits, *request);
  if (refused) {
    request->upload.reset();  // nothing half-written is there once it is answered
    co_await send(stream, std::move(*refused), limits, head_only, false);
    co_return Next::end_gently;
  }
  below(stream).expires_never();
  watch_for_end(below(stream).socket(), *request);
  Response response = co_await work_out(place, *request);
  below(stream).socket().cancel(error);
  const auto failed = co_await send(stream, std::move(response), limits, head_only, keep_alive);
  if (failed) co_return Next::end;
  co_return keep_alive ? Next::another : Next::end_gently;
}

template <class Stream>
asio::awaitable<void> serve_stream(Stream& stream, beast::flat_buffer& buffer, ConnectionPlace& place) {
  Next next = Next::another;
  for (bool is_first = true; next == Next::another; is_first = false) {
    next = co_await serve_request(stream, buffer, place, is_first);
  }
  if (next == Next::end_gently) co_await end_gently(stream, place.limits);
}

template <class Stream>
asio::awaitable<void> refuse_as_full(Stream& stream, const Limits& limits) {
  co_await send(stream, refusal(503, Trouble::Kind::internal, "server", "has too many connections; close some pages"),
                limits, false, false);
}

// Who asks in plain HTTP where HTTPS is spoken is sent to the same address there; a stranger's name is not repeated.
asio::awaitable<void> send_to_https(Plain& stream, beast::flat_buffer& buffer, ConnectionPlace& place) {
  error_code error;
  Head head;
  head.header_limit(place.limits.head_bytes);
  below(stream).expires_after(place.limits.head_time);
  co_await http::async_read_header(stream, buffer, head, into(error));
  if (error) co_return;
  const auto request = request_of(head.get());
  Response response = refusal(400, Trouble::Kind::bad_input, "address", "must begin with https:// here");
  if (request) {
    const Admission admission = place.site.admit(*request);
    if (admission.refusal) {
      response = *admission.refusal;
    } else {
      response.status = 308;
      response.headers.emplace_back("Location",
                                    "https://" + request->header("host") + std::string(head.get().target()));
    }
  }
  co_await send(stream, std::move(response), place.limits, head.get().method() == http::verb::head, false);
  co_await end_gently(stream, place.limits);
}

asio::awaitable<void> serve_under_tls(Plain stream, beast::flat_buffer& buffer, ConnectionPlace& place, bool is_full) {
  error_code error;
  below(stream).expires_after(place.limits.head_time);
  const bool is_tls = co_await beast::async_detect_ssl(stream, buffer, into(error));
  if (error) co_return;
  if (!is_tls) {
    co_await send_to_https(stream, buffer, place);
    co_return;
  }
  Secure secure(std::move(stream), *place.tls);
  below(secure).expires_after(place.limits.head_time);
  const std::size_t used = co_await secure.async_handshake(asio::ssl::stream_base::server, buffer.data(), into(error));
  if (error) co_return;
  buffer.consume(used);
  if (is_full) {
    co_await refuse_as_full(secure, place.limits);
  } else {
    co_await serve_stream(secure, buffer, place);
  }
  below(secure).socket().close(error);
}

}  // namespace

asio::awaitable<void> serve_connection(asio::ip::tcp::socket socket, ConnectionPlace& place) {
  const Counted open(place.open);
  Plain stream(std::move(socket));
  error_code ignored;
  below(stream).socket().set_option(asio::ip::tcp::no_delay(true), ignored);
  const bool is_full = open.now() > place.limits.connections;
  beast::flat_buffer buffer(place.limits.head_bytes + (1 << 16));
  if (place.tls) {
    // Far more than are served at once: not even the handshake.
    if (open.now() > 2 * place.limits.connections) co_return;
    co_await serve_under_tls(std::move(stream), buffer, place, is_full);
    co_return;
  }
  if (is_full) {
    co_await refuse_as_full(stream, place.limits);
    co_return;
  }
  co_await serve_stream(stream, buffer, place);
  below(stream).socket().close(ignored);
}

}  // namespace outbye
