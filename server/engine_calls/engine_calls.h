// What the engine can be asked, by the names of web/src/engine/calls.ts: JSON in, JSON out.
#pragma once

#include <string>
#include <vector>

#include "server/engine_calls/input_cache.h"
#include "server/engine_calls/plan_cache.h"
#include "server/engine_calls/ride_question.h"

namespace outbye {

class EngineCalls {
 public:
  // `road_cache`: a folder for road maps once they are read; empty: none.
  explicit EngineCalls(std::string road_cache) : inputs_(std::move(road_cache)), plans_(inputs_) {}
  EngineCalls(const EngineCalls&) = delete;
  EngineCalls& operator=(const EngineCalls&) = delete;

  // The names there are, `choices` apart.
  static std::vector<std::string> names();
  // Errors: not_found for a name that is none; those of the ride, its files and the engine; cancelled when the answer
  // is no longer wanted. Called from several threads.
  Answer<Json> call(const std::string& name, const RideQuestion& question);
  // Catalogues to choose from.
  static Json choices();

  InputCache& inputs() { return inputs_; }
  PlanCache& plans() { return plans_; }

 private:
  InputCache inputs_;
  PlanCache plans_;
};

// One call of the table. Internal to engine_calls.
using EngineCall = Answer<Json> (*)(EngineCalls& engine, const RideQuestion& question);
Answer<Json> check_ride_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> draft_ride_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> plan_ride_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> heat_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> kit_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> load_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> jobs_call(EngineCalls& engine, const RideQuestion& question);
Answer<Json> sheet_call(EngineCalls& engine, const RideQuestion& question);

// The plan that a question is about.
Answer<std::shared_ptr<const MadePlan>> plan_of(EngineCalls& engine, const RideQuestion& question, const char* field);
// Progress that stops the work once nobody waits for it.
Progress progress_of(const RideQuestion& question);

}  // namespace outbye
