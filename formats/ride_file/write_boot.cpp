#include "formats/ride_file/boot_fields.h"

namespace outbye {
namespace {

Json size(const LoadSize& size) {
  return Json{{"length_mm", size.length}, {"width_mm", size.width}, {"height_mm", size.height}};
}

}  // namespace

Json write_boot(const RideBoot& boot) {
  Json json = Json::object();
  const auto add = [&json](const char* name, const auto& value) {
    if (value) json[name] = *value;
  };
  const auto add_mass = [](Json& into, const char* name, const std::optional<Kilograms>& mass) {
    if (mass) into[name] = plain_number(mass->value);
  };
  add("shape", boot.shape);
  add("floor_length_mm", boot.floor_length);
  add("floor_width_mm", boot.floor_width);
  add("height_mm", boot.height);
  add("cover_height_mm", boot.cover_height);
  add("lip_above_ground_mm", boot.lip_above_ground);
  add("floor_above_ground_mm", boot.floor_above_ground);
  add("seats_folded", boot.seats_folded);
  json["guard"] = boot.has_guard;
  add_mass(json, "payload_kg", boot.payload);
  json["people"] = boot.people;
  if (boot.arches) {
    json["arches"] = size({boot.arches->length, boot.arches->width, boot.arches->height});
    json["arches"]["from_seat_back_mm"] = boot.arches->from_seat_back;
  }
  if (boot.lip) json["lip"] = Json{{"length_mm", boot.lip->length}, {"height_mm", boot.lip->height}};
  for (const LoadBox& box : boot.blocked) {
    Json item{{"x_mm", box.at.x}, {"y_mm", box.at.y}, {"z_mm", box.at.z}};
    item.update(size(box.size));
    json["blocked"].push_back(std::move(item));
  }
  if (boot.axles) {
    Json axles{{"wheelbase_mm", boot.axles->wheelbase}, {"seat_back_mm", boot.axles->seat_back}};
    add_mass(axles, "front_left_over_kg", boot.axles->front_left_over);
    add_mass(axles, "rear_left_over_kg", boot.axles->rear_left_over);
    json["axles"] = std::move(axles);
  }
  if (boot.roof_box) {
    json["roof_box"] = size(boot.roof_box->size);
    json["roof_box"]["payload_kg"] = plain_number(boot.roof_box->payload.value);
  }
  return json;
}

}  // namespace outbye
