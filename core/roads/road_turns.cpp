#include "core/roads/road_turns.h"

#include <algorithm>
#include <map>

namespace outbye {
namespace {

// The sequences of arcs that must not be driven, as a trie; failure links lead to the longest proper ending of a
// sequence that begins another one.
class ForbiddenSequences {
 public:
  ForbiddenSequences() : nodes_(1) {}

  void forbid(const std::vector<std::uint32_t>& arcs, std::uint32_t exit) {
    std::uint32_t at = 0;
    for (const std::uint32_t arc : arcs) at = child(at, arc);
    nodes_[child(at, exit)].is_forbidden = true;
  }

  void finish() {
    std::vector<std::uint32_t> queue{0};
    for (std::size_t i = 0; i < queue.size(); ++i) {
      const std::uint32_t at = queue[i];
      for (const auto& [arc, next] : nodes_[at].children) {
        nodes_[next].failure = at == 0 ? 0 : follow(nodes_[at].failure, arc);
        nodes_[next].is_forbidden = nodes_[next].is_forbidden || nodes_[nodes_[next].failure].is_forbidden;
        queue.push_back(next);
      }
    }
  }

  std::uint32_t follow(std::uint32_t at, std::uint32_t arc) const {
    while (true) {
      const auto found = nodes_[at].children.find(arc);
      if (found != nodes_[at].children.end()) return found->second;
      if (at == 0) return 0;
      at = nodes_[at].failure;
    }
  }
  bool is_forbidden(std::uint32_t at) const { return nodes_[at].is_forbidden; }
  std::size_t size() const { return nodes_.size(); }
  std::uint32_t last_arc(std::uint32_t at) const { return nodes_[at].last_arc; }

 private:
  struct Node {
    std::map<std::uint32_t, std::uint32_t> children;  // by arc
    std::uint32_t last_arc{};
    std::uint32_t failure{};
    bool is_forbidden{};
  };
  std::uint32_t child(std::uint32_t at, std::uint32_t arc) {
    const auto [found, is_new] = nodes_[at].children.try_emplace(arc, static_cast<std::uint32_t>(nodes_.size()));
    const std::uint32_t next = found->second;
    if (is_new) {
      nodes_.emplace_back();
      nodes_.back().last_arc = arc;
    }
    return next;
  }
  std::vector<Node> nodes_;
};

}  // namespace

void add_restrictions(RoadGraphParts& parts, const std::vector<ArcRestriction>& restrictions) {
  if (restrictions.empty()) return;
  const auto nodes = static_cast<std::uint32_t>(parts.nodes.size());
  ForbiddenSequences sequences;
  std::map<std::vector<std::uint32_t>, std::vector<std::uint32_t>> only;  // two "only" from one road: either will do
  for (const ArcRestriction& r : restrictions) {
    if (r.only) {
      std::vector<std::uint32_t>& exits = only[r.arcs];
      exits.insert(exits.end(), r.exits.begin(), r.exits.end());
    } else {
      for (const std::uint32_t exit : r.exits) sequences.forbid(r.arcs, exit);
    }
  }
  const auto forbid_others = [&](const std::vector<std::uint32_t>& arcs, const std::vector<std::uint32_t>& exits) {
    const std::uint32_t node = parts.arcs[arcs.back()].head;
    for (std::uint32_t arc = parts.state_first[node]; arc < parts.state_first[node + 1]; ++arc)
      if (std::find(exits.begin(), exits.end(), arc) == exits.end()) sequences.forbid(arcs, arc);
  };
  for (const auto& [arcs, exits] : only) {
    forbid_others(arcs, exits);
    // Over ways: once on the first of them there is no way off before the end.
    for (std::size_t done = 2; done < arcs.size(); ++done)
      forbid_others({arcs.begin(), arcs.begin() + static_cast<std::ptrdiff_t>(done)}, {arcs[done]});
  }
  sequences.finish();

  std::vector<std::uint32_t> state_of(sequences.size(), no_road_index);
  for (std::uint32_t s = 1; s < sequences.size(); ++s) {
    if (sequences.is_forbidden(s)) continue;
    state_of[s] = nodes + static_cast<std::uint32_t>(parts.copy_of.size());
    parts.copy_of.push_back(parts.arcs[sequences.last_arc(s)].head);
  }
  const std::vector<RoadArc> plain = parts.arcs;
  for (std::uint32_t arc = 0; arc < plain.size(); ++arc)
    if (const std::uint32_t s = sequences.follow(0, arc); s != 0) parts.arcs[arc].head = state_of[s];
  for (std::uint32_t s = 1; s < sequences.size(); ++s) {
    if (state_of[s] == no_road_index) continue;
    const std::uint32_t node = parts.copy_of[state_of[s] - nodes];
    for (std::uint32_t arc = parts.state_first[node]; arc < parts.state_first[node + 1]; ++arc) {
      const std::uint32_t next = sequences.follow(s, arc);
      if (sequences.is_forbidden(next)) continue;
      RoadArc out = plain[arc];
      if (next != 0) out.head = state_of[next];
      parts.arcs.push_back(out);
    }
    parts.state_first.push_back(static_cast<std::uint32_t>(parts.arcs.size()));
  }
}

}  // namespace outbye
