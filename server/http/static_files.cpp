#include "server/http/static_files.h"

#include <system_error>

#include "core/base/text.h"
#include "server/http/guard.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_files = 20'000;

std::string type_of(const std::string& ending) {
  static const std::map<std::string, std::string> types = {
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".mjs", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".json", "application/json"},
      {".webmanifest", "application/manifest+json"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".jpg", "image/jpeg"},
      {".jpeg", "image/jpeg"},
      {".gif", "image/gif"},
      {".avif", "image/avif"},
      {".heic", "image/heic"},
      {".pdf", "application/pdf"},
      {".ics", "text/calendar; charset=utf-8"},
      {".webp", "image/webp"},
      {".ico", "image/x-icon"},
      {".woff2", "font/woff2"},
      {".pbf", "application/x-protobuf"},
      {".txt", "text/plain; charset=utf-8"},
      {".wasm", "application/wasm"},
  };
  const auto found = types.find(ending);
  return found == types.end() ? "application/octet-stream" : found->second;
}

// Size and time of change; empty when there is no such file.
std::string tag_of(const fs::path& file) {
  std::error_code error;
  const auto size = fs::file_size(file, error);
  if (error) return "";
  const auto time = fs::last_write_time(file, error).time_since_epoch().count();
  if (error) return "";
  return std::to_string(size) + "-" + std::to_string(time);
}

bool accepts(const Request& request, std::string_view coding) {
  const std::string header = in_lower_case(request.header("accept-encoding"));
  std::string_view rest = header;
  while (!rest.empty()) {
    const auto cut = rest.find(',');
    const auto item = trimmed(rest.substr(0, cut));
    const bool is_refused = item.find("q=0") != std::string_view::npos && item.find("q=0.") == std::string_view::npos;
    if (trimmed(item.substr(0, item.find(';'))) == coding) return !is_refused;
    if (cut == std::string_view::npos) break;
    rest = rest.substr(cut + 1);
  }
  return false;
}

// Vite writes the hash of a file's bytes into its name: such a file never changes.
bool is_named_by_content(const std::string& name) { return name.rfind("assets/", 0) == 0; }

}  // namespace

StaticFiles::StaticFiles(fs::path folder) : folder_(std::move(folder)) {}

void StaticFiles::list() {
  entries_.clear();
  std::error_code error;
  const auto options = fs::directory_options::skip_permission_denied;  // and links are not followed
  for (fs::recursive_directory_iterator it(folder_, options, error), end; !error && it != end; it.increment(error)) {
    std::error_code ignored;
    if (entries_.size() >= most_files || !fs::is_regular_file(it->symlink_status(ignored))) continue;
    const fs::path& file = it->path();
    const std::string ending = file.extension().string();
    if (ending == ".br" || ending == ".gz") continue;
    Entry entry{file, type_of(ending), tag_of(file), tag_of(file.string() + ".br"), tag_of(file.string() + ".gz")};
    entries_[file.lexically_relative(folder_).generic_string()] = std::move(entry);
  }
}

Response StaticFiles::answer(const Request& request) {
  if (request.method != "GET" && request.method != "HEAD") {
    Response response = refusal(405, Trouble::Kind::bad_input, "method", "is not one of GET, HEAD");
    response.headers.emplace_back("Allow", "GET, HEAD");
    return response;
  }
  std::string name;
  for (const auto& segment : request.path) name += (name.empty() ? "" : "/") + segment;
  const bool is_place = name.rfind('.') == std::string::npos;
  if (name.empty() || is_place) name = "index.html";
  Entry entry;
  {
    const std::lock_guard guard(lock_);
    const std::string now = tag_of(folder_ / "index.html");
    if (now != listed_as_) list();  // the page was built anew
    listed_as_ = now;
    const auto found = entries_.find(name);
    if (found == entries_.end()) {
      return refusal(404, Trouble::Kind::not_found, "address",
                     name == "index.html" ? "has no page: build it with ./run build, or name its folder with --web"
                                          : "is no file of the page; reload it");
    }
    entry = found->second;
  }
  Response response;
  response.type = entry.type;
  response.file = entry.file;
  std::string tag = entry.tag;
  if (!entry.br_tag.empty() && accepts(request, "br")) {
    response.file = entry.file.string() + ".br";
    response.headers.emplace_back("Content-Encoding", "br");
    tag = entry.br_tag + "-br";
  } else if (!entry.gz_tag.empty() && accepts(request, "gzip")) {
    response.file = entry.file.string() + ".gz";
    response.headers.emplace_back("Content-Encoding", "gzip");
    tag = entry.gz_tag + "-gz";
  }
  if (!entry.br_tag.empty() || !entry.gz_tag.empty()) response.headers.emplace_back("Vary", "Accept-Encoding");
  tag = "\"" + tag + "\"";
  response.headers.emplace_back("ETag", tag);
  response.headers.emplace_back("Cache-Control",
                                is_named_by_content(name) ? "public, max-age=31536000, immutable" : "no-cache");
  if (request.header("if-none-match") == tag) {
    response.status = 304;
    response.file.reset();
  }
  return response;
}

}  // namespace outbye
