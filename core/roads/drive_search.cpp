#include "core/roads/drive_search.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace outbye {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

}  // namespace

DriveSearch::DriveSearch(const RoadGraph& roads) : parts_(roads.parts()) {
  has_target_.assign(parts_.nodes.size(), 0);
  leads_to_target_.assign(parts_.nodes.size(), 0);
}

void DriveSearch::set_targets(std::span<const Snap> to) {
  for (const std::uint32_t node : marked_) has_target_[node] = leads_to_target_[node] = 0;
  marked_.clear();
  targets_.assign(to.begin(), to.end());
  target_order_.resize(targets_.size());
  for (std::uint32_t i = 0; i < targets_.size(); ++i) target_order_[i] = i;
  std::sort(target_order_.begin(), target_order_.end(), [&](std::uint32_t a, std::uint32_t b) {
    return targets_[a].edge != targets_[b].edge ? targets_[a].edge < targets_[b].edge : a < b;
  });
  std::vector<std::uint32_t> open;
  for (const Snap& target : targets_)
    for (const std::uint32_t node : {parts_.edges[target.edge].tail, parts_.edges[target.edge].head}) {
      has_target_[node] = 1;
      marked_.push_back(node);
      open.push_back(node);
    }
  // The way into a dead-end branch: its nodes up to the open network. Few, so a plain search along them will do.
  while (!open.empty()) {
    const std::uint32_t node = open.back();
    open.pop_back();
    if (parts_.way_out[node] == no_road_index || leads_to_target_[node]) continue;
    leads_to_target_[node] = 1;
    marked_.push_back(node);
    open.push_back(parts_.way_out[node]);
  }
}

void DriveSearch::begin(std::size_t labels) {
  if (labels_.size() < labels) labels_.resize(labels);
  if (++round_ == 0) {  // after 2^32 searches the marks start again
    std::fill(labels_.begin(), labels_.end(), Label{});
    round_ = 1;
  }
  queue_.clear();
  arrivals_.assign(targets_.size(), Arrival{never, 0, no_road_index, 0, false});
  missing_ = static_cast<std::size_t>(std::count(wanted_.begin(), wanted_.end(), 1));
  latest_ = 0;
}

// A heap with four children a node: shallower than two, and the children share a cache line.
void DriveSearch::push(Queued entry) {
  queue_.push_back(entry);
  std::size_t i = queue_.size() - 1;
  while (i > 0) {
    const std::size_t parent = (i - 1) / 4;
    const Queued& above = queue_[parent];
    if (above.seconds < entry.seconds || (above.seconds == entry.seconds && above.item <= entry.item)) break;
    queue_[i] = above;
    i = parent;
  }
  queue_[i] = entry;
}

DriveSearch::Queued DriveSearch::pop() {
  const auto is_before = [](const Queued& a, const Queued& b) {
    return a.seconds < b.seconds || (a.seconds == b.seconds && a.item < b.item);
  };
  const Queued top = queue_.front();
  const Queued last = queue_.back();
  queue_.pop_back();
  const std::size_t size = queue_.size();
  if (size == 0) return top;
  std::size_t i = 0;
  while (true) {
    const std::size_t first = 4 * i + 1;
    if (first >= size) break;
    std::size_t least = first;
    for (std::size_t child = first + 1; child < std::min(first + 4, size); ++child)
      if (is_before(queue_[child], queue_[least])) least = child;
    if (!is_before(queue_[least], last)) break;
    queue_[i] = queue_[least];
    i = least;
  }
  queue_[i] = last;
  return top;
}

void DriveSearch::reach(std::uint32_t item, double seconds, double metres, std::uint32_t before, std::uint32_t link,
                        bool turns_back) {
  Label& label = labels_[item];
  if (label.round == round_ && (label.is_settled || label.seconds <= seconds)) return;
  label = {seconds, metres, round_, before, link, false, turns_back};
  push({seconds, item});
}

bool DriveSearch::is_done(double seconds) const { return missing_ == 0 && seconds >= latest_; }

// Targets on the edge of the start that can be driven to without leaving it.
void DriveSearch::straight_along(const Snap& from) {
  const RoadEdge& edge = parts_.edges[from.edge];
  for (std::size_t t = 0; t < targets_.size(); ++t) {
    const Snap& to = targets_[t];
    if (to.edge != from.edge || !wanted_[t]) continue;
    const double share = to.share - from.share;
    const std::uint32_t direction = share >= 0 ? 0 : 1;
    if (share != 0 && edge.arcs[direction] == no_road_index) continue;
    const double seconds = share == 0 ? 0.0 : std::abs(share) * (direction == 0 ? edge.forward : edge.backward);
    arrivals_[t] = {seconds, std::abs(share) * edge.metres, no_road_index, 2 * from.edge + direction, false};
    --missing_;
    latest_ = std::max(latest_, seconds);
  }
}

// Offers the targets on the arcs out of a settled state.
void DriveSearch::arrive(std::uint32_t state, std::uint32_t item, const Label& label, bool may_turn_back) {
  const std::uint32_t node = node_of(state);
  if (!has_target_[node]) return;
  for (std::uint32_t a = parts_.state_first[state]; a < parts_.state_first[state + 1]; ++a) {
    const std::uint32_t link = parts_.arcs[a].link, edge = link / 2;
    auto found = std::lower_bound(target_order_.begin(), target_order_.end(), edge,
                                  [&](std::uint32_t t, std::uint32_t e) { return targets_[t].edge < e; });
    if (found == target_order_.end() || targets_[*found].edge != edge) continue;
    const bool turns_back = link == (label.link ^ 1U) && !is_dead_end(node);
    if (turns_back && !may_turn_back) continue;
    for (; found != target_order_.end() && targets_[*found].edge == edge; ++found) {
      const std::uint32_t t = *found;
      if (!wanted_[t]) continue;
      const double share = link % 2 == 0 ? targets_[t].share : 1.0 - targets_[t].share;
      const double seconds = label.seconds + share * parts_.arcs[a].seconds;
      Arrival& arrival = arrivals_[t];
      if (!(seconds < arrival.seconds)) continue;
      const bool is_first = arrival.seconds == never;
      arrival = {seconds, label.metres + share * parts_.arcs[a].metres, item, link, label.turns_back || turns_back};
      if (is_first) --missing_;
      if (missing_ == 0) {
        latest_ = 0;
        for (std::size_t other = 0; other < arrivals_.size(); ++other)
          if (wanted_[other]) latest_ = std::max(latest_, arrivals_[other].seconds);
      }
    }
  }
}

void DriveSearch::search_states(const Snap& from) {
  begin(parts_.nodes.size() + parts_.copy_of.size());
  straight_along(from);
  for (std::uint32_t direction = 0; direction < 2; ++direction) {
    const std::uint32_t arc = parts_.edges[from.edge].arcs[direction];
    if (arc == no_road_index) continue;
    const double share = direction == 0 ? 1.0 - from.share : from.share;
    reach(parts_.arcs[arc].head, share * parts_.arcs[arc].seconds, share * parts_.arcs[arc].metres, no_road_index,
          parts_.arcs[arc].link, false);
  }
  const auto nodes = static_cast<std::uint32_t>(parts_.nodes.size());
  while (!queue_.empty()) {
    const Queued next = pop();
    if (is_done(next.seconds)) break;
    const std::uint32_t state = next.item;
    Label& stored = labels_[state];
    if (stored.is_settled || next.seconds > stored.seconds) continue;
    stored.is_settled = true;
    const Label label = stored;
    arrive(state, state, label, true);
    const std::uint32_t way_out = state < nodes ? parts_.way_out[state] : no_road_index;
    const std::uint32_t node = node_of(state);
    for (std::uint32_t a = parts_.state_first[state]; a < parts_.state_first[state + 1]; ++a) {
      const RoadArc& arc = parts_.arcs[a];
      if (arc.head < nodes && arc.head != way_out && parts_.way_out[arc.head] != no_road_index &&
          !leads_to_target_[arc.head])
        continue;  // a dead-end branch without a target
      const bool turns_back = label.turns_back || (arc.link == (label.link ^ 1U) && !is_dead_end(node));
      reach(arc.head, label.seconds + arc.seconds, label.metres + arc.metres, state, arc.link, turns_back);
    }
  }
}

void DriveSearch::search_arcs(const Snap& from) {
  begin(parts_.arcs.size());
  straight_along(from);
  for (std::uint32_t direction = 0; direction < 2; ++direction) {
    const std::uint32_t arc = parts_.edges[from.edge].arcs[direction];
    if (arc == no_road_index) continue;
    const double share = direction == 0 ? 1.0 - from.share : from.share;
    reach(arc, share * parts_.arcs[arc].seconds, share * parts_.arcs[arc].metres, no_road_index, parts_.arcs[arc].link,
          false);
  }
  while (!queue_.empty()) {
    const Queued next = pop();
    if (is_done(next.seconds)) break;
    Label& stored = labels_[next.item];
    if (stored.is_settled || next.seconds > stored.seconds) continue;
    stored.is_settled = true;
    const Label label = stored;
    const std::uint32_t state = parts_.arcs[next.item].head;
    arrive(state, next.item, label, false);
    const bool may_turn = is_dead_end(node_of(state));
    for (std::uint32_t a = parts_.state_first[state]; a < parts_.state_first[state + 1]; ++a) {
      const RoadArc& arc = parts_.arcs[a];
      if (arc.link == (label.link ^ 1U) && !may_turn) continue;
      reach(a, label.seconds + arc.seconds, label.metres + arc.metres, next.item, arc.link, false);
    }
  }
}

FoundDrive DriveSearch::collect(const Arrival& arrival, bool with_links) const {
  FoundDrive drive{arrival.seconds, arrival.metres, {}};
  if (!with_links) return drive;
  drive.links.push_back(arrival.link);
  for (std::uint32_t item = arrival.before; item != no_road_index; item = labels_[item].before)
    drive.links.push_back(labels_[item].link);
  std::reverse(drive.links.begin(), drive.links.end());
  return drive;
}

std::vector<std::optional<FoundDrive>> DriveSearch::find_marked(const Snap& from, bool with_links) {
  std::vector<std::optional<FoundDrive>> result(targets_.size());
  wanted_.assign(targets_.size(), 1);
  search_states(from);
  for (std::size_t t = 0; t < targets_.size(); ++t) {
    wanted_[t] = arrivals_[t].seconds < never && arrivals_[t].turns_back;
    if (arrivals_[t].seconds < never) result[t] = collect(arrivals_[t], with_links);
  }
  if (std::find(wanted_.begin(), wanted_.end(), 1) == wanted_.end()) return result;
  search_arcs(from);
  for (std::size_t t = 0; t < targets_.size(); ++t)
    if (wanted_[t] && arrivals_[t].seconds < never) result[t] = collect(arrivals_[t], with_links);
  return result;
}

std::vector<std::optional<FoundDrive>> DriveSearch::find(const Snap& from, std::span<const Snap> to, bool with_links) {
  set_targets(to);
  return find_marked(from, with_links);
}

}  // namespace outbye
