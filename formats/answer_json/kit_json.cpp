#include <algorithm>

#include "formats/answer_json/answer_json.h"
#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

Json json_of(const Amount& amount) {
  Json inputs = Json::array();
  for (const auto& input : amount.inputs) {
    inputs.push_back(
        Json{{"name", input.name}, {"value", rounded(input.value, 3)}, {"unit", input.unit}, {"source", input.source}});
  }
  return Json{{"id", amount.id},
              {"name", amount.name},
              {"value", rounded(amount.value, 3)},
              {"unit", amount.unit},
              {"low", rounded(amount.range.from, 3)},
              {"high", rounded(amount.range.to, 3)},
              {"formula", amount.formula},
              {"inputs", std::move(inputs)},
              {"source", amount.source},
              {"cautions", amount.cautions},
              {"steps", amount.steps}};
}

Json json_of(const KitEntry& entry, const KitFacts& facts) {
  const KitItem& item = entry.item;
  Json json{{"id", item.id},
            {"name", item.name},
            {"group", kit_group_id(item.group)},
            {"count", entry.count},
            {"why_so_many", entry.why_so_many},
            {"reason", entry.reason},
            {"why", item.why},
            {"packed", entry.is_packed},
            {"own", entry.is_own},
            {"mass_kg", rounded(entry.mass.value, 3)},
            {"each_kg", rounded(item.full.value, 3)}};
  json["size_mm"] = Json::array({item.size.length, item.size.width, item.size.height});
  json["needed"] = Json::array();
  for (const auto need : item.needed) json["needed"].push_back(kit_need_word(need));
  if (entry.first_stop) json["first_needed"] = stop_words(facts.stops[*entry.first_stop], facts);
  json["lift"] = item.lifted_by == LiftedBy::anyone ? "anyone" : item.lifted_by == LiftedBy::men ? "men" : "two people";
  json["pain"] = rounded(item.pain, 1);
  json["must_come"] = item.must_come;
  json["mark"] = kit_mark_word(item.mark);
  json["source"] = item.source;
  if (!item.contents.empty()) json["contents"] = item.contents;
  if (!item.contents_note.empty()) json["contents_note"] = item.contents_note;
  return json;
}

Json json_of(const KitCrate& crate, const KitFacts& facts) {
  Json json{{"crate", crate.item.id},
            {"name", crate.item.name},
            {"number", crate.number},
            {"place_in_car", crate.item.hold && crate.item.hold->is_place},
            {"mass_kg", rounded(crate.mass.value, 3)}};
  if (crate.car < facts.cars.size()) json["car"] = facts.cars[crate.car].name;
  json["contents"] = Json::array();
  for (const auto& part : crate.contents) json["contents"].push_back(Json{{"id", part.item}, {"count", part.count}});
  return json;
}

}  // namespace

Json kit_json(const std::string& ride, const KitPlan& kit, const Json& stock) {
  Json json{{"format", "outbye kit"}, {"version", 1}};
  if (!ride.empty()) json["ride"] = ride;
  json["amounts"] = Json::array();
  for (const auto& amount : kit.amounts) json["amounts"].push_back(json_of(amount));
  for (const bool taken : {true, false}) {
    Json list = Json::array();
    for (const auto& entry : taken ? kit.list.taken : kit.list.at_home) list.push_back(json_of(entry, kit.facts));
    json[taken ? "taken" : "at_home"] = std::move(list);
  }
  json["crates"] = Json::array();
  for (const auto& crate : kit.list.crates) json["crates"].push_back(json_of(crate, kit.facts));
  json["mass_kg"] = rounded(kit.list.mass.value, 3);
  json["packed"] = std::count_if(kit.list.taken.begin(), kit.list.taken.end(),
                                 [](const KitEntry& entry) { return entry.is_packed; });
  json["stock"] = stock;
  json["notes"] = kit.list.notes;
  json["assumptions"] = kit.assumptions;
  return json;
}

}  // namespace outbye
