#include "core/roads/driver_turns.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"
#include "core/roads/ground_length.h"

namespace outbye {
namespace {

constexpr double look_metres = 25.0;  // a junction's own small bends are passed over to see where a road goes

struct Offset {
  double east{};
  double north{};
};

// From `points.front()` towards where the road is after `look_metres`.
template <class Points>
Offset direction_out(const Points& points) {
  const FixedPosition origin = fixed_position(points.front());
  const GroundScale scale = ground_scale(origin.latitude);
  Offset offset;
  for (const Position& p : points) {
    const FixedPosition at = fixed_position(p);
    offset = {longitude_units_between(origin.longitude, at.longitude) * scale.longitude,
              (static_cast<double>(at.latitude) - origin.latitude) * scale.latitude};
    if (std::hypot(offset.east, offset.north) >= look_metres) break;
  }
  return offset;
}

// Degrees to the right of straight on, -180..180.
double angle_between(Offset in, Offset out) {
  if ((in.east == 0 && in.north == 0) || (out.east == 0 && out.north == 0)) return 0;
  const double cross = in.east * out.north - in.north * out.east;
  const double dot = in.east * out.east + in.north * out.north;
  return -std::atan2(cross, dot) * 180.0 / 3.14159265358979323846;
}

Turn::Kind kind_of(double angle) {
  const double size = std::abs(angle);
  const bool right = angle > 0;
  if (size < 20) return Turn::Kind::ahead;
  if (size < 50) return right ? Turn::Kind::slight_right : Turn::Kind::slight_left;
  if (size < 120) return right ? Turn::Kind::right : Turn::Kind::left;
  if (size < 172) return right ? Turn::Kind::sharp_right : Turn::Kind::sharp_left;
  return Turn::Kind::back;
}

class TurnList {
 public:
  TurnList(const RoadGraph& roads, const std::vector<DrivenEdge>& driven) : roads_(roads), driven_(driven) {}

  std::vector<Turn> make() {
    add(Turn::Kind::start, 0);
    std::size_t i = 0;
    while (true) {
      count_in(i);
      if (i + 1 == driven_.size()) break;
      const bool enters = !on_roundabout(i) && on_roundabout(i + 1);
      if (enters) {
        i = through_roundabout(i + 1);
        continue;
      }
      judge(i, i + 1);
      ++i;
    }
    Turn arrive;
    arrive.kind = Turn::Kind::arrive;
    arrive.position = driven_.back().points.back();
    turns_.push_back(std::move(arrive));
    return std::move(turns_);
  }

 private:
  const RoadEdge& edge(std::size_t i) const { return roads_.edges()[driven_[i].link / 2]; }
  bool on_roundabout(std::size_t i) const { return (edge(i).flags & RoadEdge::roundabout) != 0; }
  std::string_view name(std::size_t i) const { return roads_.name(driven_[i].link / 2); }
  std::uint32_t end_node(std::size_t i) const { return driven_[i].link % 2 == 0 ? edge(i).head : edge(i).tail; }

  void add(Turn::Kind kind, std::size_t onto, std::uint32_t exit = 0) {
    Turn turn;
    turn.kind = kind;
    turn.road = roads_.label(driven_[onto].link / 2);
    turn.position = driven_[onto].points.front();
    turn.exit = exit;
    turns_.push_back(std::move(turn));
  }
  void count_in(std::size_t i) {
    turns_.back().length += driven_[i].metres;
    turns_.back().time += driven_[i].seconds;
  }
  double angle(std::size_t in, std::size_t out) const {
    std::vector<Position> back(driven_[in].points.rbegin(), driven_[in].points.rend());
    const Offset from = direction_out(back);
    return angle_between({-from.east, -from.north}, direction_out(driven_[out].points));
  }

  // The ways on from a junction, apart from the one driven in on.
  struct WayOn {
    std::uint32_t link;
    double angle;
  };
  std::vector<WayOn> ways_on(std::size_t in) const {
    const RoadGraphParts& parts = roads_.parts();
    std::vector<Position> back(driven_[in].points.rbegin(), driven_[in].points.rend());
    const Offset from = direction_out(back);
    std::vector<WayOn> result;
    const std::uint32_t node = end_node(in);
    for (std::uint32_t a = parts.state_first[node]; a < parts.state_first[node + 1]; ++a) {
      const std::uint32_t link = parts.arcs[a].link;
      if (link == (driven_[in].link ^ 1U)) continue;
      std::vector<Position> points = roads_.geometry(link / 2);
      if (link % 2 == 1) std::reverse(points.begin(), points.end());
      result.push_back({link, angle_between({-from.east, -from.north}, direction_out(points))});
    }
    return result;
  }

  void judge(std::size_t in, std::size_t out) {
    const double turned = angle(in, out);
    if (driven_[out].link == (driven_[in].link ^ 1U)) return add(Turn::Kind::back, out);
    const std::vector<WayOn> choices = ways_on(in);
    const bool same_road = name(in) == name(out) && edge(in).road_class == edge(out).road_class;
    if (choices.size() <= 1) {  // a bend, or where a road changes its name
      if (name(in) != name(out) && !name(out).empty()) add(Turn::Kind::ahead, out);
      return;
    }
    const bool named = !name(out).empty();
    if (same_road && named && std::abs(turned) < 50) return;
    if (std::abs(turned) < 50) {  // more or less straight on: say so only where that is not the plain way on
      const bool straightest = std::all_of(choices.begin(), choices.end(), [&](const WayOn& w) {
        return w.link == driven_[out].link || std::abs(turned) + 15 < std::abs(w.angle);
      });
      if (straightest && (same_road || name(in) == name(out))) return;
      if (straightest) return add(Turn::Kind::ahead, out);
    }
    if (same_road && named && std::abs(turned) < 120) {
      // The road itself bends at a junction: still a turn for the driver when something else goes straighter on.
      const bool other_straighter = std::any_of(choices.begin(), choices.end(), [&](const WayOn& w) {
        return w.link != driven_[out].link && std::abs(w.angle) + 20 < std::abs(turned);
      });
      if (!other_straighter) return;
    }
    add(kind_of(turned), out);
  }

  // `first` is the first edge on the roundabout. Returns the edge driven after it.
  std::size_t through_roundabout(std::size_t first) {
    std::size_t i = first;
    std::uint32_t exits = 0;
    add(Turn::Kind::roundabout, first);
    const std::size_t turn = turns_.size() - 1;
    while (i + 1 < driven_.size() && on_roundabout(i)) {
      count_in(i);
      for (const WayOn& w : ways_on(i))
        if ((roads_.edges()[w.link / 2].flags & RoadEdge::roundabout) == 0) ++exits;
      ++i;
    }
    turns_[turn].exit = on_roundabout(i) ? 0 : std::max(exits, 1U);  // 0: it ends on the roundabout
    turns_[turn].road = roads_.label(driven_[i].link / 2);
    return i;
  }

  const RoadGraph& roads_;
  const std::vector<DrivenEdge>& driven_;
  std::vector<Turn> turns_;
};

std::string length_words(Metres length) {
  if (length.value < 95) return fixed(std::max(10.0, std::round(length.value / 10) * 10), 0) + " m";
  if (length.value < 975) return fixed(std::round(length.value / 50) * 50, 0) + " m";
  return fixed(in_kilometres(length), 1) + " km";
}

}  // namespace

std::vector<Turn> driver_turns(const RoadGraph& roads, const std::vector<DrivenEdge>& driven) {
  return TurnList(roads, driven).make();
}

std::string describe(const Turn& turn) {
  const auto onto = [&](const char* words) { return words + turn.road + ", " + length_words(turn.length); };
  switch (turn.kind) {
    case Turn::Kind::start:
      return onto("Start on ");
    case Turn::Kind::ahead:
      return onto("Straight on along ");
    case Turn::Kind::left:
      return onto("Left into ");
    case Turn::Kind::right:
      return onto("Right into ");
    case Turn::Kind::sharp_left:
      return onto("Sharp left into ");
    case Turn::Kind::sharp_right:
      return onto("Sharp right into ");
    case Turn::Kind::slight_left:
      return onto("Bear left into ");
    case Turn::Kind::slight_right:
      return onto("Bear right into ");
    case Turn::Kind::back:
      return onto("Turn round on ");
    case Turn::Kind::roundabout: {
      if (turn.exit == 0) return onto("Onto the roundabout ");
      const std::uint32_t n = turn.exit % 100;
      const char* ending = n % 10 == 1 && n != 11   ? "st"
                           : n % 10 == 2 && n != 12 ? "nd"
                           : n % 10 == 3 && n != 13 ? "rd"
                                                    : "th";
      return onto(("Roundabout: " + std::to_string(turn.exit) + ending + " exit, ").c_str());
    }
    case Turn::Kind::arrive:
      return "Arrive";
  }
  return {};
}

}  // namespace outbye
