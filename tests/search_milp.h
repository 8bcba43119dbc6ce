// The same choice of meets as a mixed-integer programme, for CBC: written from the rules, not from the search's own
// model (no openings, no limits of cars; gaps of horses yes). One binary for each move of a car and each link between
// helps.
#pragma once

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "core/base/text.h"
#include "tests/search_rides.h"

namespace outbye {

// Minimises minus the worth. Names: s<car>_<q>, x<p>_<q>, y<horse>_<u>_<v> (u = s: start, v = e: end).
inline void write_milp(const SearchRide& ride, const std::string& path) {
  const CrewingTask& task = ride.task;
  const std::size_t n = task.options.size();
  std::ostringstream objective;
  std::vector<std::string> in(n), out(n), names;
  const auto term = [&](double cost, const std::string& name) {
    objective << (cost < 0 ? " - " : " + ") << fixed(std::abs(cost), 12) << " " << name << "\n";
    names.push_back(name);
  };
  // Readiness of meeting q when the car is free at `from` from `free` on; nothing: too late.
  const auto readiness = [&](double free, PlaceId from, std::size_t q) -> std::optional<double> {
    const auto& drive = task.drives.drive(from, task.options[q].place);
    if (!drive) return std::nullopt;
    const double there = free + drive->time.count() * task.settings.drive_allowance;
    if (there + task.options[q].setup.count() <= ride.times.arrival[q]) return 1.0;
    if (there <= ride.times.departure[q]) return task.settings.part_worth;
    return std::nullopt;
  };
  std::ostringstream rows;
  for (std::size_t c = 0; c < task.cars.size(); ++c) {
    std::string leaves;
    for (std::size_t q = 0; q < n; ++q) {
      const auto ready = readiness((task.cars[c].ready_from - ride.times.origin).count(), task.cars[c].start, q);
      if (!ready) continue;
      const std::string name = "s" + std::to_string(c) + "_" + std::to_string(q);
      term(-*ready * task.options[q].worth, name);
      leaves += " + " + name;
      in[q] += " + " + name;
    }
    if (!leaves.empty()) rows << "car" << c << ":" << leaves << " <= 1\n";
  }
  for (std::size_t p = 0; p < n; ++p) {
    for (std::size_t q = 0; q < n; ++q) {
      if (p == q || ride.times.departure[p] > ride.times.departure[q]) continue;
      const MeetOption& before = task.options[p];
      std::optional<double> ready;
      if (before.place == task.options[q].place) {  // the kit stays up
        ready = ride.times.departure[p] <= ride.times.arrival[q] ? 1.0 : task.settings.part_worth;
      } else {
        ready = readiness(ride.times.departure[p] + before.pack.count(), before.place, q);
      }
      if (!ready) continue;
      const std::string name = "x" + std::to_string(p) + "_" + std::to_string(q);
      term(-*ready * task.options[q].worth, name);
      in[q] += " + " + name;
      out[p] += " - " + name;
    }
  }
  for (std::size_t q = 0; q < n; ++q) {
    if (!in[q].empty()) rows << "once" << q << ":" << in[q] << " <= 1\n";
    if (!out[q].empty()) rows << "flow" << q << ":" << in[q] << out[q] << " >= 0\n";
  }
  if (task.settings.gap_penalty > 0) {
    for (std::size_t h = 0; h < task.horses.size(); ++h) {
      const auto& events = task.horses[h].events;
      std::vector<std::size_t> helps;
      for (std::size_t q = 0; q < n; ++q) {
        if (task.options[q].horse.value == h) helps.push_back(q);
      }
      std::sort(helps.begin(), helps.end(),
                [&](std::size_t a, std::size_t b) { return task.options[a].event < task.options[b].event; });
      std::string starts, ends;
      std::vector<std::string> into(n), from(n);
      for (std::size_t u = 0; u <= helps.size(); ++u) {
        for (std::size_t v = u; v <= helps.size(); ++v) {
          // From the start (u = 0) or helps[u - 1] to helps[v] or the end (v = helps.size()).
          double last = u == 0 ? 0.0 : in_kilometres(task.options[helps[u - 1]].ride_along);
          const std::size_t first_event = u == 0 ? 0 : task.options[helps[u - 1]].event + 1;
          const std::size_t last_event = v == helps.size() ? events.size() - 1 : task.options[helps[v]].event;
          double cost = 0;
          for (std::size_t e = first_event; e <= last_event; ++e) {
            if (e < last_event && events[e].kind == RideEvent::Kind::pass) continue;
            const double km = in_kilometres(events[e].ride_along);
            cost += task.settings.gap_penalty * std::max(0.0, km - last - in_kilometres(task.settings.water_interval));
            last = km;
          }
          const std::string tail = u == 0 ? "s" : std::to_string(helps[u - 1]);
          const std::string head = v == helps.size() ? "e" : std::to_string(helps[v]);
          const std::string name = "y" + std::to_string(h) + "_" + tail + "_" + head;
          term(cost, name);
          (u == 0 ? starts : from[helps[u - 1]]) += " + " + name;
          (v == helps.size() ? ends : into[helps[v]]) += " + " + name;
        }
      }
      rows << "start" << h << ":" << starts << " = 1\n";
      for (const std::size_t q : helps) {
        std::string met = in[q];
        std::replace(met.begin(), met.end(), '+', '-');
        rows << "help" << q << ":" << into[q] << met << " = 0\n";
        std::string left = into[q];
        std::replace(left.begin(), left.end(), '+', '-');
        rows << "on" << q << ":" << from[q] << left << " = 0\n";
      }
    }
  }
  std::ofstream file(path);
  file << "Minimize\nobj:" << objective.str() << "Subject To\n" << rows.str() << "Binaries\n";
  for (const std::string& name : names) file << name << "\n";
  file << "End\n";
}

struct MilpAnswer {
  double worth{};
  double seconds{};  // of the whole process, and by its own count
  double own_seconds{};
};

inline bool has_cbc() { return std::system("cbc -quit > /dev/null 2>&1") == 0; }

// Nothing when CBC did not say that it found the optimum.
inline std::optional<MilpAnswer> solve_milp(const SearchRide& ride, const std::string& stem) {
  write_milp(ride, stem + ".lp");
  const auto begin = std::chrono::steady_clock::now();
  const int status =
      std::system(("cbc " + stem + ".lp -ratioGap 0 -allowableGap 0 -solve -quit > " + stem + ".log 2>&1").c_str());
  MilpAnswer answer;
  answer.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  std::ifstream log(stem + ".log");
  bool optimal = false;
  for (std::string line; std::getline(log, line);) {
    if (line.find("Optimal solution found") != std::string::npos) optimal = true;
    const auto value_of = [&](const char* key) -> std::optional<double> {
      if (line.rfind(key, 0) != 0) return std::nullopt;
      return parse_decimal(trimmed(std::string_view(line).substr(std::string_view(key).size())));
    };
    if (const auto v = value_of("Objective value:")) answer.worth = -*v;
    if (const auto v = value_of("Time (CPU seconds):")) answer.own_seconds = *v;
  }
  if (status != 0 || !optimal) return std::nullopt;
  return answer;
}

}  // namespace outbye
