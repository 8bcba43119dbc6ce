#include "core/welfare/crew_heat.h"
#include "core/welfare/sun.h"
#include "formats/answer_json/answer_json.h"
#include "formats/plan_json/plan_json.h"
#include "formats/plan_json/welfare_json.h"

namespace outbye {

Json heat_json(const HeatHours& hours, bool people_are_acclimatised) {
  Json list = Json::array();
  for (std::size_t i = 0; i < hours.loads.size(); ++i) {
    Json hour{{"at", iso8601(hours.weather[i].at, hours.clock)},
              {"temperature_c", rounded(hours.weather[i].temperature.value, 2)},
              {"humidity_pct", rounded(hours.weather[i].humidity.value, 1)},
              {"heat", json_of(hours.loads[i])},
              {"crew", json_of(crew_heat(hours.loads[i].wbgt, people_are_acclimatised))}};
    list.push_back(std::move(hour));
  }
  const Instant midnight = local_midnight(hours.weather.front().at, hours.clock);
  return Json{{"format", "outbye heat"},
              {"version", 1},
              {"position", json_of(hours.place)},
              {"time_zone", hours.clock.zone},
              {"sun", json_of(sun_times(hours.place, midnight), hours.clock)},
              {"hours", std::move(list)}};
}

}  // namespace outbye
