#include "formats/map_tiles/map_features.h"

#include <algorithm>
#include <tuple>
#include <unordered_map>

namespace outbye {

void MapFeatures::begin(MapShape shape, const MapLook& look) {
  const auto [at, is_new] = known_.try_emplace(look.attributes, static_cast<std::uint32_t>(attributes.size()));
  if (is_new) attributes.push_back(look.attributes);
  features.push_back({look.layer, shape, static_cast<std::uint8_t>(look.min_zoom), at->second,
                      static_cast<std::uint32_t>(parts.size()), 0});
}

void MapFeatures::add_part(std::span<const WorldPoint> part, bool is_hole) {
  parts.push_back({static_cast<std::uint32_t>(points.size()), static_cast<std::uint32_t>(part.size()), is_hole});
  points.insert(points.end(), part.begin(), part.end());
  ++features.back().part_count;
}

namespace {

// One end of a line: where it is, which line, which end.
struct LineEnd {
  std::uint32_t kind{};
  WorldPoint at;
  std::uint32_t line{};
  bool is_last{};
};

bool is_before(const LineEnd& a, const LineEnd& b) {
  return std::tie(a.kind, a.at.x, a.at.y, a.line, a.is_last) < std::tie(b.kind, b.at.x, b.at.y, b.line, b.is_last);
}

constexpr std::uint32_t no_end = ~std::uint32_t{0};

}  // namespace

std::vector<LooseLine> joined_lines(std::vector<LooseLine> lines) {
  std::vector<LineEnd> ends;
  ends.reserve(2 * lines.size());
  for (std::uint32_t i = 0; i < lines.size(); ++i) {
    ends.push_back({lines[i].kind, lines[i].points.front(), i, false});
    ends.push_back({lines[i].kind, lines[i].points.back(), i, true});
  }
  std::sort(ends.begin(), ends.end(), is_before);
  // next[2 i + last]: the end (same numbering) that this one is joined to.
  std::vector<std::uint32_t> next(ends.size(), no_end);
  const auto number = [](const LineEnd& end) { return 2 * end.line + (end.is_last ? 1U : 0U); };
  for (std::size_t i = 0; i < ends.size();) {
    std::size_t j = i + 1;
    while (j < ends.size() && ends[j].kind == ends[i].kind && ends[j].at == ends[i].at) ++j;
    if (j - i == 2 && ends[i].line != ends[i + 1].line) {
      next[number(ends[i])] = number(ends[i + 1]);
      next[number(ends[i + 1])] = number(ends[i]);
    }
    i = j;
  }
  std::vector<LooseLine> result;
  std::vector<bool> is_used(lines.size());
  // From a free end, or for a ring from anywhere, to the other.
  const auto follow = [&](std::uint32_t start) {
    LooseLine line{lines[start / 2].kind, {}};
    for (std::uint32_t end = start; end != no_end && !is_used[end / 2];) {
      is_used[end / 2] = true;
      const std::vector<WorldPoint>& points = lines[end / 2].points;
      const auto add = [&](auto from, auto to) {
        if (!line.points.empty()) ++from;  // the point shared with the line before
        line.points.insert(line.points.end(), from, to);
      };
      if (end % 2 == 0) {
        add(points.begin(), points.end());
      } else {
        add(points.rbegin(), points.rend());
      }
      end = next[end ^ 1U];
    }
    result.push_back(std::move(line));
  };
  for (std::uint32_t i = 0; i < lines.size(); ++i) {
    if (is_used[i]) continue;
    if (next[2 * i] == no_end) {
      follow(2 * i);
    } else if (next[2 * i + 1] == no_end) {
      follow(2 * i + 1);
    }
  }
  for (std::uint32_t i = 0; i < lines.size(); ++i) {
    if (!is_used[i]) follow(2 * i);
  }
  return result;
}

}  // namespace outbye
