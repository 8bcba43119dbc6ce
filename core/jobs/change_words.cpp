#include "core/jobs/change_words.h"

#include <algorithm>
#include <functional>
#include <map>

namespace outbye {
namespace {

// So many are named in a sentence; what is at the horse comes first.
constexpr std::size_t most_named = 4;
constexpr Seconds worth_saying{30};

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  const std::size_t shown = names.size() > most_named + 1 ? most_named : names.size();
  for (std::size_t i = 0; i < shown; ++i) text += (i == 0 ? "" : "; ") + names[i];
  return text + (shown < names.size() ? "; and " + std::to_string(names.size() - shown) + " more" : "");
}

std::string names_of(const std::vector<Helper>& helpers, std::vector<HelperId> ids) {
  std::sort(ids.begin(), ids.end());
  std::string names;
  for (const HelperId id : ids) names += (names.empty() ? "" : " and ") + at(helpers, id).name;
  return names.empty() ? "nobody" : names;
}

// A task as planned and as it is now.
struct Pair {
  const StopTask* task;
  const ScheduledTask* was;
  const ScheduledTask* is;
  std::vector<HelperId> had;  // of those still there: who had it
};

class Words {
 public:
  Words(const CrewStop& before, const StopSchedule& planned, const RestOfStop& rest, StopChange& change)
      : before_(before), planned_(planned), change_(change) {
    for (const ScheduledTask& is : change.schedule.tasks) {
      Pair pair{&at(change.stop.tasks, is.task), nullptr, &is, {}};
      for (const ScheduledTask& was : planned.tasks) {
        if (was.task == at(rest.old, is.task)) pair.was = &was;
      }
      if (pair.was == nullptr) continue;
      for (const HelperId old : pair.was->hands) {
        const auto now = std::find(rest.helpers.begin(), rest.helpers.end(), old);
        if (now == rest.helpers.end()) continue;
        pair.had.push_back(HelperId{static_cast<std::uint32_t>(now - rest.helpers.begin())});
      }
      pairs_.push_back(std::move(pair));
    }
    std::stable_sort(pairs_.begin(), pairs_.end(), [](const Pair& a, const Pair& b) {
      return a.task->is_at_horse != b.task->is_at_horse ? a.task->is_at_horse : a.task->necessity < b.task->necessity;
    });
  }

  void say_what_matters() {
    auto& words = change_.words;
    horse(words);
    if (!change_.left_out.empty()) {
      std::vector<std::string> names;
      for (const TaskId id : change_.left_out) names.push_back(at(before_.tasks, id).name);
      words.push_back("Leave out: " + listed(names) + ".");
    }
    holder(words);
    for (std::uint32_t h = 0; h < change_.stop.helpers.size(); ++h) taken_over(HelperId{h}, words);
    fewer_hands(words);
    late(words);
    times(words);
    if (words.empty()) words.emplace_back("Nothing changes for the others.");
  }

  void say_all() {
    auto& all = change_.details;
    horse(all);
    for (const TaskId id : change_.left_out) all.push_back("Leave out: " + at(before_.tasks, id).name + ".");
    holder(all);
    std::stable_sort(pairs_.begin(), pairs_.end(),
                     [](const Pair& a, const Pair& b) { return a.is->start < b.is->start; });
    for (const Pair& pair : pairs_) {
      const std::string had = names_of(before_.helpers, pair.was->hands);
      const std::string has = names_of(change_.stop.helpers, pair.is->hands);
      std::string line;
      if (had != has) line = "now " + has + ", instead of " + had;
      if (pair.is->start != pair.was->start || pair.is->end != pair.was->end) {
        line += (line.empty() ? "" : "; ") + clock_of(*pair.is) + " instead of " + clock_of(*pair.was);
      }
      if (!line.empty()) all.push_back(pair.task->name + ": " + line + ".");
    }
    times(all);
    if (all.empty()) all.emplace_back("Nothing changes for the others.");
  }

 private:
  static std::string clock_of(const ScheduledTask& one) {
    const std::string from = minutes_and_seconds(one.start), to = minutes_and_seconds(one.end);
    return from.substr(0, from.find(' ')) + "-" + to.substr(0, to.find(' '));
  }

  void horse(std::vector<std::string>& words) const {
    const Seconds early = before_.horse_at - change_.stop.horse_at;
    if (early > Seconds{0}) {
      words.push_back("The horse comes " + minutes_and_seconds(early) + " earlier than planned, " +
                      (change_.stop.horse_at == Seconds{0}
                           ? "as the car stops."
                           : minutes_and_seconds(change_.stop.horse_at) + " after the car stops."));
    }
    const Seconds wait = change_.schedule.serve_start - change_.stop.horse_at;
    const Seconds planned_wait = planned_.serve_start - before_.horse_at;
    if (wait > Seconds{0} && wait != planned_wait) {
      words.push_back("The horse waits " + minutes_and_seconds(wait) + " until the crew is ready.");
    }
  }

  void holder(std::vector<std::string>& words) const {
    const auto who = [](const CrewStop& stop, const StopSchedule& schedule) -> std::string {
      if (schedule.holder) return at(stop.helpers, *schedule.holder).name;
      return stop.holder == Holder::mounted_rider ? "the mounted rider" : "the rider on foot";
    };
    const std::string held = who(before_, planned_), holds = who(change_.stop, change_.schedule);
    if (held != holds) words.push_back("Now " + holds + " holds the horse, instead of " + held + ".");
  }

  void taken_over(HelperId helper, std::vector<std::string>& words) const {
    std::vector<std::string> names;
    for (const Pair& pair : pairs_) {
      const auto& has = pair.is->hands;
      const bool is_mine = std::find(has.begin(), has.end(), helper) != has.end();
      if (is_mine && std::find(pair.had.begin(), pair.had.end(), helper) == pair.had.end()) {
        names.push_back(pair.task->name);
      }
    }
    if (!names.empty()) words.push_back(at(change_.stop.helpers, helper).name + " takes over: " + listed(names) + ".");
  }

  void fewer_hands(std::vector<std::string>& words) const {
    std::vector<std::string> names;
    for (const Pair& pair : pairs_) {
      if (pair.is->hands.size() >= pair.was->hands.size()) continue;
      names.push_back(pair.task->name + " (" + names_of(change_.stop.helpers, pair.is->hands) + ")");
    }
    if (!names.empty()) words.push_back("With fewer hands than planned: " + listed(names) + ".");
  }

  // What is done later than planned once serving has begun: the worst first, what is as late together.
  void late(std::vector<std::string>& words) const {
    std::map<Seconds, std::vector<std::string>, std::greater<>> late;
    for (const Pair& pair : pairs_) {
      if (pair.task->step != RoutineStep::serve || !pair.task->is_at_horse) continue;
      const Seconds by = (pair.is->start - change_.schedule.serve_start) - (pair.was->start - planned_.serve_start);
      if (by >= worth_saying) late[by].push_back(pair.task->name);
    }
    if (late.empty()) return;
    std::string text;
    for (const auto& [by, names] : late) {
      text += (text.empty() ? "While the horse stands, " : ". ") + minutes_and_seconds(by) + " later: " + listed(names);
    }
    words.push_back(text + ".");
  }

  void times(std::vector<std::string>& words) const {
    const Seconds was = planned_.serve_end - planned_.serve_start;
    const Seconds is = change_.schedule.serve_end - change_.schedule.serve_start;
    std::string text;
    if (was != is) {
      text = "The horse stands " + minutes_and_seconds(is) + " instead of " + minutes_and_seconds(was);
    }
    const Seconds later = change_.schedule.end - planned_.end;
    if (later != Seconds{0}) {
      text += (text.empty() ? "The crew is away " : "; the crew is away ") +
              minutes_and_seconds(later > Seconds{0} ? later : Seconds{0} - later) +
              (later > Seconds{0} ? " later" : " earlier") + ", " + minutes_and_seconds(change_.schedule.end) +
              " after the car stops";
    }
    if (!text.empty()) words.push_back(text + ".");
  }

  const CrewStop& before_;
  const StopSchedule& planned_;
  StopChange& change_;
  std::vector<Pair> pairs_;
};

}  // namespace

std::string minutes_and_seconds(Seconds time) {
  const auto s = static_cast<long>(time.count());
  return std::to_string(s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60) + " min";
}

void say_changes(const CrewStop& before, const StopSchedule& planned, const RestOfStop& rest, StopChange& change) {
  Words words(before, planned, rest, change);
  words.say_what_matters();
  words.say_all();
}

}  // namespace outbye
