#include <algorithm>
#include <cmath>

#include "engine/day.h"
#include "engine/day_names.h"
#include "engine/day_watches.h"
#include "engine/day_words.h"
#include "engine/tasks.h"

namespace outbye {
namespace {

constexpr double surely = 0.995;

// One flag an event: met by the plan, and still to come.
std::vector<bool> planned_meets(const RidePlan& plan, HorseId horse, const LiveAnchor& anchor) {
  std::vector<bool> is_met(plan.task.horses[horse.value].events.size(), false);
  for (const CarDay& day : plan.plan.days) {
    for (const TimedStop& stop : day.stops) {
      if (!stop.stop.option) continue;
      const MeetOption& option = at(plan.task.options, *stop.stop.option);
      if (option.horse == horse && (!anchor.event || option.event > *anchor.event)) is_met[option.event] = true;
    }
  }
  return is_met;
}

const OwnSighting* seen_at(const HorseOnDay& horse, std::size_t event) {
  for (const OwnSighting& seen : horse.seen) {
    if (seen.event == event) return &seen;
  }
  return nullptr;
}

// Nothing more to wait for: seen, or ridden past, or surely gone unseen.
bool is_over(const DayAnswer& answer, MeetOptionId id, const RidePlan& plan) {
  const MeetOption& option = at(plan.task.options, id);
  const LiveAnchor& anchor = answer.days[option.horse.value].anchor;
  if (anchor.event && option.event <= *anchor.event) return true;
  return chance_gone(answer.days[option.horse.value], option.event, answer.state.now) >= surely;
}

// The stops of a car's orders that are still to come, and whom it waits for where it stands.
class CarAhead {
 public:
  CarAhead(const RidePlan& plan, const DayAnswer& answer, const CarOnDay& car)
      : plan_(plan), answer_(answer), car_(car) {
    for (const TimedStop& stop : plan.plan.days[car.car.value].stops) {
      if (stop.stop.option && !is_over(answer, *stop.stop.option, plan)) ahead_.push_back(&stop);
    }
  }

  std::optional<MeetOptionId> here() const {
    if (car_.is_driving) return std::nullopt;
    // The next that it can still be in time for: from the venue a car first drives out before it meets at the gate.
    for (const TimedStop* stop : ahead_) {
      if (stop->place == car_.place) return stop->stop.option;
      if (!is_lost(*stop)) break;
    }
    // Not planned: the horse that comes here soonest, if any.
    std::optional<MeetOptionId> soonest;
    std::optional<Instant> when;
    for (std::uint32_t o = 0; o < plan_.task.options.size(); ++o) {
      const MeetOption& option = plan_.task.options[o];
      if (option.place != car_.place || is_over(answer_, MeetOptionId{o}, plan_)) continue;
      const PassOdds& odds = odds_of(option);
      if (!odds.due || (when && odds.due->p50 >= *when)) continue;
      // Only where nothing planned comes before it.
      soonest = MeetOptionId{o};
      when = odds.due->p50;
    }
    if (soonest && !ahead_.empty()) {
      const MeetOption& planned = at(plan_.task.options, *ahead_.front()->stop.option);
      const PassOdds& odds = odds_of(planned);
      if (odds.due && odds.due->p50 < *when) return std::nullopt;
    }
    return soonest;
  }

  const TimedStop* next_after(const std::optional<MeetOptionId>& here) const {
    bool passed =
        !here || std::none_of(ahead_.begin(), ahead_.end(), [&](const TimedStop* s) { return s->stop.option == here; });
    for (const TimedStop* stop : ahead_) {
      if (passed && stop->place != car_.place) return stop;
      if (stop->stop.option == here) passed = true;
    }
    return nullptr;
  }

  // As the plan names it, else the stop after the next.
  std::optional<MeetOptionId> fallback_for(const std::optional<MeetOptionId>& here, const TimedStop* next) const {
    if (next == nullptr) return std::nullopt;
    for (const TimedStop* stop : ahead_) {
      if (here && stop->stop.option == here && stop->fallback && stop->next_meet == next->stop.option &&
          !is_over(answer_, *stop->fallback, plan_)) {
        return stop->fallback;
      }
    }
    bool passed = false;
    for (const TimedStop* stop : ahead_) {
      if (passed && stop->place != car_.place && stop->place != next->place) return stop->stop.option;
      if (stop == next) passed = true;
    }
    return std::nullopt;
  }

 private:
  const PassOdds& odds_of(const MeetOption& option) const {
    const std::size_t events = at(plan_.task.horses, option.horse).events.size();
    return answer_.passes[option.horse.value * events + option.event].odds;
  }

  // Set up in time on fewer days than make the plan give a meet up, going now.
  bool is_lost(const TimedStop& stop) const {
    const MeetOption& option = at(plan_.task.options, *stop.stop.option);
    const auto& drive = plan_.task.drives.drive(car_.place, stop.place);
    if (!drive) return true;
    const Instant ready = answer_.state.now + plan_.task.settings.drive_allowance * drive->time + option.setup;
    return 1.0 - chance_gone(answer_.days[option.horse.value], option.event, ready) < plan_.task.settings.give_up;
  }

  const RidePlan& plan_;
  const DayAnswer& answer_;
  const CarOnDay& car_;
  std::vector<const TimedStop*> ahead_;
};

std::optional<MeetThere> meet_there(const RidePlan& plan, PlaceId from, MeetOptionId id) {
  const MeetOption& option = at(plan.task.options, id);
  const auto& drive = plan.task.drives.drive(from, option.place);
  if (!drive) return std::nullopt;
  return MeetThere{option.event, drive->time, option.setup, option.worth};
}

CarAdvice advise(const RidePlan& plan, const DayAnswer& answer, CarOnDay& car) {
  CarAdvice result;
  result.car = car.car;
  const CarAhead ahead(plan, answer, car);
  result.here = ahead.here();
  const TimedStop* next = ahead.next_after(result.here);
  if (next != nullptr) result.next = next->stop.option;
  result.fallback = ahead.fallback_for(result.here, next);
  if (car.is_driving && next != nullptr) car.driving_to = next->place;
  WaitOrDrive task;
  task.now = answer.state.now;
  task.drive_allowance = plan.task.settings.drive_allowance;
  task.drive_log_sd = plan.task.settings.drive_log_sd;
  task.confidence = plan.task.settings.confidence;
  task.give_up = plan.task.settings.give_up;
  task.part_worth = plan.task.settings.part_worth;
  std::size_t horse = 0;
  if (result.here) {
    const MeetOption& option = at(plan.task.options, *result.here);
    horse = option.horse.value;
    MeetHere here;
    here.event = option.event;
    here.ready = car.since.value_or(task.now) + option.setup;
    here.pack = option.pack;
    here.worth = option.worth;
    here.overlook = default_overlook;
    for (const WatchKept& w : answer.state.watches) {
      if (w.place == at(plan.places, car.place).name) here.overlook = w.overlook;
    }
    task.here = here;
  } else if (result.next) {
    horse = at(plan.task.options, *result.next).horse.value;
  }
  const auto same_horse = [&](const std::optional<MeetOptionId>& id) {
    return id && at(plan.task.options, *id).horse.value == horse;
  };
  // Choices are valued for one horse; a next meet with another horse is left to the plan.
  if (same_horse(result.next)) task.next = meet_there(plan, car.place, *result.next);
  if (same_horse(result.fallback)) task.fallback = meet_there(plan, car.place, *result.fallback);
  if (!car.is_driving) {
    result.advice = wait_or_drive(answer.days[horse], task, Seed{plan.ride.seed.value + 77});
    // Told to the minute, and never later than it is.
    if (auto& by = result.advice.leave_by) by = Instant{minutes(std::floor(in_minutes(by->time_since_epoch())))};
  }
  say(plan, answer, car, result);
  return result;
}

}  // namespace

Result<DayModel> day_model(const RidePlan& plan, const LiveSettings& settings, const KitCatalogue* catalogue) {
  auto heat = day_heat(plan.ride, plan.survey.course);
  if (!heat) return tl::unexpected(heat.error());
  DayModel model;
  for (std::uint32_t h = 0; h < plan.task.horses.size(); ++h) {
    auto pace = live_pace(plan.survey.course, horse_pace(plan.ride, plan.survey.course, HorseId{h}, *heat), settings);
    if (!pace) return tl::unexpected(pace.error());
    model.draws.push_back(live_draws(*pace, Seed{plan.ride.seed.value + 1000003 * (h + 1)}, most_live_batches));
    model.horses.push_back(std::move(*pace));
  }
  model.jobs = jobs_of(plan);
  StockOptions few;
  few.days = 100;  // only its containers and stops are looked at here
  auto stock = stock_of(plan, few);
  if (!stock) return tl::unexpected(stock.error());
  model.stock = std::move(*stock);
  if (catalogue != nullptr) {
    auto kit = plan_kit(plan, *catalogue);
    if (!kit) return tl::unexpected(kit.error());
    model.kit = std::move(kit->list.taken);
  }
  return model;
}

DayAnswer day_answer(const RidePlan& plan, const DayModel& model, const DayLog& log, Instant now) {
  DayAnswer answer;
  answer.state = day_state(plan, log, now);
  for (std::uint32_t h = 0; h < answer.state.horses.size(); ++h) {
    const HorseOnDay& horse = answer.state.horses[h];
    DayEvidence evidence{horse.started, horse.seen, answer.state.stretches, horse.watches, horse.words};
    answer.days.push_back(live_days(model.horses[h], evidence, model.draws[h]));
    const LiveDays& live = answer.days.back();
    if (live.is_contradicted) {
      answer.state.troubles.push_back(
          {"", "What was watched and told of " + at(plan.ride.horses, HorseId{h}).name +
                   " agrees with no day that can be: the times are by sightings alone. Check the watches and words."});
    }
    const auto with_stops = arrivals(live.days, planned_meets(plan, HorseId{h}, live.anchor));
    const DayNames names(plan);
    for (std::size_t e = 0; e < live.days.events.size(); ++e) {
      PassOutlook pass{HorseId{h}, e, names.label(HorseId{h}, e), std::nullopt, {}};
      if (const OwnSighting* seen = seen_at(horse, e)) {
        pass.seen = seen->in ? seen->in : seen->in_time ? seen->in_time : seen->out;
      }
      pass.odds = pass_odds(live, {with_stops.data() + e * live.days.days, live.days.days}, now);
      answer.passes.push_back(std::move(pass));
    }
  }
  answer.gates = gates_now(plan, answer.state);
  answer.water = water_now(plan, answer.state, answer.passes);
  std::vector<char> over;
  for (std::uint32_t o = 0; o < plan.task.options.size(); ++o) {
    over.push_back(is_over(answer, MeetOptionId{o}, plan) ? 1 : 0);
  }
  answer.stock = stock_left(plan, model.stock, answer.state, over, answer.state.troubles);
  for (CarOnDay& car : answer.state.cars) answer.cars.push_back(advise(plan, answer, car));
  for (const CarAdvice& car : answer.cars) answer.next.push_back(next_action(plan, model, answer, car.car));
  return answer;
}

}  // namespace outbye
