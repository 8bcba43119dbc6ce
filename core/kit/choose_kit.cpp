#include "core/kit/choose_kit.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "core/base/text.h"
#include "core/kit/kit_conditions.h"
#include "core/kit/kit_counts.h"
#include "core/kit/kit_crates.h"

namespace outbye {
namespace {

bool names(const std::vector<std::string>& list, const KitItem& item) {
  return std::any_of(list.begin(), list.end(),
                     [&](const std::string& name) { return same_name(name, item.id) || same_name(name, item.name); });
}

bool is_needed_at(const KitItem& item, const KitStop& stop) {
  const KitNeed wanted = stop.kind == KitStop::Kind::pass   ? KitNeed::pass
                         : stop.kind == KitStop::Kind::gate ? KitNeed::gate
                                                            : KitNeed::finish;
  return std::find(item.needed.begin(), item.needed.end(), wanted) != item.needed.end();
}

void add_stops(KitEntry& entry, const KitFacts& facts) {
  for (std::size_t s = 0; s < facts.stops.size(); ++s) {
    if (!is_needed_at(entry.item, facts.stops[s])) continue;
    if (!entry.first_stop) entry.first_stop = s;
    ++entry.times_needed;
  }
}

std::optional<OwnContainer::Kind> stands_for(const KitItem& item) {
  if (!item.holds) return std::nullopt;
  switch (item.group) {
    case KitGroup::water_containers:
      return OwnContainer::Kind::can;
    case KitGroup::buckets:
      return OwnContainer::Kind::bucket;
    case KitGroup::slosh_bottles:
      return OwnContainer::Kind::bottle;
    case KitGroup::ice:
      return OwnContainer::Kind::cool_box;
    default:
      return std::nullopt;
  }
}

KitGroup group_of(OwnContainer::Kind kind) {
  switch (kind) {
    case OwnContainer::Kind::can:
      return KitGroup::water_containers;
    case OwnContainer::Kind::bucket:
      return KitGroup::buckets;
    case OwnContainer::Kind::bottle:
      return KitGroup::slosh_bottles;
    case OwnContainer::Kind::cool_box:
      break;
  }
  return KitGroup::ice;
}

// A cube that holds it with a seventh to spare for walls and handles, when nobody measured it.
LoadSize size_of(const OwnContainer& container) {
  if (container.size) return *container.size;
  const auto side = static_cast<Millimetres>(std::lround(std::cbrt(1.15e6 * container.holds.value)));
  return {side, side, side};
}

KitItem item_of(const OwnContainer& container, const std::vector<KitItem>& catalogue) {
  KitItem item;
  item.id = in_lower_case(container.name);
  item.name = container.name;
  item.group = group_of(container.kind);
  item.why = "Your own " + std::string(container_kind_word(container.kind)) + ".";
  item.size = size_of(container);
  // Cans 0.05 kg a litre, rigid cool boxes three times that (from memory); a box is full of ice and air, not of water.
  const bool is_box = container.kind == OwnContainer::Kind::cool_box;
  item.empty = {is_box ? 0.12 * container.holds.value + 0.5 : 0.05 * container.holds.value + 0.05};
  const bool is_carried_full = container.kind != OwnContainer::Kind::bucket && container.is_full;
  const double kg_per_litre = is_box ? ice_kg_per_litre : 1.0;
  item.full = is_carried_full ? Kilograms{item.empty.value + kg_per_litre * container.holds.value} : item.empty;
  item.holds = container.holds;
  item.is_liquid = is_carried_full;
  if (item.is_liquid) item.vertical = {false, false, true};
  item.bears = {container.kind == OwnContainer::Kind::can ? 30.0 : is_box ? 20.0 : 0.0};
  if (item.full.value > 25.0) item.lifted_by = LiftedBy::two_people;
  item.needed = {KitNeed::pass, KitNeed::gate, KitNeed::finish};
  item.pain = 50.0;
  item.mark = KitMark::own;
  item.source = container.size ? "your own measures; mass derived" : "derived from the litres: give \"size_mm\"";
  // What it stands in for says which crate it travels in.
  for (const KitItem& other : catalogue) {
    if (stands_for(other) == container.kind && item.goes_into.empty()) item.goes_into = other.goes_into;
  }
  return item;
}

class Choice {
 public:
  Choice(const KitFacts& facts, const RideKit& choices, const std::vector<Amount>& amounts)
      : facts_(facts), choices_(choices), amounts_(amounts) {}

  void consider(const KitItem& item, bool is_own) {
    if (item.hold) return consider_crate(item, is_own);
    KitEntry entry;
    entry.item = item;
    entry.is_own = is_own;
    entry.is_packed = names(choices_.packed, item);
    const auto kind = stands_for(item);
    const bool has_own_kind = kind && std::any_of(choices_.containers.begin(), choices_.containers.end(),
                                                  [&](const OwnContainer& own) { return own.kind == *kind; });
    const Holds holds = any_holds(item.when, facts_);
    const KitNumber count = number_of(item, facts_, amounts_, in_cans_);
    entry.why_so_many = count.words;
    if (names(choices_.left_out, item)) {
      entry.reason = "out: you left it out";
    } else if (has_own_kind && !is_own) {
      entry.reason = "out: your own " + std::string(container_kind_word(*kind)) + " stands in for it";
      wanted_[static_cast<std::size_t>(*kind)] += count.number;
    } else if (!holds.yes && !names(choices_.taken_anyway, item)) {
      entry.reason = "out: " + holds.why;
    } else if (count.number == 0) {
      entry.reason = "out: none is needed, " + count.words;
    } else {
      entry.reason = "in: " + (holds.yes ? holds.why : "you take it anyway, although " + holds.why);
      entry.count = count.number;
      if (kind == OwnContainer::Kind::can) in_cans_ += static_cast<double>(count.number) * item.holds->value;
    }
    keep(std::move(entry));
  }

  // `cars`: of each of them.
  void consider(const OwnContainer& container, const std::vector<KitItem>& catalogue, std::vector<std::size_t> cars) {
    KitEntry entry;
    entry.cars = std::move(cars);
    entry.item = item_of(container, catalogue);
    entry.is_own = true;
    entry.is_packed = names(choices_.packed, entry.item);
    entry.why_so_many = "as many as you have";
    if (names(choices_.left_out, entry.item)) {
      entry.reason = "out: you left it out";
    } else {
      entry.reason = "in: it is at hand";
      entry.count = container.count;
      held_[static_cast<std::size_t>(container.kind)] += container.count;
      litres_[static_cast<std::size_t>(container.kind)] += container.count * container.holds.value;
    }
    keep(std::move(entry));
  }

  KitList finish() {
    fill();
    const auto by_group = [](const KitEntry& a, const KitEntry& b) { return a.item.group < b.item.group; };
    std::stable_sort(list_.taken.begin(), list_.taken.end(), by_group);
    std::stable_sort(list_.at_home.begin(), list_.at_home.end(), by_group);
    add_notes();
    return std::move(list_);
  }

 private:
  // How many are taken shows once all else is chosen.
  void consider_crate(const KitItem& item, bool is_own) {
    KitEntry entry;
    entry.item = item;
    entry.is_own = is_own;
    entry.is_packed = names(choices_.packed, item);
    const Holds holds = any_holds(item.when, facts_);
    if (names(choices_.left_out, item)) {
      entry.reason = "out: you left it out";
    } else if (!holds.yes && !names(choices_.taken_anyway, item)) {
      entry.reason = "out: " + holds.why;
    } else {
      return crates_.push_back(std::move(entry));
    }
    keep(std::move(entry));
  }

  void fill() {
    std::vector<KitItem> items;
    for (const KitEntry& entry : crates_) items.push_back(entry.item);
    list_.crates = fill_crates(list_.taken, items, std::max<std::size_t>(1, facts_.cars.size()));
    for (KitEntry& entry : crates_) {
      for (const KitCrate& crate : list_.crates) {
        if (crate.item.id != entry.item.id) continue;
        entry.why_so_many += (entry.count++ == 0 ? "" : "; ") + crate_words(crate, list_);
      }
      const bool is_place = entry.item.hold->is_place;
      entry.reason = entry.count > 0 ? (is_place ? "in: things have their place there" : "in: things travel in it")
                                     : "out: nothing goes into it";
      if (!is_place || entry.count == 0) keep(std::move(entry));
    }
  }

  void keep(KitEntry entry) {
    entry.mass = {static_cast<double>(entry.count) * entry.item.full.value};
    if (entry.count == 0) return list_.at_home.push_back(std::move(entry));
    add_stops(entry, facts_);
    list_.mass += entry.mass;
    list_.taken.push_back(std::move(entry));
  }

  void add_notes() {
    const auto held = [&](OwnContainer::Kind kind) { return held_[static_cast<std::size_t>(kind)]; };
    const auto short_of = [&](OwnContainer::Kind kind, const char* plural_word) {
      const std::size_t wanted = wanted_[static_cast<std::size_t>(kind)];
      if (held(kind) == 0 || held(kind) >= wanted) return;
      list_.notes.push_back("The plan has use for " + std::to_string(wanted) + " " + plural_word + ", and you have " +
                            std::to_string(held(kind)) + ".");
    };
    short_of(OwnContainer::Kind::bucket, "buckets");
    short_of(OwnContainer::Kind::bottle, "bottles");
    short_of(OwnContainer::Kind::cool_box, "cool boxes");
    const double cans = litres_[static_cast<std::size_t>(OwnContainer::Kind::can)];
    const Amount* water = find_amount(amounts_, "carried-water");
    if (held(OwnContainer::Kind::can) > 0 && water != nullptr && cans < water->value) {
      list_.notes.push_back("Your cans hold " + fixed(cans, 0) + " L, but between two taps " + fixed(water->value, 0) +
                            " L are wanted: refill on the way or take more.");
    }
    const auto feet_unknown =
        std::any_of(facts_.horses.begin(), facts_.horses.end(), [](const KitHorse& horse) { return !horse.feet; });
    if (feet_unknown) {
      list_.notes.push_back(
          "Whether a horse is shod, booted or barefoot is not said, so things for all three come "
          "along; \"feet\" of the horse says it.");
    }
    if (!worst_band(facts_)) {
      list_.notes.push_back("The weather is not known, so things for heat and for cold both come along.");
    }
  }

  const KitFacts& facts_;
  const RideKit& choices_;
  const std::vector<Amount>& amounts_;
  KitList list_;
  std::vector<KitEntry> crates_;
  double in_cans_{};  // litres in the catalogue's cans so far
  std::array<std::size_t, 4> wanted_{};
  std::array<std::size_t, 4> held_{};
  std::array<double, 4> litres_{};
};

}  // namespace

KitList choose_kit(const KitCatalogue& catalogue, const KitFacts& facts, const RideKit& choices,
                   const std::vector<Amount>& amounts) {
  Choice choice(facts, choices, amounts);
  std::vector<DealtCar> cars;
  for (const KitCar& car : facts.cars) cars.push_back({car.name, car.stops > 0});
  const auto dealt = deal_containers(choices.containers, cars);
  for (std::size_t c = 0; c < choices.containers.size(); ++c) {
    choice.consider(choices.containers[c], catalogue.items, dealt[c]);
  }
  for (const auto& item : with_own_items(catalogue, choices.own_items).items) {
    const bool is_own = std::any_of(choices.own_items.begin(), choices.own_items.end(),
                                    [&](const KitItem& own) { return same_name(own.id, item.id); });
    choice.consider(item, is_own);
  }
  return choice.finish();
}

const KitEntry* find_entry(const KitList& list, std::string_view name) {
  for (const bool by_id : {true, false}) {
    for (const auto* entries : {&list.taken, &list.at_home}) {
      for (const auto& entry : *entries) {
        if (same_name(by_id ? entry.item.id : entry.item.name, name)) return &entry;
      }
    }
  }
  return nullptr;
}

std::vector<Problem> unknown_kit_names(const KitCatalogue& catalogue, const RideKit& choices) {
  std::vector<std::string_view> known;
  for (const auto* items : {&catalogue.items, &choices.own_items}) {
    for (const auto& item : *items) {
      known.push_back(item.id);
      known.push_back(item.name);
    }
  }
  for (const auto& container : choices.containers) known.push_back(container.name);
  std::vector<Problem> problems;
  const auto check = [&](const std::vector<std::string>& list, const std::string& path) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (std::any_of(known.begin(), known.end(), [&](std::string_view name) { return same_name(name, list[i]); })) {
        continue;
      }
      std::string what = "'" + list[i] + "' is no thing of the kit catalogue";
      if (const auto nearest = nearest_name(list[i], known)) {
        what += "; did you mean '" + std::string(*nearest) + "'?";
      } else {
        what += "; `outbye kit RIDE --all` lists what there is";
      }
      problems.push_back({Problem::Kind::bad_input, path + "[" + std::to_string(i) + "]", what});
    }
  };
  check(choices.left_out, "kit.left_out");
  check(choices.taken_anyway, "kit.taken_anyway");
  check(choices.packed, "kit.packed");
  auto crates = unknown_crates(choices.own_items, with_own_items(catalogue, choices.own_items).items, "kit.own_items");
  problems.insert(problems.end(), std::make_move_iterator(crates.begin()), std::make_move_iterator(crates.end()));
  return problems;
}

std::vector<Problem> unknown_crates(const std::vector<KitItem>& items, const std::vector<KitItem>& all,
                                    const std::string& path) {
  std::vector<std::string_view> crates;
  for (const KitItem& item : all) {
    if (item.hold) crates.push_back(item.id);
  }
  const auto is_among = [](const auto& names, const std::string& id) {
    return std::any_of(names.begin(), names.end(), [&](std::string_view name) { return same_name(name, id); });
  };
  std::vector<std::string_view> known;
  for (const KitItem& item : all) known.push_back(item.id);
  std::vector<Problem> problems;
  for (std::size_t i = 0; i < items.size(); ++i) {
    for (std::size_t k = 0; k < items[i].goes_into.size(); ++k) {
      const std::string& id = items[i].goes_into[k];
      if (is_among(crates, id)) continue;
      std::string what = "'" + id + "' is no crate, box or bag of the kit catalogue";
      if (is_among(known, id)) {
        what += ": give it \"takes\", so that things can go into it";
      } else if (const auto nearest = nearest_name(id, crates)) {
        what += "; did you mean '" + std::string(*nearest) + "'?";
      } else {
        what += "; there are:";
        for (std::size_t c = 0; c < crates.size(); ++c) what += (c == 0 ? " " : ", ") + std::string(crates[c]);
        if (crates.empty()) what += " none; add one with \"takes\", or leave this out";
      }
      problems.push_back(
          {Problem::Kind::bad_input, path + "[" + std::to_string(i) + "].goes_into[" + std::to_string(k) + "]", what});
    }
  }
  return problems;
}

}  // namespace outbye
