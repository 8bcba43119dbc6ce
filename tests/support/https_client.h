// A TLS client for the tests of the server: OpenSSL over a socket, which checks the certificate against the one it is
// told to trust, and the name in it.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <memory>
#include <string>

namespace outbye::test {

class HttpsClient {
 public:
  // `trusted`: PEM. `name`: a host name or address that must stand in the certificate; empty: not looked at.
  // `most_version`: 0, or the newest version offered.
  HttpsClient(std::uint16_t port, const std::string& trusted, const std::string& name, int most_version = 0) {
    fd_ = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    const timeval patience{20, 0};
    ::setsockopt(fd_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (::connect(fd_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0) return;
    context_.reset(SSL_CTX_new(TLS_client_method()));
    if (most_version != 0) SSL_CTX_set_max_proto_version(context_.get(), most_version);
    SSL_CTX_set_verify(context_.get(), SSL_VERIFY_PEER, nullptr);
    const std::unique_ptr<BIO, decltype(&BIO_free_all)> text(
        BIO_new_mem_buf(trusted.data(), static_cast<int>(trusted.size())), BIO_free_all);
    if (X509* certificate = PEM_read_bio_X509(text.get(), nullptr, nullptr, nullptr)) {
      X509_STORE_add_cert(SSL_CTX_get_cert_store(context_.get()), certificate);
      X509_free(certificate);
    }
    session_.reset(SSL_new(context_.get()));
    if (!name.empty()) {
      X509_VERIFY_PARAM* wanted = SSL_get0_param(session_.get());
      if (X509_VERIFY_PARAM_set1_ip_asc(wanted, name.c_str()) != 1) {
        X509_VERIFY_PARAM_set1_host(wanted, name.c_str(), name.size());
        ERR_clear_error();
      }
    }
    SSL_set_fd(session_.get(), fd_);
    is_open_ = SSL_connect(session_.get()) == 1;
    if (!is_open_) why_ = X509_verify_cert_error_string(SSL_get_verify_result(session_.get()));
  }
  HttpsClient(const HttpsClient&) = delete;
  HttpsClient& operator=(const HttpsClient&) = delete;
  ~HttpsClient() { ::close(fd_); }

  bool is_open() const { return is_open_; }
  const std::string& why() const { return why_; }  // it is not
  std::string version() const { return SSL_get_version(session_.get()); }

  bool send(const std::string& bytes) {
    return SSL_write(session_.get(), bytes.data(), static_cast<int>(bytes.size())) == static_cast<int>(bytes.size());
  }
  // All that comes until the other side ends, or until so much has come.
  std::string receive(std::size_t most = std::string::npos) {
    std::string all;
    char block[65536];
    int n = 0;
    while (all.size() < most && (n = SSL_read(session_.get(), block, sizeof block)) > 0) {
      all.append(block, static_cast<std::size_t>(n));
    }
    ended_well_ = n <= 0 && SSL_get_error(session_.get(), n) == SSL_ERROR_ZERO_RETURN;
    return all;
  }
  bool ended_well() const { return ended_well_; }  // it was said that this is the end

 private:
  struct Free {
    void operator()(SSL_CTX* context) const { SSL_CTX_free(context); }
    void operator()(SSL* session) const { SSL_free(session); }
  };
  int fd_{-1};
  std::unique_ptr<SSL_CTX, Free> context_;
  std::unique_ptr<SSL, Free> session_;
  bool is_open_{};
  bool ended_well_{};
  std::string why_;
};

}  // namespace outbye::test
