// The built program serving a store in a folder of its own.
#pragma once

#include <fcntl.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <string>
#include <vector>

#include "formats/json_text/json_text.h"
#include "tests/support/http_client.h"

namespace outbye::test {

class Served {
 public:
  // `most_file_bytes`: no file of it may grow larger (as on a full disk); 0: no limit.
  explicit Served(const std::filesystem::path& store, std::uint64_t most_file_bytes = 0) {
    int ends[2] = {-1, -1};
    if (::pipe(ends) != 0) std::abort();
    child_ = ::fork();
    if (child_ == 0) {
      ::dup2(ends[1], 1);
      ::close(ends[0]);
      const int quiet = ::open("/dev/null", O_WRONLY);
      ::dup2(quiet, 2);
      if (most_file_bytes > 0) {
        const rlimit limit{most_file_bytes, most_file_bytes};
        ::setrlimit(RLIMIT_FSIZE, &limit);
      }
      ::setenv("OUTBYE_CACHE", (store.string() + "-cache").c_str(), 1);
      const std::string program = std::string(OUTBYE_BUILD) + "/outbye";
      ::execl(program.c_str(), program.c_str(), "serve", "--store", store.c_str(), "--web", store.c_str(), nullptr);
      ::_exit(127);
    }
    ::close(ends[1]);
    pollfd wait{ends[0], POLLIN, 0};
    char block[256];
    while (address_.find('\n') == std::string::npos && ::poll(&wait, 1, 20'000) == 1) {
      const ssize_t n = ::read(ends[0], block, sizeof block);
      if (n <= 0) break;
      address_.append(block, static_cast<std::size_t>(n));
    }
    ::close(ends[0]);
    const std::size_t colon = address_.rfind(':');
    if (colon == std::string::npos) {
      ADD_FAILURE() << "it does not serve";
      return;
    }
    port_ = static_cast<std::uint16_t>(std::stoi(address_.substr(colon + 1)));
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;
  ~Served() { end(SIGKILL); }

  std::uint16_t port() const { return port_; }
  const std::string& printed() const { return address_; }

  // The status that waitpid() gives; -1 when it has ended already.
  int end(int signal) {
    if (child_ <= 0) return -1;
    ::kill(child_, signal);
    int status = 0;
    ::waitpid(child_, &status, 0);
    child_ = -1;
    return status;
  }

  HttpAnswer ask(const std::string& method, const std::string& target, const std::string& body = "",
                 const std::string& type = "application/json", const std::string& more_headers = "") const {
    HttpConnection connection(port_);
    if (!connection.send(http_request(method, target, port_, body, type, more_headers))) {
      // An answer that came before all was sent is an answer still.
    }
    return connection.receive(method == "HEAD");
  }
  Json json(const std::string& method, const std::string& target, const std::string& body = "") const {
    return Json::parse(ask(method, target, body).body, nullptr, false);
  }

 private:
  pid_t child_{-1};
  std::uint16_t port_{};
  std::string address_;
};

}  // namespace outbye::test
