#include <functional>
#include <utility>

#include "core/base/text.h"
#include "formats/kit_catalogue/kit_catalogue.h"

namespace outbye {
namespace {

constexpr Range kilograms{0.0, 500.0};

// A word of a list; a wrong one is refused with the nearest.
template <class T>
std::optional<T> word_among(JsonFields& at, std::string_view field, const std::string& path_end, std::string_view text,
                            const std::vector<std::pair<std::string_view, T>>& words) {
  std::vector<std::string_view> names;
  for (const auto& [name, value] : words) {
    if (same_name(name, text)) return value;
    names.push_back(name);
  }
  std::string what = path_end + "'" + std::string(text) + "' is none of these words:";
  for (const auto& name : names) what += " \"" + std::string(name) + "\"";
  if (const auto nearest = nearest_name(text, names)) what += "; did you mean '" + std::string(*nearest) + "'?";
  at.report(field, what);
  return std::nullopt;
}

template <class T>
std::vector<std::pair<std::string_view, T>> words_of(std::size_t count, std::string_view (*word)(T)) {
  std::vector<std::pair<std::string_view, T>> words;
  for (std::size_t i = 0; i < count; ++i) words.emplace_back(word(static_cast<T>(i)), static_cast<T>(i));
  return words;
}
const std::vector<std::pair<std::string_view, LiftedBy>> lift_words{
    {"anyone", LiftedBy::anyone}, {"men", LiftedBy::men}, {"two people", LiftedBy::two_people}};
const std::vector<std::pair<std::string_view, std::size_t>> side_words{{"length", 0}, {"width", 1}, {"height", 2}};

void read_size(JsonFields& at, LoadSize& size) {
  if (at.find("size_mm") == nullptr) return;
  std::vector<Millimetres> sides;
  const std::size_t before = at.problems().size();
  at.items("size_mm", [&](const Json& item, const std::string& path) {
    if (const auto side = at.number_of(item, path, {1.0, 10000.0})) {
      sides.push_back(static_cast<Millimetres>(std::lround(*side)));
    }
  });
  if (at.problems().size() != before) return;
  if (sides.size() != 3) return at.report("size_mm", "must be three numbers: length, width and height in mm");
  size = {sides[0], sides[1], sides[2]};
}

void number(JsonFields& at, std::string_view name, Range range, double& into) {
  at.number(name, range, [&](double value) { into = value; });
}

void read_count(JsonFields& in, KitCount& count) {
  const Json* field = in.find("count");
  if (field == nullptr) return;
  JsonFields at(*field, in.file(), in.path_of("count"), in.problems());
  const Range few{0.0, 100.0};
  number(at, "each", few, count.fixed);
  number(at, "per_horse", few, count.per_horse);
  number(at, "per_rider", few, count.per_rider);
  number(at, "per_crew", few, count.per_crew);
  number(at, "per_person", few, count.per_person);
  number(at, "per_car", few, count.per_car);
  number(at, "per_loop", few, count.per_loop);
  at.text("amount", count.amount);
  number(at, "in_each", {0.0, 10000.0, true}, count.amount_per_item);
  at.finish();
  if (!count.amount.empty() && count.amount_per_item <= 0.0) {
    at.report("in_each", "is missing: how much of " + count.amount + " goes into each");
  }
}

void read_hold(JsonFields& in, KitItem& item) {
  const Json* field = in.find("takes");
  if (field == nullptr) return;
  JsonFields at(*field, in.file(), in.path_of("takes"), in.problems());
  KitHold& hold = item.hold.emplace();
  at.require("litres", "room for the boxes of what goes in");
  number(at, "litres", {0.0, 1000.0, true}, hold.room.value);
  number(at, "most_kg", {0.0, 500.0, true}, hold.most.value);
  at.whole("at_most", 1, 100, [&](std::uint64_t n) { hold.at_most = static_cast<std::size_t>(n); });
  at.flag("place_in_car", hold.is_place);
  at.finish();
}

Json write_hold(const KitHold& hold) {
  const KitHold usual;
  Json json{{"litres", plain_number(hold.room.value)}};
  if (hold.most != usual.most) json["most_kg"] = plain_number(hold.most.value);
  if (hold.at_most != usual.at_most) json["at_most"] = hold.at_most;
  if (hold.is_place) json["place_in_car"] = true;
  return json;
}

KitCondition read_condition(JsonFields& at) {
  KitCondition when;
  at.number("distance_km_from", {0.0, 1000.0}, [&](double value) { when.distance_km_from = value; });
  at.whole("loops_from", 1, 100, [&](std::uint64_t n) { when.loops_from = static_cast<std::uint32_t>(n); });
  at.number("hours_from", {0.0, 100.0}, [&](double value) { when.hours_from = value; });
  at.whole("crew_from", 1, 50, [&](std::uint64_t n) { when.crew_from = static_cast<std::uint32_t>(n); });
  at.whole("horses_from", 1, 50, [&](std::uint64_t n) { when.horses_from = static_cast<std::uint32_t>(n); });
  at.flag("dark", when.dark);
  at.flag("cold", when.cold);
  at.flag("hot", when.hot);
  at.flag("novice", when.novice);
  at.flag("night_camp", when.night_camp);
  at.flag("electrolyte", when.electrolyte);
  at.flag("soaked_feed", when.soaked_feed);
  at.flag("ice", when.ice);
  std::string feet;
  at.text("feet", feet);
  if (!feet.empty()) when.feet = word_among(at, "feet", "", feet, words_of<Feet>(3, feet_word));
  at.finish();
  return when;
}

Json write_count(const KitCount& count) {
  Json json = Json::object();
  const KitCount usual;
  const auto add = [&](const char* name, double value, double by_default) {
    if (value != by_default) json[name] = plain_number(value);
  };
  add("each", count.fixed, usual.fixed);
  add("per_horse", count.per_horse, 0.0);
  add("per_rider", count.per_rider, 0.0);
  add("per_crew", count.per_crew, 0.0);
  add("per_person", count.per_person, 0.0);
  add("per_car", count.per_car, 0.0);
  add("per_loop", count.per_loop, 0.0);
  if (!count.amount.empty()) json["amount"] = count.amount;
  add("in_each", count.amount_per_item, 0.0);
  return json;
}

Json write_condition(const KitCondition& when) {
  Json json = Json::object();
  if (when.distance_km_from) json["distance_km_from"] = plain_number(*when.distance_km_from);
  if (when.loops_from) json["loops_from"] = *when.loops_from;
  if (when.hours_from) json["hours_from"] = plain_number(*when.hours_from);
  if (when.crew_from) json["crew_from"] = *when.crew_from;
  if (when.horses_from) json["horses_from"] = *when.horses_from;
  const auto flag = [&](const char* name, bool is_set) {
    if (is_set) json[name] = true;
  };
  flag("dark", when.dark);
  flag("cold", when.cold);
  flag("hot", when.hot);
  flag("novice", when.novice);
  flag("night_camp", when.night_camp);
  flag("electrolyte", when.electrolyte);
  flag("soaked_feed", when.soaked_feed);
  flag("ice", when.ice);
  if (when.feet) json["feet"] = feet_word(*when.feet);
  return json;
}

}  // namespace

KitItem read_kit_item(JsonFields& at, KitMark mark) {
  KitItem item;
  item.mark = mark;
  at.require("id", "a short name without spaces, like \"hoof-boot\"");
  at.identifier("id", item.id);
  at.require("name", "as people call it");
  at.text("name", item.name);
  at.require("group", "the heading it is listed under");
  std::string group;
  at.text("group", group);
  if (!group.empty()) {
    if (const auto read = word_among(at, "group", "", group, words_of<KitGroup>(kit_group_count, kit_group_id))) {
      item.group = *read;
    }
  }
  at.require("why", "why it comes along, in a sentence");
  at.text("why", item.why);
  at.require("size_mm", "length, width and height: [230, 190, 310]");
  read_size(at, item.size);
  at.require("empty_kg", "its mass when empty");
  number(at, "empty_kg", kilograms, item.empty.value);
  item.full = item.empty;
  number(at, "full_kg", kilograms, item.full.value);
  if (item.full < item.empty) at.report("full_kg", "is less than empty_kg; put the greater mass here");
  at.number("holds_litres", {0.0, 1000.0, true}, [&](double value) { item.holds = Litres{value}; });
  at.number("nests_mm", {1.0, 10000.0},
            [&](double value) { item.nests = static_cast<Millimetres>(std::lround(value)); });
  read_hold(at, item);
  at.texts("goes_into", item.goes_into);
  if (item.hold && !item.goes_into.empty()) {
    at.report("goes_into", "is of a crate (\"takes\"), and a crate does not travel in another");
  }
  at.flag("liquid", item.is_liquid);
  std::vector<std::string> sides;
  at.texts("orientations", sides);
  if (!sides.empty()) item.vertical = {false, false, false};
  if (item.is_liquid) item.vertical = {false, false, true};
  for (const auto& side : sides) {
    if (const auto read = word_among(at, "orientations", "", side, side_words)) item.vertical[*read] = true;
  }
  if (item.is_liquid && (item.vertical[0] || item.vertical[1])) {
    at.report("orientations", "must be [\"height\"] alone: it holds liquid");
  }
  number(at, "bears_kg", {0.0, 10000.0}, item.bears.value);
  at.flag("fragile", item.is_fragile);
  at.flag("soft", item.is_soft);
  std::string lift;
  at.text("lift", lift);
  if (!lift.empty()) item.lifted_by = word_among(at, "lift", "", lift, lift_words).value_or(item.lifted_by);
  at.require("needed", "when it is used: [\"pass\", \"gate\", \"finish\", \"emergency\", \"not on the road\"]");
  std::vector<std::string> needs;
  at.texts("needed", needs);
  for (const auto& need : needs) {
    if (const auto read = word_among(at, "needed", "", need, words_of<KitNeed>(5, kit_need_word))) {
      item.needed.push_back(*read);
    }
  }
  number(at, "pain", {0.0, 1000.0}, item.pain);
  at.flag("must_come", item.must_come);
  std::string marked;
  at.text("mark", marked);
  if (!marked.empty()) {
    item.mark = word_among(at, "mark", "", marked, words_of<KitMark>(4, kit_mark_word)).value_or(mark);
  }
  at.text("source", item.source, true);
  read_count(at, item.count);
  at.items("when", [&](const Json& value, const std::string& path) {
    JsonFields condition(value, at.file(), path, at.problems());
    item.when.push_back(read_condition(condition));
  });
  at.texts("contents", item.contents);
  at.text("contents_note", item.contents_note, true);
  at.finish();
  return item;
}

Json write_kit_item(const KitItem& item) {
  Json json{{"id", item.id}, {"name", item.name}, {"group", kit_group_id(item.group)}, {"why", item.why}};
  json["size_mm"] = Json::array({item.size.length, item.size.width, item.size.height});
  json["empty_kg"] = plain_number(item.empty.value);
  if (item.full != item.empty) json["full_kg"] = plain_number(item.full.value);
  if (item.holds) json["holds_litres"] = plain_number(item.holds->value);
  if (item.nests) json["nests_mm"] = *item.nests;
  if (item.hold) json["takes"] = write_hold(*item.hold);
  if (!item.goes_into.empty()) json["goes_into"] = item.goes_into;
  if (item.is_liquid) json["liquid"] = true;
  if (!item.is_liquid && item.vertical != std::array<bool, 3>{true, true, true}) {
    json["orientations"] = Json::array();
    for (const auto& [word, side] : side_words) {
      if (item.vertical[side]) json["orientations"].push_back(word);
    }
  }
  if (item.bears != Kilograms{}) json["bears_kg"] = plain_number(item.bears.value);
  if (item.is_fragile) json["fragile"] = true;
  if (item.is_soft) json["soft"] = true;
  for (const auto& [word, lift] : lift_words) {
    if (lift == item.lifted_by && lift != LiftedBy::anyone) json["lift"] = word;
  }
  json["needed"] = Json::array();
  for (const auto need : item.needed) json["needed"].push_back(kit_need_word(need));
  json["pain"] = plain_number(item.pain);
  if (item.must_come) json["must_come"] = true;
  json["mark"] = kit_mark_word(item.mark);
  if (!item.source.empty()) json["source"] = item.source;
  if (Json count = write_count(item.count); !count.empty()) json["count"] = std::move(count);
  if (!item.when.empty()) json["when"] = Json::array();
  for (const auto& when : item.when) json["when"].push_back(write_condition(when));
  if (!item.contents.empty()) json["contents"] = item.contents;
  if (!item.contents_note.empty()) json["contents_note"] = item.contents_note;
  return json;
}

}  // namespace outbye
