#include "core/kit/kit_item.h"

#include <utility>

#include "core/base/text.h"

namespace outbye {
namespace {

struct GroupWords {
  std::string_view id;
  std::string_view name;
};
constexpr std::array<GroupWords, kit_group_count> group_words{{
    {"breakdown", "Breakdown and fuel"},
    {"water-containers", "Water containers"},
    {"buckets", "Buckets"},
    {"slosh-bottles", "Slosh bottles"},
    {"ice", "Ice and cool box"},
    {"horse", "Rugs, feed and shoes"},
    {"spare-tack", "Spare tack and repair"},
    {"horse-first-aid", "Horse first aid"},
    {"human-first-aid", "Human first aid"},
    {"rider-food", "Rider: food and drink"},
    {"crew-food", "Crew: food and drink"},
    {"papers", "Papers"},
    {"lights", "Lights"},
    {"hi-vis", "Hi-vis"},
    {"comfort", "Rest and shelter"},
}};

}  // namespace

std::string_view kit_group_id(KitGroup group) { return group_words[static_cast<std::size_t>(group)].id; }
std::string_view kit_group_name(KitGroup group) { return group_words[static_cast<std::size_t>(group)].name; }

std::string_view kit_need_word(KitNeed need) {
  switch (need) {
    case KitNeed::pass:
      return "pass";
    case KitNeed::gate:
      return "gate";
    case KitNeed::finish:
      return "finish";
    case KitNeed::emergency:
      return "emergency";
    case KitNeed::not_on_the_road:
      break;
  }
  return "not on the road";
}

std::string_view kit_mark_word(KitMark mark) {
  switch (mark) {
    case KitMark::published:
      return "published";
    case KitMark::from_memory:
      return "from memory";
    case KitMark::common_practice:
      return "common practice";
    case KitMark::own:
      break;
  }
  return "own";
}

std::string_view feet_word(Feet feet) {
  switch (feet) {
    case Feet::shod:
      return "shod";
    case Feet::booted:
      return "booted";
    case Feet::barefoot:
      break;
  }
  return "barefoot";
}

const KitItem* find_kit_item(const KitCatalogue& catalogue, std::string_view name) {
  for (const auto& item : catalogue.items) {
    if (same_name(item.id, name)) return &item;
  }
  for (const auto& item : catalogue.items) {
    if (same_name(item.name, name)) return &item;
  }
  return nullptr;
}

KitCatalogue with_own_items(KitCatalogue catalogue, const std::vector<KitItem>& own) {
  for (const auto& item : own) {
    bool is_there = false;
    for (auto& known : catalogue.items) {
      if (!same_name(known.id, item.id)) continue;
      known = item;
      is_there = true;
    }
    if (!is_there) catalogue.items.push_back(item);
  }
  return catalogue;
}

}  // namespace outbye
