#include "server/engine_calls/engine_calls.h"

#include <utility>

namespace outbye {
namespace {

constexpr std::pair<const char*, EngineCall> table[] = {
    {"checkRide", check_ride_call}, {"planRide", plan_ride_call}, {"draftRide", draft_ride_call},
    {"heatOfRide", heat_call},      {"kitOfRide", kit_call},      {"loadOfRide", load_call},
    {"jobsOfRide", jobs_call},      {"sheetOfRide", sheet_call},
};

}  // namespace

std::vector<std::string> EngineCalls::names() {
  std::vector<std::string> all;
  for (const auto& [name, call] : table) all.emplace_back(name);
  return all;
}

Answer<Json> EngineCalls::call(const std::string& name, const RideQuestion& question) {
  for (const auto& [known, work] : table) {
    if (name == known) return work(*this, question);
  }
  return trouble(Trouble::Kind::not_found, "call", "'" + name + "' is nothing that the engine can be asked");
}

Answer<std::shared_ptr<const MadePlan>> plan_of(EngineCalls& engine, const RideQuestion& question, const char* field) {
  const auto document = document_in(question, field);
  if (!document) return tl::make_unexpected(document.error());
  return engine.plans().plan(*document, question.files, progress_of(question));
}

Progress progress_of(const RideQuestion& question) {
  if (!question.is_wanted) return {};
  return {{}, [&question] { return !question.is_wanted(); }};
}

}  // namespace outbye
