#include "engine/kit.h"

#include <algorithm>
#include <utility>

#include "core/base/text.h"
#include "engine/fuel_on_the_way.h"

namespace outbye {
namespace {

struct Server {
  std::size_t car{};
  bool has_water{};
  bool refilled_before{};
};

// The car that meets a pass, if any.
std::optional<Server> server_of(const RidePlan& plan, HorseId horse, std::size_t event) {
  for (std::size_t c = 0; c < plan.plan.days.size(); ++c) {
    bool refilled = false;
    for (const auto& stop : plan.plan.days[c].stops) {
      if (stop.stop.kind == PlannedStop::Kind::refill && stop.stop.refill &&
          plan.task.refills[*stop.stop.refill].water) {
        refilled = true;
      }
      if (!stop.stop.option) continue;
      const MeetOption& option = at(plan.task.options, *stop.stop.option);
      if (option.horse == horse && option.event == event) return Server{c, option.has_water, refilled};
      refilled = false;
    }
  }
  return std::nullopt;
}

KitStop::Kind kind_of(RideEvent::Kind kind) {
  switch (kind) {
    case RideEvent::Kind::gate:
      return KitStop::Kind::gate;
    case RideEvent::Kind::finish:
      return KitStop::Kind::finish;
    case RideEvent::Kind::pass:
      break;
  }
  return KitStop::Kind::pass;
}

KitStop stop_of(const RidePlan& plan, const PassForecast& pass, const PassWelfare& welfare, std::size_t event) {
  KitStop stop;
  stop.kind = kind_of(pass.event.kind);
  stop.name = pass.name;
  stop.horse = pass.horse.value;
  stop.loop = pass.event.loop.value + 1;
  stop.at = pass.due.p50;
  if (welfare.worst_heat) stop.band = welfare.worst_heat->band;
  if (const auto weather = weather_at(plan.ride.weather, pass.due.p50)) stop.temperature = weather->temperature;
  stop.pour = welfare.cooling.pour;
  stop.pour_range = welfare.cooling.pour_range;
  stop.ice = welfare.cooling.ice;
  stop.drink_offer = welfare.drink.offer;
  stop.drink_taken = welfare.drink.taken;
  stop.is_cold = welfare.cooling.is_cold;
  stop.is_dark = welfare.darkest != Light::day;
  stop.has_water = stop.kind != KitStop::Kind::pass;  // gates and finish are at the venue, which has a tap
  if (const auto server = server_of(plan, pass.horse, event)) {
    stop.car = server->car;
    stop.has_water = server->has_water;
    stop.refilled_before = server->refilled_before;
  }
  return stop;
}

Seconds ridden(const RidePlan& plan, std::size_t horse) {
  Seconds sum{0};
  for (const auto& loop : plan.effects[horse]) sum += loop.riding;
  return sum;
}

void add_cars(const RidePlan& plan, KitFacts& facts) {
  for (std::size_t c = 0; c < plan.plan.days.size(); ++c) {
    const CarDay& day = plan.plan.days[c];
    facts.cars.push_back({plan.ride.cars[c].name, day.driven, day.stops.size(), plan.ride.cars[c].water_capacity});
    if (!day.stops.empty()) {
      facts.from = std::min(facts.from, day.stops.front().depart);
      facts.to = std::max(facts.to, day.stops.back().leave);
    }
    if (day.back) facts.to = std::max(facts.to, *day.back);
  }
}

std::string leak_words(const OwnContainer& box, const KitSettings& settings) {
  if (box.leak_w_per_k) return "typed in the ride file";
  if (!box.leak_test) {
    return "of a box that says nothing of its own; " + fixed(settings.box_leak_w_per_k, 1) + " unless set";
  }
  const IceMeltTest& test = *box.leak_test;
  return "measured: " + fixed(test.ice.value - test.left.value, 2) + " kg of ice melted in " +
         fixed(test.time.count() / 3600.0, 1) + " h at " + fixed(test.air.value, 0) +
         " degrees; melted x 333.6 kJ/kg / (kelvin x time), the test metric proposed by Insulated container testing & "
         "rating (dissertation, 2015)";
}

std::vector<KitBox> own_boxes(const RideKit& kit) {
  std::vector<KitBox> boxes;
  for (const OwnContainer& own : kit.containers) {
    if (own.kind != OwnContainer::Kind::cool_box) continue;
    for (std::uint32_t n = 1; n <= own.count; ++n) {
      boxes.push_back({own.name + (own.count > 1 ? " " + std::to_string(n) : ""), leak_of(own, kit.settings),
                       Kilograms{own.holds.value * ice_kg_per_litre}, leak_words(own, kit.settings)});
    }
  }
  std::stable_sort(boxes.begin(), boxes.end(),
                   [](const KitBox& a, const KitBox& b) { return a.leak_w_per_k < b.leak_w_per_k; });
  return boxes;
}

void add_crew(const Ride& ride, KitFacts& facts) {
  facts.is_crew_known = !ride.helpers.empty() || ride.crew.has_value();
  facts.crew = !ride.helpers.empty() ? static_cast<std::uint32_t>(ride.helpers.size()) : ride.crew.value_or(2);
}

}  // namespace

KitFacts kit_facts(const RidePlan& plan, const RoadGraph* roads) {
  const Ride& ride = plan.ride;
  KitFacts facts;
  facts.clock = ride.clock;
  facts.distance = plan.survey.course.length;
  facts.loops = static_cast<std::uint32_t>(plan.survey.course.loops.size());
  facts.from = ride.start;
  facts.to = ride.start;
  facts.night_camp = ride.kit.settings.night_camp;
  facts.has_soaked_feed = ride.kit.settings.soaked_feed != SoakedFeed::none;
  add_crew(ride, facts);
  add_cars(plan, facts);
  std::size_t event = 0;
  for (std::size_t p = 0; p < plan.passes.size(); ++p) {
    const PassForecast& pass = plan.passes[p];
    if (p > 0 && plan.passes[p - 1].horse != pass.horse) event = 0;
    facts.to = std::max(facts.to, pass.out.p50);
    if (plan.welfare.passes[p].is_served) facts.stops.push_back(stop_of(plan, pass, plan.welfare.passes[p], event));
    ++event;
  }
  std::stable_sort(facts.stops.begin(), facts.stops.end(),
                   [](const KitStop& a, const KitStop& b) { return a.at < b.at; });
  for (std::size_t h = 0; h < ride.horses.size(); ++h) {
    const RideHorse& horse = ride.horses[h];
    facts.horses.push_back({horse.name, horse.rider, horse.is_novice, horse.feet, horse.likes, ridden(plan, h)});
  }
  for (const auto& hour : ride.weather) facts.temperatures.emplace_back(hour.at, hour.temperature);
  facts.pumps = pumps_on_the_way(plan, roads);
  facts.boxes = own_boxes(ride.kit);
  return facts;
}

Result<KitPlan> plan_kit(const RidePlan& plan, const KitCatalogue& catalogue, const RoadGraph* roads) {
  const RideKit& choices = plan.ride.kit;
  if (const auto good = check_kit_settings(choices.settings); !good) return tl::make_unexpected(good.error());
  if (auto unknown = unknown_kit_names(catalogue, choices); !unknown.empty()) {
    return tl::make_unexpected(std::move(unknown.front()));
  }
  KitPlan kit;
  kit.facts = kit_facts(plan, roads);
  kit.amounts = kit_amounts(kit.facts, choices.settings);
  kit.list = choose_kit(catalogue, kit.facts, choices, kit.amounts);
  if (!kit.facts.is_crew_known) {
    kit.assumptions.push_back("The crew is taken as two people; \"helpers\" or \"crew\" in the ride file says who.");
  }
  if (kit.facts.temperatures.empty()) {
    kit.assumptions.push_back("No weather is given: ice is worked out for " +
                              fixed(choices.settings.weather_unknown.value, 0) +
                              " degrees about the box, people drink as in heat, "
                              "and wet feed is taken to spoil in 2 h.");
  }
  if (choices.containers.empty()) {
    kit.assumptions.push_back(
        "Your containers are not listed (\"kit\": {\"containers\": [...]}): cans of 10 L are proposed.");
  }
  return kit;
}

}  // namespace outbye
