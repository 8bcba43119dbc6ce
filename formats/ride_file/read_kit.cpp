#include <cmath>
#include <string>

#include "core/base/text.h"
#include "core/kit/choose_kit.h"
#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/ride_file/kit_fields.h"

namespace outbye {
namespace {

// One of a few words, by the function that writes them; a wrong one is refused with all of them.
template <class T>
void word(JsonFields& in, std::string_view name, T& into, int count, std::string_view (*words)(T)) {
  std::string text;
  in.text(name, text);
  if (text.empty()) return;
  std::string known;
  for (int i = 0; i < count; ++i) {
    const auto value = static_cast<T>(i);
    if (same_name(words(value), text)) {
      into = value;
      return;
    }
    known += (i == 0 ? "\"" : i + 1 == count ? " or \"" : ", \"") + std::string(words(value)) + "\"";
  }
  in.report(name, "is '" + text + "', but must be " + known);
}

// What a cool box lets in: as known, or as measured with ice.
void read_leak(JsonFields& at, OwnContainer& container) {
  at.number("leak_w_per_k", {0.0, 10.0, true}, [&](double value) { container.leak_w_per_k = value; });
  const std::size_t before = at.problems().size();
  if (const Json* field = at.find("leak_test")) {
    JsonFields test(*field, at.file(), at.path_of("leak_test"), at.problems());
    IceMeltTest& read = container.leak_test.emplace();
    test.require("ice_kg", "how much ice went in");
    test.require("left_kg", "how much of it was left, drained");
    test.require("hours", "how long the box stayed shut");
    test.require("outside_c", "how warm it was around the box, on average");
    test.number("ice_kg", {0.0, 200.0, true}, [&](double value) { read.ice = {value}; });
    test.number("left_kg", {0.0, 200.0}, [&](double value) { read.left = {value}; });
    test.number("hours", {0.0, 240.0, true}, [&](double value) { read.time = Seconds{3600.0 * value}; });
    test.number("outside_c", {-40.0, 60.0}, [&](double value) { read.air = {value}; });
    test.finish();
    if (at.problems().size() != before) return;
    if (const auto good = check_leak_test(read); !good) return test.report(good.error().where, good.error().what);
    const double leak = leak_of(read);
    if (leak > 10.0) test.report("left_kg", "means a leak of " + fixed(leak, 1) + " W/K; even thin boxes leak 1.5");
  }
  if (container.kind != OwnContainer::Kind::cool_box && (container.leak_w_per_k || container.leak_test)) {
    at.report(container.leak_w_per_k ? "leak_w_per_k" : "leak_test",
              "is of a cool box; this is a " + std::string(container_kind_word(container.kind)));
  }
}

void read_containers(JsonFields& in, RideKit& kit) {
  in.items("containers", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    OwnContainer container;
    at.require("name", "what you call it");
    at.text("name", container.name);
    at.require("kind", "\"can\", \"bucket\", \"bottle\" or \"cool box\"");
    word(at, "kind", container.kind, 4, container_kind_word);
    at.require("litres", "what it holds");
    at.number("litres", {0.0, 1000.0, true}, [&](double value) { container.holds = {value}; });
    at.whole("count", 1, 100, [&](std::uint64_t n) { container.count = static_cast<std::uint32_t>(n); });
    at.flag("full", container.is_full);
    std::vector<Millimetres> sides;
    at.items("size_mm", [&](const Json& side, const std::string& where) {
      if (const auto read = at.number_of(side, where, {1.0, 10000.0})) {
        sides.push_back(static_cast<Millimetres>(std::lround(*read)));
      }
    });
    if (sides.size() == 3) {
      container.size = LoadSize{sides[0], sides[1], sides[2]};
    } else if (const Json* size = at.find("size_mm"); size != nullptr && size->is_array() && size->size() != 3) {
      at.report("size_mm", "must be three numbers: length, width and height in mm");
    }
    std::string car;
    at.text("car", car);
    if (!car.empty()) container.car = car;
    read_leak(at, container);
    at.finish();
    for (const auto& earlier : kit.containers) {
      if (same_name(earlier.name, container.name)) {
        at.report("name", "'" + container.name + "' is there twice; use \"count\" or give each its own name");
      }
    }
    kit.containers.push_back(std::move(container));
  });
}

void read_settings(JsonFields& in, KitSettings& settings) {
  const Json* field = in.find("settings");
  if (field == nullptr) return;
  JsonFields at(*field, in.file(), in.path_of("settings"), in.problems());
  each_kit_setting(settings, [&](const char* name, double& into, Range range) {
    at.number(name, range, [&](double value) { into = value; });
  });
  word(at, "soaked_feed", settings.soaked_feed, 4, soaked_feed_word);
  at.number("carbohydrate_g_per_h", {0.0, 150.0}, [&](double value) { settings.carbohydrate_g_per_h = value; });
  at.number("rider_fluid_litres_per_h", {0.0, 2.0}, [&](double value) { settings.rider_fluid_l_per_h = value; });
  at.flag("towing", settings.is_towing);
  at.number("fuel_reserve_km", {0.0, 1000.0}, [&](double km) { settings.fuel_reserve_range = kilometres(km); });
  at.number("idling_min_per_stop", {0.0, 240.0}, [&](double min) { settings.idling_per_stop = minutes(min); });
  at.flag("night_camp", settings.night_camp);
  at.finish();
  if (settings.crew_fluid_hot_l_per_h < settings.crew_fluid_l_per_h) {
    at.report("crew_fluid_hot_litres_per_h", "is below crew_fluid_litres_per_h; heat never asks for less: raise it");
  }
}

}  // namespace

void read_kit(JsonFields& in, Ride& ride) {
  const Json* field = in.find("kit");
  if (field == nullptr) return;
  RideKit& kit = ride.kit;
  JsonFields at(*field, in.file(), "kit", in.problems());
  read_containers(at, kit);
  at.items("own_items", [&](const Json& item, const std::string& path) {
    JsonFields fields(item, in.file(), path, in.problems());
    kit.own_items.push_back(read_kit_item(fields, KitMark::own));
  });
  at.texts("left_out", kit.left_out);
  at.texts("taken_anyway", kit.taken_anyway);
  at.texts("packed", kit.packed);
  read_settings(at, kit.settings);
  at.finish();
  if (!ride.kit_files.empty()) return;
  for (auto& unknown : unknown_kit_names(preset_kit(), kit)) {
    unknown.where = in.file() + ": " + unknown.where;
    in.problems().push_back(std::move(unknown));
  }
}

void read_likes(JsonFields& horse, RideHorse& into) {
  horse.items("likes", [&](const Json& item, const std::string& path) {
    JsonFields at(item, horse.file(), path, horse.problems());
    HorseLike like;
    at.require("drink", "\"nothing\", \"plain\", \"electrolyte\" or \"feed water\"");
    word(at, "drink", like.drink, 4, like_drink_word);
    at.whole("from_loop", 1, 100, [&](std::uint64_t n) { like.from_loop = static_cast<std::uint32_t>(n); });
    at.whole("to_loop", 1, 100, [&](std::uint64_t n) { like.to_loop = static_cast<std::uint32_t>(n); });
    at.number("litres", {0.0, 60.0}, [&](double value) { like.litres = Litres{value}; });
    at.number("electrolyte_g", {0.0, 500.0}, [&](double value) { like.electrolyte = Grams{value}; });
    at.text("product", like.product, true);
    at.text("note", like.note, true);
    at.finish();
    if (like.to_loop && *like.to_loop < like.from_loop) {
      at.report("to_loop", "is before from_loop; put the later loop here");
    }
    if (like.electrolyte && like.drink == HorseLike::Drink::nothing) {
      at.report("electrolyte_g", "never goes to a horse that does not drink; take it away here");
    }
    into.likes.push_back(std::move(like));
  });
  if (horse.find("feet") != nullptr) {
    Feet feet{};
    const std::size_t before = horse.problems().size();
    word(horse, "feet", feet, 3, feet_word);
    if (horse.problems().size() == before) into.feet = feet;
  }
}

}  // namespace outbye
