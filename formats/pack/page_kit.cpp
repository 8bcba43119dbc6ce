#include <algorithm>

#include "formats/pack/page_parts.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

// Where the pieces of each entry of the list are; one a piece that is in a car.
std::vector<std::vector<std::string>> places_of(const PageSources& from) {
  const PaperParts& parts = from.parts;
  std::vector<std::vector<std::string>> places(parts.kit->list.taken.size());
  if (!parts.load) return places;
  for (const KitPiece& piece : pieces_of(from)) {
    const std::string inside = piece.contents.empty() ? "" : "in " + piece.item.name;
    for (const CarLoad& car : parts.load->cars) {
      const std::string in_car = parts.load->cars.size() > 1 ? car.name + ", " : "";
      std::vector<std::string> found;
      for (std::size_t p = 0; p < car.load.placements.size(); ++p) {
        if (at(car.task.items, car.load.placements[p].item).name != piece.item.name) continue;
        found.push_back(in_car + (inside.empty() ? "" : inside + ": ") + whereabouts(car, p));
      }
      if (piece.is_place && CarId{static_cast<std::uint32_t>(piece.car)} == car.car)
        found.push_back(in_car + piece.item.name);
      for (const std::string& where : found) {
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

std::vector<KitPiece> pieces_of(const PageSources& from) {
  if (!from.parts.kit) return {};
  // As high as nests of buckets may be where they were loaded.
  std::vector<Millimetres> tallest;
  if (from.parts.load) {
    for (const CarLoad& car : from.parts.load->cars) {
      const LoadSpace& boot = car.task.spaces.front();
      const bool is_covered = boot.cover_height && !boot.has_guard;
      tallest.push_back(is_covered ? std::min(*boot.cover_height, boot.size.height) : boot.size.height);
    }
  }
  return load_pieces(from.parts.kit->list, from.plan.ride.cars.size(), tallest);
}

Json page_kit_json(const PageSources& from) {
  Json json{{"mass_kg", 0}, {"groups", Json::array()}, {"amounts", Json::array()}, {"notes", Json::array()}};
  if (!from.parts.kit) return json;
  const KitPlan& kit = *from.parts.kit;
  json["mass_kg"] = rounded(kit.list.mass.value, 1);
  const auto places = places_of(from);
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
