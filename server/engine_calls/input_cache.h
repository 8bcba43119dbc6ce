// The files of rides, read once as long as they are the same.
#pragma once

#include <list>
#include <memory>
#include <mutex>
#include <string>

#include "formats/osm/load_roads.h"
#include "server/engine_calls/ride_question.h"

namespace outbye {

// A ride ready for the engine. `inputs.roads` points into `roads`.
struct ReadyRide {
  RideInputs inputs;
  std::shared_ptr<const LoadedRoads> roads;  // null without
  Warnings warnings;                         // of the files
};

// The last used of something that is dear to read, by a key.
template <class T>
class Recent {
 public:
  explicit Recent(std::size_t most) : most_(most) {}
  std::shared_ptr<const T> find(const std::string& key) {
    const std::lock_guard guard(lock_);
    for (auto it = kept_.begin(); it != kept_.end(); ++it) {
      if (it->first != key) continue;
      kept_.splice(kept_.begin(), kept_, it);
      return kept_.front().second;
    }
    return nullptr;
  }
  void keep(const std::string& key, std::shared_ptr<const T> value) {
    const std::lock_guard guard(lock_);
    kept_.emplace_front(key, std::move(value));
    if (kept_.size() > most_) kept_.pop_back();
  }

 private:
  std::size_t most_;
  std::mutex lock_;
  std::list<std::pair<std::string, std::shared_ptr<const T>>> kept_;
};

class InputCache {
 public:
  // `road_cache`: a folder for road maps once they are read; empty: none.
  explicit InputCache(std::string road_cache) : road_cache_(std::move(road_cache)) {}

  // `progress` is told of long reading. Errors: those of the files, cancelled.
  Answer<ReadyRide> ready(Ride ride, const StoredFiles& files, WithRoads with_roads, const Progress& progress);

  // Reads the roads of all the maps among the files before a ride asks for them. `country`: of the ride; empty: as the
  // maps say.
  Answer<void> read_roads_ahead(const StoredFiles& files, std::string country, const Progress& progress);

 private:
  Answer<std::shared_ptr<const LoadedRide>> files_of(const Ride& ride, const StoredFiles& files);
  Answer<std::shared_ptr<const LoadedRoads>> roads_of(const Ride& ride, const StoredFiles& files,
                                                      const Progress& progress);

  std::string road_cache_;
  std::mutex reading_;  // one at a time reads roads: they take all the memory there is
  Recent<LoadedRide> files_{6};
  Recent<LoadedRoads> roads_{2};
};

}  // namespace outbye
