#include "formats/answer_json/answer_json.h"
#include "formats/json_text/json_text.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json list_of(const LoadPoint& p) { return Json::array({p.x, p.y, p.z}); }
Json list_of(const LoadSize& size) { return Json::array({size.length, size.width, size.height}); }

const char* word(LoadProof proof) {
  switch (proof) {
    case LoadProof::all_fit:
      return "all_fit";
    case LoadProof::cannot_fit:
      return "cannot_fit";
    case LoadProof::not_proven:
      break;
  }
  return "not_proven";
}

const char* word(LoadSpace::Kind kind) {
  switch (kind) {
    case LoadSpace::Kind::roof_box:
      return "roof_box";
    case LoadSpace::Kind::second_car:
      return "second_car";
    case LoadSpace::Kind::boot:
      break;
  }
  return "boot";
}

const char* word(LoadedElsewhere::Where where) {
  switch (where) {
    case LoadedElsewhere::Where::roof_box:
      return "roof_box";
    case LoadedElsewhere::Where::other_car:
      return "other_car";
    case LoadedElsewhere::Where::home:
      break;
  }
  return "home";
}

Json json_of_warnings(const Warnings& warnings) {
  Json list = Json::array();
  for (const Warning& w : warnings) list.push_back(Json{{"where", w.where}, {"what", w.what}});
  return list;
}

Json spaces(const LoadTask& task, const Load& load) {
  Json list = Json::array();
  for (std::size_t s = 0; s < task.spaces.size(); ++s) {
    const LoadSpace& space = task.spaces[s];
    Json json{{"name", space.name},
              {"kind", word(space.kind)},
              {"size_mm", list_of(space.size)},
              {"payload_kg", rounded(space.payload.value, 1)}};
    if (space.cover_height) json["cover_height_mm"] = *space.cover_height;
    if (s < load.balance.size()) {
      const LoadBalance& balance = load.balance[s];
      json["loaded_kg"] = rounded(balance.mass.value, 2);
      json["left_kg"] = rounded(space.payload.value - balance.mass.value, 2);
      json["centre_mm"] = list_of(balance.centre);
      if (balance.on_front) json["on_front_axle_kg"] = rounded(balance.on_front->value, 1);
      if (balance.on_rear) json["on_rear_axle_kg"] = rounded(balance.on_rear->value, 1);
    }
    list.push_back(std::move(json));
  }
  return list;
}

Json steps(const LoadTask& task, const Load& load, const std::vector<LoadStep>& steps,
           const std::vector<std::string>& stops) {
  Json list = Json::array();
  for (std::size_t p = 0; p < load.placements.size(); ++p) {
    const LoadPlacement& placement = load.placements[p];
    const LoadItem& item = at(task.items, placement.item);
    const LoadStep& step = steps[p];
    Json moved = Json::array();
    for (const LoadItemId id : placement.moved_first) moved.push_back(at(task.items, id).name);
    Json json{{"step", step.step},
              {"item", item.name},
              {"space", at(task.spaces, placement.space).name},
              {"at_mm", list_of(placement.box.at)},
              {"size_mm", list_of(placement.box.size)},
              {"mass_kg", rounded(item.mass.value, 2)},
              {"side", step.side},
              {"depth", step.depth},
              {"on", step.on},
              {"turned", step.turned},
              {"lift", step.lift},
              {"moved_first", std::move(moved)},
              {"words", step.words}};
    if (item.first_needed && static_cast<std::size_t>(*item.first_needed) < stops.size()) {
      json["first_needed"] = stops[static_cast<std::size_t>(*item.first_needed)];
    }
    if (item.is_emergency) json["emergency"] = true;
    list.push_back(std::move(json));
  }
  return list;
}

// What is packed together before the car is loaded, and what rides beside its boot.
Json crates(const CarLoad& car) {
  Json list = Json::array();
  for (std::size_t i = 0; i < car.contents.size(); ++i) {
    if (car.contents[i].empty()) continue;
    const LoadItem& item = car.task.items[i];
    list.push_back(Json{{"item", item.name}, {"mass_kg", rounded(item.mass.value, 2)}, {"contents", car.contents[i]}});
  }
  return list;
}
Json places(const CarLoad& car) {
  Json list = Json::array();
  for (const CarPlace& place : car.places) {
    list.push_back(
        Json{{"place", place.name}, {"mass_kg", rounded(place.mass.value, 2)}, {"contents", place.contents}});
  }
  return list;
}

Json after_json(const CarLoad& car, const LoadAfterStop& after) {
  Json masses = Json::array();
  for (const MassChange& change : after.changes) {
    masses.push_back(Json{{"item", at(car.task.items, change.item).name}, {"mass_kg", rounded(change.mass.value, 2)}});
  }
  Json moves = Json::array();
  for (const LoadMove& move : after.repack.moves) {
    moves.push_back(Json{{"item", at(car.task.items, move.item).name},
                         {"from_mm", list_of(move.from.at)},
                         {"to_mm", list_of(move.to.at)},
                         {"size_mm", list_of(move.to.size)},
                         {"words", move.words}});
  }
  return Json{{"stop", after.stop},
              {"used_litres", rounded(after.used.value, 2)},
              {"masses", std::move(masses)},
              {"moves", std::move(moves)},
              {"why", after.repack.why},
              {"spaces", spaces(after.repack.task, after.repack.load)},
              {"steps", steps(after.repack.task, after.repack.load, after.steps, car.stops)},
              {"cautions", json_of_warnings(after.repack.load.cautions)}};
}

}  // namespace

Json load_json(const RidePlan& plan, const LoadAnswer& answer) {
  Json cars = Json::array();
  for (std::size_t c = 0; c < answer.load.cars.size(); ++c) {
    const CarLoad& car = answer.load.cars[c];
    Json json{{"car", car.name},
              {"payload_kg", rounded(car.payload.value, 1)},
              {"people", car.people},
              {"stops", car.stops},
              {"crates", crates(car)},
              {"beside_the_boot", places(car)},
              {"spaces", spaces(car.task, car.load)},
              {"proof", word(car.load.proof)},
              {"proof_words", car.load.proof_words},
              {"steps", steps(car.task, car.load, car.steps, car.stops)},
              {"cautions", json_of_warnings(car.warnings)},
              {"assumptions", car.assumptions}};
    if (c < answer.after.size() && answer.after[c]) json["after"] = after_json(car, *answer.after[c]);
    cars.push_back(std::move(json));
  }
  Json elsewhere = Json::array();
  for (const LoadedElsewhere& thing : answer.load.elsewhere) {
    Json json{{"item", thing.item},
              {"car", thing.from},
              {"where", word(thing.where)},
              {"pain", rounded(thing.pain, 2)},
              {"why", thing.why}};
    if (!thing.to.empty()) json["other_car"] = thing.to;
    elsewhere.push_back(std::move(json));
  }
  Warnings warnings = answer.load.warnings;
  warnings.insert(warnings.end(), answer.warnings.begin(), answer.warnings.end());
  return Json{{"format", "outbye load"},
              {"version", 1},
              {"ride", plan.ride.name},
              {"cars", std::move(cars)},
              {"elsewhere", std::move(elsewhere)},
              {"warnings", json_of_warnings(warnings)}};
}

}  // namespace outbye
