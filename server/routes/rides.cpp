// Rides: listed, made, copied, saved, removed and had back.
#include "server/routes/ride_json.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

Response list(Backstage& backstage, Request&, const InPath&) {
  const auto entries = backstage.store.rides();
  if (!entries) return refused(entries.error());
  Json rides = Json::array();
  for (const RideEntry& entry : *entries) {
    rides.push_back({{"id", entry.id},
                     {"name", entry.name},
                     {"start", entry.start},
                     {"revision", entry.revision},
                     {"changed_at", entry.changed_at},
                     {"is_removed", entry.is_removed}});
  }
  return json_response(200, {{"rides", std::move(rides)}});
}

Response made(Backstage& backstage, const std::string& id) {
  const auto state = backstage.store.newest_state(id);
  if (!state) return refused(state.error());
  return json_response(201, {{"id", id}, {"revision", state->revision}, {"ride", stored_json(state->text.document)}});
}

Response make_copy(Backstage& backstage, const std::string& of, const Json& body) {
  const auto state = backstage.store.newest_state(of);
  if (!state) return refused(state.error());
  RideText text = state->text;
  if (body.contains("name")) {
    const auto name = text_in(body, "name");
    if (!name) return refused(name.error());
    Json ride = stored_json(text.document);
    ride["name"] = *name;
    text.document = ride.dump();
  }
  const auto id = backstage.store.copy_ride(of, text);
  return id ? made(backstage, *id) : refused(id.error());
}

Response make(Backstage& backstage, Request& request, const InPath&) {
  auto body = body_object(request);
  if (!body) return refused(body.error());
  if (body->contains("copy_of")) {
    const auto of = text_in(*body, "copy_of");
    return of ? make_copy(backstage, *of, *body) : refused(of.error());
  }
  if (!body->contains("ride")) (*body)["ride"] = {{"version", 1}};
  if (body->contains("name")) {
    const auto name = text_in(*body, "name");
    if (!name) return refused(name.error());
    if ((*body)["ride"].is_object()) (*body)["ride"]["name"] = *name;
  }
  const auto text = ride_text_in(*body, backstage.limits.json_bytes);
  if (!text) return refused(text.error());
  const auto id = backstage.store.make_ride(*text, "made");
  return id ? made(backstage, *id) : refused(id.error());
}

Response show(Backstage& backstage, Request&, const InPath& places) {
  const auto state = backstage.store.newest_state(places[0]);
  if (!state) return refused(state.error());
  const auto entries = backstage.store.files(places[0]);
  if (!entries) return refused(entries.error());
  Json files = Json::array();
  for (const RideFile& file : *entries) files.push_back(json_of(file));
  return json_response(200, {{"id", places[0]},
                             {"revision", state->revision},
                             {"changed_at", state->at},
                             {"ride", stored_json(state->text.document)},
                             {"drafts", stored_json(state->text.drafts)},
                             {"files", std::move(files)}});
}

Response save(Backstage& backstage, Request& request, const InPath& places) {
  const auto body = body_object(request);
  if (!body) return refused(body.error());
  const auto base = body->find("base_revision");
  if (base == body->end() || !base->is_number_unsigned()) {
    return refused({{Trouble::Kind::bad_input, "base_revision", "must be the revision that was changed"}});
  }
  const auto text = ride_text_in(*body, backstage.limits.json_bytes);
  if (!text) return refused(text.error());
  std::string label;
  if (body->contains("label")) {
    const auto given = text_in(*body, "label");
    if (!given) return refused(given.error());
    label = given->substr(0, 200);
  }
  const auto saved = backstage.store.save_ride(places[0], base->get<std::uint64_t>(), *text, label);
  if (!saved) return refused(saved.error());
  if (!*saved) {
    Json answer = problems_json({{Trouble::Kind::conflict, "ride",
                                  "was changed on another page meanwhile; what is stored is shown beside yours"}});
    answer.update(json_of(saved->error().stored));
    return json_response(status_of(Trouble::Kind::conflict), answer);
  }
  return json_response(200, {{"revision", (*saved)->revision}, {"changed_at", (*saved)->at}});
}

Response set_removed(Backstage& backstage, const InPath& places, bool is_removed) {
  const auto done = backstage.store.set_removed(places[0], is_removed);
  return done ? nothing_to_say() : refused(done.error());
}

}  // namespace

std::vector<ApiRoute> ride_routes() {
  return {{"GET", "/rides", Takes::nothing, list},
          {"POST", "/rides", Takes::json, make},
          {"GET", "/rides/{id}", Takes::nothing, show},
          {"PUT", "/rides/{id}", Takes::json, save},
          {"DELETE", "/rides/{id}", Takes::nothing,
           [](Backstage& backstage, Request&, const InPath& places) { return set_removed(backstage, places, true); }},
          {"POST", "/rides/{id}/restore", Takes::json,
           [](Backstage& backstage, Request&, const InPath& places) { return set_removed(backstage, places, false); }}};
}

}  // namespace outbye
