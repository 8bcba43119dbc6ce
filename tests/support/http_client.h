// A client for the tests of the server: whole answers, and bytes sent as they are.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <cctype>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>

namespace outbye::test {

struct HttpAnswer {
  int status{};  // 0: none came
  std::map<std::string, std::string> headers;
  std::string body;
};

class HttpConnection {
 public:
  explicit HttpConnection(std::uint16_t port, int patience_s = 20)
      : fd_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    const timeval patience{patience_s, 0};
    ::setsockopt(fd_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    ::setsockopt(fd_, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    is_open_ = ::connect(fd_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  }
  HttpConnection(const HttpConnection&) = delete;
  HttpConnection& operator=(const HttpConnection&) = delete;
  ~HttpConnection() { ::close(fd_); }

  bool is_open() const { return is_open_; }

  bool send(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t n = ::send(fd_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (n <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    return true;
  }

  // The next whole answer; of an answer to HEAD the head only.
  HttpAnswer receive(bool head_only = false) {
    while (buffer_.find("\r\n\r\n") == std::string::npos) {
      if (!more()) return {};
    }
    HttpAnswer answer;
    const std::size_t end = buffer_.find("\r\n\r\n");
    answer.status = std::stoi(buffer_.substr(9, 3));
    std::size_t at = buffer_.find("\r\n") + 2;
    while (at < end) {
      const std::size_t line_end = buffer_.find("\r\n", at);
      const std::size_t colon = buffer_.find(':', at);
      std::string name = buffer_.substr(at, colon - at);
      for (char& c : name) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      answer.headers[name] = buffer_.substr(colon + 2, line_end - colon - 2);
      at = line_end + 2;
    }
    buffer_.erase(0, end + 4);
    const auto length = answer.headers.find("content-length");
    const std::size_t wanted = head_only || length == answer.headers.end() ? 0 : std::stoull(length->second);
    while (buffer_.size() < wanted) {
      if (!more()) return {};
    }
    answer.body = buffer_.substr(0, wanted);
    buffer_.erase(0, wanted);
    return answer;
  }

  // True once the other side has closed.
  bool is_closed() {
    while (more()) {
    }
    return has_ended_;
  }

 private:
  bool more() {
    char block[65536];
    const ssize_t n = ::recv(fd_, block, sizeof block, 0);
    if (n == 0 || (n < 0 && errno == ECONNRESET)) has_ended_ = true;
    if (n <= 0) return false;
    buffer_.append(block, static_cast<std::size_t>(n));
    return true;
  }

  int fd_;
  bool is_open_{};
  bool has_ended_{};
  std::string buffer_;
};

inline std::string http_request(const std::string& method, const std::string& target, std::uint16_t port,
                                const std::string& body = "", const std::string& type = "application/json",
                                const std::string& more_headers = "") {
  std::string text = method + " " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) + "\r\n";
  if (method == "POST" || method == "PUT") {
    text += "Content-Type: " + type + "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n";
  }
  return text + more_headers + "\r\n" + body;
}

}  // namespace outbye::test
