#include "core/roads/drive_search.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace outbye {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

}  // namespace

DriveSearch::DriveSearch(const RoadGraph& roads) : parts_(roads.parts()) {
  labels_.resize(parts_.nodes.size() + parts_.copy_of.size());
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

void DriveSearch::begin() {
  if (++round_ == 0) {  // after 2^32 searches the marks start again
    std::fill(labels_.begin(), labels_.end(), Label{});
    round_ = 1;
  }
  queue_.clear();
  arrivals_.assign(targets_.size(), Arrival{never, 0});
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

void DriveSearch::reach(std::uint32_t state, const Way& way) {
  Label& label = labels_[state];
  Way& first = label.ways[0];
  Way& second = label.ways[1];
  if (label.round != round_) {
    label = {{way, {never, 0, no_road_index, no_road_index}}, round_, no_road_index, {}};
    push({way.seconds, 2 * state});
  } else if (!label.is_settled[0] && way.seconds < first.seconds) {
    if (way.link != first.link) second = first;
    first = way;
    push({way.seconds, 2 * state});
  } else if (way.link != first.link && !label.is_settled[1] && way.seconds < second.seconds) {
    second = way;
    if (label.is_settled[0] && may_pay_to_go_back(state)) push({way.seconds, 2 * state + 1});
  }
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
    arrivals_[t] = {seconds, std::abs(share) * edge.metres, no_road_index, 2 * from.edge + direction};
    --missing_;
    latest_ = std::max(latest_, seconds);
  }
}

// Offers the targets on the arcs out of a settled state. Its second way has none to offer: the road back was driven in
// the first, and the places on it were offered then.
void DriveSearch::arrive(std::uint32_t state, bool may_turn_back) {
  const Way& way = labels_[state].ways[0];
  const std::uint32_t node = node_of(state);
  if (!has_target_[node]) return;
  for (std::uint32_t a = parts_.state_first[state]; a < parts_.state_first[state + 1]; ++a) {
    const std::uint32_t link = parts_.arcs[a].link, edge = link / 2;
    auto found = std::lower_bound(target_order_.begin(), target_order_.end(), edge,
                                  [&](std::uint32_t t, std::uint32_t e) { return targets_[t].edge < e; });
    if (found == target_order_.end() || targets_[*found].edge != edge) continue;
    if (link == (way.link ^ 1U) && !may_turn_back) continue;
    for (; found != target_order_.end() && targets_[*found].edge == edge; ++found) {
      const std::uint32_t t = *found;
      if (!wanted_[t]) continue;
      const double share = link % 2 == 0 ? targets_[t].share : 1.0 - targets_[t].share;
      const double seconds = way.seconds + share * parts_.arcs[a].seconds;
      Arrival& arrival = arrivals_[t];
      if (!(seconds < arrival.seconds)) continue;
      const bool is_first = arrival.seconds == never;
      arrival = {seconds, way.metres + share * parts_.arcs[a].metres, 2 * state, link};
      if (is_first) --missing_;
      if (missing_ == 0) {
        latest_ = 0;
        for (std::size_t other = 0; other < arrivals_.size(); ++other)
          if (wanted_[other]) latest_ = std::max(latest_, arrivals_[other].seconds);
      }
    }
  }
}

// The arc that undoes the first way to a state; no_road_index: there is none, or it is forbidden.
std::uint32_t DriveSearch::arc_back(std::uint32_t state) const {
  const std::uint32_t link = labels_[state].ways[0].link ^ 1U;
  for (std::uint32_t a = parts_.state_first[state]; a < parts_.state_first[state + 1]; ++a)
    if (parts_.arcs[a].link == link) return a;
  return no_road_index;
}

// The settled state that makes going back over `arc` a second way: its head or, as good or better because nothing is
// forbidden there, the node that its head is a copy of. no_road_index: none yet.
std::uint32_t DriveSearch::settled_behind(std::uint32_t arc) const {
  const std::uint32_t head = parts_.arcs[arc].head;
  if (is_settled(head)) return head;
  const std::uint32_t node = node_of(head);
  return node != head && is_settled(node) ? node : no_road_index;
}

// Whether a second way to a settled state can be of use. Once it cannot it never can.
bool DriveSearch::may_pay_to_go_back(std::uint32_t state) {
  passed_.clear();
  std::uint32_t found = no_road_index;
  while (labels_[state].waits_at != no_road_index) {
    passed_.push_back(state);
    if (labels_[state].waits_at != state) {
      state = labels_[state].waits_at;
      continue;
    }
    const std::uint32_t arc = arc_back(state), behind = settled_behind(arc);
    if (behind == no_road_index) {
      found = state;
      break;
    }
    if (labels_[behind].ways[0].link == parts_.arcs[arc].link) break;  // over the same road, and earlier
    labels_[state].waits_at = no_road_index;                           // a circle of ways back does not pay either
    state = behind;
  }
  for (const std::uint32_t each : passed_) labels_[each].waits_at = found;
  return found != no_road_index;
}

void DriveSearch::settle(std::uint32_t state, bool may_turn_back) {
  Label& label = labels_[state];
  label.is_settled[0] = true;
  const Way way = label.ways[0];
  const std::uint32_t node = node_of(state);
  may_turn_back = may_turn_back || is_dead_end(node);
  arrive(state, may_turn_back);
  bool may_pay = false;
  if (!may_turn_back && arc_back(state) != no_road_index) {
    label.waits_at = state;
    may_pay = may_pay_to_go_back(state);
    if (may_pay && label.ways[1].seconds < never) push({label.ways[1].seconds, 2 * state + 1});
  }
  const auto nodes = static_cast<std::uint32_t>(parts_.nodes.size());
  const std::uint32_t way_out = state < nodes ? parts_.way_out[state] : no_road_index;
  for (std::uint32_t a = parts_.state_first[state]; a < parts_.state_first[state + 1]; ++a) {
    const RoadArc& arc = parts_.arcs[a];
    if (arc.link == (way.link ^ 1U) && !may_turn_back) continue;
    // A dead-end branch without a target is good for turning only.
    if (!may_pay && arc.head < nodes && arc.head != way_out && parts_.way_out[arc.head] != no_road_index &&
        !leads_to_target_[arc.head])
      continue;
    reach(arc.head, {way.seconds + arc.seconds, way.metres + arc.metres, 2 * state, arc.link});
  }
}

// On from a state by its second way: back over the road of the first, as all else was driven before.
void DriveSearch::go_back(std::uint32_t state) {
  labels_[state].is_settled[1] = true;
  if (!may_pay_to_go_back(state)) return;
  const Way way = labels_[state].ways[1];
  const RoadArc& arc = parts_.arcs[arc_back(state)];
  reach(arc.head, {way.seconds + arc.seconds, way.metres + arc.metres, 2 * state + 1, arc.link});
}

void DriveSearch::search(const Snap& from, bool may_turn_back) {
  begin();
  straight_along(from);
  for (std::uint32_t direction = 0; direction < 2; ++direction) {
    const std::uint32_t a = parts_.edges[from.edge].arcs[direction];
    if (a == no_road_index) continue;
    const RoadArc& arc = parts_.arcs[a];
    const double share = direction == 0 ? 1.0 - from.share : from.share;
    reach(arc.head, {share * arc.seconds, share * arc.metres, no_road_index, arc.link});
  }
  while (!queue_.empty()) {
    const Queued next = pop();
    if (is_done(next.seconds)) break;
    const std::uint32_t state = next.item / 2, which = next.item % 2;
    const Label& label = labels_[state];
    if (label.is_settled[which] || next.seconds > label.ways[which].seconds) continue;
    if (which == 0)
      settle(state, may_turn_back);
    else
      go_back(state);
  }
}

FoundDrive DriveSearch::collect(const Arrival& arrival, bool with_links) const {
  FoundDrive drive{arrival.seconds, arrival.metres, {}};
  if (!with_links) return drive;
  drive.links.push_back(arrival.link);
  for (std::uint32_t item = arrival.before; item != no_road_index; item = labels_[item / 2].ways[item % 2].before)
    drive.links.push_back(labels_[item / 2].ways[item % 2].link);
  std::reverse(drive.links.begin(), drive.links.end());
  return drive;
}

std::vector<std::optional<FoundDrive>> DriveSearch::find_marked(const Snap& from, bool with_links) {
  std::vector<std::optional<FoundDrive>> result(targets_.size());
  wanted_.assign(targets_.size(), 1);
  for (const bool may_turn_back : {false, true}) {  // on the road, where there is no other way at all
    search(from, may_turn_back);
    for (std::size_t t = 0; t < targets_.size(); ++t) {
      if (!wanted_[t] || arrivals_[t].seconds == never) continue;
      result[t] = collect(arrivals_[t], with_links);
      wanted_[t] = 0;
    }
    if (missing_ == 0) break;
  }
  return result;
}

std::vector<std::optional<FoundDrive>> DriveSearch::find(const Snap& from, std::span<const Snap> to, bool with_links) {
  set_targets(to);
  return find_marked(from, with_links);
}

}  // namespace outbye
