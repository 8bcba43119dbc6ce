#include "core/crewing/orienteering_labels.h"

#include <algorithm>
#include <queue>
#include <tuple>

namespace outbye::orienteering {
namespace {

struct Label {
  PointSet seen;
  std::int64_t score{};
  Time time{};
  std::uint32_t parent{};
  std::uint8_t point{};
};
constexpr std::uint32_t no_parent = 0xffffffffU;

struct Ticket {  // the order of settling: earliest first, then the best score, then age
  Time time{};
  std::uint32_t label{};
  std::int64_t score{};
};
struct Later {
  bool operator()(const Ticket& a, const Ticket& b) const {
    if (a.time != b.time) return a.time > b.time;
    if (a.score != b.score) return a.score < b.score;
    return a.label > b.label;
  }
};

struct Settled {
  std::int64_t score{};
  PointSet seen;
  std::uint32_t label{};
};

std::vector<std::size_t> points_of(const std::vector<Label>& labels, std::uint32_t last) {
  std::vector<std::size_t> points;
  for (std::uint32_t k = last; labels[k].parent != no_parent; k = labels[k].parent) points.push_back(labels[k].point);
  std::reverse(points.begin(), points.end());
  return points;
}

bool repeats_a_point(const std::vector<Label>& labels, std::uint32_t last) {
  PointSet met;
  for (std::uint32_t k = last; labels[k].parent != no_parent; k = labels[k].parent) {
    if (met.contains(labels[k].point)) return true;
    met = met | point(labels[k].point);
  }
  return false;
}

}  // namespace

Completions::Completions(std::vector<std::vector<Completion>> at, Time horizon)
    : at_(std::move(at)), stairs_(at_.size()), horizon_(horizon) {
  for (std::size_t i = 0; i < at_.size(); ++i) {
    auto& here = at_[i];
    std::vector<const Completion*> by_time;
    std::sort(here.begin(), here.end(), [](const Completion& a, const Completion& b) {
      return std::tie(b.score, a.time, a.seen) < std::tie(a.score, b.time, b.seen);
    });
    for (const auto& c : here) by_time.push_back(&c);
    std::stable_sort(by_time.begin(), by_time.end(), [](const auto* a, const auto* b) { return a->time < b->time; });
    for (const Completion* c : by_time) {
      if (stairs_[i].empty() || c->score > stairs_[i].back().score) stairs_[i].push_back({c->time, c->score});
    }
  }
}

bool Completions::may_reach(std::size_t i, Time t, std::int64_t need) const {
  const auto& stairs = stairs_[i];
  const auto it =
      std::upper_bound(stairs.begin(), stairs.end(), horizon_ - t, [](Time x, const Stair& s) { return x < s.time; });
  return it != stairs.begin() && (it - 1)->score >= need;
}

bool Completions::reaches(std::size_t i, Time t, PointSet seen, std::int64_t need, Effort& effort) const {
  const Time latest = horizon_ - t;
  for (const Completion& c : at_[i]) {
    if (c.score < need) return false;
    ++effort.steps;
    if (c.time <= latest && (c.seen & seen).is_empty()) return true;
  }
  return false;
}

std::optional<std::int64_t> Completions::best(std::size_t i, Time t, PointSet seen, std::size_t patience,
                                              Effort& effort) const {
  const Time latest = horizon_ - t;
  std::size_t failures = 0;
  for (const Completion& c : at_[i]) {
    ++effort.steps;
    if (c.time > latest) continue;
    if (failures >= patience || (c.seen & seen).is_empty()) return c.score;
    ++failures;
  }
  return std::nullopt;
}

PassResult run_pass(const PassTask& task, Incumbent& incumbent, Effort& effort) {
  const Model& m = *task.model;
  PassResult result;
  std::vector<Label> labels;
  std::priority_queue<Ticket, std::vector<Ticket>, Later> open;
  std::vector<std::vector<Settled>> settled(m.size);
  struct End {
    std::int64_t score{};
    std::uint32_t label{};
  };
  std::vector<End> ends;
  const auto wanted = [&] { return incumbent.score < 0 ? task.floor : incumbent.score + task.grain; };

  std::int64_t best_end = -1;
  // A label may end here if the sink can still be reached and all that is mandatory has been met (the floor says so).
  const auto end_at = [&](std::uint32_t k, std::size_t i) {
    const Label& label = labels[k];
    const Time arc = m.arc_time(i, m.sink);
    if (arc == never || m.next_open(m.sink, label.time + arc) == never) return;
    if (label.score < wanted()) return;
    if (repeats_a_point(labels, k)) {
      ends.push_back({label.score, k});
      best_end = std::max(best_end, label.score);
      return;
    }
    incumbent.score = label.score;
    incumbent.points = points_of(labels, k);
    if (!task.is_forward) std::reverse(incumbent.points.begin(), incumbent.points.end());
  };

  labels.push_back({{}, 0, m.windows[m.source].front().from, no_parent, 0});
  const auto extend = [&](std::uint32_t k, std::size_t i) {
    const Label from = labels[k];
    for (const std::uint8_t j : m.successors[i]) {
      if (from.seen.contains(j)) continue;
      const Time t = m.next_open(j, from.time + m.arc_time(i, j));
      if (t == never) continue;
      const std::int64_t score = from.score + m.score[j];
      const std::int64_t need = wanted() - score;
      ++effort.steps;
      if (task.ahead != nullptr && !task.ahead->may_reach(j, t, need)) continue;
      const PointSet gone = m.unreachable(j, t);
      const PointSet kept = (from.seen & (*task.memory)[j]) | point(j);
      if (!(gone & m.mandatory).without(kept).is_empty()) continue;
      const PointSet seen = kept.without(gone.without(m.mandatory)) | point(j);
      if (task.ahead != nullptr && !task.ahead->reaches(j, t, seen, need, effort)) continue;
      ++effort.labels;
      labels.push_back({seen, score, t, k, j});
      open.push({t, static_cast<std::uint32_t>(labels.size() - 1), score});
    }
  };

  end_at(0, m.source);
  extend(0, m.source);
  while (!open.empty()) {
    if (effort.is_spent() || labels.size() > task.most_labels) return result;
    const std::uint32_t k = open.top().label;
    open.pop();
    const Label label = labels[k];
    auto& here = settled[label.point];
    const PointSet forgotten = m.unreachable(label.point, label.time);
    bool is_dominated = false;
    auto place = here.begin();
    for (; place != here.end() && place->score >= label.score; ++place) {
      if (place->seen.without(label.seen | forgotten).is_empty()) {
        is_dominated = true;
        break;
      }
    }
    effort.steps += static_cast<std::uint64_t>(place - here.begin()) + 1;
    if (is_dominated) continue;
    here.insert(place, {label.score, label.seen, k});
    ++result.kept;
    end_at(k, label.point);
    extend(k, label.point);
  }

  result.is_complete = true;
  std::erase_if(ends, [&](const End& e) { return e.score < wanted(); });
  std::sort(ends.begin(), ends.end(),
            [](const End& a, const End& b) { return std::tie(b.score, a.label) < std::tie(a.score, b.label); });
  result.bound = std::max(incumbent.score, ends.empty() ? -1 : ends.front().score);
  for (const End& e : ends) {
    if (result.routes.size() >= task.most_routes) break;
    result.routes.push_back({points_of(labels, e.label), e.score});
  }
  std::vector<std::vector<Completion>> at(m.size);
  for (std::size_t i = 0; i < m.size; ++i) {
    at[i].reserve(settled[i].size());
    for (const Settled& s : settled[i]) {
      at[i].push_back({s.score - m.score[i], s.seen.without(point(i)), labels[s.label].time});
    }
  }
  result.completions = Completions(std::move(at), m.horizon);
  return result;
}

void run_beam(const Model& m, bool is_forward, const Completions& ahead, std::size_t width, std::int64_t floor,
              Incumbent& incumbent, Effort& effort) {
  struct Partial {
    PointSet seen;
    std::int64_t promise{};
    std::int64_t score{};
    Time time{};
    std::uint32_t parent{};
    std::uint8_t point{};
  };
  std::vector<Partial> all;  // every partial route that was ever kept
  all.push_back({{}, 0, 0, m.windows[m.source].front().from, no_parent, 0});
  std::vector<std::uint32_t> stage{0};
  const auto consider = [&](std::uint32_t k, std::size_t i) {
    const Time arc = m.arc_time(i, m.sink);
    if (arc == never || m.next_open(m.sink, all[k].time + arc) == never) return;
    if (all[k].score < floor || all[k].score <= incumbent.score) return;
    incumbent.score = all[k].score;
    incumbent.points.clear();
    for (std::uint32_t p = k; all[p].parent != no_parent; p = all[p].parent) incumbent.points.push_back(all[p].point);
    if (is_forward) std::reverse(incumbent.points.begin(), incumbent.points.end());
  };
  consider(0, m.source);
  while (!stage.empty() && !effort.is_spent()) {
    std::vector<Partial> next;
    for (const std::uint32_t k : stage) {
      const Partial from = all[k];
      const std::size_t i = from.parent == no_parent ? m.source : from.point;
      for (const std::uint8_t j : m.successors[i]) {
        if (from.seen.contains(j)) continue;
        const Time t = m.next_open(j, from.time + m.arc_time(i, j));
        if (t == never) continue;
        const std::int64_t score = from.score + m.score[j];
        const auto rest = ahead.best(j, t, from.seen, 200, effort);
        if (!rest || score + *rest <= incumbent.score) continue;
        ++effort.labels;
        next.push_back({from.seen | point(j), score + *rest, score, t, k, j});
      }
    }
    // Of partial routes over the same points to the same point only the earliest counts.
    std::sort(next.begin(), next.end(), [](const Partial& a, const Partial& b) {
      return std::tie(a.point, a.seen, a.time, a.parent) < std::tie(b.point, b.seen, b.time, b.parent);
    });
    next.erase(std::unique(next.begin(), next.end(),
                           [](const Partial& a, const Partial& b) { return a.point == b.point && a.seen == b.seen; }),
               next.end());
    std::stable_sort(next.begin(), next.end(), [](const Partial& a, const Partial& b) {
      return std::tie(b.promise, b.score, a.time) < std::tie(a.promise, a.score, b.time);
    });
    if (next.size() > width) next.resize(width);
    stage.clear();
    for (const Partial& p : next) {
      all.push_back(p);
      stage.push_back(static_cast<std::uint32_t>(all.size() - 1));
      consider(stage.back(), p.point);
    }
  }
}

}  // namespace outbye::orienteering
