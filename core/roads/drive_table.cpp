#include "core/roads/drive_table.h"

#include <cassert>

#include "core/roads/drive_search.h"
#include "core/roads/route.h"

namespace outbye {

DriveTable drive_table(const RoadGraph& roads, const std::vector<std::string>& names, const std::vector<Snap>& places) {
  assert(names.size() == places.size());
  DriveTable table(names);
  DriveSearch search(roads);
  search.set_targets(places);
  for (std::uint32_t from = 0; from < places.size(); ++from) {
    const auto found = search.find_marked(places[from], false);
    for (std::uint32_t to = 0; to < places.size(); ++to) {
      if (to == from) continue;
      if (found[to])
        table.set(PlaceId{from}, PlaceId{to}, Drive{Seconds{found[to]->seconds}, Metres{found[to]->metres}});
    }
  }
  return table;
}

}  // namespace outbye
