#include "formats/osm/load_roads.h"

#define XXH_INLINE_ALL
#include <unistd.h>
#include <xxhash.h>

#include <algorithm>
#include <array>
#include <cstring>
#include <exception>
#include <fstream>

#include "core/base/text.h"
#include "core/roads/road_store.h"
#include "formats/file_io/hash_text.h"

namespace outbye {
namespace {

namespace fs = std::filesystem;

// Goes up when rules, tables or the cache file change, so that old caches are made anew.
constexpr std::uint32_t cache_version = 1;

struct HashState {
  XXH3_state_t* state{XXH3_createState()};
  HashState() { XXH3_128bits_reset(state); }
  HashState(const HashState&) = delete;
  HashState& operator=(const HashState&) = delete;
  ~HashState() { XXH3_freeState(state); }
};

std::optional<std::string> content_hash(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream.is_open()) return std::nullopt;
  HashState hash;
  std::vector<char> block(1 << 20);
  while (stream) {
    stream.read(block.data(), static_cast<std::streamsize>(block.size()));
    XXH3_128bits_update(hash.state, block.data(), static_cast<std::size_t>(stream.gcount()));
  }
  if (stream.bad()) return std::nullopt;
  return hash_text(XXH3_128bits_digest(hash.state));
}

std::string words_for(const RoadOptions& options) {
  std::string text = options.country + (options.ferries ? " ferries" : "") + " tracks " +
                     std::to_string(static_cast<int>(options.tracks)) + (options.speeds.national_limits ? " n" : "") +
                     (options.speeds.surface_caps ? " s" : "");
  for (const double speed : options.speeds.class_speed) text += " " + fixed(speed, 6);
  return text;
}

// Nothing when an extract cannot be read; read_roads() then says why.
std::optional<std::string> cache_key(const std::vector<fs::path>& extracts, const RoadOptions& options) {
  std::vector<std::string> hashes;
  for (const fs::path& extract : extracts) {
    std::error_code error;
    if (!fs::is_regular_file(extract, error)) return std::nullopt;
    const auto hash = content_hash(extract);
    if (!hash) return std::nullopt;
    hashes.push_back(*hash);
  }
  std::sort(hashes.begin(), hashes.end());
  std::string text = "cache " + std::to_string(cache_version) + " store " + std::to_string(road_store_version) + " " +
                     words_for(options);
  for (const std::string& hash : hashes) text += " " + hash;
  return hash_text(XXH3_128bits(text.data(), text.size()));
}

// File: key (32 characters), hash of the rest (32), length of the warnings (8 bytes), warnings, graph. Warnings are
// pairs of lines.
struct Cached {
  RoadGraph graph;
  Warnings warnings;
};
constexpr std::size_t hash_length = 32;

std::vector<char> cache_bytes(const std::string& key, const LoadedRoads& roads) {
  std::string warnings;
  for (const Warning& warning : roads.warnings)
    for (std::string line : {warning.where, warning.what}) {
      std::replace(line.begin(), line.end(), '\n', ' ');
      warnings += line + "\n";
    }
  const std::vector<std::byte> graph = to_bytes(roads.graph);
  const std::uint64_t length = warnings.size();
  std::vector<char> body(sizeof length + warnings.size() + graph.size());
  std::memcpy(body.data(), &length, sizeof length);
  std::copy(warnings.begin(), warnings.end(), body.begin() + sizeof length);
  std::memcpy(body.data() + sizeof length + warnings.size(), graph.data(), graph.size());
  const std::string hash = hash_text(XXH3_128bits(body.data(), body.size()));
  std::vector<char> bytes(key.begin(), key.end());
  bytes.insert(bytes.end(), hash.begin(), hash.end());
  bytes.insert(bytes.end(), body.begin(), body.end());
  return bytes;
}

std::optional<Cached> read_cache(const fs::path& file, const std::string& key) {
  std::ifstream stream(file, std::ios::binary | std::ios::ate);
  if (!stream.is_open()) return std::nullopt;
  const std::streamoff size = stream.tellg();
  if (size < static_cast<std::streamoff>(2 * hash_length + sizeof(std::uint64_t))) return std::nullopt;
  std::vector<char> bytes(static_cast<std::size_t>(size));
  stream.seekg(0);
  if (!stream.read(bytes.data(), size)) return std::nullopt;
  const std::string_view all(bytes.data(), bytes.size());
  std::string_view body = all.substr(2 * hash_length);
  if (all.substr(0, hash_length) != key) return std::nullopt;
  if (all.substr(hash_length, hash_length) != hash_text(XXH3_128bits(body.data(), body.size()))) return std::nullopt;
  std::uint64_t length = 0;
  std::memcpy(&length, body.data(), sizeof length);
  body.remove_prefix(sizeof length);
  if (length > body.size()) return std::nullopt;
  std::string_view lines = body.substr(0, static_cast<std::size_t>(length));
  body.remove_prefix(static_cast<std::size_t>(length));
  Warnings warnings;
  const auto next_line = [&] {
    const std::size_t cut = std::min(lines.find('\n'), lines.size());
    const std::string line(lines.substr(0, cut));
    lines.remove_prefix(std::min(cut + 1, lines.size()));
    return line;
  };
  while (!lines.empty()) {
    Warning warning;
    warning.where = next_line();
    warning.what = next_line();
    warnings.push_back(std::move(warning));
  }
  auto graph = road_graph_from_bytes(std::as_bytes(std::span(body.data(), body.size())));
  if (!graph) return std::nullopt;
  return Cached{std::move(*graph), std::move(warnings)};
}

// Whole or not at all: written beside the place it belongs, then renamed.
bool write_cache(const fs::path& file, const std::vector<char>& bytes) {
  fs::path temporary = file;
  temporary += "." + std::to_string(getpid()) + ".part";
  {
    std::ofstream stream(temporary, std::ios::binary | std::ios::trunc);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    stream.close();
    if (!stream) {
      std::error_code ignored;
      fs::remove(temporary, ignored);
      return false;
    }
  }
  std::error_code error;
  fs::rename(temporary, file, error);
  if (error) {
    std::error_code ignored;
    fs::remove(temporary, ignored);
  }
  return !error;
}

}  // namespace

Result<LoadedRoads> load_roads(const std::vector<fs::path>& extracts, const RoadOptions& options,
                               const fs::path& cache_dir, const Progress& progress) {
  if (cache_dir.empty()) return read_roads(extracts, options, progress);
  tell(progress, "looking for a cached map", 0.0);
  const auto key = cache_key(extracts, options);
  if (!key) return read_roads(extracts, options, progress);
  const fs::path file = cache_dir / ("roads-" + *key + ".bin");
  if (auto cached = read_cache(file, *key)) {
    tell(progress, "cached map read", 1.0);
    return LoadedRoads{std::move(cached->graph), std::move(cached->warnings), true, file};
  }
  Result<LoadedRoads> roads = read_roads(extracts, options, progress);
  if (!roads) return roads;
  std::error_code error;
  fs::create_directories(cache_dir, error);
  if (write_cache(file, cache_bytes(*key, *roads)))
    roads->cache_file = file;
  else
    roads->warnings.push_back({cache_dir.string(), "cannot be written: the map will be read anew each time"});
  return roads;
}

}  // namespace outbye
