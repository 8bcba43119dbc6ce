#include "core/roads/route.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/roads/drive_search.h"
#include "core/roads/driver_turns.h"
#include "core/roads/ground_length.h"

namespace outbye {
namespace {

// The points of an edge between two shares of its length, in the order from, to.
std::vector<Position> part_of(const RoadGraph& roads, std::uint32_t edge, double from, double to) {
  const bool reversed = from > to;
  const double low = std::min(from, to), high = std::max(from, to);
  const std::vector<Position> whole = roads.geometry(edge);
  std::vector<double> along{0.0};
  for (std::size_t i = 1; i < whole.size(); ++i)
    along.push_back(along.back() + ground_length(fixed_position(whole[i - 1]), fixed_position(whole[i])));
  const auto point_at = [&](double metres) {
    std::size_t i = 1;
    while (i + 1 < whole.size() && along[i] < metres) ++i;
    const double piece = along[i] - along[i - 1];
    const double share = piece > 0 ? std::clamp((metres - along[i - 1]) / piece, 0.0, 1.0) : 0.0;
    return Position{whole[i - 1].latitude + share * (whole[i].latitude - whole[i - 1].latitude),
                    whole[i - 1].longitude + share * (whole[i].longitude - whole[i - 1].longitude)};
  };
  std::vector<Position> result;
  result.push_back(low <= 0 ? whole.front() : point_at(low * along.back()));
  for (std::size_t i = 1; i + 1 < whole.size(); ++i)
    if (along[i] > low * along.back() && along[i] < high * along.back()) result.push_back(whole[i]);
  result.push_back(high >= 1 ? whole.back() : point_at(high * along.back()));
  if (reversed) std::reverse(result.begin(), result.end());
  return result;
}

std::vector<std::string> notes_on(const RoadGraph& roads, const std::vector<DrivenEdge>& driven) {
  struct Note {
    std::uint8_t flag;
    const char* text;
  };
  static constexpr std::array<Note, 3> kinds{{{RoadEdge::ford, "ford on "},
                                              {RoadEdge::gate, "gate on "},
                                              {RoadEdge::destination_only, "only for those with business there: "}}};
  std::vector<std::string> notes;
  for (const Note& kind : kinds)
    for (const DrivenEdge& part : driven) {
      const std::uint32_t edge = part.link / 2;
      if ((roads.edges()[edge].flags & kind.flag) == 0) continue;
      std::string note = kind.text + roads.label(edge);
      if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(std::move(note));
    }
  return notes;
}

}  // namespace

std::optional<Route> fastest_route(const RoadGraph& roads, const Snap& from, const Snap& to) {
  DriveSearch search(roads);
  const auto answers = search.find(from, std::span(&to, 1), true);
  const std::optional<FoundDrive>& found = answers.front();
  if (!found) return std::nullopt;
  Route route;
  route.drive = {Seconds{found->seconds}, Metres{found->metres}};
  std::vector<DrivenEdge> driven;
  for (std::size_t i = 0; i < found->links.size(); ++i) {
    const std::uint32_t link = found->links[i], edge = link / 2;
    const bool backward = link % 2 == 1;
    double begin = backward ? 1.0 : 0.0, end = backward ? 0.0 : 1.0;
    if (i == 0) begin = from.share;
    if (i + 1 == found->links.size()) end = to.share;
    DrivenEdge part{link, part_of(roads, edge, begin, end), {}, {}};
    const RoadEdge& e = roads.edges()[edge];
    const double share = std::abs(end - begin);
    part.metres = {share * e.metres};
    part.seconds = Seconds{share == 0 ? 0.0 : share * (backward ? e.backward : e.forward)};
    const std::size_t skip = route.geometry.empty() ? 0 : 1;
    route.geometry.insert(route.geometry.end(), part.points.begin() + static_cast<std::ptrdiff_t>(skip),
                          part.points.end());
    driven.push_back(std::move(part));
  }
  route.turns = driver_turns(roads, driven);
  route.notes = notes_on(roads, driven);
  return route;
}

}  // namespace outbye
