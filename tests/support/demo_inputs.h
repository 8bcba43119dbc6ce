// The demo's ride with its own map, heights and weather, as the engine takes it.
#pragma once

#include <gtest/gtest.h>

#include <memory>

#include "demo/country.h"
#include "demo/demo_ride.h"
#include "demo/write_country.h"
#include "engine/use_cases.h"
#include "formats/elevation/hgt.h"
#include "formats/gpx/gpx.h"
#include "formats/osm/load_roads.h"
#include "formats/rule_book/rule_book_file.h"
#include "formats/weather/weather_csv.h"
#include "tests/support/cli_answers.h"

namespace outbye::test {

struct DemoInputs {
  std::unique_ptr<RoadGraph> roads;  // `inputs` points into it
  RideInputs inputs;
};

// The country takes seconds to make: once a test program.
inline DemoInputs demo_inputs() {
  DemoInputs made;
  FreshFolder folder;
  const auto country = demo::make_country({});
  demo::CountryFiles files;
  EXPECT_TRUE(demo::write_map(*country, folder / files.roads));
  auto roads = load_roads({folder / files.roads}, {}, "", {});
  EXPECT_TRUE(roads) << roads.error().what;
  made.roads = std::make_unique<RoadGraph>(std::move(roads->graph));
  made.inputs.course_files = {*read_gpx(demo::course_gpx(*country), "course.gpx")};
  ElevationTiles tiles;
  for (const auto& [name, bytes] : demo::height_tiles(*country)) tiles.push_back(*read_hgt(bytes, name));
  made.inputs.elevation = elevation_source(std::move(tiles));
  made.inputs.ride = demo::demo_ride(*country, files);
  Ride& ride = made.inputs.ride;
  ride.weather = *read_weather_csv(demo::demo_weather(), files.weather, ride.clock, ride.start);
  made.inputs.rule_books = preset_books();
  made.inputs.roads = made.roads.get();
  return made;
}

}  // namespace outbye::test
