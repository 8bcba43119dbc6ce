#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <tuple>

#include "demo/trails.h"

namespace outbye::demo {
namespace {

constexpr double far = std::numeric_limits<double>::infinity();

double distance_to_step(Spot p, Spot a, Spot b) {
  const Spot ab = b - a;
  const double square = ab.x * ab.x + ab.y * ab.y;
  const Spot ap = p - a;
  const double share = square > 0 ? std::clamp((ap.x * ab.x + ap.y * ab.y) / square, 0.0, 1.0) : 0.0;
  return distance(p, a + share * ab);
}

struct Visit {
  std::uint32_t loop{};
  double along{};
};

class Placer {
 public:
  Placer(const Net& net, const Drawing& drawing, const LaidCourse& course, const std::vector<CountryLoop>& loops,
         const Terrain& terrain)
      : net_(net), drawing_(drawing), course_(course), loops_(loops), terrain_(terrain), at_(net) {}

  std::vector<CountryCrewPoint> placed() {
    // The special points first, then the rest where they leave the fewest kilometres without help.
    if (course_.shared) add(*course_.shared, CrewPointKind::shared_by_loops);
    if (course_.twice) add(*course_.twice, CrewPointKind::twice_in_a_loop);
    if (course_.tip) add(*course_.tip, CrewPointKind::out_and_back);
    add_pair();
    const std::size_t wanted = wanted_count();
    while (points_.size() < wanted && add_in_longest_gap()) {
    }
    order_and_name();
    return std::move(points_);
  }

 private:
  // A point about each 6.5 km: 11 on 80 km, 5 at least.
  std::size_t wanted_count() const {
    double length = 0;
    for (const CountryLoop& loop : loops_) length += loop.length;
    return std::clamp<std::size_t>(static_cast<std::size_t>(length / 7200.0), 5, 12);
  }

  std::vector<Visit> visits(std::uint32_t site) const {
    std::vector<Visit> found;
    for (std::uint32_t l = 0; l < course_.loops.size(); ++l) {
      const SiteLoop& loop = course_.loops[l];
      for (std::size_t k = 0; k < loop.sites.size(); ++k)
        if (loop.sites[k] == site) found.push_back({l, loop.along[k]});
    }
    return found;
  }

  double distance_to_course(Spot s) const {
    double least = far;
    for (const CountryLoop& loop : loops_)
      for (std::size_t k = 1; k < loop.nodes.size(); ++k)
        least = std::min(least, distance_to_step(s, drawing_.spots[loop.nodes[k - 1]], drawing_.spots[loop.nodes[k]]));
    return least;
  }

  // A verge: a few metres beside a road that takes cars, 7 to 23 m from the course.
  std::optional<Spot> verge(std::uint32_t site) const {
    for (const bool off_course : {true, false})
      for (std::uint32_t p = at_.start[site]; p < at_.start[site + 1]; ++p) {
        const std::uint32_t i = at_.links[p];
        const Link& link = net_.links[i];
        const bool takes_cars =
            !link.is_private && !link.has_gate && !link.has_ford && link.road >= RoadClass::secondary &&
            (link.road <= RoadClass::residential || (link.road == RoadClass::track && link.grade == 1));
        if (!takes_cars || link.is_one_way || is_on_course(i) == off_course) continue;
        const bool is_start = link.from == site;
        const std::vector<Spot>& line = link.line;
        double along = 0;
        for (std::size_t k = 1; k < line.size() && along < 45.0; ++k) {
          const Spot a = is_start ? line[k - 1] : line[line.size() - k];
          const Spot b = is_start ? line[k] : line[line.size() - 1 - k];
          const double piece = distance(a, b);
          along += piece;
          if (piece < 0.1) continue;
          for (const double side : {-3.5, 3.5, -8.0, 8.0}) {
            if (off_course && std::abs(side) > 4) continue;
            const Spot s = b + (side / piece) * Spot{-(b.y - a.y), b.x - a.x};
            const double d = distance_to_course(s);
            if (d > 7.0 && d < 23.0) return s;
          }
        }
      }
    return std::nullopt;
  }

  bool is_on_course(std::uint32_t link) const {
    for (const SiteLoop& loop : course_.loops)
      if (std::find(loop.links.begin(), loop.links.end(), link) != loop.links.end()) return true;
    return false;
  }

  // No other stretch of the course comes so near that it would be a pass nobody meant.
  bool is_clear(Spot s, const std::vector<Visit>& meant) const {
    for (std::uint32_t l = 0; l < loops_.size(); ++l) {
      double along = 0;
      for (std::size_t k = 1; k < loops_[l].nodes.size(); ++k) {
        const Spot a = drawing_.spots[loops_[l].nodes[k - 1]];
        const Spot b = drawing_.spots[loops_[l].nodes[k]];
        if (distance_to_step(s, a, b) < 175.0) {
          const bool is_meant = std::any_of(meant.begin(), meant.end(), [&](const Visit& v) {
            return v.loop == l && std::abs(v.along - along) < 280.0;
          });
          if (!is_meant) return false;
        }
        along += distance(a, b);
      }
    }
    for (std::size_t i = 0; i < meant.size(); ++i)  // passes of one point are to be well apart
      for (std::size_t k = i + 1; k < meant.size(); ++k)
        if (meant[i].loop == meant[k].loop && std::abs(meant[i].along - meant[k].along) < 1200.0) return false;
    return true;
  }

  bool add(std::uint32_t site, CrewPointKind kind) {
    if (drawing_.is_roundabout[site] || sites_.contains(site) || is_near_venue(site)) return false;
    const std::vector<Visit> meant = visits(site);
    if (meant.empty()) return false;
    const std::optional<Spot> s = verge(site);
    if (!s || !is_clear(*s, meant)) return false;
    CountryCrewPoint point;
    point.kind = kind;
    if (kind == CrewPointKind::twice_in_a_loop && meant.size() < 2) point.kind = CrewPointKind::plain;
    if (kind == CrewPointKind::plain && meant.size() > 1)
      point.kind = meant[0].loop == meant[1].loop ? CrewPointKind::twice_in_a_loop : CrewPointKind::shared_by_loops;
    point.position = position_of(*s);
    // Along the nodes as drawn: a little shorter than along the smooth line.
    for (const Visit& v : meant)
      point.passes.push_back({v.loop, v.along * loops_[v.loop].length / course_.loops[v.loop].along.back()});
    points_.push_back(std::move(point));
    sites_.insert(site);
    return true;
  }

  // Two points a few hundred metres apart on the longest loop's second half: no car serves both for one horse.
  void add_pair() {
    for (const std::uint32_t l : {0U, 2U, 1U}) {
      if (l >= course_.loops.size()) continue;
      const SiteLoop& loop = course_.loops[l];
      for (std::size_t i = 0; i < loop.sites.size(); ++i)
        for (std::size_t k = i + 1; k < loop.sites.size(); ++k) {
          const double apart = distance(net_.sites[loop.sites[i]].spot, net_.sites[loop.sites[k]].spot);
          if (loop.along[i] < 0.35 * loop.along.back() || loop.along[i] > 0.75 * loop.along.back()) continue;
          if (apart < 220 || apart > 620 || loop.along[k] - loop.along[i] > 900) continue;
          if (visits(loop.sites[i]).size() != 1 || visits(loop.sites[k]).size() != 1 || is_near_others(loop.sites[i]))
            continue;
          if (!add(loop.sites[i], CrewPointKind::one_of_a_pair)) continue;
          if (add(loop.sites[k], CrewPointKind::one_of_a_pair)) return;
          sites_.erase(loop.sites[i]);
          points_.pop_back();
        }
    }
  }

  // The crew is at the venue anyway.
  bool is_near_venue(std::uint32_t site) const {
    const double least = std::min(1500.0, 0.06 * loops_.front().length);
    return distance(net_.sites[site].spot, net_.sites[course_.venue].spot) < least;
  }

  bool is_near_others(std::uint32_t site) const {
    return std::any_of(sites_.begin(), sites_.end(), [&](std::uint32_t other) {
      return distance(net_.sites[site].spot, net_.sites[other].spot) < 900.0;
    });
  }

  bool add_in_longest_gap() {
    struct Gap {
      double length;
      std::uint32_t loop;
      double from;
    };
    std::vector<Gap> gaps;
    for (std::uint32_t l = 0; l < course_.loops.size(); ++l) {
      std::vector<double> stops{0, course_.loops[l].along.back()};
      for (const CountryCrewPoint& point : points_)
        for (const IntendedPass& pass : point.passes)
          if (pass.loop == l) stops.push_back(pass.along);
      std::sort(stops.begin(), stops.end());
      for (std::size_t k = 1; k < stops.size(); ++k) gaps.push_back({stops[k] - stops[k - 1], l, stops[k - 1]});
    }
    std::sort(gaps.begin(), gaps.end(), [](const Gap& a, const Gap& b) {
      return std::make_tuple(-a.length, a.loop, a.from) < std::make_tuple(-b.length, b.loop, b.from);
    });
    for (const Gap& gap : gaps) {
      if (gap.length < 2500) break;
      const SiteLoop& loop = course_.loops[gap.loop];
      std::vector<std::pair<double, std::uint32_t>> choice;
      for (std::size_t k = 0; k < loop.sites.size(); ++k) {
        const double off = std::abs(loop.along[k] - (gap.from + 0.5 * gap.length));
        if (off < 0.3 * gap.length && !is_near_others(loop.sites[k])) choice.emplace_back(off, loop.sites[k]);
      }
      std::sort(choice.begin(), choice.end());
      for (const auto& [off, site] : choice)
        if (add(site, CrewPointKind::plain)) return true;
    }
    return false;
  }

  void order_and_name() {
    std::sort(points_.begin(), points_.end(), [](const CountryCrewPoint& a, const CountryCrewPoint& b) {
      return std::make_pair(a.passes[0].loop, a.passes[0].along) < std::make_pair(b.passes[0].loop, b.passes[0].along);
    });
    std::set<std::string> used;
    for (CountryCrewPoint& point : points_) {
      const Spot s = spot_of(point.position);
      std::vector<std::pair<double, std::string>> near;
      for (const Place& place : net_.places) near.emplace_back(distance(place.centre, s), place.name);
      std::sort(near.begin(), near.end());
      double river = far;
      for (const River& r : terrain_.rivers()) river = std::min(river, r.distance(s));
      const std::string place = near.empty() ? "Nowhere" : near.front().second;
      const char* const features[] = {"Cross", "Gate", "Lane End", "Bank", "Common", "Corner", "Stile", "Green"};
      std::string name = river < 350 ? place + " Waterside" : "";
      for (std::size_t k = used.size() % 8; name.empty() || used.contains(name); k = (k + 1) % 8)
        name = place + " " + features[k];
      used.insert(name);
      point.name = name;
      point.note = note(point);
    }
  }

  static std::string note(const CountryCrewPoint& point) {
    switch (point.kind) {
      case CrewPointKind::shared_by_loops:
        return "Passed in more than one loop.";
      case CrewPointKind::twice_in_a_loop:
        return "Passed twice in one loop: before and after the far round.";
      case CrewPointKind::out_and_back:
        return "Where the out-and-back turns.";
      case CrewPointKind::one_of_a_pair:
        return "A few hundred metres from the next point: choose one.";
      case CrewPointKind::plain:
        break;
    }
    return "Park on the verge, keep the gateway clear.";
  }

  const Net& net_;
  const Drawing& drawing_;
  const LaidCourse& course_;
  const std::vector<CountryLoop>& loops_;
  const Terrain& terrain_;
  LinksAt at_;
  std::vector<CountryCrewPoint> points_;
  std::set<std::uint32_t> sites_;
};

}  // namespace

std::vector<CountryCrewPoint> place_crew_points(const Net& net, const Drawing& drawing, const LaidCourse& course,
                                                const std::vector<CountryLoop>& loops, const Terrain& terrain) {
  return Placer(net, drawing, course, loops, terrain).placed();
}

}  // namespace outbye::demo
