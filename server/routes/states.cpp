// Every saved state of a ride.
#include <charconv>

#include "server/routes/ride_json.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

Answer<std::uint64_t> revision_from(const std::string& text) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc{} && end == text.data() + text.size() && value < (std::uint64_t{1} << 62)) return value;
  return trouble(Trouble::Kind::bad_input, "revision", "must be a whole number");
}

Response list(Backstage& backstage, Request& request, const InPath& places) {
  std::uint64_t before = 0;
  if (const auto asked = request.query.find("before"); asked != request.query.end()) {
    const auto given = revision_from(asked->second);
    if (!given) return refused(given.error());
    before = *given;
  }
  constexpr std::size_t most = 500;
  const auto entries = backstage.store.states(places[0], before, most);
  if (!entries) return refused(entries.error());
  Json states = Json::array();
  for (const StateEntry& entry : *entries) {
    states.push_back({{"revision", entry.revision}, {"at", entry.at}, {"label", entry.label}});
  }
  return json_response(200, {{"states", std::move(states)}});
}

Response show(Backstage& backstage, Request&, const InPath& places) {
  const auto revision = revision_from(places[1]);
  if (!revision) return refused(revision.error());
  const auto state = backstage.store.state(places[0], *revision);
  return state ? json_response(200, json_of(*state)) : refused(state.error());
}

Response restore(Backstage& backstage, Request&, const InPath& places) {
  const auto revision = revision_from(places[1]);
  if (!revision) return refused(revision.error());
  const auto state = backstage.store.restore_state(places[0], *revision);
  return state ? json_response(200, json_of(*state)) : refused(state.error());
}

}  // namespace

std::vector<ApiRoute> state_routes() {
  return {{"GET", "/rides/{id}/states", Takes::nothing, list},
          {"GET", "/rides/{id}/states/{revision}", Takes::nothing, show},
          {"POST", "/rides/{id}/states/{revision}/restore", Takes::json, restore}};
}

}  // namespace outbye
