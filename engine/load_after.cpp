#include <algorithm>
#include <charconv>
#include <utility>

#include "core/base/text.h"
#include "engine/load.h"

namespace outbye {
namespace {

struct CarStop {
  std::string label;
  std::string place;
  Litres used{};  // since the cans were last full
  bool is_meet{};
};

// What one meet takes: what the ride file says, or what is poured and usually drunk at most.
Litres taken_at(const RidePlan& plan, const MeetOption& meet) {
  if (meet.water > Litres{0}) return meet.water;
  std::size_t event = 0;
  for (std::size_t p = 0; p < plan.passes.size() && p < plan.welfare.passes.size(); ++p) {
    if (plan.passes[p].horse != meet.horse) continue;
    if (event++ != meet.event) continue;
    const PassWelfare& care = plan.welfare.passes[p];
    return (care.cooling.is_cold ? Litres{0} : care.cooling.pour) + care.drink.taken.to;
  }
  return {};
}

std::vector<CarStop> stops_of(const RidePlan& plan, CarId car) {
  std::vector<CarStop> stops;
  Litres used{};
  for (const CarDay& day : plan.plan.days) {
    if (day.car != car) continue;
    for (const TimedStop& timed : day.stops) {
      const std::string& place = at(plan.places, timed.place).name;
      if (timed.stop.option) {
        const MeetOption& meet = at(plan.task.options, *timed.stop.option);
        used = meet.has_water ? Litres{} : used + taken_at(plan, meet);
        stops.push_back({meet.label, place, used, true});
      } else if (timed.stop.refill && plan.task.refills[*timed.stop.refill].water) {
        used = Litres{};
        stops.push_back({"refill at " + place, place, used, false});
      }
    }
  }
  return stops;
}

Result<CarStop> stop_named(const RidePlan& plan, const CarLoad& load, const std::string& words) {
  const auto stops = stops_of(plan, load.car);
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), number);
  if (error == std::errc{} && end == words.data() + words.size() && number >= 1 && number <= stops.size()) {
    return stops[number - 1];
  }
  std::vector<std::string_view> known;
  for (auto stop = stops.rbegin(); stop != stops.rend(); ++stop) {
    if (same_name(stop->label, words) || (stop->is_meet && same_name(stop->place, words))) return *stop;
    known.push_back(stop->label);
    known.push_back(stop->place);
  }
  const auto nearest = nearest_name(words, known);
  std::string all;
  for (std::size_t s = 0; s < stops.size(); ++s) {
    all += (s == 0 ? "" : ", ") + std::to_string(s + 1) + " " + stops[s].label;
  }
  return not_found("stop '" + words + "'",
                   "is none of " + load.name +
                       (nearest ? "; did you mean '" + std::string(*nearest) + "'? Its stops: " : "; its stops: ") +
                       (all.empty() ? "none" : all));
}

}  // namespace

Result<LoadAfterStop> load_after(const RidePlan& plan, const CarLoad& load, const std::string& stop,
                                 const LoadSearch& search) {
  const auto found = stop_named(plan, load, stop);
  if (!found) return tl::make_unexpected(found.error());
  LoadAfterStop after;
  after.stop = found->label;
  // One can after the other, the one that is easiest to reach first.
  std::vector<const LoadPlacement*> cans;
  for (const LoadPlacement& p : load.load.placements) {
    if (load.water[p.item.value] > Litres{0}) cans.push_back(&p);
  }
  std::stable_sort(cans.begin(), cans.end(), [](const LoadPlacement* a, const LoadPlacement* b) {
    return a->moved_first.size() < b->moved_first.size();
  });
  Litres still = found->used;
  for (const LoadPlacement* can : cans) {
    const Litres gone = std::min(still, load.water[can->item.value]);
    if (gone <= Litres{0}) break;
    still -= gone;
    after.used += gone;
    const Kilograms mass = at(load.task.items, can->item).mass - Kilograms{gone.value};  // 1 kg a litre
    after.changes.push_back({can->item, std::max(mass, Kilograms{0})});
  }
  auto moved = repack(load.task, load.load, after.changes, search);
  if (!moved) return tl::make_unexpected(moved.error());
  const auto broken = check_load(moved->task, moved->load);
  if (!broken.empty()) return impossible(broken.front().where, broken.front().what);
  after.repack = std::move(*moved);
  after.steps = describe(after.repack.task, after.repack.load);
  return after;
}

}  // namespace outbye
