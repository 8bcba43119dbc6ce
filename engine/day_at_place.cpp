#include "engine/day_at_place.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

enum class Part { before, serving, clearing };

Part part_of(NextAction::Kind kind) {
  switch (kind) {
    case NextAction::Kind::wait:
    case NextAction::Kind::serve:
    case NextAction::Kind::gate:
      return Part::serving;
    case NextAction::Kind::pack:
      return Part::clearing;
    default:
      return Part::before;
  }
}

// The rider's card counts from when the horse is served first, the helpers' from when the car has stopped.
Part part_of(const CardLine& line, const StopSchedule& schedule, bool is_rider) {
  if (is_rider) return Part::serving;
  if (line.at >= schedule.serve_end) return Part::clearing;
  return line.at >= schedule.serve_start ? Part::serving : Part::before;
}

std::string task_words(const CardLine& line) {
  std::string text = line.task;
  for (std::size_t i = 0; i < line.with.size(); ++i) {
    text += (i == 0 ? " (with " : i + 1 == line.with.size() ? " and " : ", ") + line.with[i];
  }
  return text + (line.with.empty() ? "" : ")");
}

std::string litres(Litres amount) { return fixed(amount.value, amount.value < 9.95 ? 1 : 0) + " L"; }

KitNeed need_of(RideEvent::Kind kind) {
  if (kind == RideEvent::Kind::pass) return KitNeed::pass;
  return kind == RideEvent::Kind::gate ? KitNeed::gate : KitNeed::finish;
}

}  // namespace

std::vector<DayDuty> duties_at(const DayModel& model, MeetOptionId meet, CarId car, NextAction::Kind kind) {
  std::vector<DayDuty> duties;
  const Part wanted = part_of(kind);
  for (const StopJobs& stop : model.jobs.stops) {
    if (stop.option != meet || stop.car != car || stop.problem) continue;
    for (std::size_t c = 0; c < stop.cards.size(); ++c) {
      const StopCard& card = stop.cards[c];
      DayDuty duty;
      duty.who = card.who;
      for (const CardLine& line : card.lines) {
        if (part_of(line, stop.schedule, c + 1 == stop.cards.size()) != wanted) continue;
        duty.tasks.push_back(task_words(line));
        if (!line.caution.empty()) duty.cautions.push_back(line.caution);
      }
      if (wanted == Part::serving) {
        duty.cautions.insert(duty.cautions.end(), card.cautions.begin(), card.cautions.end());
      }
      std::vector<std::string> once;
      for (std::string& caution : duty.cautions) {
        if (std::find(once.begin(), once.end(), caution) == once.end()) once.push_back(std::move(caution));
      }
      duty.cautions = std::move(once);
      if (!duty.tasks.empty()) duties.push_back(std::move(duty));
    }
  }
  return duties;
}

std::vector<std::string> get_out_at(const RidePlan& plan, const DayModel& model, MeetOptionId meet) {
  std::vector<std::string> things;
  const MeetOption& option = at(plan.task.options, meet);
  const std::size_t pass = option.horse.value * at(plan.task.horses, option.horse).events.size() + option.event;
  if (pass < plan.welfare.passes.size()) {
    const PassWelfare& welfare = plan.welfare.passes[pass];
    things.push_back("Drinking water: " + litres(welfare.drink.offer) + ", and more where it is wanted");
    if (welfare.cooling.is_cold) {
      things.emplace_back("Rug: cold to the horse, no pouring");
    } else if (welfare.cooling.pour.value > 0) {
      things.push_back("Cooling water: " + litres(welfare.cooling.pour));
    }
    if (welfare.cooling.ice.value > 0) things.push_back("Ice: " + fixed(welfare.cooling.ice.value, 1) + " kg");
    if (welfare.darkest != Light::day) things.emplace_back("Lights and hi-vis: it may not be daylight");
  }
  const KitNeed need = need_of(option.kind);
  for (const KitEntry& entry : model.kit) {
    const auto& needed = entry.item.needed;
    if (std::find(needed.begin(), needed.end(), need) == needed.end()) continue;
    things.push_back((entry.count > 1 ? std::to_string(entry.count) + " x " : "") + entry.item.name);
  }
  return things;
}

}  // namespace outbye
