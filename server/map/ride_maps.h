// Maps made of the extracts that rides have, by the bytes of the extracts.
#pragma once

#include <filesystem>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "core/base/progress.h"
#include "formats/map_tiles/map_tiles.h"
#include "server/answer/trouble.h"

namespace outbye {

struct Extract {
  std::filesystem::path path;
  std::string hash;  // of its bytes
};

class RideMaps {
 public:
  // Makes the folder when missing. Errors: storage.
  static Answer<std::unique_ptr<RideMaps>> open(const std::filesystem::path& folder);

  // A name for the map of these extracts, in whatever order they come.
  static std::string key(const std::vector<Extract>& extracts);

  bool is_made(const std::string& key) const;
  // Errors: those of make_map; storage where the disk refuses.
  Answer<void> make(const std::vector<Extract>& extracts, const Progress& progress);
  // Errors: not_found where it has not been made; bad_input where it must be made again.
  Answer<std::shared_ptr<const MapSource>> map(const std::string& key);

 private:
  explicit RideMaps(std::filesystem::path folder) : folder_(std::move(folder)) {}
  std::filesystem::path file(const std::string& key) const { return folder_ / (key + ".mbtiles"); }

  std::filesystem::path folder_;
  std::mutex lock_;
  std::list<std::pair<std::string, std::shared_ptr<const MapSource>>> open_;  // the last used first
};

}  // namespace outbye
