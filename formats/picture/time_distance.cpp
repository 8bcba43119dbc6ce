#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/clock.h"
#include "core/base/text.h"
#include "formats/picture/day_shape.h"
#include "formats/picture/labels.h"
#include "formats/picture/marks.h"
#include "formats/picture/picture.h"

namespace outbye {
namespace {

constexpr Box plot{210, 70, 1093, 708};
constexpr Box sky{210, 56, 1093, 69};  // heat and light hour by hour, above the plot
constexpr double car_drop = 4;  // cars lie this far below the row, so that a hold is not hidden by who waits for it
constexpr double name_size = 9.5;
constexpr double pitch = 9.8;  // between rows of text

constexpr const char* style =
    "text{fill:#1f2428}.halo{paint-order:stroke;stroke:#fff;stroke-width:2.4px;stroke-linejoin:round}"
    ".quiet{fill:#5a6068}.frame{fill:none;stroke:#8a8f94}.grid{stroke:#e3e1dc;stroke-width:.8}.row{stroke:#d5d2ca;"
    "stroke-width:.7}.met{stroke:#a9a59b;stroke-width:.8}.gate{stroke:#7d7a72;stroke-width:1.2}.band{stroke:none}"
    ".horse{fill:none;stroke-width:2;stroke-linejoin:round}.hold{fill:none;stroke-width:4.4}.stay{stroke:#5a6068;"
    "stroke-width:.8;stroke-dasharray:1 2}.drive{fill:none;"
    "stroke:#1f2428;stroke-width:1.3}.setup{fill:#c9c6bd;stroke:#1f2428;stroke-width:.8}.wait{fill:#fff;"
    "stroke:#1f2428;stroke-width:.8}.here{fill:#1f2428;stroke:#1f2428;stroke-width:.8}.pack{fill:#85827a;"
    "stroke:#1f2428;stroke-width:.8}.late{fill:none;stroke:#1f2428;stroke-width:.9;stroke-dasharray:1.5 1.5}"
    ".mark{fill:#fff;stroke:#1f2428;stroke-width:1.5}.full{fill:#1f2428}.tick{stroke:#1f2428;stroke-width:1.6}"
    ".leader{stroke:#8a8f94;stroke-width:.6}.sky{fill:#fff;stroke:#8a8f94;stroke-width:.8}.dark{fill:#1f2428;"
    "fill-opacity:.13}.dusk{fill:#1f2428;fill-opacity:.06}";

struct Row {
  Metres along;
  std::string name;
  std::string event;  // "", ", gate 1"
  bool is_gate{};
  bool is_met{};
};

class TimeDistance {
 public:
  explicit TimeDistance(const RidePlan& plan)
      : plan_(plan),
        meets_(meets_of(plan)),
        labels_({plot.left + 2, plot.top + 2, plot.right - 2, plot.bottom - 2}),
        svg_(
            1123, 794, plan.ride.name + ": time and distance",
            "Clock time to the right, kilometres of the ride upwards: where each horse and each car is, and the chance "
            "of every meet.",
            style) {
    find_range();
    draw_frame();
    draw_sky();
    draw_rows();
    svg_.clip("plot", plot);
    svg_.open("clip-path=\"url(#plot)\"");
    draw_horses();
    draw_cars();
    svg_.close();
    svg_.rectangle(plot, "class=\"frame\"");
    draw_odds();
    name_lines();
    draw_legend();
  }
  std::string finish() && { return std::move(svg_).finish(); }

 private:
  double x(Instant at) const { return plot.left + (at - from_).count() * units_per_second_; }
  double y(Metres along) const { return plot.bottom - 14 - along.value * units_per_metre_; }
  void find_range();
  void draw_frame();
  void draw_sky();
  void draw_rows();
  void draw_horses();
  void draw_cars();
  void draw_stop(const TimedStop& stop, double level);
  void draw_odds();
  void name_lines();
  void draw_legend();
  std::string horse_name(HorseId horse, std::size_t columns) const {
    const auto& horses = plan_.ride.horses;
    if (horse.value < horses.size() && !horses[horse.value].name.empty()) {
      return shortened(horses[horse.value].name, columns);
    }
    return plan_.task.horses.size() == 1 ? "horse" : "horse " + std::to_string(horse.value + 1);
  }

  const RidePlan& plan_;
  std::vector<Meet> meets_;
  Labels labels_;
  Svg svg_;
  Instant from_, to_;
  double units_per_second_{1};
  double units_per_metre_{1};
  struct Name {
    Spot at;
    std::string words;
    std::string fill;
  };
  std::vector<Name> names_;  // of horses and cars, put beside their lines at the end
  std::vector<Name> notes_;  // of what else a car does
};

const char* class_of(CarDoes does) {
  switch (does) {
    case CarDoes::meet:
      return "class=\"here\"";
    case CarDoes::pack:
      return "class=\"pack\"";
    case CarDoes::setup:
    case CarDoes::refill:
    case CarDoes::errand:
      return "class=\"setup\"";
    case CarDoes::drive:
    case CarDoes::wait:
    case CarDoes::rest:
    case CarDoes::free:
      break;
  }
  return "class=\"wait\"";
}

std::string shown_name(const std::string& name, std::size_t columns, const std::string& otherwise) {
  return name.empty() ? otherwise : shortened(name, columns);
}

void TimeDistance::find_range() {
  const auto shown = shown_day(plan_);
  from_ = shown.from;
  to_ = shown.to;
  const Seconds span = to_ - from_;
  from_ = from_ - 0.02 * span;
  const double room = 118;  // for the odds of the last meet
  units_per_second_ = (plot.right - plot.left - room) / (1.04 * span.count());
  const double length = std::max(plan_.survey.course.length.value, 1.0);
  units_per_metre_ = (plot.bottom - plot.top - 28) / length;
}

void TimeDistance::draw_frame() {
  const Ride& ride = plan_.ride;
  svg_.text({28, 32}, shown_name(ride.name, 60, "The ride"), 20, Anchor::start, "font-weight=\"bold\"");
  svg_.text({28, 48},
            "Where the horse and the crew are, " + local_date(ride.start, ride.clock) + " (" + ride.clock.zone +
                "). Percentages: chance to be ready before the horse.",
            11, Anchor::start, "class=\"quiet\"");
  double before = plot.bottom;  // a tint for every other loop
  Metres along{};
  for (std::size_t l = 0; l < plan_.survey.course.loops.size(); ++l) {
    along += plan_.survey.course.loops[l].length;
    const double after = l + 1 == plan_.survey.course.loops.size() ? plot.top : y(along);
    if (l % 2 == 1) svg_.rectangle({plot.left, after, plot.right, before}, "fill=\"#f7f5f0\"");
    before = after;
  }
  double step = 900;  // seconds between time marks, at least 44 units apart
  for (const double candidate : {900.0, 1800.0, 3600.0, 7200.0, 10800.0, 21600.0, 43200.0, 86400.0}) {
    step = candidate;
    if (step * units_per_second_ >= 44) break;
  }
  const double offset = Seconds{offset_at(ride.clock, ride.start)}.count();
  const double first = std::ceil((from_.time_since_epoch().count() + offset) / step) * step - offset;
  for (double at = first; x(Instant{Seconds{at}}) <= plot.right; at += step) {
    const Instant instant{Seconds{at}};
    svg_.line({x(instant), plot.top}, {x(instant), plot.bottom}, "class=\"grid\"");
    if (x(instant) > plot.right - 16 || x(instant) < plot.left + 14) continue;
    svg_.text({x(instant), plot.bottom + 14}, hours_minutes(instant, ride.clock), 10, Anchor::middle);
    const std::string day = local_date(instant, ride.clock);
    if (day != local_date(Instant{Seconds{at - step}}, ride.clock) && at > first) {
      svg_.line({x(instant), plot.top}, {x(instant), plot.bottom}, "class=\"met\"");
      svg_.text({x(instant), plot.bottom + 26}, day, 9.5, Anchor::middle, "class=\"quiet\"");
    }
  }
}

// Heat and light: a strip above the plot with the WBGT and the band in words, and dark hours shaded.
void TimeDistance::draw_sky() {
  const double room = plot.right - plot.left;
  const Interval<Instant> shown{from_, from_ + Seconds{room / units_per_second_}};
  const auto dark = dark_spans(plan_.survey.venue, shown);
  const auto heat = heat_spans(plan_, shown);
  std::vector<Instant> edges{shown.from, shown.to};
  for (const auto& span : dark) {
    svg_.rectangle({x(span.when.from), plot.top, x(span.when.to), plot.bottom},
                   span.light == Light::dark ? "class=\"dark\"" : "class=\"dusk\"");
    edges.insert(edges.end(), {span.when.from, span.when.to});
  }
  for (const auto& span : heat) edges.insert(edges.end(), {span.when.from, span.when.to});
  std::sort(edges.begin(), edges.end());
  for (std::size_t i = 1; i < edges.size(); ++i) {
    const Interval<Instant> patch{edges[i - 1], edges[i]};
    const auto is_in = [&patch](const auto& span) { return span.when.from <= patch.from && patch.to <= span.when.to; };
    std::string words;
    if (const auto warm = std::find_if(heat.begin(), heat.end(), is_in); warm != heat.end()) {
      words = "heat: " + in_lower_case(advice(warm->band).name) + ", WBGT " + advice(warm->band).wbgt;
    }
    if (const auto dim = std::find_if(dark.begin(), dark.end(), is_in); dim != dark.end()) {
      words = std::string(dim->light == Light::dark ? "dark" : "twilight") + (words.empty() ? "" : "; " + words);
    }
    if (words.empty() || patch.to <= patch.from) continue;
    svg_.rectangle({x(patch.from), sky.top, x(patch.to), sky.bottom}, "class=\"sky\"");
    const double width = x(patch.to) - x(patch.from) - 6;
    const std::string bare = words.substr(0, words.find(','));
    const std::string& written = text_width(words, 9) <= width ? words : bare;
    if (text_width(written, 9) <= width) {
      svg_.text({(x(patch.from) + x(patch.to)) / 2, sky.bottom - 3.4}, written, 9, Anchor::middle);
    }
  }
}

void TimeDistance::draw_rows() {
  const Course& course = plan_.survey.course;
  std::vector<bool> is_met(course.passes.size(), false);
  for (const auto& meet : meets_) {
    const auto& event = at(plan_.task.horses, meet.option->horse).events[meet.option->event];
    if (event.pass) is_met[event.pass->value] = true;
  }
  std::vector<Row> rows;
  rows.push_back({Metres{0}, plan_.ride.venue, ", start", true, true});
  Metres along{};
  for (std::size_t l = 0; l < course.loops.size(); ++l) {
    for (std::size_t p = 0; p < course.passes.size(); ++p) {
      if (course.passes[p].loop.value != l) continue;
      rows.push_back({course.passes[p].ride_along, at(course.crew_points, course.passes[p].crew_point).name, "", false,
                      is_met[p]});
    }
    along += course.loops[l].length;
    const bool is_last = l + 1 == course.loops.size();
    rows.push_back({along, plan_.ride.venue, is_last ? ", finish" : ", gate " + std::to_string(l + 1), true, true});
  }
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.along < b.along; });
  for (const auto& row : rows) {
    svg_.line({plot.left, y(row.along)}, {plot.right, y(row.along)},
              row.is_gate  ? "class=\"gate\""
              : row.is_met ? "class=\"met\""
                           : "class=\"row\" stroke-dasharray=\"2 3\"");
  }
  for (const auto& row : rows) labels_.avoid({{plot.left, y(row.along)}, {plot.right, y(row.along)}});
  // Names that do not fit: first those of passes nobody meets go, then every other one.
  const auto most = static_cast<std::size_t>((plot.bottom - plot.top) / pitch);
  if (rows.size() > most) std::erase_if(rows, [](const Row& row) { return !row.is_gate && !row.is_met; });
  while (rows.size() > most) {
    std::size_t kept = 0;
    std::erase_if(rows, [&](const Row& row) { return !row.is_gate && kept++ % 2 == 1; });
    if (kept < 2) break;
  }
  std::vector<double> wanted;
  for (auto row = rows.rbegin(); row != rows.rend(); ++row) wanted.push_back(y(row->along));
  const auto levels = spread_out(wanted, pitch, plot.top + 8, plot.bottom - 2);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& row = rows[rows.size() - 1 - i];
    svg_.line({plot.left - 14, levels[i]}, {plot.left, wanted[i]}, "class=\"leader\"");
    const std::string attributes = row.is_gate ? "font-weight=\"bold\"" : row.is_met ? "" : "class=\"quiet\"";
    const std::string km = fixed(in_kilometres(row.along), 1);
    svg_.text({plot.left - 17, levels[i] + 3.4}, km, name_size, Anchor::end, attributes);
    std::size_t columns = 32;
    const auto words = [&] { return shortened(row.name, columns) + row.event; };
    while (columns > 4 && 0.92 * text_width(words(), name_size, row.is_gate) > plot.left - 54 - 14) --columns;
    svg_.text({plot.left - 52, levels[i] + 3.4}, words(), name_size, Anchor::end, attributes);
  }
  svg_.text({plot.left - 17, plot.top - 2}, "km", name_size, Anchor::end, "class=\"quiet\"");
}

void TimeDistance::draw_horses() {
  for (std::uint32_t h = 0; h < plan_.task.horses.size(); ++h) {
    const HorseLine line = horse_line(plan_, HorseId{h});
    std::vector<Spot> early, late, middle;
    for (const auto& knot : line.knots) {
      early.push_back({x(knot.at.p10), y(knot.along)});
      middle.push_back({x(knot.at.p50), y(knot.along)});
      late.push_back({x(knot.at.p90), y(knot.along)});
    }
    std::vector<Spot> band = early;
    band.insert(band.end(), late.rbegin(), late.rend());
    svg_.path(band, "class=\"band\" fill=\"" + ink(h) + "\" fill-opacity=\".17\"", true);
    for (const auto& edge : {early, late}) {
      svg_.path(edge, "fill=\"none\" stroke=\"" + ink(h) + "\" stroke-width=\".7\" stroke-dasharray=\"" +
                          (h == 0 ? "none" : dashes(h)) + '"');
    }
    svg_.path(middle,
              "class=\"horse\" stroke=\"" + ink(h) + "\" stroke-dasharray=\"" + (h == 0 ? "none" : dashes(h)) + '"');
    for (const auto& gate : line.gates) {
      const Spot in_time{x(gate.accepted), y(gate.along)};
      svg_.line(in_time, {x(gate.out), y(gate.along)}, "class=\"hold\" stroke=\"" + ink(h) + '"');
      svg_.circle(in_time, 2.6, "fill=\"#fff\" stroke=\"" + ink(h) + "\" stroke-width=\"1.4\"");
    }
    labels_.avoid(middle);
    labels_.avoid(early);
    labels_.avoid(late);
    names_.push_back({middle.back(), horse_name(HorseId{h}, 24), ink(h)});
  }
}

void TimeDistance::draw_stop(const TimedStop& stop, double level) {
  const bool is_meet = stop.stop.kind == PlannedStop::Kind::meet && stop.stop.option;
  const double half = is_meet ? 2.4 : 1.6;
  const auto piece = [&](Instant begin, Instant end, const char* attributes, double thick) {
    if (end <= begin) return;
    svg_.rectangle({x(begin), level - thick, std::max(x(end), x(begin) + 0.6), level + thick}, attributes);
  };
  for (const auto& span : stop_spans(plan_, stop, 0, Metres{0})) piece(span.from, span.to, class_of(span.does), half);
  if (is_meet)
    piece(stop.due.p50, stop.ready, "class=\"late\"", half + 1);  // the horse is there before the crew is ready
}

void TimeDistance::draw_cars() {
  for (std::size_t c = 0; c < plan_.plan.days.size(); ++c) {
    const auto& day = plan_.plan.days[c];
    const std::string dash = "stroke-dasharray=\"" + (c == 0 ? std::string("none") : dashes(c)) + '"';
    double level = y({0}) + car_drop;
    bool is_first = true;
    std::optional<Instant> free;  // when it was done with the stop before
    for (const auto& stop : day.stops) {
      double next = level;  // refills and rests are drawn where the car was last: they lie off the course
      if (stop.stop.option) next = y(at(plan_.task.options, *stop.stop.option).ride_along) + car_drop;
      if (stop.arrive > stop.depart) {
        const std::vector<Spot> drive{{x(stop.depart), level}, {x(stop.arrive), next}};
        svg_.path(drive, "class=\"drive\" " + dash);
        labels_.avoid(drive);
        if (free && stop.depart > *free) svg_.line({x(*free), level}, {x(stop.depart), level}, "class=\"stay\"");
      } else if (next != level) {  // the same place, farther along the ride: the car stays
        svg_.line({x(stop.arrive), level}, {x(stop.arrive), next}, "class=\"stay\"");
      }
      if (is_first) {
        names_.push_back({{(x(stop.depart) + x(stop.arrive)) / 2, (level + next) / 2},
                          shown_name(at(plan_.task.cars, day.car).name, 24, "car"),
                          "#1f2428"});
      }
      is_first = false;
      free = stop.leave;
      draw_stop(stop, next);
      if (!stop.stop.option) {
        const bool is_refill = stop.stop.refill && *stop.stop.refill < plan_.task.refills.size();
        notes_.push_back({{(x(stop.arrive) + x(stop.leave)) / 2, next},
                          is_refill ? shortened(plan_.task.refills[*stop.stop.refill].label, 18) : "rest",
                          "#1f2428"});
      }
      labels_.take({x(stop.arrive) - 1, next - 4, std::max(x(stop.leave), x(stop.due.p50)) + 1, next + 4});
      level = next;
    }
  }
}

void TimeDistance::draw_odds() {
  for (const auto& meet : meets_) {
    const double level = y(meet.option->ride_along);
    const double here = x(meet.stop->due.p50);
    labels_.take({here - 6, level - 6, here + 6, level + 6});
  }
  for (const auto& meet : meets_) {
    const TimedStop& stop = *meet.stop;
    const double level = y(meet.option->ride_along);
    if (stop.leave_by) {
      svg_.line({x(*stop.leave_by), level - 5}, {x(*stop.leave_by), level + 5}, "class=\"tick\"");
      svg_.line({x(*stop.leave_by) - 3, level - 5}, {x(*stop.leave_by) + 3, level - 5}, "class=\"tick\"");
    }
    draw_mark(svg_, {x(stop.due.p50), level}, standing_of(stop.chance_ready));
  }
  for (const auto& meet : meets_) {
    const TimedStop& stop = *meet.stop;
    const double level = y(meet.option->ride_along);
    double right = std::max(x(stop.leave), x(stop.due.p90));  // of everything drawn for this meet
    for (const auto& pass : plan_.passes) {
      if (pass.horse == meet.option->horse && pass.event.ride_along == meet.option->ride_along)
        right = std::max(right, x(pass.out.p90));
    }
    if (stop.leave_by) right = std::max(right, x(*stop.leave_by));
    std::string odds = percent(stop.chance_ready);
    if (plan_.task.horses.size() > 1) odds = horse_name(meet.option->horse, 10) + ' ' + odds;
    std::vector<std::string> wordings;
    if (stop.leave_by) wordings.push_back(odds + ", leave by " + hours_minutes(*stop.leave_by, plan_.ride.clock));
    wordings.push_back(odds);
    bool is_placed = false;
    for (const auto& words : wordings) {
      const double width = text_width(words, name_size, true) + 2;
      for (double away = 6; away <= 260 && !is_placed; away += 7) {
        for (const double up : {-5.4, 5.4, 0.0, -15.2, 15.2, -10.0, 10.0, -20.0, 20.0}) {
          const double left = right + away;
          const Box box{left, level + up - 4.6, left + width, level + up + 4.6};
          if (!labels_.is_free(box)) continue;
          labels_.take(box);
          if (away > 20 || std::fabs(up) > 8) svg_.line({right, level}, {left - 1, level + up}, "class=\"leader\"");
          svg_.text({left + 1, level + up + 3.3}, words, name_size, Anchor::start,
                    "class=\"halo\" font-weight=\"bold\"");
          is_placed = true;
          break;
        }
      }
      if (is_placed) break;
    }
  }
}

void TimeDistance::name_lines() {
  for (const auto& name : names_) {
    const auto placed = labels_.place(name.at, text_width(name.words, 11, true) + 2, 13, 9, 120);
    if (!placed) continue;
    if (placed->needs_leader) {
      svg_.line(name.at,
                {std::clamp(name.at.x, placed->box.left, placed->box.right),
                 std::clamp(name.at.y, placed->box.top, placed->box.bottom)},
                "class=\"leader\"");
    }
    svg_.text({placed->box.left + 1, placed->box.bottom - 3}, name.words, 11, Anchor::start,
              "class=\"halo\" font-weight=\"bold\" style=\"fill:" + name.fill + '"');
  }
  for (const auto& note : notes_) {
    const auto placed = labels_.place(note.at, text_width(note.words, name_size) + 2, 11, 6, 40);
    if (placed)
      svg_.text({placed->box.left + 1, placed->box.bottom - 2.4}, note.words, name_size, Anchor::start,
                "class=\"halo\"");
  }
  const auto& loops = plan_.survey.course.loops;
  Metres along{};
  for (std::size_t l = 0; l < loops.size(); ++l) {  // where nothing else is: right below or left above
    const double low = y(along), high = y(along + loops[l].length);
    along += loops[l].length;
    const std::string words = shown_name(loops[l].name, 24, "loop " + std::to_string(l + 1));
    const double width = text_width(words, 11, true) + 2;
    for (const Spot at : {Spot{plot.right - 6 - width, low - 9}, Spot{plot.left + 6, high + 11},
                          Spot{plot.right - 6 - width, high + 11}, Spot{plot.left + 6, low - 9},
                          Spot{plot.right - 6 - width, (low + high) / 2}, Spot{plot.left + 6, (low + high) / 2}}) {
      const Box box{at.x, at.y - 7, at.x + width, at.y + 6};
      if (!labels_.is_free(box)) continue;
      labels_.take(box);
      svg_.text({at.x + 1, at.y + 3}, words, 11, Anchor::start, "class=\"halo quiet\" font-weight=\"bold\"");
      break;
    }
  }
}

void TimeDistance::draw_legend() {
  double at = 28, level = 750;
  const auto words = [&](const std::string& text) {
    svg_.text({at, level + 3.4}, text, 10);
    at += 0.9 * text_width(text, 10) + 14;
  };
  for (std::uint32_t h = 0; h < plan_.task.horses.size() && h < 3; ++h) {
    svg_.rectangle({at, level - 6, at + 26, level + 6}, "fill=\"" + ink(h) + "\" fill-opacity=\".17\"");
    svg_.line({at, level + 4}, {at + 26, level - 4},
              "class=\"horse\" stroke=\"" + ink(h) + "\" stroke-dasharray=\"" + (h == 0 ? "none" : dashes(h)) + '"');
    at += 30;
    words(horse_name(HorseId{h}, 16) + (h == 0 ? ": middle, and 8 days in 10" : ""));
  }
  svg_.line({at, level}, {at + 10, level}, "class=\"horse\" stroke=\"" + ink(0) + '"');
  svg_.line({at + 10, level}, {at + 30, level}, "class=\"hold\" stroke=\"" + ink(0) + '"');
  svg_.circle({at + 10, level}, 2.6, "fill=\"#fff\" stroke=\"" + ink(0) + "\" stroke-width=\"1.4\"");
  at += 36;
  words("recovery, in-time, hold");
  for (std::size_t c = 0; c < plan_.plan.days.size() && c < 3; ++c) {
    svg_.line({at, level + 4}, {at + 22, level - 4},
              "class=\"drive\" stroke-dasharray=\"" + (c == 0 ? std::string("none") : dashes(c)) + '"');
    at += 27;
    words(plan_.plan.days.size() == 1
              ? "drive"
              : shown_name(outbye::at(plan_.task.cars, plan_.plan.days[c].car).name, 16, "car") + " drives");
  }
  at = 28;
  level = 772;
  const struct {
    const char* attributes;
    const char* words;
  } pieces[] = {{"class=\"setup\"", "set-up"},
                {"class=\"wait\"", "ready, waiting (slack)"},
                {"class=\"here\"", "horse here"},
                {"class=\"pack\"", "pack"},
                {"class=\"late\"", "horse before crew"}};
  for (const auto& piece : pieces) {
    svg_.rectangle({at, level - 2.4, at + 18, level + 2.4}, piece.attributes);
    at += 23;
    words(piece.words);
  }
  svg_.line({at + 4, level - 5}, {at + 4, level + 5}, "class=\"tick\"");
  svg_.line({at + 1, level - 5}, {at + 7, level - 5}, "class=\"tick\"");
  at += 12;
  words("leave by");
  svg_.line({at, level}, {at + 18, level}, "class=\"stay\"");
  at += 23;
  words("car stays");
  for (const auto standing : {Standing::sure, Standing::likely, Standing::open, Standing::doubtful}) {
    draw_mark(svg_, {at + 6, level}, standing);
    at += 16;
    const std::string text = words_for(standing);
    words(text.substr(0, text.find(' ')) + (standing == Standing::sure     ? " 90\u00a0%+"
                                            : standing == Standing::likely ? " 70\u00a0%+"
                                            : standing == Standing::open   ? " 40\u00a0%+"
                                                                           : ""));
  }
}

}  // namespace

std::string time_distance_svg(const RidePlan& plan) { return TimeDistance(plan).finish(); }

}  // namespace outbye
