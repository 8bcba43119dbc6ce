#include <algorithm>
#include <cmath>

#include "core/base/clock.h"
#include "core/base/text.h"
#include "formats/picture/labels.h"
#include "formats/picture/map_frame.h"
#include "formats/picture/marks.h"
#include "formats/picture/picture.h"
#include "formats/picture/road_background.h"

namespace outbye {
namespace {

constexpr Box map_box{28, 66, 818, 766};
constexpr Box panel{838, 66, 1097, 766};
constexpr double lane = 2.8;  // between loops that share a trail
constexpr double name_size = 11;
constexpr double small_size = 9.5;

constexpr const char* style =
    "text{fill:#1f2428}.halo{paint-order:stroke;stroke:#fff;stroke-width:2.6px;stroke-linejoin:round}"
    ".quiet{fill:#5a6068}.frame{fill:none;stroke:#8a8f94;stroke-width:1}.course{fill:none;stroke-width:3;"
    "stroke-linejoin:round}.casing{fill:none;stroke:#fff;stroke-width:5;stroke-linejoin:round}.car{fill:none;"
    "stroke:#454a50;stroke-width:1.15;stroke-linejoin:round}.arrow{fill:#454a50}.mark{fill:#fff;stroke:#1f2428;"
    "stroke-width:1.5}.full{fill:#1f2428}.leader{stroke:#5a6068;stroke-width:.7}.road{fill:none;stroke-linejoin:round;"
    "stroke-linecap:round}";

// A loop as it lies on the paper.
struct DrawnLoop {
  std::vector<Spot> line;     // in its lane
  std::vector<double> along;  // metres, one a point of `raw`
  std::vector<Spot> raw;
  double offset{};
};

struct PlaceOnLoop {
  Spot at;
  Spot heading;  // of unit length
};

PlaceOnLoop place_on(const DrawnLoop& loop, double along) {
  const auto raw_at = [&](double metres) {
    const auto above = std::upper_bound(loop.along.begin(), loop.along.end(), metres);
    if (above == loop.along.begin()) return loop.raw.front();
    if (above == loop.along.end()) return loop.raw.back();
    const auto i = static_cast<std::size_t>(above - loop.along.begin());
    const double share = (metres - loop.along[i - 1]) / (loop.along[i] - loop.along[i - 1]);
    return Spot{loop.raw[i - 1].x + share * (loop.raw[i].x - loop.raw[i - 1].x),
                loop.raw[i - 1].y + share * (loop.raw[i].y - loop.raw[i - 1].y)};
  };
  const Spot here = raw_at(along);
  const Spot before = raw_at(along - 60), after = raw_at(along + 60);
  const double length = std::hypot(after.x - before.x, after.y - before.y);
  if (length < 1e-6) return {here, {1, 0}};
  const Spot heading{(after.x - before.x) / length, (after.y - before.y) / length};
  return {{here.x - loop.offset * heading.y, here.y + loop.offset * heading.x}, heading};
}

void draw_arrow(Svg& svg, Spot tip, Spot heading, double size, const std::string& attributes) {
  const Spot back{tip.x - size * heading.x, tip.y - size * heading.y};
  const Spot side{-heading.y * size * 0.5, heading.x * size * 0.5};
  svg.path({tip, {back.x + side.x, back.y + side.y}, {back.x - side.x, back.y - side.y}}, attributes, true);
}

// What is planned at one place: one entry a meet, in order of the ride.
struct MeetsHere {
  struct Entry {
    std::string when;  // "loop 2", "gate 1", "finish"
    double chance;
    std::size_t order;
  };
  std::vector<Entry> entries;
};

std::string summary(MeetsHere meets, bool is_venue) {
  if (meets.entries.empty()) return is_venue ? "start and finish" : "not met";
  std::stable_sort(meets.entries.begin(), meets.entries.end(),
                   [](const auto& a, const auto& b) { return a.order < b.order; });
  std::string text;
  std::string before;
  double least = 1, most = 0;
  for (const auto& [when, chance, order] : meets.entries) {
    text += when == before ? " / " : (text.empty() ? "" : ", ") + when + ' ';
    text += percent(chance);
    before = when;
    least = std::min(least, chance);
    most = std::max(most, chance);
  }
  if (display_width(text) <= 30) return text;
  return std::to_string(meets.entries.size()) + " meets, " + percent(least) + " to " + percent(most);
}

Standing worst_of(const MeetsHere& meets) {
  double least = 1;
  for (const auto& entry : meets.entries) least = std::min(least, entry.chance);
  return meets.entries.empty() ? Standing::unmet : standing_of(least);
}

class CourseMap {
 public:
  CourseMap(const RidePlan& plan, const RoadGraph* roads)
      : plan_(plan),
        course_(plan.survey.course),
        frame_(positions(plan), map_box, 46),
        labels_({map_box.left + 3, map_box.top + 3, map_box.right - 3, map_box.bottom - 3}),
        svg_(1123, 794, plan.ride.name + ": course and crew points",
             "Map of the course with its loops, crew points with the chance of each meet, and the cars' drives.",
             style) {
    svg_.clip("map", map_box);
    svg_.open("clip-path=\"url(#map)\"");
    if (roads != nullptr) road_keys_ = draw_roads(svg_, *roads, frame_, map_box);
    draw_loops();
    draw_cars();
    draw_kilometre_marks();
    svg_.close();
    svg_.rectangle(map_box, "class=\"frame\"");
    draw_scale_and_north();
    take_marks();
    draw_places();
    label_loops();
    draw_panel();
  }
  std::string finish() && { return std::move(svg_).finish(); }

 private:
  static std::vector<Position> positions(const RidePlan& plan);
  void draw_loops();
  void draw_cars();
  void draw_kilometre_marks();
  std::vector<double> kilometre_marks(std::size_t loop) const;  // metres from the start of the loop
  void draw_scale_and_north();
  void take_marks();
  void draw_places();
  void draw_place(Spot at, const std::string& name, const MeetsHere& meets, bool is_venue, std::size_t key);
  void label_loops();
  void draw_panel();

  const RidePlan& plan_;
  const Course& course_;
  MapFrame frame_;
  Labels labels_;
  Svg svg_;
  std::vector<DrawnLoop> loops_;
  std::vector<RoadKey> road_keys_;
  struct Keyed {
    std::size_t number;
    std::string name;
    std::string meets;
  };
  std::vector<Keyed> keyed_;  // places whose names found no room
};

std::vector<Position> CourseMap::positions(const RidePlan& plan) {
  std::vector<Position> all{plan.survey.venue};
  for (const auto& loop : plan.survey.course.loops) {
    for (const auto& point : loop.points) all.push_back(point.position);
  }
  for (const auto& point : plan.survey.course.crew_points) all.push_back(point.position);
  return all;
}

void CourseMap::draw_loops() {
  for (std::size_t l = 0; l < course_.loops.size(); ++l) {
    DrawnLoop drawn;
    drawn.offset = course_.loops.size() == 1 ? 1.2 : 1.2 + lane * static_cast<double>(l);
    for (const auto& point : course_.loops[l].points) {
      drawn.raw.push_back(frame_.spot(point.position));
      drawn.along.push_back(point.along.value);
    }
    drawn.line = beside(simplified(drawn.raw, 0.5), drawn.offset);
    loops_.push_back(std::move(drawn));
  }
  for (const auto& loop : loops_) svg_.path(loop.line, "class=\"casing\"");
  for (std::size_t l = 0; l < loops_.size(); ++l) {
    svg_.path(loops_[l].line, "class=\"course\" stroke=\"" + ink(l) + "\" stroke-dasharray=\"" +
                                  (dashes(l).empty() ? "none" : dashes(l)) + '"');
    labels_.avoid(loops_[l].line);
  }
}

void CourseMap::draw_cars() {
  for (std::size_t c = 0; c < plan_.plan.days.size(); ++c) {
    const auto& day = plan_.plan.days[c];
    const std::string dash = dashes(c).empty() ? "none" : dashes(c);
    PlaceId here = at(plan_.task.cars, day.car).start;
    std::vector<std::pair<PlaceId, PlaceId>> drawn;  // a drive that is made again looks the same
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const PlaceId there = day.stops[s].place;
      const auto drive = std::make_pair(here, there);
      here = there;
      if (drive.first == drive.second || std::find(drawn.begin(), drawn.end(), drive) != drawn.end()) continue;
      drawn.push_back(drive);
      std::vector<Spot> line;
      if (c < plan_.routes.size() && s < plan_.routes[c].size() && plan_.routes[c][s]) {
        for (const auto& position : plan_.routes[c][s]->geometry) line.push_back(frame_.spot(position));
      } else if (drive.first.value < plan_.places.size() && there.value < plan_.places.size()) {
        line = {frame_.spot(at(plan_.places, drive.first).position), frame_.spot(at(plan_.places, there).position)};
      }
      line = beside(simplified(line, 0.5), -2.4 * static_cast<double>(c));
      if (line.size() < 2) continue;
      labels_.avoid(line);
      svg_.path(line, "class=\"car\" stroke-dasharray=\"" + dash + '"');
      double length = 0;
      for (std::size_t i = 1; i < line.size(); ++i)
        length += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
      double left = 0.55 * length;
      for (std::size_t i = 1; i < line.size() && length > 30; ++i) {
        const double piece = std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
        if (piece < left || piece <= 0) {
          left -= piece;
          continue;
        }
        const Spot heading{(line[i].x - line[i - 1].x) / piece, (line[i].y - line[i - 1].y) / piece};
        draw_arrow(svg_, {line[i - 1].x + left * heading.x, line[i - 1].y + left * heading.y}, heading, 7,
                   "class=\"arrow\"");
        break;
      }
    }
  }
}

void CourseMap::draw_scale_and_north() {
  const double metres = round_length(170 / frame_.units_per_metre());
  const double width = metres * frame_.units_per_metre();
  const Spot at{map_box.left + 16, map_box.bottom - 18};
  const std::string words = metres >= 1000 ? number(metres / 1000) + " km" : number(metres) + " m";
  const Box box{at.x - 10, at.y - 24, at.x + width + text_width(words, small_size) + 16, at.y + 12};
  svg_.rectangle(box, "fill=\"#fff\" fill-opacity=\".9\"");
  svg_.rectangle({at.x, at.y, at.x + width / 2, at.y + 4}, "class=\"full\"");
  svg_.rectangle({at.x, at.y, at.x + width, at.y + 4}, "fill=\"none\" stroke=\"#1f2428\"");
  svg_.text({at.x, at.y - 5}, "0", small_size, Anchor::middle);
  svg_.text({at.x + width, at.y - 5}, words, small_size, Anchor::middle);
  labels_.take(box);
  const Spot top{map_box.right - 24, map_box.top + 16};
  labels_.take({top.x - 14, top.y - 8, top.x + 14, top.y + 44});
  svg_.path({top, {top.x + 6, top.y + 24}, {top.x, top.y + 19}, {top.x - 6, top.y + 24}}, "class=\"full\"", true);
  svg_.text({top.x, top.y + 37}, "N", name_size, Anchor::middle, "font-weight=\"bold\"");
}

void CourseMap::take_marks() {
  const auto take = [&](Spot at, double r) { labels_.take({at.x - r, at.y - r, at.x + r, at.y + r}); };
  take(frame_.spot(plan_.survey.venue), 8);
  for (const auto& point : course_.crew_points) take(frame_.spot(point.position), 6);
}

void CourseMap::draw_place(Spot at, const std::string& name, const MeetsHere& meets, bool is_venue, std::size_t key) {
  if (is_venue) {
    svg_.circle(at, 7, "class=\"mark\"");
    svg_.circle(at, 3.4, "class=\"full\"");
  } else {
    draw_mark(svg_, at, worst_of(meets));
  }
  const std::string title = shortened(name, 28);
  const std::string words = summary(meets, is_venue);
  const double width = std::max(text_width(title, name_size, true), text_width(words, small_size)) + 2;
  const auto placed = labels_.place(at, width, 25, is_venue ? 11 : 9, 90);
  if (!placed) {
    const auto numbered = labels_.place(at, text_width(std::to_string(key), name_size, true) + 2, 12, 7, 30);
    if (numbered) {
      svg_.text({(numbered->box.left + numbered->box.right) / 2, numbered->box.bottom - 2.5}, std::to_string(key),
                name_size, Anchor::middle, "class=\"halo\" font-weight=\"bold\"");
    }
    keyed_.push_back({key, name, words});
    return;
  }
  const Box& box = placed->box;
  const bool is_left = box.right < at.x;
  if (placed->needs_leader) {
    svg_.line(at, {std::clamp(at.x, box.left, box.right), std::clamp(at.y, box.top + 3, box.bottom - 3)},
              "class=\"leader\"");
  }
  const Anchor anchor = is_left ? Anchor::end : Anchor::start;
  const double x = is_left ? box.right - 1 : box.left + 1;
  svg_.text({x, box.top + 10.5}, title, name_size, anchor, "class=\"halo\" font-weight=\"bold\"");
  svg_.text({x, box.top + 22}, words, small_size, anchor, "class=\"halo\"");
}

void CourseMap::draw_places() {
  MeetsHere venue;
  std::vector<MeetsHere> points(course_.crew_points.size());
  for (const auto& meet : meets_of(plan_)) {
    const HorseDays& days = at(plan_.task.horses, meet.option->horse);
    const RideEvent& event = days.events[meet.option->event];
    const std::string loop = std::to_string(event.loop.value + 1);
    if (event.pass) {
      const CrewPointId point = at(course_.passes, *event.pass).crew_point;
      at(points, point).entries.push_back({"loop " + loop, meet.stop->chance_ready, meet.option->event});
    } else {
      const bool is_gate = event.kind == RideEvent::Kind::gate;
      venue.entries.push_back({is_gate ? "gate " + loop : "finish", meet.stop->chance_ready, meet.option->event});
    }
  }
  draw_place(frame_.spot(plan_.survey.venue), plan_.ride.venue, venue, true, 0);
  // Those that are met first: they matter more when room is short.
  for (const bool is_met : {true, false}) {
    for (std::size_t p = 0; p < points.size(); ++p) {
      if (points[p].entries.empty() == is_met) continue;
      draw_place(frame_.spot(course_.crew_points[p].position), course_.crew_points[p].name, points[p], false, p + 1);
    }
  }
}

void CourseMap::label_loops() {
  for (std::size_t l = 0; l < loops_.size(); ++l) {
    const double length = course_.loops[l].length.value;
    const std::string name =
        shortened(course_.loops[l].name.empty() ? "loop " + std::to_string(l + 1) : course_.loops[l].name, 18);
    for (const double share : {0.35, 0.65, 0.5, 0.2, 0.8, 0.42, 0.58, 0.28, 0.72}) {
      const auto on = place_on(loops_[l], share * length);
      const auto placed = labels_.place(on.at, text_width(name, name_size, true) + 2, 13, 6, 18);
      if (!placed) continue;
      svg_.text({(placed->box.left + placed->box.right) / 2, placed->box.bottom - 3}, name, name_size, Anchor::middle,
                "class=\"halo\" font-weight=\"bold\" style=\"fill:" + ink(l) + "\"");
      break;
    }
  }
  for (std::size_t l = 0; l < loops_.size(); ++l) {
    for (const double along : kilometre_marks(l)) {
      const std::string words = number(along / 1000);
      const auto placed = labels_.place(place_on(loops_[l], along).at, text_width(words, 9) + 1, 9.5, 4, 9);
      if (!placed) continue;
      svg_.text({(placed->box.left + placed->box.right) / 2, placed->box.bottom - 1.6}, words, 9, Anchor::middle,
                "class=\"halo\" style=\"fill:" + ink(l) + '"');
    }
  }
}

std::vector<double> CourseMap::kilometre_marks(std::size_t loop) const {
  double step = 1000;
  for (const double km : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0}) {
    step = 1000 * km;
    if (step * frame_.units_per_metre() >= 48) break;
  }
  std::vector<double> marks;
  for (double along = step; along < course_.loops[loop].length.value - 0.25 * step; along += step)
    marks.push_back(along);
  return marks;
}

void CourseMap::draw_kilometre_marks() {
  for (std::size_t l = 0; l < loops_.size(); ++l) {
    double before = 0;
    for (const double along : kilometre_marks(l)) {
      svg_.circle(place_on(loops_[l], along).at, 2.3, "fill=\"#fff\" stroke=\"" + ink(l) + "\" stroke-width=\"1.2\"");
      const auto ahead = place_on(loops_[l], (before + along) / 2);
      draw_arrow(svg_, {ahead.at.x + 4 * ahead.heading.x, ahead.at.y + 4 * ahead.heading.y}, ahead.heading, 8.5,
                 "fill=\"" + ink(l) + "\" stroke=\"#fff\" stroke-width=\".8\"");
      before = along;
    }
  }
}

void CourseMap::draw_panel() {
  const Ride& ride = plan_.ride;
  svg_.text({map_box.left, 36}, shortened(ride.name.empty() ? "The ride" : ride.name, 60), 20, Anchor::start,
            "font-weight=\"bold\"");
  const auto cars = plan_.plan.days.size();
  svg_.text({map_box.left, 55},
            local_date(ride.start, ride.clock) + ", start " + hours_minutes(ride.start, ride.clock) + "; " +
                fixed(in_kilometres(course_.length), 1) + " km in " + std::to_string(course_.loops.size()) +
                (course_.loops.size() == 1 ? " loop" : " loops") + "; " + std::to_string(cars) +
                (cars == 1 ? " car" : " cars"),
            name_size, Anchor::start, "class=\"quiet\"");
  double y = panel.top + 10;
  const auto heading = [&](const char* words) {
    svg_.text({panel.left, y}, words, name_size, Anchor::start, "font-weight=\"bold\"");
    y += 17;
  };
  const auto row = [&](const std::string& words, const std::string& more) {
    svg_.text({panel.left + 46, y}, words, 10);
    if (!more.empty()) svg_.text({panel.right, y}, more, 10, Anchor::end, "class=\"quiet\"");
    y += 15;
  };
  const auto sample = [&](const std::string& attributes) {
    svg_.line({panel.left, y - 3.5}, {panel.left + 38, y - 3.5}, attributes);
  };
  constexpr std::size_t most_rows = 10;
  heading("Loops");
  for (std::size_t l = 0; l < course_.loops.size(); ++l) {
    if (l == most_rows) {
      row("and " + std::to_string(course_.loops.size() - l) + " more", "");
      break;
    }
    const Loop& loop = course_.loops[l];
    sample("class=\"course\" stroke=\"" + ink(l) + "\" stroke-dasharray=\"" + (dashes(l).empty() ? "none" : dashes(l)) +
           '"');
    // heights for less than half of the loop say nothing about its climb
    const bool is_known = loop.profile.unknown.value < loop.length.value / 2;
    const std::string climb = is_known ? fixed(loop.climb.value, 0) + " m up" : "no heights";
    row(shortened(loop.name.empty() ? "loop " + std::to_string(l + 1) : loop.name, 17),
        fixed(in_kilometres(loop.length), 1) + " km, " + climb);
  }
  svg_.circle({panel.left + 12, y - 3.5}, 2.3, "fill=\"#fff\" stroke=\"#1f2428\" stroke-width=\"1.2\"");
  draw_arrow(svg_, {panel.left + 32, y - 3.5}, {1, 0}, 8.5, "class=\"arrow\"");
  row("km of the loop; direction", "");
  y += 8;
  heading("Crew points: chance to be ready");
  svg_.circle({panel.left + 19, y - 3.5}, 7, "class=\"mark\"");
  svg_.circle({panel.left + 19, y - 3.5}, 3.4, "class=\"full\"");
  row("start, gates and finish", "");
  for (const auto standing : {Standing::sure, Standing::likely, Standing::open, Standing::doubtful, Standing::unmet}) {
    draw_mark(svg_, {panel.left + 19, y - 3.5}, standing);
    row(words_for(standing), "");
  }
  y += 8;
  heading("Cars");
  for (std::size_t c = 0; c < cars; ++c) {
    if (c == most_rows) {
      row("and " + std::to_string(cars - c) + " more", "");
      break;
    }
    sample("class=\"car\" stroke-dasharray=\"" + (dashes(c).empty() ? std::string("none") : dashes(c)) + '"');
    draw_arrow(svg_, {panel.left + 23, y - 3.5}, {1, 0}, 7, "class=\"arrow\"");
    const auto& day = plan_.plan.days[c];
    row(shortened(at(plan_.task.cars, day.car).name, 20), fixed(in_kilometres(day.driven), 0) + " km");
  }
  if (!road_keys_.empty()) {
    y += 8;
    heading("Roads");
    for (const auto& key : road_keys_) {
      sample(key.attributes);
      row(key.words, "");
    }
  }
  if (keyed_.empty()) return;
  y += 8;
  heading("Numbers on the map");
  std::sort(keyed_.begin(), keyed_.end(), [](const auto& a, const auto& b) { return a.number < b.number; });
  for (std::size_t k = 0; k < keyed_.size(); ++k) {
    if (y > panel.bottom - 15 && k + 1 < keyed_.size()) {
      row("and " + std::to_string(keyed_.size() - k) + " more", "");
      break;
    }
    svg_.text({panel.left, y}, std::to_string(keyed_[k].number), 10, Anchor::start, "font-weight=\"bold\"");
    const std::string more = keyed_[k].meets;
    const double room = panel.right - panel.left - 46 - text_width(more, 10) - 8;
    std::size_t columns = 28;
    while (columns > 4 && text_width(shortened(keyed_[k].name, columns), 10) > room) --columns;
    row(shortened(keyed_[k].name, columns), more);
  }
}

}  // namespace

std::string course_map_svg(const RidePlan& plan, const RoadGraph* roads) { return CourseMap(plan, roads).finish(); }

}  // namespace outbye
