// The files of the page: a list made from its folder, so that what a request asks for is looked up and never opened.
#pragma once

#include <filesystem>
#include <map>
#include <mutex>
#include <string>

#include "server/http/message.h"

namespace outbye {

class StaticFiles {
 public:
  explicit StaticFiles(std::filesystem::path folder);

  // GET and HEAD. The page itself for "/", and for a path without a file's ending (a place within the page); 404 else.
  Response answer(const Request& request);

 private:
  struct Entry {
    std::filesystem::path file;
    std::string type;
    std::string tag;
    std::string br_tag;  // of the prepared compressed file beside it; empty: there is none
    std::string gz_tag;
  };
  void list();

  std::filesystem::path folder_;
  std::mutex lock_;
  std::map<std::string, Entry> entries_;  // "assets/main.js"
  std::string listed_as_{"never"};        // the tag of index.html when the list was made
};

}  // namespace outbye
