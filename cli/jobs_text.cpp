#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "cli/jobs_report.h"
#include "cli/plan_table.h"
#include "cli/text_layout.h"
#include "core/base/text.h"

namespace outbye {
namespace {

std::string clock_time(Instant at, const RidePlan& plan) { return hours_minutes(at, plan.ride.clock); }

std::string names_of(const StopJobs& stop) {
  std::string names;
  for (const Helper& helper : stop.stop.helpers) names += (names.empty() ? "" : ", ") + helper.name;
  return names;
}

std::string row(const RidePlan& plan, const StopJobs& stop) {
  const StopSchedule& schedule = stop.schedule;
  std::string text = left(stop.name, 21) + " " + left(stop_kind_name(stop.what.kind), 14) +
                     clock_time(stop.arrive, plan) + right(clock_time(stop.due.p50, plan), 6);
  if (stop.problem) return text + "  nobody can do it: see below\n";
  text += right(minutes_seconds(serving_time(schedule)), 7) + (schedule.is_shortest_proven ? " proven " : " found  ") +
          right(stop.planned_stop ? minutes_seconds(*stop.planned_stop) : "-", 6) + "  ";
  const std::string names = names_of(stop);
  const std::size_t room = line_width - 70;
  return text + (display_width(names) <= room ? names : std::to_string(stop.people.size()) + " people") + "\n";
}

// A line of one card within the day.
std::string card_lines(const StopCard& card, const StopSchedule& schedule, bool is_rider) {
  std::string text;
  for (const CardLine& line : card.lines) {
    std::string with;
    for (const std::string& name : line.with) with += (with.empty() ? "" : ", ") + name;
    // The rider's card counts from the serving already.
    const Seconds zero = is_rider ? schedule.serve_start : Seconds{0};
    const std::string time = stop_span(schedule, zero + line.at, zero + line.until);
    text += wrapped(line.task + (with.empty() ? "" : (is_rider ? " (from " : " (with ") + with + ")"),
                    "  " + left(time, 14));
  }
  if (card.lines.empty()) text += is_rider ? "  nothing is handed up here\n" : "  nothing to do here\n";
  return text;
}

std::string stop_line(const RidePlan& plan, const StopJobs& stop, const Style& style) {
  return "\n" + style.heading(cut_to(stop.name, 24)) + "  " + stop_kind_name(stop.what.kind) + ", car in " +
         clock_time(stop.arrive, plan) + ", horse " + clock_time(stop.due.p50, plan) + " (" +
         clock_time(stop.due.p10, plan) + "-" + clock_time(stop.due.p90, plan) + ")\n";
}

// What was told on this card, and at what kind of stop.
using Told = std::vector<std::pair<StopKind, std::string>>;
constexpr const char* said_once = " A caution (!) stands once and holds at every later stop of that kind.";

std::string cautions_of(const std::vector<std::string>& cautions, StopKind kind, Told& told) {
  std::string text;
  for (const std::string& caution : cautions) {
    if (std::find(told.begin(), told.end(), std::pair(kind, caution)) != told.end()) continue;
    told.emplace_back(kind, caution);
    text += wrapped(caution, "  ! ");
  }
  return text;
}

}  // namespace

std::string minutes_seconds(Seconds time) {
  const auto s = static_cast<long>(std::llround(time.count()));
  return std::to_string(s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60);
}

std::string stop_span(const StopSchedule& schedule, Seconds from, Seconds until) {
  const bool is_with_horse = from >= schedule.serve_start;
  const Seconds zero = is_with_horse ? schedule.serve_start : Seconds{0};
  return (is_with_horse ? "+" : "") + minutes_seconds(from - zero) + "-" + minutes_seconds(until - zero);
}

std::string jobs_overview(const RidePlan& plan, const RideJobs& jobs, const Style& style) {
  std::string text = style.heading(cut_to("Jobs" + (plan.ride.name.empty() ? "" : ": " + plan.ride.name), 80)) + "\n";
  text += wrapped(long_date(plan.ride.start, plan.ride.clock) + ", times in " + plan.ride.clock.zone +
                  ". The shortest stop first, then the fairest over the day.");
  text += "\n" +
          style.quiet(left("stop", 22) + left("kind", 13) + right("car in", 6) + right("horse", 6) +
                      right("stands", 7) + right("plan", 14) + "  people") +
          "\n";
  for (const StopJobs& stop : jobs.stops) text += row(plan, stop);
  if (jobs.stops.empty()) text += "No meets are planned: nothing to do at a stop.\n";
  text += wrapped(
      "stands: how long the horse stands at least, min:s (proven: no schedule of these tasks is shorter; "
      "found: the shortest that was found). plan: how long it stands by the plan; at a gate with its hold.",
      "  ");
  text += "\n" + style.heading("Work over the day") + "\n";
  for (std::size_t p = 0; p < jobs.people.size(); ++p) {
    text += "  " + left(jobs.people[p].name, 24) + right(minutes_seconds(jobs.work[p]), 8) + " min   share " +
            fixed(jobs.people[p].share, 2) + ", " + cut_to(at(plan.task.cars, jobs.car_of[p]).name, 20) + "\n";
  }
  std::vector<std::string> problems;
  std::vector<std::pair<std::string, std::string>> warnings;  // what, and the stops it is said of
  for (const StopJobs& stop : jobs.stops) {
    for (const std::string& warning : stop.warnings) {
      const auto said =
          std::find_if(warnings.begin(), warnings.end(), [&](const auto& other) { return other.first == warning; });
      if (said == warnings.end()) {
        warnings.emplace_back(warning, stop.name);
      } else {
        said->second += ", " + stop.name;
      }
    }
    if (stop.problem) problems.push_back(stop.problem->where + " " + stop.problem->what + ".");
  }
  if (!warnings.empty()) {
    text += "\n" + style.doubtful("Warnings") + "\n";
    for (const auto& [warning, stops] : warnings) text += wrapped(stops + ": " + warning, "  ! ");
  }
  for (const std::string& problem : problems) text += wrapped(problem, "  ! ");
  text += list_section("Taken for granted", jobs.assumptions, style);
  text += list_section(
      "Remember",
      {"Times of tasks are common practice without a source: time your own crew.",
       "Somebody holds the horse before anybody touches it; at the shoulder, never alone behind it; hard hat.",
       "A full 25 L can is lifted by two. The rules of the day, the officials and the vets come first."},
      style);
  text += "\n" + wrapped("One stop: --stop NAME. Cards: --person NAME, --rider. A helper less: --without NAME.");
  return text;
}

std::string person_text(const RidePlan& plan, const RideJobs& jobs, std::size_t person, const Style& style) {
  const RideHelper& who = jobs.people[person];
  std::string text = style.heading(cut_to(who.name, 40)) + "  " + minutes_seconds(jobs.work[person]) +
                     " min of work over the day\n" + wrapped(std::string(span_words) + said_once);
  Told told;
  for (const StopJobs& stop : jobs.stops) {
    for (std::size_t h = 0; h < stop.people.size(); ++h) {
      if (stop.people[h] != person || stop.problem) continue;
      text += stop_line(plan, stop, style) + card_lines(stop.cards[h], stop.schedule, false);
      text += cautions_of(stop.cards[h].cautions, stop.what.kind, told);
    }
  }
  return text;
}

std::string rider_text(const RidePlan& plan, const RideJobs& jobs, const Style& style) {
  std::string text =
      style.heading("The rider: who gives you what") + "\n" +
      wrapped("Times are minutes and seconds from when the crew begins to serve the horse." + std::string(said_once));
  Told told;
  for (const StopJobs& stop : jobs.stops) {
    if (stop.problem) continue;
    text += stop_line(plan, stop, style) + card_lines(stop.cards.back(), stop.schedule, true);
    text += cautions_of(stop.cards.back().cautions, stop.what.kind, told);
    std::vector<std::string> of_tasks;
    for (const CardLine& line : stop.cards.back().lines) {
      if (!line.caution.empty()) of_tasks.push_back(line.task + ": " + line.caution);
    }
    text += cautions_of(of_tasks, stop.what.kind, told);
  }
  return text;
}

std::string without_text(const RideJobs& jobs, std::size_t person, bool all, const Style& style) {
  const std::string& name = jobs.people[person].name;
  std::string text = style.heading(cut_to("Without " + name, line_width)) + "\n";
  std::vector<std::pair<std::string, std::string>> parts;  // what changes, and the stops where it is the same
  for (const StopJobs& stop : jobs.stops) {
    for (std::size_t h = 0; h < stop.people.size(); ++h) {
      if (stop.people[h] != person || stop.problem) continue;
      const auto& change = stop.missing[h];
      std::string words;
      if (!change) {
        words = wrapped(change.error().where + " " + change.error().what + ".", "  ! ");
      } else {
        for (const std::string& one : all ? change->details : change->words) words += wrapped(one, "  - ");
      }
      const auto same = std::find_if(parts.begin(), parts.end(), [&](const auto& part) { return part.first == words; });
      if (same == parts.end()) {
        parts.emplace_back(words, stop.name);
      } else {
        same->second += "; " + stop.name;
      }
    }
  }
  for (const auto& [words, stops] : parts) text += "\n" + style.heading(wrapped(stops)) + words;
  text += "\n" + wrapped("A crew of " + std::to_string(jobs.people.size() - 1) +
                         " shares the work like this: " + crew_size_advice(jobs.people.size() - 1) + ".");
  return text;
}

}  // namespace outbye
