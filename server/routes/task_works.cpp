#include "server/routes/task_works.h"

#include "server/routes/ride_files.h"

namespace outbye {
namespace {

// A part of the work as a part of the whole.
Progress part_of(const Progress& whole, double from, double to) {
  return {[&whole, from, to](const std::string& step, double share) { tell(whole, step, from + (to - from) * share); },
          whole.is_cancelled};
}

std::vector<Trouble> in_names(const StoredFiles& files, std::vector<Trouble> troubles) {
  for (Trouble& one : troubles) rename_stored(files, one);
  return troubles;
}

Answer<void> import_map(const std::string& ride, Store& store, const Blobs& blobs, EngineCalls& engine, RideMaps& maps,
                        const Progress& progress) {
  const auto extracts = extracts_of(store, blobs, ride);
  if (!extracts) return tl::make_unexpected(extracts.error());
  const auto files = stored_files(store, blobs, ride);
  if (!files) return tl::make_unexpected(files.error());
  if (extracts->empty()) {
    return trouble(Trouble::Kind::bad_input, "files.roads", "has no map yet; add an extract (.osm.pbf) of the area");
  }
  if (auto ok = maps.make(*extracts, part_of(progress, 0.0, 0.7)); !ok) {
    return tl::make_unexpected(in_names(*files, ok.error()));
  }
  const auto state = store.newest_state(ride);
  if (!state) return tl::make_unexpected(state.error());
  const Json document = Json::parse(state->text.document, nullptr, false);
  const auto country = document.is_object() ? document.find("country") : document.end();
  const bool is_known = document.is_object() && country != document.end() && country->is_string();
  return engine.inputs().read_roads_ahead(*files, is_known ? country->get<std::string>() : "",
                                          part_of(progress, 0.7, 1.0));
}

Answer<void> make_plan(const std::string& ride, Store& store, const Blobs& blobs, EngineCalls& engine,
                       const Progress& progress) {
  const auto state = store.newest_state(ride);
  if (!state) return tl::make_unexpected(state.error());
  const auto files = stored_files(store, blobs, ride);
  if (!files) return tl::make_unexpected(files.error());
  const auto plan = engine.plans().plan(state->text.document, *files, progress);
  if (!plan) return tl::make_unexpected(plan.error());
  return {};
}

}  // namespace

std::map<std::string, TaskWork> task_works(Store& store, const Blobs& blobs, EngineCalls& engine, RideMaps& maps) {
  return {{"import_map",
           [&store, &blobs, &engine, &maps](const std::string& ride, const Progress& progress) {
             return import_map(ride, store, blobs, engine, maps, progress);
           }},
          {"plan", [&store, &blobs, &engine](const std::string& ride, const Progress& progress) {
             return make_plan(ride, store, blobs, engine, progress);
           }}};
}

}  // namespace outbye
