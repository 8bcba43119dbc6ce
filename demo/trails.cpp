#include "demo/trails.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <queue>

namespace outbye::demo {
namespace {

// What a metre of it counts to one who lays a course: 1 on a trail, more where cars drive; nothing where horses may not
// go.
std::optional<double> trail_cost(const Link& link) {
  if (link.is_private) return std::nullopt;
  switch (link.road) {
    case RoadClass::bridleway:
    case RoadClass::track:
      return 1.0;
    case RoadClass::unclassified:
      return 1.5;
    case RoadClass::service:
      return 2.0;
    case RoadClass::tertiary:
      return 2.4;
    case RoadClass::residential:
      return 3.0;
    case RoadClass::secondary:
      return 5.0;
    case RoadClass::primary:
      return 9.0;
    case RoadClass::footpath:
      break;
  }
  return std::nullopt;
}

bool takes_cars(const Link& link) {
  return !link.is_private &&
         (link.road <= RoadClass::residential || (link.road == RoadClass::track && link.grade <= 2));
}

constexpr double unreached = std::numeric_limits<double>::infinity();

class Layer {
 public:
  Layer(const Net& net, const std::vector<bool>& is_roundabout)
      : net_(net),
        at_(net),
        is_roundabout_(is_roundabout),
        used_(net.links.size(), 1.0),
        cost_(net.sites.size(), unreached),
        into_(net.sites.size(), nowhere) {}

  std::optional<LaidCourse> lay(double loop_length, double turn) {
    const std::optional<std::uint32_t> venue = find_venue();
    if (!venue) return std::nullopt;
    course_.venue = *venue;
    find_reachable(0.5 * loop_length);
    // Three petals; the first and the third meet on the stretch between them.
    course_.shared = nearest(spot_from(venue_spot(), 0.085 * loop_length, turn - std::numbers::pi / 3.0), 4);
    for (std::uint32_t k = 0; k < 3; ++k) {
      const double heading = turn + k * 2.0 * std::numbers::pi / 3.0;
      SiteLoop best;
      double least = unreached;
      double low = 0.02 * loop_length;
      double high = 0.40 * loop_length;
      for (int step = 0; step < 14; ++step) {
        const double radius = 0.5 * (low + high);
        Attempt attempt = petal(k, heading, radius);
        if (attempt.loop.sites.size() < 2) {
          high = radius;
          continue;
        }
        const double length = attempt.loop.along.back();
        if (std::abs(length - loop_length) < least) {
          least = std::abs(length - loop_length);
          best = std::move(attempt.loop);
          if (k == 1) course_.twice = attempt.special;
          if (k == 2) course_.tip = attempt.special;
        }
        (length > loop_length ? high : low) = radius;
      }
      if (best.sites.size() < 2) return std::nullopt;
      for (const std::uint32_t link : best.links) used_[link] = 3.0;
      course_.loops.push_back(std::move(best));
    }
    return std::move(course_);
  }

 private:
  struct Attempt {
    SiteLoop loop;
    std::optional<std::uint32_t> special;
  };
  struct Via {
    std::uint32_t site{};
    bool is_tip{};  // out to it and back the same way
  };

  Spot spot(std::uint32_t site) const { return net_.sites[site].spot; }
  Spot venue_spot() const { return spot(course_.venue); }
  static Spot spot_from(Spot s, double radius, double angle) {
    return s + radius * Spot{std::cos(angle), std::sin(angle)};
  }

  struct Kinds {
    int trails{};  // bridleways and tracks
    int usable{};  // by horses
    int roads{};   // that take cars
  };
  Kinds kinds(std::uint32_t site) const {
    Kinds k;
    for (std::uint32_t p = at_.start[site]; p < at_.start[site + 1]; ++p) {
      const Link& link = net_.links[at_.links[p]];
      const std::optional<double> cost = trail_cost(link);
      if (cost) ++k.usable;
      if (cost && *cost == 1.0) ++k.trails;
      if (takes_cars(link) && link.grade == 0) ++k.roads;
    }
    return k;
  }

  std::optional<std::uint32_t> find_venue() const {
    std::optional<std::uint32_t> best;
    for (const int trails : {2, 1}) {
      for (std::uint32_t s = 0; s < net_.sites.size(); ++s) {
        const Kinds k = kinds(s);
        if (is_roundabout_[s] || k.trails < trails || k.usable < 4 || k.roads < 1 || net_.sites[s].place != nowhere)
          continue;
        if (!best || std::hypot(spot(s).x, spot(s).y) < std::hypot(spot(*best).x, spot(*best).y)) best = s;
      }
      if (best && std::hypot(spot(*best).x, spot(*best).y) < 2500) return best;
    }
    return best;
  }

  // What a horse can get to from the venue without going farther from it than `radius` (metres, as the crow flies).
  void find_reachable(double radius) {
    std::vector<bool> seen(net_.sites.size());
    reachable_ = {course_.venue};
    seen[course_.venue] = true;
    for (std::size_t i = 0; i < reachable_.size(); ++i) {
      const std::uint32_t s = reachable_[i];
      for (std::uint32_t p = at_.start[s]; p < at_.start[s + 1]; ++p) {
        const Link& link = net_.links[at_.links[p]];
        const std::uint32_t next = other_end(link, s);
        if (!trail_cost(link) || seen[next] || is_roundabout_[next] || distance(spot(next), venue_spot()) > radius)
          continue;
        seen[next] = true;
        reachable_.push_back(next);
      }
    }
    std::sort(reachable_.begin(), reachable_.end());
  }

  // The site nearest to a spot that has at least so many links for horses, and a road if `on_road`.
  std::optional<std::uint32_t> nearest(Spot wanted, int usable, bool on_road = false) const {
    std::optional<std::uint32_t> best;
    double least = unreached;
    for (const std::uint32_t s : reachable_) {
      const double d = distance(spot(s), wanted);
      if (d >= least || s == course_.venue) continue;
      const Kinds k = kinds(s);
      if (k.usable < usable || (on_road && k.roads == 0)) continue;
      least = d;
      best = s;
    }
    return best;
  }

  Attempt petal(std::uint32_t number, double heading, double radius) {
    const auto on_ring = [&](Spot centre, double r, double start, double degrees) {
      // Ridden clockwise: the first and the last petal then share the stretch between them.
      return nearest(spot_from(centre, r, start - degrees * std::numbers::pi / 180.0), 2);
    };
    Attempt attempt;
    std::vector<std::optional<Via>> vias;
    const auto ring = [&](Spot centre, double r, double start, std::initializer_list<double> degrees) {
      for (const double d : degrees) {
        const auto s = on_ring(centre, r, start, d);
        vias.push_back(s ? std::optional(Via{*s}) : std::nullopt);
      }
    };
    const double home = heading + std::numbers::pi;  // from the ring's middle to the venue
    const Spot middle = spot_from(venue_spot(), radius, heading);
    if (number == 0) {
      ring(middle, radius, home, {72, 144, 216, 285});
      if (course_.shared) vias.push_back(Via{*course_.shared});
    } else if (number == 1) {
      const Spot near_middle = spot_from(venue_spot(), 0.70 * radius, heading);
      const auto crossing = nearest(spot_from(venue_spot(), 1.40 * radius, heading), 4, true);
      if (!crossing) return {};
      const Spot far_middle = spot_from(spot(*crossing), 0.38 * radius, heading);
      ring(near_middle, 0.70 * radius, home, {75, 130});
      vias.push_back(Via{*crossing});
      ring(far_middle, 0.38 * radius, home, {110, 180, 250});
      vias.push_back(Via{*crossing});
      ring(near_middle, 0.70 * radius, home, {230, 285});
      attempt.special = crossing;
    } else {
      if (course_.shared) vias.push_back(Via{*course_.shared});
      ring(middle, radius, home, {80, 140});
      const auto gate = nearest(spot_from(middle, radius, heading), 3);
      if (!gate) return {};
      const auto tip = nearest(spot_from(spot(*gate), 1500, heading), 1, true);
      vias.push_back(Via{*gate});
      if (tip && *tip != *gate) {
        vias.push_back(Via{*tip, true});
        attempt.special = tip;
      }
      ring(middle, radius, home, {220, 285});
    }
    vias.push_back(Via{course_.venue});
    attempt.loop = walk(vias);
    return attempt;
  }

  // Links from one site to another, cheapest; in `here_`, links of this loop count more.
  bool route(std::uint32_t from, std::uint32_t to, std::vector<std::uint32_t>& links) {
    using Entry = std::pair<double, std::uint32_t>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
    std::vector<std::uint32_t> touched{from};
    cost_[from] = 0;
    queue.emplace(0.0, from);
    while (!queue.empty()) {
      const auto [cost, site] = queue.top();
      queue.pop();
      if (site == to) break;
      if (cost > cost_[site]) continue;
      for (std::uint32_t p = at_.start[site]; p < at_.start[site + 1]; ++p) {
        const std::uint32_t i = at_.links[p];
        const Link& link = net_.links[i];
        const std::optional<double> per_metre = trail_cost(link);
        const std::uint32_t next = other_end(link, site);
        // The venue is passed only at both ends of a loop.
        if (!per_metre || is_roundabout_[next] || (next == course_.venue && next != to)) continue;
        const bool is_here = std::find(here_.begin(), here_.end(), i) != here_.end();
        const double total = cost + link.length * *per_metre * used_[i] * (is_here ? 8.0 : 1.0);
        if (total >= cost_[next]) continue;
        if (cost_[next] == unreached) touched.push_back(next);
        cost_[next] = total;
        into_[next] = i;
        queue.emplace(total, next);
      }
    }
    const bool is_found = cost_[to] != unreached;
    links.clear();
    if (is_found)
      for (std::uint32_t s = to; s != from; s = other_end(net_.links[into_[s]], s)) links.push_back(into_[s]);
    std::reverse(links.begin(), links.end());
    for (const std::uint32_t s : touched) cost_[s] = unreached;
    return is_found;
  }

  SiteLoop walk(const std::vector<std::optional<Via>>& vias) {
    here_.clear();
    std::vector<std::uint32_t> links;  // of the whole loop
    std::uint32_t tip = nowhere;
    std::uint32_t site = course_.venue;
    std::vector<std::uint32_t> leg;
    for (const std::optional<Via>& via : vias) {
      if (!via || via->site == site) continue;
      if (!route(site, via->site, leg)) return {};
      links.insert(links.end(), leg.begin(), leg.end());
      here_.insert(here_.end(), leg.begin(), leg.end());
      if (via->is_tip) {
        tip = via->site;
        links.insert(links.end(), leg.rbegin(), leg.rend());
      } else {
        site = via->site;
      }
    }
    // Out and back along one link is no riding, but for the tip of the out-and-back.
    SiteLoop loop;
    loop.sites.push_back(course_.venue);
    for (const std::uint32_t i : links) {
      if (!loop.links.empty() && loop.links.back() == i && loop.sites.back() != tip) {
        loop.links.pop_back();
        loop.sites.pop_back();
        continue;
      }
      loop.links.push_back(i);
      loop.sites.push_back(other_end(net_.links[i], loop.sites.back()));
    }
    loop.along.push_back(0);
    for (const std::uint32_t i : loop.links) loop.along.push_back(loop.along.back() + net_.links[i].length);
    return loop;
  }

  const Net& net_;
  LinksAt at_;
  const std::vector<bool>& is_roundabout_;
  std::vector<double> used_;         // by link: how much dearer since an earlier loop took it
  std::vector<std::uint32_t> here_;  // links of the loop being laid
  std::vector<double> cost_;
  std::vector<std::uint32_t> into_;
  std::vector<std::uint32_t> reachable_;  // sites, ascending
  LaidCourse course_;
};

}  // namespace

std::optional<LaidCourse> lay_course(const Net& net, const std::vector<bool>& is_roundabout, double loop_length,
                                     double heading) {
  return Layer(net, is_roundabout).lay(loop_length, heading);
}

}  // namespace outbye::demo
