// The files of rides, read once as long as they are the same.
#pragma once

#include <list>
#include <memory>
#include <mutex>
#include <string>

#include "server/engine_calls/ride_question.h"

namespace outbye {

// A ride ready for the engine. `inputs.roads` points into `files`.
struct ReadyRide {
  RideInputs inputs;
  std::shared_ptr<const LoadedRide> files;
  Warnings warnings;  // of the files
};

class InputCache {
 public:
  // `road_cache`: a folder for road maps once they are read; empty: none.
  explicit InputCache(std::string road_cache) : road_cache_(std::move(road_cache)) {}

  // `progress` is told of long reading. Errors: those of the files.
  Answer<ReadyRide> ready(Ride ride, const StoredFiles& files, WithRoads with_roads, const Progress& progress);

 private:
  Answer<std::shared_ptr<const LoadedRide>> files_of(const Ride& ride, const StoredFiles& files, WithRoads with_roads,
                                                     const Progress& progress);
  std::shared_ptr<const LoadedRide> kept(const std::string& key);

  std::string road_cache_;
  std::mutex reading_;  // one at a time reads files
  std::mutex lock_;
  std::list<std::pair<std::string, std::shared_ptr<const LoadedRide>>> kept_;  // the last used first
};

}  // namespace outbye
