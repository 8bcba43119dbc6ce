#include "formats/pack/packed_files.h"

#include <openssl/evp.h>

#include <algorithm>
#include <array>

#include "core/base/text.h"
#include "formats/file_io/file_word.h"
#include "formats/json_text/json_text.h"

namespace outbye {

std::string sha256(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, EVP_sha256(), nullptr);
  constexpr const char* digits = "0123456789abcdef";
  std::string text;
  for (unsigned int i = 0; i < size; ++i) {
    text += digits[digest[i] >> 4];
    text += digits[digest[i] & 15];
  }
  return text;
}

std::string files_json(const std::vector<PackedFile>& files) {
  std::vector<const PackedFile*> by_name;
  for (const PackedFile& file : files) by_name.push_back(&file);
  std::sort(by_name.begin(), by_name.end(), [](const PackedFile* a, const PackedFile* b) { return a->name < b->name; });
  Json list = Json::array();
  std::string all;
  for (const PackedFile* file : by_name) {
    const std::string hash = sha256(file->bytes);
    all += file->name + '\n' + hash + '\n';
    list.push_back(Json{{"file", file->name}, {"bytes", file->bytes.size()}, {"sha256", hash}});
  }
  return pretty_json(Json{{"format", "outbye packed files"},
                          {"version", 1},
                          {"mark", sha256(all).substr(0, 16)},
                          {"files", std::move(list)}});
}

std::string manifest_json(const Ride& ride) {
  const auto icon = [](const char* file, const char* sizes, const char* purpose) {
    return Json{{"src", file}, {"sizes", sizes}, {"type", "image/png"}, {"purpose", purpose}};
  };
  return pretty_json(Json{
      {"name", ride.name.empty() ? "Outbye: the day of the ride" : ride.name},
      {"short_name", "Outbye"},
      {"description", "The day of the ride for its crew, without a network."},
      {"start_url", "./"},
      {"scope", "./"},
      {"display", "standalone"},
      {"background_color", "#faf8f2"},
      {"theme_color", "#2c5e4a"},
      {"icons", Json::array({icon("icons/icon-192.png", "192x192", "any"), icon("icons/icon-512.png", "512x512", "any"),
                             icon("icons/maskable-512.png", "512x512", "maskable")})}});
}

std::string plain_file_name(std::string_view name, std::size_t number) {
  const auto slash = name.find_last_of("/\\");
  if (slash != std::string_view::npos) name.remove_prefix(slash + 1);
  const auto dot = name.rfind('.');
  const std::string stem = file_word(name.substr(0, dot));
  const std::string ending = dot == std::string_view::npos ? "" : file_word(name.substr(dot + 1));
  return std::to_string(number) + (stem.empty() ? "" : "-" + stem) + (ending.empty() ? "" : "." + ending);
}

std::string base64(std::string_view bytes) {
  std::string text(4 * ((bytes.size() + 2) / 3) + 1, '\0');  // EVP_EncodeBlock ends it with a zero
  int size = 0;
  if (!bytes.empty()) {
    size = EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()),
                           reinterpret_cast<const unsigned char*>(bytes.data()), static_cast<int>(bytes.size()));
  }
  text.resize(static_cast<std::size_t>(size));
  return text;
}

std::string data_address(std::string_view type, std::string_view bytes) {
  return "data:" + std::string(type) + ";base64," + base64(bytes);
}

std::string type_by_name(std::string_view name) {
  struct Type {
    std::string_view ending;
    const char* type;
  };
  constexpr Type types[] = {{".html", "text/html"},        {".js", "text/javascript"},    {".css", "text/css"},
                            {".json", "application/json"}, {".svg", "image/svg+xml"},     {".png", "image/png"},
                            {".jpg", "image/jpeg"},        {".jpeg", "image/jpeg"},       {".webp", "image/webp"},
                            {".gif", "image/gif"},         {".heic", "image/heic"},       {".avif", "image/avif"},
                            {".woff2", "font/woff2"},      {".wasm", "application/wasm"}, {".pdf", "application/pdf"},
                            {".ics", "text/calendar"},     {".txt", "text/plain"},        {".mp3", "audio/mpeg"}};
  const std::string lower = in_lower_case(name);
  for (const Type& one : types) {
    if (lower.size() >= one.ending.size() &&
        lower.compare(lower.size() - one.ending.size(), lower.npos, one.ending) == 0) {
      return one.type;
    }
  }
  return "application/octet-stream";
}

}  // namespace outbye
