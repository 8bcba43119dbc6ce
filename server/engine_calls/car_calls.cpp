// What goes along, where it is put, and who does what.
#include <algorithm>
#include <chrono>

#include "core/base/text.h"
#include "engine/jobs.h"
#include "engine/kit.h"
#include "engine/load.h"
#include "engine/stock.h"
#include "formats/answer_json/answer_json.h"
#include "formats/jobs_picture/jobs_picture.h"
#include "formats/load_items/timed_search.h"
#include "formats/load_picture/load_picture.h"
#include "formats/ride_inputs/kit_files.h"
#include "server/engine_calls/engine_calls.h"

namespace outbye {
namespace {

constexpr std::chrono::milliseconds load_search_time{1000};  // a car

Answer<KitPlan> kit_of(const MadePlan& made, const StoredFiles& files) {
  const auto catalogue = kit_catalogue_of(made.ready.inputs.ride, "", find_in(files));
  if (!catalogue) return tl::make_unexpected(in_names_of(files, catalogue.error()));
  auto kit = plan_kit(made.plan, *catalogue, made.ready.inputs.roads);
  if (!kit) return tl::make_unexpected(in_names_of(files, {kit.error()}));
  return std::move(*kit);
}

// steps-CAR and layers-CAR; -roof-box behind them for what stands on the roof.
void draw_load(const CarLoad& car, Json& pictures) {
  for (LoadPicture& picture : load_pictures(car.task, car.load, car.name, LoadPages::one_below_the_other)) {
    pictures[picture.kind + "-" + car.name + picture.space] = std::move(picture.pages.front());
  }
}

}  // namespace

Answer<Json> kit_call(EngineCalls& engine, const RideQuestion& question) {
  const auto made = plan_of(engine, question, "ride");
  if (!made) return tl::make_unexpected(made.error());
  const auto kit = kit_of(**made, question.files);
  if (!kit) return tl::make_unexpected(kit.error());
  const auto stock = stock_of((*made)->plan);
  if (!stock) return tl::make_unexpected(in_names_of(question.files, {stock.error()}));
  return kit_json((*made)->plan.ride.name, *kit, stock_json(*stock));
}

Answer<Json> load_call(EngineCalls& engine, const RideQuestion& question) {
  const auto made = plan_of(engine, question, "ride");
  if (!made) return tl::make_unexpected(made.error());
  const RidePlan& plan = (*made)->plan;
  const auto kit = kit_of(**made, question.files);
  if (!kit) return tl::make_unexpected(kit.error());
  BootLoadSettings settings;
  settings.search = searches_of(load_search_time);
  auto load = boot_load(plan, boot_items(kit->list, plan.ride.cars), settings);
  if (!load) return tl::make_unexpected(in_names_of(question.files, {load.error()}));
  LoadAnswer answer;
  answer.load = std::move(*load);
  answer.warnings = (*made)->ready.warnings;
  Json pictures = Json::object();
  for (const CarLoad& car : answer.load.cars) draw_load(car, pictures);
  return Json{{"load", load_json(plan, answer)}, {"pictures", std::move(pictures)}};
}

Answer<Json> jobs_call(EngineCalls& engine, const RideQuestion& question) {
  const auto made = plan_of(engine, question, "ride");
  if (!made) return tl::make_unexpected(made.error());
  const RidePlan& plan = (*made)->plan;
  const RideJobs jobs = jobs_of(plan);
  std::vector<Problem> problems;
  for (const StopJobs& stop : jobs.stops) {
    if (stop.problem) problems.push_back(*stop.problem);
  }
  if (!problems.empty()) return tl::make_unexpected(in_names_of(question.files, problems));
  const std::string only = question.request.value("at", std::string());
  Json pictures = Json::object();
  for (const StopJobs& stop : jobs.stops) {
    if (!only.empty() && !same_name(only, stop.name)) continue;
    pictures[stop.name] = stop_picture_svg(stop.stop, stop.schedule, stop_heading(stop, plan.ride.clock));
  }
  return Json{{"jobs", jobs_json(plan, jobs)}, {"pictures", std::move(pictures)}};
}

}  // namespace outbye
