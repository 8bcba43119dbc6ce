#include "formats/jobs_picture/jobs_picture.h"

#include <algorithm>
#include <cmath>

#include "formats/picture/svg.h"

namespace outbye {
namespace {

constexpr double width = 1123;  // A4 across
constexpr double left_edge = 120;
constexpr double right_edge = width - 30;
constexpr double top = 92;
constexpr double row_pitch = 44;
constexpr double bar_height = 28;
constexpr double line_pitch = 17;
constexpr double gap = 36;  // on the paper, for the wait

constexpr const char* style =
    "text{fill:#1f2428}.quiet{fill:#4a5058}.grid{stroke:#d5d2ca;stroke-width:.8}.row{stroke:#8a8f94;stroke-width:.8}"
    ".task{fill:#e3e1dc;stroke:#1f2428;stroke-width:1}.near{fill:#fff;stroke:#1f2428;stroke-width:3}"
    ".hold{fill:#fff;stroke:#1f2428;stroke-width:1.4;stroke-dasharray:5 3}"
    ".horse{stroke:#1f2428;stroke-width:1.6;stroke-dasharray:7 3}";

std::string clock_of(Seconds time) {
  const auto s = static_cast<long>(time.count());
  return std::to_string(s / 60) + ":" + (s % 60 < 10 ? "0" : "") + std::to_string(s % 60);
}

std::string letter_of(std::size_t task) {
  return std::string(1, task < 26 ? static_cast<char>('a' + task) : static_cast<char>('A' + (task - 26)));
}

class StopPicture {
 public:
  StopPicture(const CrewStop& stop, const StopSchedule& schedule, const std::string& title)
      : stop_(stop),
        schedule_(schedule),
        wait_(std::max(Seconds{0}, schedule.serve_start - schedule.ready)),
        svg_(width, height_of(stop, schedule), title, "Who does what when at a stop, a row a person, seconds across.",
             style) {
    const double length = std::max(1.0, (schedule.end - wait_).count());
    scale_ = (right_edge - left_edge - (wait_ > Seconds{0} ? gap : 0)) / length;
    svg_.text({30, 34}, shortened(title, 90), 18, Anchor::start, "font-weight=\"bold\"");
    svg_.text({30, 56},
              "Grey bar: a task. Thick edge: at the horse, somebody holds it. Dashed: holds the horse. Minutes:seconds "
              "after the car has stopped; with +, after serving begins.",
              11, Anchor::start, "class=\"quiet\"");
    draw_grid();
    draw_rows();
    draw_list();
  }
  std::string finish() && { return std::move(svg_).finish(); }

 private:
  static double height_of(const CrewStop& stop, const StopSchedule& schedule) {
    return list_top(stop) + line_pitch * static_cast<double>(schedule.tasks.size() + 3);
  }
  static double list_top(const CrewStop& stop) {
    return top + row_pitch * static_cast<double>(stop.helpers.size()) + 46;
  }

  // The horse starts a clock of its own: nobody reads 44:10 off a watch.
  std::string time_of(Seconds time) const {
    return time < schedule_.serve_start ? clock_of(time) : "+" + clock_of(time - schedule_.serve_start);
  }

  double x(Seconds time) const {
    const bool is_after = wait_ > Seconds{0} && time >= schedule_.serve_start;
    return left_edge + (time - (is_after ? wait_ : Seconds{0})).count() * scale_ + (is_after ? gap : 0);
  }

  void draw_grid() {
    const double bottom = top + row_pitch * static_cast<double>(stop_.helpers.size());
    double step = 15;
    while (step * scale_ < 48) step *= 2;
    const auto tick = [&](Seconds time) {
      svg_.line({x(time), top}, {x(time), bottom}, "class=\"grid\"");
      svg_.text({x(time), bottom + 15}, time_of(time), 10.5, Anchor::middle, "class=\"quiet\"");
    };
    for (double t = 0; t <= schedule_.ready.count(); t += step) tick(Seconds{t});
    for (double t = 0; t <= (schedule_.end - schedule_.serve_start).count(); t += step) {
      // The first tick after a wait is the horse's own.
      if (schedule_.serve_start.count() + t > schedule_.ready.count()) tick(schedule_.serve_start + Seconds{t});
    }
    const auto mark = [&](Seconds time, const char* words, Anchor anchor) {
      svg_.line({x(time), top - 14}, {x(time), bottom}, "class=\"horse\"");
      svg_.text({x(time) + (anchor == Anchor::start ? 4 : -4), top - 6}, words, 11, anchor);
    };
    mark(schedule_.serve_start, "horse here", Anchor::start);
    mark(schedule_.serve_end, "served", Anchor::start);
    if (wait_ > Seconds{0}) {
      svg_.text({x(schedule_.ready) + gap / 2, bottom + 30}, "wait " + clock_of(wait_), 10.5, Anchor::middle,
                "class=\"quiet\"");
    }
  }

  void bar(Seconds from, Seconds to, double y, const char* kind, const std::string& words) {
    const double end = std::max(x(from) + 3, x(to));
    svg_.rectangle({x(from), y, end, y + bar_height}, kind);
    if (end - x(from) >= text_width(words, 13)) {
      svg_.text({(x(from) + end) / 2, y + bar_height / 2 + 5}, words, 13, Anchor::middle);
    } else {
      svg_.text({(x(from) + end) / 2, y - 3}, words, 11, Anchor::middle);
    }
  }

  void draw_rows() {
    for (std::uint32_t h = 0; h < stop_.helpers.size(); ++h) {
      const double y = top + row_pitch * h + 13;
      svg_.text({30, y + bar_height / 2 + 5}, shortened(stop_.helpers[h].name, 12), 13, Anchor::start,
                "font-weight=\"bold\"");
      svg_.line({left_edge, y + bar_height}, {right_edge, y + bar_height}, "class=\"row\"");
      if (schedule_.holder == HelperId{h}) {
        bar(schedule_.serve_start, schedule_.serve_end, y, "class=\"hold\"", "holds");
      }
      for (std::size_t i = 0; i < schedule_.tasks.size(); ++i) {
        const ScheduledTask& one = schedule_.tasks[i];
        if (std::find(one.hands.begin(), one.hands.end(), HelperId{h}) == one.hands.end()) continue;
        const bool is_near = at(stop_.tasks, one.task).is_at_horse;
        bar(one.start, one.end, y, is_near ? "class=\"near\"" : "class=\"task\"", letter_of(i));
      }
    }
  }

  void draw_list() {
    double y = list_top(stop_) + line_pitch;
    for (std::size_t i = 0; i < schedule_.tasks.size(); ++i, y += line_pitch) {
      const ScheduledTask& one = schedule_.tasks[i];
      const StopTask& task = at(stop_.tasks, one.task);
      std::string who;
      for (const HelperId hand : one.hands) who += (who.empty() ? "" : " and ") + at(stop_.helpers, hand).name;
      svg_.text({30, y}, letter_of(i), 12, Anchor::start, "font-weight=\"bold\"");
      const bool is_with_horse = one.start >= schedule_.serve_start;
      const Seconds zero = is_with_horse ? schedule_.serve_start : Seconds{0};
      svg_.text({50, y}, (is_with_horse ? "+" : "") + clock_of(one.start - zero) + "-" + clock_of(one.end - zero), 12);
      svg_.text({128, y}, shortened(task.name + (who.empty() ? "" : ": " + who), 58), 12);
      if (!task.caution.empty()) svg_.text({500, y}, shortened("! " + task.caution, 110), 11);
    }
    svg_.text({30, y + 8}, "The rules of the day, the officials and the vets come first.", 11, Anchor::start,
              "class=\"quiet\"");
  }

  const CrewStop& stop_;
  const StopSchedule& schedule_;
  Seconds wait_;
  Svg svg_;
  double scale_{1};
};

}  // namespace

std::string stop_picture_svg(const CrewStop& stop, const StopSchedule& schedule, const std::string& title) {
  return StopPicture(stop, schedule, title).finish();
}

}  // namespace outbye
