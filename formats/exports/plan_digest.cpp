#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/exports.h"
#include "formats/exports/plan_words.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

constexpr std::size_t most_characters = 1199;

std::size_t characters(const std::string& utf8) {
  return static_cast<std::size_t>(
      std::count_if(utf8.begin(), utf8.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string cut(const std::string& utf8, std::size_t most) {
  if (characters(utf8) <= most) return utf8;
  std::string out;
  for (const char c : utf8) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U && characters(out) + 1 > most - 1) break;
    out += c;
  }
  return out + "~";
}

// How much of the day is told; each level says less.
struct Detail {
  bool spans{true};
  bool refills{true};
  bool leaves{true};
  std::size_t name{60};
};
constexpr Detail details[] = {{true, true, true, 60},   {false, true, true, 40},   {false, false, true, 24},
                              {false, false, true, 14}, {false, false, false, 14}, {false, false, false, 8}};

std::string meet_line(const RidePlan& plan, const CarDay& day, std::size_t index, const Detail& detail) {
  const TimedStop& stop = day.stops[index];
  std::string line = stop.stop.option ? time_words(stop.due.p50, plan) : time_words(stop.arrive, plan);
  if (stop.stop.option && detail.spans) line += " (" + span_words(stop.due, plan) + ")";
  line += " " + cut(stop_words(plan, stop), detail.name);
  if (detail.leaves && stop.drive_planned > Seconds{0}) {
    line += ": go " + time_words(stop.depart, plan);
    if (const TimedStop* limit = limit_for(day, index)) line += ", by " + time_words(*limit->leave_by, plan);
  }
  return line + "\n";
}

std::string told(const RidePlan& plan, const ExportChoice& choice, const Detail& detail, std::size_t most_lines) {
  std::string out = cut(plan.ride.name.empty() ? "Crew plan" : plan.ride.name, detail.name) + ", " +
                    local_date(plan.ride.start, plan.ride.clock) + ", start " + time_words(plan.ride.start, plan) +
                    "\n";
  for (const CarDay& day : plan.plan.days) {
    if (choice.only_car && day.car != *choice.only_car) continue;
    out += cut(car_words(plan, day.car), detail.name) + ":\n";
    std::size_t lines = 0, left_out = 0;
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      if (!detail.refills && !day.stops[s].stop.option) continue;
      if (lines++ < most_lines) {
        out += meet_line(plan, day, s, detail);
      } else {
        ++left_out;
      }
    }
    if (left_out > 0) out += "and " + std::to_string(left_out) + " more\n";
  }
  for (const PassForecast& pass : plan.passes) {
    if (pass.event.kind != RideEvent::Kind::finish) continue;
    out += "Finish " + cut(horse_in_words(plan, pass.horse), detail.name) + " " + time_words(pass.due.p50, plan) +
           " (" + span_words(pass.due, plan) + ")\n";
  }
  return xml_text(out + "Times of 8 in 10 simulated days; rules of the day and officials win.\n");
}

}  // namespace

std::string plan_digest(const RidePlan& plan, const ExportChoice& choice) {
  for (const Detail& detail : details) {
    std::string text = told(plan, choice, detail, SIZE_MAX);
    if (characters(text) <= most_characters) return text;
  }
  // Many cars and meets: the first of each car, and how many more there are.
  for (std::size_t lines = 40; lines > 0; --lines) {
    std::string text = told(plan, choice, details[5], lines);
    if (characters(text) <= most_characters) return text;
  }
  return cut(told(plan, choice, details[5], 0), most_characters);
}

}  // namespace outbye
