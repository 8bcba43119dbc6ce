#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"
#include "formats/picture/day_shape.h"
#include "formats/picture/labels.h"
#include "formats/picture/map_frame.h"

namespace outbye {
namespace {

struct Row {
  Metres along{};
  std::string name;
  bool is_gate{};
  bool is_met{};
};

// Passes of the first horse, in order: every horse rides the same course.
std::vector<Row> rows_of(const RidePlan& plan) {
  std::vector<Row> rows;
  for (std::size_t p = 0; p < plan.passes.size(); ++p) {
    const PassForecast& pass = plan.passes[p];
    const bool is_gate = pass.event.kind != RideEvent::Kind::pass;
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const Row& row) {
      return row.along == pass.event.ride_along && row.is_gate == is_gate;
    });
    const bool is_met = met_by(plan, p).has_value();
    if (same != rows.end()) {
      same->is_met = same->is_met || is_met;
    } else {
      rows.push_back({pass.event.ride_along, pass.name, is_gate, is_met});
    }
  }
  std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.along < b.along; });
  return rows;
}

class Chart {
 public:
  Chart(Paper& paper, const RidePlan& plan, const Box& box)
      : paper_(paper), plan_(plan), rows_(rows_of(plan)), size_(paper.format().least) {
    const double names = std::min(0.4 * (box.right - box.left), 17 * size_);
    plot_ = {box.left + names, box.top + 2, box.right - 1, box.bottom - 1.6 * size_};
    const auto shown = shown_day(plan);
    from_ = shown.from;
    to_ = shown.to;
  }

  void draw() {
    night();
    hours();
    rows();
    for (std::uint32_t h = 0; h < plan_.task.horses.size(); ++h) horse(HorseId{h});
    for (std::size_t d = 0; d < plan_.plan.days.size(); ++d) car(d);
    paper_.put_rectangle(plot_, 0.8, std::nullopt);
    numbers();
  }

 private:
  double x(Instant at) const {
    const double share = (at - from_) / (to_ - from_);
    return plot_.left + 4 + std::clamp(share, 0.0, 1.0) * (plot_.right - plot_.left - 8);
  }
  double y(Metres along) const {
    const double length = std::max(plan_.survey.course.length.value, 1.0);
    return plot_.bottom - 14 - std::clamp(along.value / length, 0.0, 1.0) * (plot_.bottom - plot_.top - 26);
  }
  TextLook look() const { return {size_, false, 0.0, TextAlign::start}; }

  void night() {
    for (const LightSpan& span : dark_spans(plan_.survey.venue, {from_, to_})) {
      paper_.put_rectangle({x(span.when.from), plot_.top, x(span.when.to), plot_.bottom}, 0,
                           span.light == Light::dark ? 0.82 : 0.92);
    }
  }

  void hours() {
    // As many as have room for their words.
    const double width = layout_width(paper_.typesetter().layout("00:00 ", look(), 0).get());
    const double pixels_per_hour = 3600.0 / std::max(1.0, (to_ - from_).count()) * (plot_.right - plot_.left - 8);
    int step = 1;
    while (step * pixels_per_hour < width && step < 24) step = step < 4 ? step + 1 : step * 2;
    const Instant midnight = local_midnight(from_, plan_.ride.clock);
    for (int h = 0; h < 24 * 12; h += step) {
      const Instant at = midnight + std::chrono::hours{h};
      if (at < from_ || at > to_) continue;
      paper_.put_line({x(at), plot_.top}, {x(at), plot_.bottom}, 0.4, 0.7);
      const LayoutPtr words = paper_.typesetter().layout(hours_minutes(at, plan_.ride.clock), look(), 0);
      const double half = layout_width(words.get()) / 2;
      if (x(at) + half > plot_.right + 1 || x(at) - half < plot_.left) continue;
      paper_.put(words, {x(at) - half, plot_.bottom + 2}, look());
    }
  }

  // A name where it fits; its kilometre where it does not; nothing where there is no room for all of them.
  void rows() {
    const double pitch = 1.3 * size_;
    const auto most = static_cast<std::size_t>((plot_.bottom - plot_.top) / pitch);
    std::vector<const Row*> named;
    for (const auto wanted : {2, 1, 0}) {
      named.clear();
      for (const Row& row : rows_) {
        if (wanted == 2 || (wanted == 1 && (row.is_met || row.is_gate)) || row.is_gate) named.push_back(&row);
      }
      if (named.size() <= most) break;
    }
    if (named.size() > most) named.clear();
    for (const Row& row : rows_) {
      paper_.put_line({plot_.left, y(row.along)}, {plot_.right, y(row.along)}, row.is_gate ? 0.8 : 0.4,
                      row.is_met || row.is_gate ? 0.45 : 0.75,
                      row.is_met || row.is_gate ? std::vector<double>{} : std::vector<double>{1, 2});
    }
    std::vector<double> levels;
    for (auto row = named.rbegin(); row != named.rend(); ++row) levels.push_back(y((*row)->along));
    levels = spread_out(levels, pitch, plot_.top + pitch / 2, plot_.bottom - pitch / 2);
    const double left = paper_.format().margin;
    for (std::size_t i = 0; i < named.size(); ++i) {
      const Row& row = *named[named.size() - 1 - i];
      const std::string km = fixed(in_kilometres(row.along), 1);
      LayoutPtr words = paper_.typesetter().layout(km + " " + row.name, look(), 0);
      if (layout_width(words.get()) > plot_.left - left - 12) words = paper_.typesetter().layout(km + " km", look(), 0);
      paper_.put(words, {plot_.left - 10 - layout_width(words.get()), levels[i] - layout_height(words.get()) / 2},
                 look());
      paper_.put_line({plot_.left - 8, levels[i]}, {plot_.left, y(row.along)}, 0.5, 0.4);
    }
  }

  void horse(HorseId id) {
    if (at(plan_.task.horses, id).events.empty()) return;
    const HorseLine line = horse_line(plan_, id);
    std::vector<Spot> band, median;
    for (const HorseKnot& knot : line.knots) {
      band.push_back({x(knot.at.p10), y(knot.along)});
      median.push_back({x(knot.at.p50), y(knot.along)});
    }
    for (auto knot = line.knots.rbegin(); knot != line.knots.rend(); ++knot) {
      band.push_back({x(knot->at.p90), y(knot->along)});
    }
    paper_.put_area(std::move(band), 0.72);
    const std::vector<double> dashes = id.value == 0 ? std::vector<double>{} : std::vector<double>{7, 2.0 + id.value};
    paper_.put_path(std::move(median), 1.8, 0, dashes);
    for (const HorseGate& gate : line.gates) {
      paper_.put_line({x(gate.in), y(gate.along)}, {x(gate.out), y(gate.along)}, 3.6, 0);
    }
  }

  void car(std::size_t d) {
    const CarDay& day = plan_.plan.days[d];
    const double drop = 4.0 + 5.0 * static_cast<double>(d % 4);
    for (const CarSpan& span : car_spans(plan_, day)) {
      const Spot from{x(span.from), y(span.from_along) + drop}, to{x(span.to), y(span.to_along) + drop};
      switch (span.does) {
        case CarDoes::drive:
          paper_.put_line(from, to, 1.1, 0, {3, 2});
          break;
        case CarDoes::free:
        case CarDoes::rest:
          paper_.put_line(from, to, 0.7, 0.3, {1, 2});
          break;
        case CarDoes::meet:
          bar(from, to, 0.0);
          break;
        case CarDoes::pack:
          bar(from, to, 0.5);
          break;
        case CarDoes::setup:
        case CarDoes::refill:
        case CarDoes::errand:
          bar(from, to, 0.75);
          break;
        case CarDoes::wait:
          bar(from, to, 1.0);
          break;
      }
    }
  }
  void bar(Spot from, Spot to, double grey) {
    paper_.put_rectangle({from.x, from.y - 2, std::max(to.x, from.x + 0.8), from.y + 2}, 0.6, grey);
  }

  // The numbers of the stops, where there is room.
  void numbers() {
    Labels labels({plot_.left + 1, plot_.top + 1, plot_.right - 1, plot_.bottom - 1});
    for (std::size_t d = 0; d < plan_.plan.days.size(); ++d) {
      const CarDay& day = plan_.plan.days[d];
      for (std::size_t s = 0; s < day.stops.size(); ++s) {
        if (!day.stops[s].stop.option) continue;
        const MeetOption& option = at(plan_.task.options, *day.stops[s].stop.option);
        const LayoutPtr words = paper_.typesetter().layout(std::to_string(s + 1), look(), 0);
        const Spot mark{x(day.stops[s].ready), y(option.ride_along) + 4.0 + 5.0 * static_cast<double>(d % 4)};
        const auto placed = labels.place(mark, layout_width(words.get()) + 2, layout_height(words.get()), 3, 12);
        if (!placed) continue;
        paper_.put_rectangle(placed->box, 0, 1.0);
        paper_.put(words, {placed->box.left + 1, placed->box.top}, look());
      }
    }
  }

  Paper& paper_;
  const RidePlan& plan_;
  std::vector<Row> rows_;
  double size_;
  Box plot_;
  Instant from_, to_;
};

}  // namespace

void time_distance_chart(Paper& paper, const RidePlan& plan, const Box& box) { Chart(paper, plan, box).draw(); }

}  // namespace outbye
