// Road maps drawn in tests, so that the expectation is visible. Test support only.
//
//     barn--ford--gate        - | a road both ways        > < one way along a row
//            |                                            ! ^ one way down, up
//            mill
//
// A place stands at the column and row of its first letter, one column or row for each `scale` metres; places are
// words of letters and digits. Each road is a way of its own, called "barn-ford" as read left to right or top down.
#pragma once

#include <cctype>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/roads/ground_length.h"
#include "core/roads/road_builder.h"
#include "core/roads/route.h"

namespace outbye {

class DrawnRoads {
 public:
  DrawnRoads(std::string_view drawing, Metres scale, double speed = 60) : scale_(scale) {
    read_rows(drawing);
    for (const Place& place : places_) {
      points_[place.name] = builder.add_point(position(place));
      positions_[place.name] = position(place);
    }
    for (const Place& place : places_) {
      follow_right(place, speed);
      follow_down(place, speed);
    }
  }

  struct Road {
    std::int64_t id{};
    std::string from, to;
    RoadAttributes attributes;
    std::string name;
  };
  // "barn-ford"; may be changed before build().
  Road& road(const std::string& name) { return roads_.at(name); }
  std::uint32_t point(const std::string& place) const { return points_.at(place); }
  Position at(const std::string& place) const { return positions_.at(place); }
  // A point `share` of the way from one place to another.
  Position between(const std::string& a, const std::string& b, double share) const {
    const Position from = at(a), to = at(b);
    return {from.latitude + share * (to.latitude - from.latitude),
            from.longitude + share * (to.longitude - from.longitude)};
  }

  // restrict(no, {"a-b", "b-c", "c-d"}): by way of the middle roads, or of the place where two roads meet.
  void restrict(RestrictionTag::Kind kind, const std::vector<std::string>& names) {
    TurnRestriction restriction;
    restriction.kind = kind;
    restriction.from = road(names.front()).id;
    restriction.to = road(names.back()).id;
    for (std::size_t i = 1; i + 1 < names.size(); ++i) restriction.via_ways.push_back(road(names[i]).id);
    if (names.size() == 2) {
      const Road &a = road(names[0]), &b = road(names[1]);
      restriction.via_point = point(a.to == b.from || a.to == b.to ? a.to : a.from);
    }
    builder.add_restriction(restriction);
  }

  RoadGraph build() {
    for (const auto& [name, road] : roads_) {
      const std::vector<std::uint32_t> points{point(road.from), point(road.to)};
      builder.add_way(road.id, points, road.attributes, builder.name(road.name));
    }
    return std::move(builder.build().value());
  }

  RoadBuilder builder;

 private:
  struct Place {
    std::string name;
    std::size_t row, column;
  };
  void read_rows(std::string_view drawing) {
    rows_.emplace_back();
    for (const char c : drawing) {
      if (c == '\n')
        rows_.emplace_back();
      else
        rows_.back() += c;
    }
    for (std::size_t r = 0; r < rows_.size(); ++r)
      for (std::size_t c = 0; c < rows_[r].size(); ++c)
        if (is_letter(r, c) && (c == 0 || !is_letter(r, c - 1))) {
          std::size_t end = c;
          while (is_letter(r, end)) ++end;
          places_.push_back({rows_[r].substr(c, end - c), r, c});
        }
  }
  char cell(std::size_t r, std::size_t c) const { return r < rows_.size() && c < rows_[r].size() ? rows_[r][c] : ' '; }
  bool is_letter(std::size_t r, std::size_t c) const { return std::isalnum(static_cast<unsigned char>(cell(r, c))); }
  const Place* place_over(std::size_t r, std::size_t c) const {
    for (const Place& place : places_)
      if (place.row == r && c >= place.column && c < place.column + place.name.size()) return &place;
    return nullptr;
  }
  Position position(const Place& place) const {
    const FixedPosition origin{520000000, 0};
    const GroundScale units = ground_scale(origin.latitude);
    return position_of(
        {static_cast<std::int32_t>(origin.latitude -
                                   std::lround(static_cast<double>(place.row) * scale_.value / units.latitude)),
         static_cast<std::int32_t>(std::lround(static_cast<double>(place.column) * scale_.value / units.longitude))});
  }
  void add(const Place& from, const Place& to, double speed, bool forward, bool backward) {
    Road road{++last_id_, from.name, to.name, {}, {}};
    road.attributes.forward = forward ? speed : 0;
    road.attributes.backward = backward ? speed : 0;
    roads_.emplace(from.name + "-" + to.name, road);
  }
  void follow_right(const Place& from, double speed) {
    std::size_t c = from.column + from.name.size();
    bool forward = true, backward = true, any = false;
    for (; cell(from.row, c) == '-' || cell(from.row, c) == '>' || cell(from.row, c) == '<'; ++c) {
      any = true;
      if (cell(from.row, c) == '>') backward = false;
      if (cell(from.row, c) == '<') forward = false;
    }
    const Place* to = place_over(from.row, c);
    if (any && to) add(from, *to, speed, forward, backward);
  }
  void follow_down(const Place& from, double speed) {
    for (std::size_t c = from.column; c < from.column + from.name.size(); ++c) {
      std::size_t r = from.row + 1;
      bool down = true, up = true, any = false;
      for (; cell(r, c) == '|' || cell(r, c) == '!' || cell(r, c) == '^'; ++r) {
        any = true;
        if (cell(r, c) == '!') up = false;
        if (cell(r, c) == '^') down = false;
      }
      const Place* to = place_over(r, c);
      if (any && to) add(from, *to, speed, down, up);
    }
  }

  Metres scale_;
  std::vector<std::string> rows_;
  std::vector<Place> places_;
  std::map<std::string, std::uint32_t> points_;
  std::map<std::string, Position> positions_;
  std::map<std::string, Road> roads_;
  std::int64_t last_id_{};
};

inline Snap snapped(const RoadGraph& roads, Position place) { return snap(roads, place, Metres{100}).value(); }

// Seconds between two drawn places; nothing when there is no way.
inline std::optional<double> seconds_between(const RoadGraph& roads, Position from, Position to) {
  const auto route = fastest_route(roads, snapped(roads, from), snapped(roads, to));
  if (!route) return std::nullopt;
  return route->drive.time.count();
}

}  // namespace outbye
