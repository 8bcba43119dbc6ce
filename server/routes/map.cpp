// The ground under the plan: whether there is a map, and its tiles.
#include <charconv>

#include "server/routes/ride_files.h"
#include "server/routes/router.h"

namespace outbye {
namespace {

// 48 of the key's 128 bits: a page may use it as a number.
std::uint64_t revision_of(const std::string& key) {
  std::uint64_t value = 0;
  std::from_chars(key.data(), key.data() + 12, value, 16);
  return value;
}

Response show(Backstage& backstage, Request&, const InPath& places) {
  const auto extracts = extracts_of(backstage.store, backstage.blobs, places[0]);
  if (!extracts) return refused(extracts.error());
  if (extracts->empty()) return json_response(200, {{"state", "none"}});
  const std::string key = RideMaps::key(*extracts);
  const auto map = backstage.maps.map(key);
  if (!map) return json_response(200, {{"state", "waiting"}});  // or made by another version: to be made again
  const MapFacts& facts = (*map)->facts();
  const BoundingBox& box = facts.bounds;
  return json_response(200, {{"state", "ready"},
                             {"bounds", {box.west, box.south, box.east, box.north}},
                             {"min_zoom", facts.min_zoom},
                             {"max_zoom", facts.max_zoom},
                             {"attribution", facts.attribution},
                             {"revision", revision_of(key)}});
}

std::optional<std::int64_t> number_from(const std::string& text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < 0) return std::nullopt;
  return value;
}

Response tile(Backstage& backstage, Request& request, const InPath& places) {
  const auto z = number_from(places[1]);
  const auto x = number_from(places[2]);
  const auto y = number_from(places[3]);
  if (!z || !x || !y || *z > 30) {
    return refused({{Trouble::Kind::bad_input, "tile", "is three whole numbers: zoom, x and y"}});
  }
  const auto extracts = extracts_of(backstage.store, backstage.blobs, places[0]);
  if (!extracts) return refused(extracts.error());
  const std::string key = RideMaps::key(*extracts);
  const auto map = backstage.maps.map(key);
  if (!map) return refused(map.error());
  Response response;
  response.headers = {{"ETag", "\"" + key + "\""}, {"Cache-Control", "private, no-cache"}};
  if (request.header("if-none-match") == "\"" + key + "\"") {
    response.status = 304;
    return response;
  }
  auto bytes = map_tile(**map, static_cast<int>(*z), *x, *y);
  if (!bytes) return refused({trouble_of(bytes.error())});
  if (!*bytes) {
    response.status = 204;
    return response;
  }
  response.type = "application/vnd.mapbox-vector-tile";
  response.body = std::move(**bytes);
  return response;
}

}  // namespace

std::vector<ApiRoute> map_routes() {
  return {{"GET", "/rides/{id}/map", Takes::nothing, show},
          {"GET", "/rides/{id}/map/{z}/{x}/{y}", Takes::nothing, tile}};
}

}  // namespace outbye
