#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/ride_file/kit_fields.h"

namespace outbye {
namespace {

Json write_containers(const std::vector<OwnContainer>& containers) {
  Json list = Json::array();
  for (const auto& container : containers) {
    Json item{{"name", container.name},
              {"kind", container_kind_word(container.kind)},
              {"litres", plain_number(container.holds.value)},
              {"count", container.count}};
    if (!container.is_full) item["full"] = false;
    if (container.size) {
      item["size_mm"] = Json::array({container.size->length, container.size->width, container.size->height});
    }
    if (container.car) item["car"] = *container.car;
    if (container.leak_w_per_k) item["leak_w_per_k"] = plain_number(*container.leak_w_per_k);
    if (const auto& test = container.leak_test) {
      item["leak_test"] = {{"ice_kg", plain_number(test->ice.value)},
                           {"left_kg", plain_number(test->left.value)},
                           {"hours", plain_number(test->time.count() / 3600.0)},
                           {"outside_c", plain_number(test->air.value)}};
    }
    list.push_back(std::move(item));
  }
  return list;
}

Json write_settings(const KitSettings& settings) {
  Json json = Json::object();
  each_kit_setting(settings, [&](const char* name, double value, Range) { json[name] = plain_number(value); });
  json["soaked_feed"] = soaked_feed_word(settings.soaked_feed);
  if (settings.carbohydrate_g_per_h) json["carbohydrate_g_per_h"] = plain_number(*settings.carbohydrate_g_per_h);
  if (settings.rider_fluid_l_per_h) json["rider_fluid_litres_per_h"] = plain_number(*settings.rider_fluid_l_per_h);
  json["towing"] = settings.is_towing;
  json["fuel_reserve_km"] = plain_number(in_kilometres(settings.fuel_reserve_range));
  json["idling_min_per_stop"] = plain_number(in_minutes(settings.idling_per_stop));
  json["night_camp"] = settings.night_camp;
  return json;
}

}  // namespace

std::optional<Json> write_kit(const RideKit& kit) {
  Json json = Json::object();
  if (!kit.containers.empty()) json["containers"] = write_containers(kit.containers);
  if (!kit.own_items.empty()) json["own_items"] = Json::array();
  for (const auto& item : kit.own_items) json["own_items"].push_back(write_kit_item(item));
  if (!kit.left_out.empty()) json["left_out"] = kit.left_out;
  if (!kit.taken_anyway.empty()) json["taken_anyway"] = kit.taken_anyway;
  if (!kit.packed.empty()) json["packed"] = kit.packed;
  if (kit.settings != KitSettings{}) json["settings"] = write_settings(kit.settings);
  if (json.empty()) return std::nullopt;
  return json;
}

void write_likes(Json& horse, const RideHorse& from) {
  if (from.feet) horse["feet"] = feet_word(*from.feet);
  if (from.likes.empty()) return;
  Json list = Json::array();
  for (const auto& like : from.likes) {
    Json item{{"drink", like_drink_word(like.drink)}, {"from_loop", like.from_loop}};
    if (like.to_loop) item["to_loop"] = *like.to_loop;
    if (like.litres) item["litres"] = plain_number(like.litres->value);
    if (like.electrolyte) item["electrolyte_g"] = plain_number(like.electrolyte->value);
    if (!like.product.empty()) item["product"] = like.product;
    if (!like.note.empty()) item["note"] = like.note;
    list.push_back(std::move(item));
  }
  horse["likes"] = std::move(list);
}

}  // namespace outbye
