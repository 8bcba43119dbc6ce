#include "formats/load_items/load_items.h"

#include <array>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "formats/json_text/json_fields.h"

namespace outbye {
namespace {

constexpr std::size_t most_pieces = 200;

std::string one_of(const std::string& word, const std::vector<std::string_view>& words) {
  std::string all;
  for (const auto known : words) all += (all.empty() ? "\"" : ", \"") + std::string(known) + "\"";
  const auto nearest = nearest_name(word, words);
  return "is '" + word + "', but must be one of " + all +
         (nearest ? "; did you mean \"" + std::string(*nearest) + "\"?" : "");
}

void read_size(JsonFields& in, LoadSize& size) {
  in.require("size_mm", "[length, width, height] in millimetres, as it stands upright");
  std::vector<double> sides;
  const std::size_t before = in.problems().size();
  in.items("size_mm", [&](const Json& value, const std::string& path) {
    const auto side = in.number_of(value, path, {1.0, 10'000.0});
    if (side) sides.push_back(*side);
  });
  if (in.problems().size() != before || in.find("size_mm") == nullptr) return;
  if (sides.size() != 3) {
    return in.report("size_mm", "has " + std::to_string(sides.size()) + " numbers, but must have three: [length, " +
                                    "width, height] in millimetres");
  }
  const auto whole = [](double side) { return static_cast<Millimetres>(std::ceil(side)); };
  size = {whole(sides[0]), whole(sides[1]), whole(sides[2])};
}

void read_turning(JsonFields& in, LoadItem& item) {
  const std::vector<std::string_view> words{"length", "width", "height"};
  if (in.find("may_point_up") == nullptr) {
    // Without liquid a box may stand on any side; a liquid stays upright.
    if (!item.is_liquid) item.vertical = {true, true, true};
    return;
  }
  item.vertical = {false, false, false};
  in.items("may_point_up", [&](const Json& value, const std::string&) {
    const std::string word = value.is_string() ? value.get<std::string>() : value.dump();
    for (std::size_t w = 0; w < words.size(); ++w) {
      if (word == words[w]) {
        item.vertical[w] = true;
        return;
      }
    }
    in.report("may_point_up", one_of(word, words));
  });
}

void read_lifter(JsonFields& in, LoadItem& item) {
  std::string word;
  in.text("lifted_by", word);
  if (word == "men") {
    item.lifted_by = LiftedBy::men;
  } else if (word == "two people") {
    item.lifted_by = LiftedBy::two_people;
  } else if (!word.empty() && word != "anyone") {
    in.report("lifted_by", one_of(word, {"anyone", "men", "two people"}));
  }
}

void read_item(JsonFields& in, std::vector<BootItem>& items, std::size_t& pieces) {
  BootItem thing;
  LoadItem& item = thing.item;
  in.require("name", "every thing has a name");
  in.text("name", item.name);
  read_size(in, item.size);
  in.require("mass_kg", "as loaded");
  in.number("mass_kg", {0.0, 500.0}, [&](double kg) { item.mass = {kg}; });
  in.flag("liquid", item.is_liquid);
  in.number("water_litres", {0.0, 500.0}, [&](double litres) { thing.water = {litres}; });
  if (thing.water > Litres{0}) item.is_liquid = true;
  read_turning(in, item);
  in.number("bears_kg", {0.0, 1000.0}, [&](double kg) { item.bears = {kg}; });
  in.flag("fragile", item.is_fragile);
  in.flag("soft", item.is_soft);
  read_lifter(in, item);
  std::vector<std::string> needed;
  in.texts("needed", needed);
  for (const std::string& word : needed) {
    if (same_name(word, "pass")) {
      thing.at_passes = true;
    } else if (same_name(word, "gate")) {
      thing.at_gates = true;
    } else if (same_name(word, "finish")) {
      thing.at_finish = true;
    } else {
      thing.needed_at.push_back(word);
    }
  }
  in.whole("max_moves", 0, 100, [&](std::uint64_t n) { item.max_moves = static_cast<int>(n); });
  in.flag("emergency", item.is_emergency);
  in.number("pain_if_left", {0.0, 1000.0}, [&](double pain) { item.pain_if_left = pain; });
  in.text("car", thing.car);
  std::uint64_t count = 1;
  in.whole("count", 1, most_pieces, [&](std::uint64_t n) { count = n; });
  in.finish();
  if (thing.water.value > item.mass.value) {
    in.report("water_litres", "weigh more than mass_kg (1 kg a litre); give the mass as loaded, with the water");
  }
  if (item.is_liquid && (item.vertical[0] || item.vertical[1])) {
    in.report("may_point_up", "must be [\"height\"] alone: it holds liquid");
  }
  if (in.find("may_point_up") != nullptr && item.vertical == std::array<bool, 3>{}) {
    in.report("may_point_up", "allows no side; name \"length\", \"width\" or \"height\"");
  }
  pieces += static_cast<std::size_t>(count);
  if (pieces > most_pieces) return;  // reported once, at the end
  const std::string name = item.name;
  for (std::uint64_t n = 1; n <= count; ++n) {
    if (count > 1) item.name = name + " " + std::to_string(n);
    items.push_back(thing);
  }
}

}  // namespace

LoadItemsReading read_load_items(std::string_view text, const std::string& file) {
  LoadItemsReading reading;
  const auto json = parse_json(text, file);
  if (!json) return {{}, {json.error()}};
  if (!json->is_object()) {
    return {{},
            {{Problem::Kind::bad_input, file, "is not a list of things; write {\"version\": 1, \"items\": [...]}"}}};
  }
  JsonFields in(*json, file, "", reading.problems);
  in.find("$schema");
  in.require("version", "write \"version\": 1");
  in.whole("version", load_items_version, load_items_version, [](std::uint64_t) {});
  in.require("items", "the things to load");
  std::size_t pieces = 0;
  in.items("items", [&](const Json& value, const std::string& path) {
    JsonFields at(value, file, path, reading.problems);
    read_item(at, reading.items, pieces);
  });
  in.finish();
  if (pieces > most_pieces) {
    in.report("items", "are " + std::to_string(pieces) + " pieces; at most " + std::to_string(most_pieces) +
                           ": put small things into boxes and bags");
  }
  if (!reading.problems.empty()) reading.items.clear();
  return reading;
}

}  // namespace outbye
