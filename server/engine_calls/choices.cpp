// Catalogues to choose from.
#include "core/jobs/stop_task.h"
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
  return {{"rule_books", std::move(books)}};
}

}  // namespace outbye
