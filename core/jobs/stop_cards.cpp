#include "core/jobs/stop_cards.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

std::string clock_of(Seconds time) {
  const auto s = static_cast<long>(time.count());
  const std::string rest = std::to_string(s % 60);
  return std::to_string(s / 60) + ":" + (rest.size() < 2 ? "0" : "") + rest;
}

void add_once(std::vector<std::string>& items, const std::string& item) {
  if (!item.empty() && std::find(items.begin(), items.end(), item) == items.end()) items.push_back(item);
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  }
  return text;
}

StopCard helper_card(const CrewStop& stop, const StopSchedule& schedule, HelperId me) {
  StopCard card;
  card.who = at(stop.helpers, me).name;
  card.work = at(schedule.work, me);
  bool is_near = false;
  if (schedule.holder == me && schedule.serve_end > schedule.serve_start) {
    is_near = true;
    card.lines.push_back({schedule.serve_start,
                          schedule.serve_end,
                          "hold the horse",
                          {},
                          "stand at the head and a little aside; never wrap the rope round the hand"});
  }
  for (const ScheduledTask& one : schedule.tasks) {
    const auto mine = std::find(one.hands.begin(), one.hands.end(), me);
    if (mine == one.hands.end()) continue;
    const StopTask& task = at(stop.tasks, one.task);
    const Hand& hand = task.modes[one.mode].hands[static_cast<std::size_t>(mine - one.hands.begin())];
    CardLine line{one.start, one.end, task.name + (hand.part.empty() ? "" : ", " + hand.part), {}, task.caution};
    for (const HelperId other : one.hands) {
      if (other != me) line.with.push_back(at(stop.helpers, other).name);
    }
    is_near = is_near || task.is_at_horse;
    card.lines.push_back(std::move(line));
  }
  std::stable_sort(card.lines.begin(), card.lines.end(),
                   [](const CardLine& a, const CardLine& b) { return a.at < b.at; });
  if (is_near) {
    card.cautions = {"Work at the shoulder; never alone behind the horse. Somebody holds the horse before you begin.",
                     "Tell the rider before you touch the horse. Hard hat."};
  }
  for (const CardLine& line : card.lines) {
    if (line.caution != caution_at_horse) add_once(card.cautions, line.caution);  // it is said for the whole card
  }
  return card;
}

StopCard rider_card(const CrewStop& stop, const StopSchedule& schedule) {
  StopCard card;
  card.who = "rider";
  for (const ScheduledTask& one : schedule.tasks) {
    const StopTask& task = at(stop.tasks, one.task);
    if (task.for_rider.empty() || task.step != RoutineStep::serve) continue;
    CardLine line{one.start - schedule.serve_start, one.end - schedule.serve_start, task.for_rider, {}, task.caution};
    for (const HelperId helper : one.hands) line.with.push_back(at(stop.helpers, helper).name);
    card.lines.push_back(std::move(line));
  }
  if (schedule.holder) {
    card.cautions.push_back(at(stop.helpers, *schedule.holder).name +
                            " holds your horse from the moment you are off it.");
  } else if (stop.holder == Holder::rider_on_foot) {
    card.cautions.emplace_back("You hold your horse; nobody works behind it without you at its head.");
  } else {
    card.cautions.emplace_back("You stay mounted and hold your horse; say when nobody may touch it.");
  }
  return card;
}

}  // namespace

std::vector<StopCard> stop_cards(const CrewStop& stop, const StopSchedule& schedule) {
  std::vector<StopCard> cards;
  for (std::uint32_t h = 0; h < stop.helpers.size(); ++h) cards.push_back(helper_card(stop, schedule, HelperId{h}));
  cards.push_back(rider_card(stop, schedule));
  return cards;
}

std::vector<std::string> card_text(const StopCard& card) {
  std::vector<std::string> text;
  const bool is_rider = card.who == "rider" && card.work == Seconds{0};
  text.push_back(is_rider ? "rider: who gives you what, from when you stop"
                          : card.who + ": " + clock_of(card.work) + " of work, from when the car has stopped");
  if (card.lines.empty()) text.emplace_back("  nothing to do here");
  for (const CardLine& line : card.lines) {
    std::string one = "  +" + clock_of(line.at) + "-" + clock_of(line.until) + "  " + line.task;
    if (!line.with.empty()) one += (is_rider ? " (from " : " (with ") + joined(line.with) + ")";
    text.push_back(std::move(one));
  }
  for (const std::string& caution : card.cautions) text.push_back("  ! " + caution);
  return text;
}

}  // namespace outbye
