#include "server/map/ride_maps.h"

#define XXH_INLINE_ALL
#include <xxhash.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <system_error>

namespace outbye {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_open = 4;

}  // namespace

Answer<std::unique_ptr<RideMaps>> RideMaps::open(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) return trouble(Trouble::Kind::storage, folder.string(), "cannot be made: " + error.message());
  return std::unique_ptr<RideMaps>(new RideMaps(folder));
}

std::string RideMaps::key(const std::vector<Extract>& extracts) {
  std::vector<std::string> hashes;
  for (const Extract& extract : extracts) hashes.push_back(extract.hash);
  std::sort(hashes.begin(), hashes.end());
  hashes.erase(std::unique(hashes.begin(), hashes.end()), hashes.end());
  std::string all;
  for (const std::string& hash : hashes) all += hash + "\n";
  const XXH128_hash_t sum = XXH3_128bits(all.data(), all.size());
  std::array<char, 33> text{};
  std::snprintf(text.data(), text.size(), "%016llx%016llx", static_cast<unsigned long long>(sum.high64),
                static_cast<unsigned long long>(sum.low64));
  return text.data();
}

bool RideMaps::is_made(const std::string& key) const {
  std::error_code error;
  return fs::exists(file(key), error);
}

Answer<void> RideMaps::make(const std::vector<Extract>& extracts, const Progress& progress) {
  const std::string name = key(extracts);
  // One of another version of the format is made again.
  if (is_made(name) && map(name)) return {};
  std::vector<fs::path> paths;
  for (const Extract& extract : extracts) paths.push_back(extract.path);
  const auto made = make_map(paths, file(name), {progress.tell, progress.is_cancelled});
  if (made) return {};
  Trouble refused = trouble_of(made.error());
  // The map's maker calls a disk that refuses a cancel; only we know whether somebody cancelled.
  if (refused.kind == Trouble::Kind::cancelled && !is_cancelled(progress)) refused.kind = Trouble::Kind::storage;
  return tl::make_unexpected(std::vector<Trouble>{std::move(refused)});
}

Answer<std::shared_ptr<const MapSource>> RideMaps::map(const std::string& key) {
  const std::lock_guard guard(lock_);
  for (auto it = open_.begin(); it != open_.end(); ++it) {
    if (it->first != key) continue;
    open_.splice(open_.begin(), open_, it);
    return open_.front().second;
  }
  auto opened = open_map(file(key));
  if (!opened) {
    Trouble refused = trouble_of(opened.error());
    refused.where = "map";
    return tl::make_unexpected(std::vector<Trouble>{std::move(refused)});
  }
  open_.emplace_front(key, std::make_shared<const MapSource>(std::move(*opened)));
  if (open_.size() > most_open) open_.pop_back();
  return open_.front().second;
}

}  // namespace outbye
