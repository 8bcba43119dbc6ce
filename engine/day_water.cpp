#include "engine/day_water.h"

#include <algorithm>

#include "core/base/text.h"
#include "engine/day.h"
#include "engine/day_heat.h"
#include "engine/horse_water.h"

namespace outbye {
namespace {

constexpr Seconds quarter{900.0};
constexpr Seconds near_stop{900.0};  // a drink noted so long before or after a stop was taken there

// A piece of the day with its end, so that drinks come in between in the order of time.
struct Piece {
  Instant end;
  WaterEvent event;
};

bool is_salt(const std::string& what) {
  return same_name(what, "salt") || same_name(what, "NaCl") || same_name(what, "sodium chloride");
}
bool is_potassium(const std::string& what) { return same_name(what, "KCl") || same_name(what, "potassium chloride"); }

std::optional<Grams> grams_of(const NotedIntake& intake) {
  if (!intake.amount || (intake.unit != "g" && intake.unit != "kg")) return std::nullopt;
  return Grams{*intake.amount * (intake.unit == "kg" ? 1000.0 : 1.0)};
}

class Day {
 public:
  Day(const RidePlan& plan, const DayState& state, const HorseOnDay& horse)
      : plan_(plan), state_(state), horse_(horse) {}

  WaterNow now(const std::vector<PassOutlook>& passes) {
    result_.horse = horse_.horse;
    const RideHorse& typed = at(plan_.ride.horses, horse_.horse);
    result_.body = body_of(typed);
    ride_through(passes);
    drinks();
    std::stable_sort(pieces_.begin(), pieces_.end(), [](const Piece& a, const Piece& b) { return a.end < b.end; });
    std::vector<WaterEvent> events;
    for (const Piece& piece : pieces_) events.push_back(piece.event);
    if (const auto balances = water_over_day(result_.body, events, plan_.ride.sweat); balances && !balances->empty()) {
      result_.balance = balances->back();
    }
    salts();
    return std::move(result_);
  }

 private:
  Celsius wbgt(Position place, Instant when) const {
    const auto weather = weather_at(plan_.ride.weather, when);
    return weather ? heat_load(*weather, place, when, plan_.ride.heat).wbgt : plan_.ride.sweat.weather_unknown;
  }

  void spend(WaterEvent::Kind kind, Position place, Instant from, Instant to) {
    to = std::min(to, state_.now);
    for (Instant begin = from; begin < to; begin += quarter) {
      const Instant end = std::min(begin + quarter, to);
      pieces_.push_back({end, {kind, end - begin, wbgt(place, begin + 0.5 * (end - begin)), std::nullopt, {}}});
    }
  }

  void expect(Instant when, Interval<Litres> usual) {
    if (when <= state_.now) pieces_.push_back({when, {WaterEvent::Kind::drink, {}, {}, std::nullopt, usual}});
  }

  void ride_through(const std::vector<PassOutlook>& passes) {
    const RideHorse& typed = at(plan_.ride.horses, horse_.horse);
    Instant out = horse_.started.value_or(plan_.ride.start + typed.start_after + plan_.ride.start_delay.median);
    Metres along{0};
    for (std::size_t p = 0; p < passes.size() && out < state_.now; ++p) {
      const PassOutlook& pass = passes[p];
      if (pass.horse != horse_.horse) continue;
      const PassForecast& planned = plan_.passes[p];
      const Position place = event_position(plan_.survey.course, planned.event);
      const bool is_pass = planned.event.kind == RideEvent::Kind::pass;
      const Instant in = std::max(arrival_of(pass), out);
      spend(WaterEvent::Kind::riding, place, out, in);
      troughs(planned.event.loop, along, is_pass ? planned.loop_along : at_end(planned.event.loop), out, in);
      const OwnSighting* seen = sighting(pass.event);
      const bool stands = !is_pass || (seen != nullptr ? seen->is_met : planned.is_met && pass.odds.gone > 0.5);
      const Seconds planned_stay = planned.out.p50 - planned.due.p50;
      Instant leaves = in;
      if (seen != nullptr && seen->out) {
        leaves = *seen->out;
      } else if (stands) {
        leaves = in + planned_stay;
      }
      if (planned.event.kind == RideEvent::Kind::finish) leaves = in;
      if (stands) spend(WaterEvent::Kind::standing, place, in, leaves);
      if (stands && !is_drink_noted(in, std::max(leaves, in))) {
        const Litres most =
            p < plan_.welfare.passes.size() ? plan_.welfare.passes[p].drink.taken.to : plan_.ride.drinks.field_taken.to;
        expect(in, {Litres{0}, most});
        is_guessed_ = is_guessed_ || in <= state_.now;
      }
      out = leaves;
      along = is_pass ? planned.loop_along : Metres{0};
      if (planned.event.kind == RideEvent::Kind::finish) break;
    }
    if (is_guessed_) {
      result_.notes.emplace_back(
          "A stop where no drink is noted counts as anything from none to what is usually taken.");
    }
    if (plan_.ride.weather.empty()) {
      result_.notes.push_back("The weather is not known: " + fixed(plan_.ride.sweat.weather_unknown.value, 0) +
                              " degrees WBGT is taken.");
    }
  }

  Metres at_end(LoopId loop) const { return at(plan_.survey.course.loops, loop).length; }

  Instant arrival_of(const PassOutlook& pass) const {
    if (pass.seen) return *pass.seen;
    if (pass.odds.was && pass.odds.gone > 0.5) return pass.odds.was->p50;
    // Still to come: not before now.
    return pass.odds.due ? std::max(pass.odds.due->p50, state_.now) : state_.now;
  }

  const OwnSighting* sighting(std::size_t event) const {
    for (const OwnSighting& seen : horse_.seen) {
      if (seen.event == event) return &seen;
    }
    return nullptr;
  }

  void troughs(LoopId loop, Metres from, Metres to, Instant out, Instant in) {
    for (const RideWater& water : plan_.ride.waters) {
      if (water.loop != loop.value + 1 || water.along <= from || water.along > to) continue;
      expect(out + ((water.along - from) / (to - from)) * (in - out), {Litres{0}, plan_.ride.drinks.field_taken.to});
    }
  }

  bool is_drink_noted(Instant from, Instant to) const {
    return std::any_of(horse_.intakes.begin(), horse_.intakes.end(), [&](const NotedIntake& intake) {
      return intake.kind == DayKind::drink && intake.at >= from - near_stop && intake.at <= to + near_stop;
    });
  }

  void drinks() {
    bool is_left_out = false;
    for (const NotedIntake& intake : horse_.intakes) {
      if (intake.kind != DayKind::drink) continue;
      if (!intake.amount || intake.unit != "L" || *intake.amount > most_litres) {
        is_left_out = true;
        continue;
      }
      pieces_.push_back({intake.at, {WaterEvent::Kind::drink, {}, {}, Litres{*intake.amount}, {}}});
    }
    if (is_left_out) {
      result_.notes.emplace_back("A drink that is not noted in litres, or of more than 60 L at once, is not counted.");
    }
  }

  void salts() {
    Ions given{};
    std::string unknown;
    for (const NotedIntake& intake : horse_.intakes) {
      if (intake.kind != DayKind::electrolyte) continue;
      const auto grams = grams_of(intake);
      if (grams && is_salt(intake.what)) {
        given = given + ions_of(*grams, Grams{0});
      } else if (grams && is_potassium(intake.what)) {
        given = given + ions_of(Grams{0}, *grams);
      } else {
        unknown += (unknown.empty() ? "'" : ", '") + intake.what + "'";
      }
    }
    result_.salts = salt_balance(result_.balance.sweat, given);
    if (!unknown.empty()) {
      result_.notes.push_back("What is in " + unknown +
                              " is not known, so it is not counted as given; note grams of salt (NaCl) and of KCl.");
    }
  }

  static constexpr double most_litres = 60.0;  // as water_over_day() takes

  const RidePlan& plan_;
  const DayState& state_;
  const HorseOnDay& horse_;
  std::vector<Piece> pieces_;
  bool is_guessed_{};
  WaterNow result_{};
};

}  // namespace

std::vector<WaterNow> water_now(const RidePlan& plan, const DayState& state, const std::vector<PassOutlook>& passes) {
  std::vector<WaterNow> all;
  for (const HorseOnDay& horse : state.horses) all.push_back(Day(plan, state, horse).now(passes));
  return all;
}

}  // namespace outbye
