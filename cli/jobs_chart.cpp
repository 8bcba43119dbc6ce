// One stop drawn in letters: a row a person, a column for so many seconds, a letter for a task. Nothing in it needs
// colour.
#include <algorithm>
#include <cmath>

#include "cli/jobs_report.h"
#include "cli/text_layout.h"
#include "core/base/text.h"

namespace outbye {
namespace {

constexpr std::size_t label_width = 12;
constexpr std::size_t chart_width = line_width - label_width - 1;
constexpr char holding = '=';

char letter_of(std::size_t task) {
  return task < 26 ? static_cast<char>('a' + task) : static_cast<char>('A' + (task - 26));
}

// Steps that people read off a watch.
double seconds_a_column(double length) {
  for (const double step : {1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0}) {
    if (length <= step * static_cast<double>(chart_width)) return step;
  }
  return 60.0 * std::ceil(length / 60.0 / static_cast<double>(chart_width));
}

class StopChart {
 public:
  StopChart(const CrewStop& stop, const StopSchedule& schedule) : stop_(stop), schedule_(schedule) {}

  // Tasks that begin within the time, and holding.
  std::string part(Seconds from, Seconds to) {
    const double length = (to - from).count();
    if (length <= 0) return "";
    step_ = seconds_a_column(length);
    from_ = from;
    columns_ = static_cast<std::size_t>(std::ceil(length / step_));
    std::string text = scale();
    for (std::uint32_t h = 0; h < stop_.helpers.size(); ++h) {
      text += left(stop_.helpers[h].name, label_width) + " " + row(HelperId{h}) + "\n";
    }
    return text;
  }

 private:
  std::size_t column(Seconds time) const {
    const double at = std::clamp((time - from_).count() / step_, 0.0, static_cast<double>(columns_));
    return static_cast<std::size_t>(std::lround(at));
  }

  std::string scale() const {
    std::string marks(columns_ + 8, ' ');
    for (std::size_t c = 0; c < columns_; c += 12) {
      const Seconds at = from_ + Seconds{step_ * static_cast<double>(c)};
      const bool is_with_horse = from_ >= schedule_.serve_start;
      const std::string time = is_with_horse ? "+" + minutes_seconds(at - schedule_.serve_start) : minutes_seconds(at);
      if (c + time.size() <= marks.size()) marks.replace(c, time.size(), time);
    }
    const std::string text = left("1 col " + fixed(step_, 0) + " s", label_width) + " " + marks.substr(0, chart_width);
    return text.substr(0, text.find_last_not_of(' ') + 1) + "\n";
  }

  void fill(std::string& cells, Seconds start, Seconds end, char with) const {
    if (end <= from_ || start >= from_ + Seconds{step_ * static_cast<double>(columns_)}) return;
    const std::size_t first = std::min(column(start), columns_ - 1);
    const std::size_t last = std::max(column(end), first + 1);  // the shortest task is a column
    for (std::size_t c = first; c < last && c < columns_; ++c) cells[c] = with;
  }

  std::string row(HelperId me) const {
    std::string cells(columns_, '.');
    if (schedule_.holder == me) fill(cells, schedule_.serve_start, schedule_.serve_end, holding);
    for (std::size_t i = 0; i < schedule_.tasks.size(); ++i) {
      const ScheduledTask& task = schedule_.tasks[i];
      if (std::find(task.hands.begin(), task.hands.end(), me) == task.hands.end()) continue;
      fill(cells, task.start, task.end, letter_of(i));
    }
    return cells;
  }

  const CrewStop& stop_;
  const StopSchedule& schedule_;
  Seconds from_{};
  double step_{1.0};
  std::size_t columns_{};
};

std::string legend(const CrewStop& stop, const StopSchedule& schedule) {
  std::string text;
  for (std::size_t i = 0; i < schedule.tasks.size(); ++i) {
    const ScheduledTask& one = schedule.tasks[i];
    const StopTask& task = at(stop.tasks, one.task);
    std::string who;
    for (const HelperId hand : one.hands) who += (who.empty() ? "" : " and ") + at(stop.helpers, hand).name;
    const std::string time = stop_span(schedule, one.start, one.end);
    text += wrapped(task.name + (who.empty() ? "" : ": " + who) + (task.is_at_horse ? " (at the horse)" : ""),
                    std::string(1, letter_of(i)) + "  " + left(time, 13));
    if (!task.caution.empty()) text += wrapped(task.caution, "     ! ");
  }
  if (schedule.holder) {
    text += wrapped(
        "holds the horse: " + at(stop.helpers, *schedule.holder).name,
        std::string(1, holding) + "  " + left(stop_span(schedule, schedule.serve_start, schedule.serve_end), 13));
  } else {
    text += wrapped(stop.holder == Holder::rider_on_foot ? "The rider holds the horse, on foot, at its head."
                                                         : "The rider stays mounted and holds the horse.");
  }
  return text;
}

}  // namespace

std::string stop_text(const RidePlan& plan, const StopJobs& stop, bool all, const Style& style) {
  const Clock& clock = plan.ride.clock;
  const StopSchedule& schedule = stop.schedule;
  std::string text = style.heading(cut_to(stop.name, 60)) + "  " + stop_kind_name(stop.what.kind) + "\n";
  if (stop.problem) return text + wrapped(stop.problem->where + " " + stop.problem->what + ".", "  ! ");
  text += wrapped("Car in at " + hours_minutes(stop.arrive, clock) + " (" +
                  cut_to(at(plan.task.cars, stop.car).name, 30) + "); horse due " + hours_minutes(stop.due.p50, clock) +
                  ", " + minutes_seconds(stop.stop.horse_at) + " min after it. " + span_words);
  text += wrapped("Ready at " + minutes_seconds(schedule.ready) + ", serves " + minutes_seconds(schedule.serve_start) +
                  " to " + minutes_seconds(schedule.serve_end) + ": the horse stands " +
                  minutes_seconds(serving_time(schedule)) + " min (" +
                  (schedule.is_shortest_proven
                       ? "proven: these people cannot do it in less"
                       : "the shortest found; the crew is away no earlier than " + minutes_seconds(schedule.bound)) +
                  "), away at " + minutes_seconds(schedule.end) + ".");
  StopChart chart(stop.stop, schedule);
  text += "\n" + style.heading("Before the horse") + "\n" + chart.part(Seconds{0}, schedule.ready);
  text += "\n" + style.heading("With the horse") + "\n" + chart.part(schedule.serve_start, schedule.serve_end);
  text += "\n" + style.heading("After it") + "\n" + chart.part(schedule.serve_end, schedule.end);
  text += "\n" + legend(stop.stop, schedule);
  if (stop.early) {
    text += "\n" + style.heading("If the horse comes early (one day in ten)") + "\n";
    for (const std::string& words : all ? stop.early->details : stop.early->words) text += wrapped(words, "  - ");
  }
  for (std::size_t h = 0; h < stop.missing.size(); ++h) {
    text += "\n" + style.heading(cut_to("Without " + stop.stop.helpers[h].name, line_width)) + "\n";
    if (!stop.missing[h]) {
      text += wrapped(stop.missing[h].error().where + " " + stop.missing[h].error().what + ".", "  ! ");
      continue;
    }
    for (const std::string& words : all ? stop.missing[h]->details : stop.missing[h]->words)
      text += wrapped(words, "  - ");
  }
  if (!all && (stop.early || !stop.missing.empty())) text += "\n" + wrapped("Every difference: --all.");
  if (!stop.warnings.empty()) text += "\n";
  for (const std::string& warning : stop.warnings) text += wrapped(warning, "! ");
  if (!stop.notes.empty()) text += "\n";
  for (const std::string& note : stop.notes) text += wrapped(note);
  return text;
}

}  // namespace outbye
