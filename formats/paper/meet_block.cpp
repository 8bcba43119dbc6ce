#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "formats/exports/place_codes.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"
#include "formats/picture/marks.h"

namespace outbye {
namespace {

// What a stop may take: height of the map in points, rows for numbers seen.
struct Room {
  double map_height{};
  std::size_t rows{};
  bool is_tight{};  // the turns in the smallest text
};
constexpr Room rooms[] = {{150, 2, false}, {130, 2, false}, {112, 2, false},
                          {112, 1, false}, {96, 1, true},   {80, 1, true}};

std::string litres(Litres amount) {
  return fixed(amount.value, amount.value == std::floor(amount.value) ? 0 : 1) + " L";
}

std::string minutes_seconds(Seconds time) {
  const auto s = static_cast<long>(std::llround(time.count()));
  return std::to_string(s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60);
}

void times(Paper& paper, const RidePlan& plan, const CarDay& day, std::size_t index) {
  const TimedStop& stop = day.stops[index];
  const TimedStop* limit = limit_for(day, index);
  const bool is_meet = stop.stop.option.has_value();
  const bool drives = stop.drive_planned > Seconds{0};
  Table table;
  table.is_boxed = true;
  table.columns = {{"Leave", true}, {"Leave by", true}, {"There", true}, {"Ready", true}, {"Drive on", true}};
  std::vector<TableCell> row{drives ? time_words(stop.depart, plan) : "stays here",
                             {limit != nullptr ? time_words(*limit->leave_by, plan) : "-", true},
                             time_words(stop.arrive, plan),
                             time_words(stop.ready, plan),
                             time_words(stop.leave, plan)};
  if (is_meet) {
    if (paper.width() < 450) {  // two rows of few columns rather than one of many
      table.rows.push_back(std::move(row));
      paper.table(table);
      table.columns.clear();
      table.rows.clear();
      row.clear();
    }
    table.columns.insert(table.columns.end(), {{"Due", true}, {"8 of 10 days", true}, {"Slack", true}, {"Odds", true}});
    row.insert(row.end(), {TableCell(time_words(stop.due.p50, plan), true), span_words(stop.due, plan),
                           fixed(in_minutes(stop.slack), 0) + " min", percent(stop.chance_ready)});
  }
  table.rows.push_back(std::move(row));
  paper.table(table);
  if (limit != nullptr && limit->fallback) {
    paper.text("Fallback: not away by " + time_words(*limit->leave_by, plan) + "? Drive to " +
                   meet_words(plan, *limit->fallback) + " instead.",
               paper.bold());
  }
  if (is_meet && stop.chance_ready < 0.5) {
    paper.text("A rush: there before the horse goes on with odds of " + percent(stop.chance_there) +
               ", but perhaps not set up.");
  }
  if (stop.leave_by && stop.next_meet) {
    std::string words =
        "From here leave by " + time_words(*stop.leave_by, plan) + " for " + meet_words(plan, *stop.next_meet);
    if (stop.fallback) words += "; later than that, " + meet_words(plan, *stop.fallback) + " instead";
    paper.text(words + ".");
  }
}

// Map to the left; address, code and grid of where to park to the right.
void place_row(Paper& paper, const PaperSources& from, const TimedStop& stop, const Route* route, double map_height) {
  const RidePlan& plan = from.plan;
  const PlaceReport& place = at(plan.places, stop.place);
  std::string words = "Park: " + coordinates(place.position);
  if (const auto grid = national_grid(place.position)) words += "; grid " + grid_reference(*grid) + " (to 10 m)";
  if (!place.road.empty()) words += "; on " + place.road;
  words += ". The code opens it in a phone's map.";
  const double height = route != nullptr ? std::min(map_height, paper.width() * 0.36) : 84.0;
  paper.picture(height, [&](const Box& box) {
    const double code_side = std::min(84.0, height);
    const double split =
        route != nullptr ? box.right - std::max(code_side + 20, 0.32 * paper.width()) : box.left + code_side + 8;
    if (route != nullptr) {
      drive_map(paper, plan, *route, stop, from.roads, {box.left, box.top, split - 8, box.bottom});
    }
    const LayoutPtr text =
        paper.typesetter().layout(words, paper.small(), route != nullptr ? box.right - split : box.right - split);
    const auto code = qr_code(geo_uri(place.position));
    const double text_height = layout_height(text.get());
    if (route != nullptr) {
      const double side = std::min({code_side, height - text_height - 2, box.right - split});
      paper.put(text, {split, box.top}, paper.small());
      if (code && side > 45) paper.put_qr(*code, {split, box.bottom - side, split + side, box.bottom});
    } else {
      if (code) paper.put_qr(*code, {box.left, box.top, box.left + code_side, box.top + code_side});
      paper.put(text, {split, box.top + 4}, paper.small());
    }
  });
}

std::string open_words(const RidePlan& plan, const std::vector<Interval<Instant>>& open) {
  std::string words;
  for (const auto& one : open) {
    words += (words.empty() ? "" : ", ") + time_words(one.from, plan) + "-" + time_words(one.to, plan);
  }
  return words;
}

void about_place(Paper& paper, const PaperSources& from, const TimedStop& stop) {
  const RidePlan& plan = from.plan;
  const RideCrewPoint* point = crew_point_of(plan, stop.place);
  std::vector<std::string> lines;
  if (point != nullptr) {
    if (!point->approach.empty()) lines.push_back("Approach: " + point->approach);
    if (!point->open.empty()) lines.push_back("Open " + open_words(plan, point->open) + " only.");
    if (!point->note.empty()) lines.push_back(point->note);
    if (point->has_water) lines.emplace_back("There is a tap.");
    for (const RideHazard& hazard : point->hazards) lines.push_back("Hazard: " + hazard.what);
    for (const std::string& allowed : point->allowed) lines.push_back("Allowed: " + allowed);
    if (!point->recce.empty()) lines.push_back("Seen beforehand: " + point->recce);
  }
  if (stop.stop.refill && *stop.stop.refill < plan.ride.refills.size()) {
    const RideRefill& refill = plan.ride.refills[*stop.stop.refill];
    if (!refill.open.empty()) lines.push_back("Open " + open_words(plan, refill.open) + " only.");
    lines.push_back(std::string("Fill up: ") +
                    (refill.water && refill.fuel ? "water and fuel"
                     : refill.fuel               ? "fuel"
                                                 : "water") +
                    ".");
  }
  paper.list(lines);
}

void drive(Paper& paper, const TimedStop& stop, const Route* route, const TextLook& look) {
  if (stop.drive_planned <= Seconds{0}) return;
  std::string words = "Drive: " + duration_in_words(stop.drive_planned);
  if (stop.drive.length > Metres{0}) words += ", " + fixed(in_kilometres(stop.drive.length), 1) + " km";
  if (route == nullptr || route->turns.empty()) {
    paper.text(words + ".", look);
    return;
  }
  words += ". ";
  for (std::size_t t = 0; t < route->turns.size(); ++t) {
    words += (t == 0 ? "" : " \u2192 ") + describe(route->turns[t]);
  }
  paper.text(words, look);
  for (const std::string& note : route->notes) paper.text("On the way: " + note, look);
}

std::string letters_of(std::string_view text) {
  std::string letters = in_lower_case(text);
  letters.erase(std::remove_if(letters.begin(), letters.end(),
                               [](char c) { return std::string_view(" ,;.:").find(c) != std::string_view::npos; }),
                letters.end());
  return letters;
}

// The sentences and half-sentences of cautions, each once: cards and tasks say some of them alike, with other stops.
std::vector<std::string> clauses_of(const std::vector<std::string>& cautions) {
  std::vector<std::string> clauses;
  std::string said;  // letters of all so far
  const auto add = [&clauses, &said](std::string_view clause) {
    const std::string letters = letters_of(clause);
    if (letters.empty() || said.find(letters) != std::string::npos) return;
    said += letters;
    clauses.emplace_back(clause);
  };
  for (const std::string& caution : cautions) {
    std::string_view rest = trimmed(caution);
    while (!rest.empty() && rest.back() == '.') rest.remove_suffix(1);
    while (!rest.empty()) {
      const std::size_t end = std::min({rest.find(". "), rest.find("; "), rest.size()});
      add(rest.substr(0, end));
      rest.remove_prefix(std::min(rest.size(), end + 2));
    }
  }
  return clauses;
}

void jobs(Paper& paper, const PaperSources& from, const CarDay& day, const TimedStop& stop) {
  if (from.jobs == nullptr) return;
  for (const StopJobs& one : from.jobs->stops) {
    if (one.car != day.car || !stop.stop.option || one.option != *stop.stop.option) continue;
    if (one.problem) {
      paper.text("Jobs: these people cannot do it all. " + one.problem->where + " " + one.problem->what + ".");
      return;
    }
    paper.heading(
        3, "Who does what (" + std::string(stop_kind_name(one.what.kind)) + "; minutes after the car has stopped)");
    // A column a person: each reads down their own, and the stop stays on one page.
    Table table;
    table.is_boxed = true;
    table.is_small = true;
    std::vector<std::string> cautions;
    const std::size_t people = one.cards.empty() ? 0 : one.cards.size() - 1;  // the last card is the rider's
    for (std::size_t c = 0; c < people; ++c) {
      const StopCard& card = one.cards[c];
      table.columns.push_back({card.who, false});
      table.rows.resize(std::max({table.rows.size(), card.lines.size(), std::size_t{1}}));
      for (std::size_t l = 0; l < card.lines.size(); ++l) {
        const CardLine& line = card.lines[l];
        std::string words = "+" + minutes_seconds(line.at) + "-" + minutes_seconds(line.until) + " " + line.task;
        std::string with;
        for (const auto& name : line.with) with += (with.empty() ? ", with " : ", ") + name;
        table.rows[l].resize(people);
        table.rows[l][c] = words + with;
        if (!line.caution.empty()) cautions.push_back(line.caution);
      }
      table.rows[0].resize(people);
      if (card.lines.empty()) table.rows[0][c] = "nothing to do here";
      cautions.insert(cautions.end(), card.cautions.begin(), card.cautions.end());
    }
    paper.table(table);
    std::string mind;
    for (const std::string& clause : clauses_of(cautions)) mind += (mind.empty() ? "Mind: " : "; ") + clause;
    paper.text(mind.empty() ? mind : mind + ".", paper.small());
    return;
  }
}

void get_out(Paper& paper, const PaperSources& from, const MeetOption& option) {
  if (from.kit == nullptr) return;
  const KitNeed need = option.kind == RideEvent::Kind::pass   ? KitNeed::pass
                       : option.kind == RideEvent::Kind::gate ? KitNeed::gate
                                                              : KitNeed::finish;
  std::string words;
  for (const KitEntry& entry : from.kit->list.taken) {
    const auto& needed = entry.item.needed;
    if (std::find(needed.begin(), needed.end(), need) == needed.end()) continue;
    // The box stays with its thing: no line ends between them.
    words += (words.empty() ? "" : "  ") + std::string(tick_box) + "\u00a0" +
             (entry.count > 1 ? std::to_string(entry.count) + "\u00a0\u00d7\u00a0" : "") + entry.item.name;
  }
  if (words.empty()) return;
  paper.heading(3, "Get out");
  paper.text(words, paper.small());
}

void drinks(Paper& paper, const PaperSources& from, const TimedStop& stop) {
  const RidePlan& plan = from.plan;
  const MeetOption& option = at(plan.task.options, *stop.stop.option);
  const auto row = forecast_row(plan, *stop.stop.option);
  std::vector<std::string> lines;
  const std::uint32_t loop = at(plan.task.horses, option.horse).events[option.event].loop.value + 1;
  if (row && *row < plan.welfare.passes.size()) {
    const PassWelfare& welfare = plan.welfare.passes[*row];
    if (welfare.drink.offer > Litres{0}) {
      lines.push_back("Water: have " + litres(welfare.drink.offer) +
                      " ready, and more if it wants more; usually taken " + litres(welfare.drink.taken.from) + " to " +
                      litres(welfare.drink.taken.to) + "; drunk best at " + fixed(welfare.drink.temperature.value, 0) +
                      " \u00b0C.");
    }
    const CoolingAdvice& cooling = welfare.cooling;
    if (cooling.is_cold) lines.emplace_back("Cold to the horse: a rug instead of water.");
    if (cooling.pour > Litres{0}) {
      std::string pour = "Pour " + litres(cooling.pour);
      if (cooling.slosh_bottles > 0)
        pour += "; " + std::to_string(cooling.slosh_bottles) +
                (cooling.slosh_bottles == 1 ? " slosh bottle for the rider" : " slosh bottles for the rider");
      if (cooling.pouring_bottles > 0)
        pour += "; " + std::to_string(cooling.pouring_bottles) +
                (cooling.pouring_bottles == 1 ? " pouring bottle" : " pouring bottles");
      if (cooling.ice > Kilograms{0})
        pour += "; " + fixed(cooling.ice.value, 1) + " kg of ice to bring it to " + fixed(cooling.water.value, 0) +
                " \u00b0C";
      lines.push_back(pour + ". How, and cautions: at the end.");
    }
    if (welfare.worst_heat) {
      lines.push_back("Heat: " + advice(welfare.worst_heat->band).name + ", WBGT " +
                      fixed(welfare.worst_heat->wbgt.value, 0) + " \u00b0C at worst.");
    }
    if (welfare.darkest != Light::day) lines.emplace_back("It may be dark or dusk: torches, reflective vests.");
  }
  if (option.horse.value < plan.ride.horses.size()) {
    for (const HorseLike& like : at(plan.ride.horses, option.horse).likes) {
      if (!holds_on(like, loop)) continue;
      lines.push_back(horse_in_words(plan, option.horse) + ": " + like_words(like) +
                      (like.note.empty() ? "" : " (" + like.note + ")") +
                      (like.electrolyte ? ". As agreed with your vet; never without water to drink beside it" : "") +
                      ".");
    }
  }
  if (lines.empty()) return;
  paper.heading(3, "Drinks and cooling, loop " + std::to_string(loop));
  paper.list(lines);
}

void to_write_down(Paper& paper, std::size_t rows) {
  paper.to_fill_in({"came at", "left at", "pulse", "drank (L)", "poured (L)", "next due"}, 80);
  paper.heading(3, "Numbers seen");
  Table numbers;
  numbers.is_boxed = true;
  numbers.row_height = 18;
  for (int i = 0; i < 4; ++i) numbers.columns.insert(numbers.columns.end(), {{"Number", true}, {"at", true}});
  numbers.rows.assign(rows, std::vector<TableCell>(8));
  paper.table(numbers);
}

}  // namespace

void meet_block(Paper& paper, const PaperSources& from, std::size_t d, std::size_t s) {
  const RidePlan& plan = from.plan;
  const CarDay& day = plan.plan.days[d];
  const TimedStop& stop = day.stops[s];
  std::string title = std::to_string(s + 1) + "  " + stop_words(plan, stop);
  if (stop.stop.option && plan.task.horses.size() > 1) {
    title += ": " + horse_in_words(plan, at(plan.task.options, *stop.stop.option).horse);
  }
  const Route* route = drive_into(plan, d, s);
  const auto where_and_when = [&](const Room& room) {
    if (s == 0) paper.heading(1, car_words(plan, day.car));
    paper.heading(2, title);
    times(paper, plan, day, s);
    drive(paper, stop, route, room.is_tight ? paper.small() : paper.look());
    place_row(paper, from, stop, route, room.map_height);
    about_place(paper, from, stop);
    if (stop.stop.option) {
      drinks(paper, from, stop);
      to_write_down(paper, room.rows);
    }
  };
  const auto who_does_what = [&] {
    if (!stop.stop.option) return;
    get_out(paper, from, at(plan.task.options, *stop.stop.option));
    jobs(paper, from, day, stop);
  };
  // A page a stop, if need be with a smaller map and less room to write; else two parts that each stay whole.
  Room room = rooms[0];
  for (const Room& one : rooms) {
    const bool fits = paper.fits_a_page([&] {
      where_and_when(one);
      who_does_what();
    });
    if (!fits) continue;
    room = one;
    break;
  }
  paper.keep_together([&] {
    paper.keep_together([&] { where_and_when(room); });
    paper.keep_together(who_does_what);
  });
}

}  // namespace outbye
