// Catalogues to choose from.
#include "core/jobs/stop_task.h"
#include "formats/new_ride/guess_zone.h"
#include "formats/rule_book/rule_book_file.h"
#include "server/engine_calls/engine_calls.h"

namespace outbye {

Json EngineCalls::choices() {
  Json books = Json::array();
  for (const RuleBook& book : preset_books()) {
    Json levels = Json::array();
    for (const auto& level : book.levels) levels.push_back(level.name);
    books.push_back({{"id", book.id}, {"name", book.name}, {"levels", std::move(levels)}});
  }
  const KnownZones known = known_zones();
  return {{"rule_books", std::move(books)},
          {"skills", {skill_holds_horse, skill_first_aid, skill_driver, skill_lifts, skill_pulse, skill_tack}},
          {"time_zones", known.zones},
          {"countries", known.countries}};
}

}  // namespace outbye
