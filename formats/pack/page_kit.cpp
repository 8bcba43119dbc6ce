#include "core/kit/kit_load.h"
#include "formats/pack/page_parts.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

// Where the pieces of each entry of the list are; one a piece that is in a car.
std::vector<std::vector<std::string>> places_of(const PaperParts& parts) {
  std::vector<std::vector<std::string>> places(parts.kit->list.taken.size());
  if (!parts.load) return places;
  for (const KitPiece& piece : load_pieces(parts.kit->list)) {
    for (const CarLoad& car : parts.load->cars) {
      for (std::size_t p = 0; p < car.load.placements.size(); ++p) {
        if (at(car.task.items, car.load.placements[p].item).name != piece.item.name) continue;
        const std::string where = (parts.load->cars.size() > 1 ? car.name + ", " : "") + whereabouts(car, p);
        for (const std::size_t entry : piece.entries) places[entry].push_back(where);
      }
    }
  }
  return places;
}

Json thing_json(const KitEntry& entry, const std::vector<std::string>& where) {
  Json needed = Json::array();
  for (const KitNeed need : entry.item.needed) needed.push_back(kit_need_word(need));
  return Json{{"id", entry.item.id},
              {"name", entry.item.name},
              {"count", entry.count},
              {"is_packed", entry.is_packed},
              {"needed", std::move(needed)},
              {"where", where},
              {"contents", entry.item.contents},
              {"contents_note", entry.item.contents_note}};
}

}  // namespace

Json page_kit_json(const PageSources& from) {
  Json json{{"mass_kg", 0}, {"groups", Json::array()}, {"amounts", Json::array()}, {"notes", Json::array()}};
  if (!from.parts.kit) return json;
  const KitPlan& kit = *from.parts.kit;
  json["mass_kg"] = rounded(kit.list.mass.value, 1);
  const auto places = places_of(from.parts);
  std::optional<KitGroup> group;
  for (std::size_t e = 0; e < kit.list.taken.size(); ++e) {
    const KitEntry& entry = kit.list.taken[e];
    if (group != entry.item.group) {
      group = entry.item.group;
      json["groups"].push_back(Json{{"name", kit_group_name(*group)}, {"things", Json::array()}});
    }
    json["groups"].back()["things"].push_back(thing_json(entry, places[e]));
  }
  for (const Amount& amount : kit.amounts) {
    if (amount.value <= 0) continue;
    json["amounts"].push_back(Json{{"name", amount.name},
                                   {"value", rounded(amount.value, 1)},
                                   {"unit", amount.unit},
                                   {"steps", amount.steps},
                                   {"cautions", amount.cautions}});
  }
  Json notes = kit.list.notes;
  for (const auto& assumption : kit.assumptions) notes.push_back(assumption);
  json["notes"] = std::move(notes);
  return json;
}

}  // namespace outbye
