// What a map file says about roads, gathered file by file, before it becomes a graph. Used by read_roads().
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/roads/road_builder.h"
#include "core/roads/road_rules.h"

namespace outbye {

struct RawWay {
  std::int64_t id{};
  std::size_t first_ref{};  // in RawRoads::refs; the refs run to the next way's first
  std::uint32_t name{};
  RoadAttributes attributes;
};

struct RawRestriction {
  RestrictionTag::Kind kind{};
  std::vector<std::int64_t> from, to, via_ways;
  std::int64_t via_node{};
  bool has_via_node{};
};

// Fuel on sale: a point, or a forecourt that begins at one.
struct RawPump {
  std::int64_t node{};
  std::uint32_t name{};
};

struct RawRoads {
  std::vector<std::int64_t> node_ids;
  std::vector<FixedPosition> node_positions;
  std::vector<std::int64_t> blocked, gates;  // node ids
  std::vector<RawWay> ways;                  // only those a car may use
  std::vector<std::int64_t> refs;
  std::vector<RawRestriction> restrictions;
  std::vector<RawPump> pumps;
  std::size_t all_nodes{}, all_ways{};  // of any kind, to say what a file holds
  std::size_t conditional_restrictions{};
  std::size_t unknown_restrictions{};
};

// The format by content, so that a wrong name does no harm: "pbf", "osm", "osm.gz", "osm.bz2".
// Errors: not_found, bad_input (not a map).
Result<std::string> extract_format(const std::filesystem::path& file);

// Adds the roads of one extract. Names go to `builder`. `go_on` is told the share read. Errors: not_found, bad_input;
// cancelled when it returns false.
Result<void> read_extract(const std::filesystem::path& file, const RoadOptions& options, RoadBuilder& builder,
                          RawRoads& roads, const std::function<bool(double share)>& go_on);

}  // namespace outbye
