// A request and its answer, as plain values.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "server/disk/temp_file.h"

namespace outbye {

struct Request {
  std::string method;                          // "GET"
  std::vector<std::string> path;               // decoded segments: {"api", "v1", "rides"}
  std::map<std::string, std::string> query;    // decoded
  std::map<std::string, std::string> headers;  // names in small letters; of several of one name the last
  std::string body;
  std::optional<TempFile> upload;     // instead of `body`, where files are taken
  std::function<bool()> is_wanted{};  // false once who asked has gone; may be empty

  std::string header(const std::string& name) const {
    const auto found = headers.find(name);
    return found == headers.end() ? std::string() : found->second;
  }
};

struct Response {
  int status{200};
  std::string type{"application/json"};  // of the body; none when the body is empty
  std::vector<std::pair<std::string, std::string>> headers{};
  std::string body{};
  std::optional<std::filesystem::path> file{};  // its bytes are the body; found by us, never named by a request
  std::shared_ptr<const TempFile> lent{};       // that file, when it is to go once the answer is sent
};

// What to do with the body of a request whose head has been read.
struct Admission {
  std::optional<Response> refusal{};  // answered at once; the body is not looked at
  bool to_disk{};                     // as a file in `folder`
  std::filesystem::path folder{};
  std::uint64_t most_bytes{};
};

// What is served.
struct Site {
  std::function<Admission(const Request&)> admit;
  std::function<Response(Request&)> answer;  // may take long; called from several threads
};

}  // namespace outbye
