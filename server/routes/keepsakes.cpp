// Horses, riders, helpers and cars that are kept between rides.
#include <algorithm>
#include <array>

#include "server/routes/ride_json.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

constexpr std::array<std::string_view, 4> kinds{"horse", "rider", "helper", "car"};

Response list(Backstage& backstage, Request&, const InPath&) {
  const auto kept = backstage.store.keepsakes();
  if (!kept) return refused(kept.error());
  Json all = Json::array();
  for (const Keepsake& one : *kept) {
    all.push_back({{"id", one.id},
                   {"kind", one.kind},
                   {"name", one.name},
                   {"revision", one.revision},
                   {"data", stored_json(one.data)}});
  }
  return json_response(200, {{"keepsakes", std::move(all)}});
}

// The page makes the ids, so that a save that is sent twice is the same keepsake.
bool is_id(const std::string& text) {
  return !text.empty() && text.size() <= 64 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

Response keep(Backstage& backstage, Request& request, const InPath& places) {
  if (!is_id(places[0])) {
    return refused({{Trouble::Kind::bad_input, "id", "must be 1 to 64 letters, digits, - or _"}});
  }
  const auto body = body_object(request);
  if (!body) return refused(body.error());
  const auto kind = text_in(*body, "kind");
  if (!kind) return refused(kind.error());
  if (std::find(kinds.begin(), kinds.end(), *kind) == kinds.end()) {
    return refused({{Trouble::Kind::bad_input, "kind", "must be horse, rider, helper or car"}});
  }
  const auto name = text_in(*body, "name");
  if (!name) return refused(name.error());
  const auto data = object_in(*body, "data");
  if (!data) return refused(data.error());
  std::optional<std::uint64_t> base;
  if (const auto given = body->find("base_revision"); given != body->end() && !given->is_null()) {
    if (!given->is_number_unsigned()) {
      return refused({{Trouble::Kind::bad_input, "base_revision", "must be a whole number"}});
    }
    base = given->get<std::uint64_t>();
  }
  const auto revision = backstage.store.keep({places[0], *kind, *name, 0, data->dump()}, base);
  if (!revision) return refused(revision.error());
  return json_response(200, {{"id", places[0]}, {"revision", *revision}});
}

Response remove(Backstage& backstage, Request&, const InPath& places) {
  const auto done = backstage.store.remove_keepsake(places[0]);
  return done ? nothing_to_say() : refused(done.error());
}

}  // namespace

std::vector<ApiRoute> keepsake_routes() {
  return {{"GET", "/keepsakes", Takes::nothing, list},
          {"PUT", "/keepsakes/{id}", Takes::json, keep},
          {"DELETE", "/keepsakes/{id}", Takes::nothing, remove}};
}

}  // namespace outbye
