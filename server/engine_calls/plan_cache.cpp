#include "server/engine_calls/plan_cache.h"

namespace outbye {
namespace {

constexpr std::size_t most_kept = 8;

std::string key_of(const std::string& document, const StoredFiles& files) {
  std::string key;
  for (const auto& [name, file] : files) key += name + "\t" + file.hash + "\n";
  return key + document;
}

Answer<std::shared_ptr<const MadePlan>> make_plan(InputCache& inputs, const std::string& document,
                                                  const StoredFiles& files, const Progress& progress) {
  auto ride = read_ride(document);
  if (!ride) return tl::make_unexpected(ride.error());
  auto ready = inputs.ready(std::move(*ride), files, WithRoads::yes, progress);
  if (!ready) return tl::make_unexpected(ready.error());
  auto plan = plan_ride(ready->inputs, progress);
  if (!plan) return tl::make_unexpected(in_names_of(files, {plan.error()}));
  plan->warnings.insert(plan->warnings.begin(), ready->warnings.begin(), ready->warnings.end());
  return std::make_shared<const MadePlan>(MadePlan{std::move(*ready), std::move(*plan)});
}

}  // namespace

std::shared_ptr<const MadePlan> PlanCache::kept(const std::string& key) {
  for (auto it = kept_.begin(); it != kept_.end(); ++it) {
    if (it->first != key) continue;
    kept_.splice(kept_.begin(), kept_, it);
    return kept_.front().second;
  }
  return nullptr;
}

Answer<std::shared_ptr<const MadePlan>> PlanCache::plan(const std::string& document, const StoredFiles& files,
                                                        const Progress& progress) {
  const std::string key = key_of(document, files);
  {
    std::unique_lock guard(lock_);
    made_.wait(guard, [&] { return making_.count(key) == 0; });
    if (auto found = kept(key)) return found;
    making_.insert(key);
  }
  auto made = make_plan(inputs_, document, files, progress);
  {
    const std::lock_guard guard(lock_);
    making_.erase(key);
    if (made) kept_.emplace_front(key, *made);
    if (kept_.size() > most_kept) kept_.pop_back();
  }
  made_.notify_all();
  return made;
}

}  // namespace outbye
