// Plans that were made, by the text of their ride and the bytes of its files.
#pragma once

#include <condition_variable>
#include <list>
#include <memory>
#include <mutex>
#include <set>
#include <string>

#include "server/engine_calls/input_cache.h"

namespace outbye {

struct MadePlan {
  ReadyRide ready;
  RidePlan plan;  // with the warnings of the files
};

class PlanCache {
 public:
  explicit PlanCache(InputCache& inputs) : inputs_(inputs) {}

  // Made once even when several ask at the same time. Errors: those of the ride, its files and the engine.
  Answer<std::shared_ptr<const MadePlan>> plan(const std::string& document, const StoredFiles& files,
                                               const Progress& progress);

 private:
  std::shared_ptr<const MadePlan> kept(const std::string& key);  // with the lock held

  InputCache& inputs_;
  std::mutex lock_;
  std::condition_variable made_;
  std::set<std::string> making_;
  std::list<std::pair<std::string, std::shared_ptr<const MadePlan>>> kept_;  // the last used first
};

}  // namespace outbye
