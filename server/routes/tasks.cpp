// Long work over HTTP.
#include "server/routes/ride_json.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

Json json_of(const TaskRecord& task) {
  Json json{{"id", task.id},       {"kind", task.kind}, {"ride", task.ride},
            {"state", task.state}, {"step", task.step}, {"share", task.share}};
  const Json problems = Json::parse(task.problems, nullptr, false);
  if (problems.is_array() && !problems.empty()) json["problems"] = problems;
  return json;
}

Response start(Backstage& backstage, Request& request, const InPath& places) {
  const auto body = body_object(request);
  if (!body) return refused(body.error());
  const auto kind = text_in(*body, "kind");
  if (!kind) return refused(kind.error());
  const auto task = backstage.tasks.start(places[0], *kind);
  return task ? json_response(202, {{"task", json_of(*task)}}) : refused(task.error());
}

Response list(Backstage& backstage, Request& request, const InPath&) {
  const auto ride = request.query.find("ride");
  Json tasks = Json::array();
  for (const TaskRecord& task : backstage.tasks.tasks(ride == request.query.end() ? "" : ride->second)) {
    tasks.push_back(json_of(task));
  }
  return json_response(200, {{"tasks", std::move(tasks)}});
}

Response show(Backstage& backstage, Request&, const InPath& places) {
  const auto task = backstage.tasks.task(places[0]);
  return task ? json_response(200, json_of(*task)) : refused(task.error());
}

Response cancel(Backstage& backstage, Request&, const InPath& places) {
  const auto done = backstage.tasks.cancel(places[0]);
  return done ? nothing_to_say() : refused(done.error());
}

}  // namespace

std::vector<ApiRoute> task_routes() {
  return {{"POST", "/rides/{id}/tasks", Takes::json, start},
          {"GET", "/tasks", Takes::nothing, list},
          {"GET", "/tasks/{id}", Takes::nothing, show},
          {"DELETE", "/tasks/{id}", Takes::nothing, cancel}};
}

}  // namespace outbye
