#include "core/live/live_days.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace outbye {
namespace {

constexpr double wanted_effective = 600.0;
constexpr double wrong_word_span = 7200.0;  // s: a word about another horse may name any time in these
constexpr double held_up_share = 0.25;      // of the days drawn

using Column = std::vector<double>;

// Days from the last certain time on, before anything is weighed.
struct Batch {
  std::vector<double> base;  // arrivals, by event and day
  Column stay;               // where she was seen last: the stand, or the recovery at a gate
  Column weight;             // of the draw: what holds her up is drawn oftener than it happens
};

// Places the draws of a ride behind what was noted.
class Placer {
 public:
  Placer(const LivePace& pace, const LiveBelief& belief, const LiveDraws& draws)
      : pace_(pace),
        draws_(draws),
        days_(draws.days),
        rows_(live_rows(draws)),
        anchor_(belief.anchor),
        parts_(parts_of(pace, belief)),
        of_parts_(belief.belief, parts_) {}

  Batch batch(std::size_t number) {
    Batch batch{Column(pace_.events.size() * days_, 0.0), Column(days_, 0.0), Column(days_, 1.0)};
    const auto z = normals_of(draws_, number, store_);
    Column now(days_, (anchor_.at - pace_.start).count());
    wait(z, now, batch);
    if (anchor_.loop >= pace_.loops.size()) return batch;
    Column pace_of_ride(days_);
    on_this_loop(z, number, now, pace_of_ride, batch);
    for (std::size_t l = anchor_.loop + 1; l < pace_.loops.size(); ++l) later_loop(l, number, pace_of_ride, now, batch);
    return batch;
  }

  // Later loops of a batch are paired anew with its loop of now: so a few draws serve many batches.
  std::size_t shifted(std::size_t day, std::size_t batch) const { return (day + 127 * batch) % days_; }

 private:
  // R and the cells of the loop that the horse is on, from where it is.
  std::vector<std::size_t> parts_of(const LivePace& pace, const LiveBelief& belief) {
    std::vector<std::size_t> parts{0};
    if (belief.anchor.loop >= pace.loops.size()) return parts;
    const auto& ends = pace.loops[belief.anchor.loop].ends;
    while (first_cell_ + 2 < ends.size() && ends[first_cell_ + 1] <= belief.anchor.seconds) ++first_cell_;
    for (std::size_t i = first_cell_; i + 1 < ends.size(); ++i) {
      parts.push_back(belief.first_cell[belief.anchor.loop] + i);
    }
    return parts;
  }

  // The start that is not known to the second, or the stay where she was seen last.
  void wait(std::span<const double> z, Column& now, Batch& batch) const {
    const double* const normal = z.data() + rows_.wait * days_;
    if (!anchor_.event) {
      if (anchor_.is_exact) return;
      for (std::size_t d = 0; d < days_; ++d) now[d] += drawn(pace_.start_delay, normal[d]);
      return;
    }
    if (anchor_.has_left) return;
    const std::size_t e = *anchor_.event;
    const bool is_pass = pace_.events[e].pass.has_value();
    const auto& gate = pace_.loops[pace_.at[e].loop];
    if (is_pass ? anchor_.is_met : !anchor_.is_in_time) {
      const UncertainTime& time = is_pass ? pace_.at[e].stand : gate.recovery;
      for (std::size_t d = 0; d < days_; ++d) batch.stay[d] = drawn(time, normal[d]);
    }
    const double hold = pace_.events[e].kind == RideEvent::Kind::gate ? gate.hold : 0.0;
    for (std::size_t d = 0; d < days_; ++d) now[d] += batch.stay[d] + hold;
  }

  struct HoldUps {
    Column at, seconds;  // after which expected second of the loop, and how long; mostly none
  };
  HoldUps hold_ups(std::span<const double> z, Column& weight) const {
    const auto& loop = pace_.loops[anchor_.loop];
    const double whole = loop.ends.back();
    HoldUps held{Column(days_, whole), Column(days_, 0.0)};
    const double chance = pace_.settings.held_up * (whole - anchor_.seconds) / whole;
    if (pace_.settings.held_up <= 0) return held;
    for (std::size_t d = 0; d < days_; ++d) {
      const bool happens = d % 4 == 0;
      weight[d] = happens ? chance / held_up_share : (1.0 - chance) / (1.0 - held_up_share);
      if (!happens) continue;
      const double share = standard_normal_cdf(z[rows_.held_share * days_ + d]);
      held.at[d] = anchor_.seconds + share * (whole - anchor_.seconds);
      held.seconds[d] = drawn(pace_.settings.hold_up, z[rows_.held_for * days_ + d]);
    }
    return held;
  }

  void on_this_loop(std::span<const double> z, std::size_t number, Column& now, Column& pace_of_ride, Batch& batch) {
    const std::size_t l = anchor_.loop;
    const auto& ends = pace_.loops[l].ends;
    const HoldUps held = hold_ups(z, batch.weight);
    Column ride(days_), log_pace(days_);
    of_parts_.draw_column(0, z, days_, ride);
    std::size_t e = anchor_.event ? *anchor_.event + 1 : 0;
    while (e < pace_.at.size() && pace_.at[e].loop < l) ++e;
    for (std::size_t i = first_cell_; i + 1 < ends.size(); ++i) {
      of_parts_.draw_column(1 + i - first_cell_, z, days_, log_pace);
      for (std::size_t d = 0; d < days_; ++d) log_pace[d] = std::exp(ride[d] + log_pace[d]);  // now the factor
      const double begin = std::max(ends[i], anchor_.seconds);
      const bool is_last = i + 2 == ends.size();
      for (; e < pace_.at.size() && pace_.at[e].loop == l && (is_last || pace_.at[e].seconds < ends[i + 1]); ++e) {
        const double there = pace_.at[e].seconds;
        double* const base = batch.base.data() + e * days_;
        for (std::size_t d = 0; d < days_; ++d) {
          base[d] = now[d] + log_pace[d] * std::max(there - begin, 0.0) + (held.at[d] < there ? held.seconds[d] : 0.0);
        }
      }
      for (std::size_t d = 0; d < days_; ++d) now[d] += log_pace[d] * (ends[i + 1] - begin);
    }
    for (std::size_t d = 0; d < days_; ++d) now[d] += held.seconds[d];
    for (std::size_t d = 0; d < days_; ++d) pace_of_ride[d] = std::exp(ride[d]);
    stay_at_gate(l, e - 1, number, now);
  }

  void later_loop(std::size_t l, std::size_t number, const Column& pace_of_ride, Column& now, Batch& batch) const {
    const double* const held_at = draws_.held_at.data() + l * days_;
    const double* const held_for = draws_.held_for.data() + l * days_;
    std::size_t gate = 0;
    for (std::size_t e = 0; e < pace_.at.size(); ++e) {
      if (pace_.at[e].loop != l) continue;
      gate = e;
      const double* const riding = draws_.riding.data() + e * days_;
      double* const base = batch.base.data() + e * days_;
      for (std::size_t d = 0; d < days_; ++d) {
        const std::size_t s = shifted(d, number);
        base[d] = now[d] + pace_of_ride[d] * riding[s] + (held_at[s] < pace_.at[e].seconds ? held_for[s] : 0.0);
      }
    }
    const double* const arrival = batch.base.data() + gate * days_;
    for (std::size_t d = 0; d < days_; ++d) {
      const std::size_t s = shifted(d, number);
      now[d] = arrival[d] + (held_at[s] < pace_.at[gate].seconds ? 0.0 : held_for[s]);
    }
    stay_at_gate(l, gate, number, now);
  }

  void stay_at_gate(std::size_t l, std::size_t gate, std::size_t number, Column& now) const {
    const double* const recovery = draws_.stand.data() + gate * days_;
    for (std::size_t d = 0; d < days_; ++d) now[d] += recovery[shifted(d, number)] + pace_.loops[l].hold;
  }

  const LivePace& pace_;
  const LiveDraws& draws_;
  std::size_t days_;
  LiveRows rows_;
  LiveAnchor anchor_;
  std::size_t first_cell_{};
  std::vector<std::size_t> parts_;
  GaussianDraws of_parts_;
  std::vector<double> store_;
};

// Events before the last certain time: as seen, and in between by even share of the expected time.
void fill_past(const LivePace& pace, const DayEvidence& evidence, const LiveAnchor& anchor, HorseDays& days) {
  if (!anchor.event) return;
  double before_time = (evidence.started.value_or(pace.start) - days.origin).count();
  std::vector<double> ride(pace.at.size());  // expected seconds of riding from the start
  double loops = 0;
  for (std::size_t e = 0; e < pace.at.size(); ++e) {
    ride[e] = loops + pace.at[e].seconds;
    if (!pace.events[e].pass) loops += pace.at[e].seconds;
  }
  double before_ride = 0;
  std::size_t next = 0;
  for (const OwnSighting& seen : evidence.own) {
    const Instant at = seen.in ? *seen.in : seen.in_time ? *seen.in_time : *seen.out;
    const double time = (at - days.origin).count();
    for (; next <= seen.event; ++next) {
      const double span = ride[seen.event] - before_ride;
      const double share = span > 0 ? (ride[next] - before_ride) / span : 1.0;
      std::fill_n(days.base.begin() + static_cast<std::ptrdiff_t>(next * days.days), days.days,
                  before_time + share * (time - before_time));
    }
    if (seen.in && seen.out) {
      std::fill_n(days.stand.begin() + static_cast<std::ptrdiff_t>(seen.event * days.days), days.days,
                  (*seen.out - *seen.in).count());
    }
    if (seen.in && seen.in_time) {
      std::fill_n(days.in_time.begin() + static_cast<std::ptrdiff_t>(seen.event * days.days), days.days,
                  (*seen.in_time - *seen.in).count());
    }
    const Instant after = seen.out ? *seen.out : seen.in_time ? *seen.in_time : *seen.in;
    before_time = (after - days.origin).count();
    before_ride = ride[seen.event];
  }
}

// Multiplies each day's weight by how well it agrees with what was not seen and with doubtful word.
void weigh(const DayEvidence& evidence, const LiveAnchor& anchor, const LivePace& pace, std::size_t days,
           const std::vector<double>& base, Column& weight) {
  const auto is_past = [&anchor](std::size_t event) { return anchor.event && event <= *anchor.event; };
  const auto seconds = [&](Instant at) { return (at - pace.start).count(); };
  for (const Watch& watch : evidence.watches) {
    if (is_past(watch.event)) continue;
    const double* const passes = base.data() + watch.event * days;
    const double from = seconds(watch.from), to = seconds(watch.to);
    for (std::size_t d = 0; d < days; ++d) {
      if (from <= passes[d] && passes[d] <= to) weight[d] *= watch.overlook;
    }
  }
  for (const Word& word : evidence.words) {
    if (is_past(word.event)) continue;
    const double* const passes = base.data() + word.event * days;
    const double at = seconds(word.at);
    const double sd = std::max(word.doubt.count(), 5.0);
    constexpr double root_two_pi = 2.5066282746310005;
    for (std::size_t d = 0; d < days; ++d) {
      if (!word.seen_at) {
        if (passes[d] <= at) weight[d] *= 1.0 - word.trust;
        continue;
      }
      const double off = (seconds(*word.seen_at) - passes[d]) / sd;
      weight[d] *= word.trust * std::exp(-0.5 * off * off) / (sd * root_two_pi) + (1.0 - word.trust) / wrong_word_span;
    }
  }
}

double effective(const std::vector<Column>& weights) {
  double sum = 0, squares = 0;
  for (const Column& weight : weights) {
    for (const double w : weight) {
      sum += w;
      squares += w * w;
    }
  }
  return squares > 0 ? sum * sum / squares : 0.0;
}

void normalise(Column& weight) {
  const double sum = std::accumulate(weight.begin(), weight.end(), 0.0);
  for (double& w : weight) w /= sum;
}

struct Chosen {
  std::size_t batch, day;
};

// Of all batches as many days as one has, each as often as its weight says (systematic: J. Carpenter, P. Clifford and
// P. Fearnhead, IEE Proc. 146 (1999): from memory).
std::vector<Chosen> choose(const std::vector<Column>& weights, std::size_t days) {
  double sum = 0;
  for (const Column& weight : weights) sum = std::accumulate(weight.begin(), weight.end(), sum);
  std::vector<Chosen> chosen;
  double reached = 0;
  Chosen here{0, 0};
  for (std::size_t i = 0; i < days; ++i) {
    const double wanted = sum * (static_cast<double>(i) + 0.5) / static_cast<double>(days);
    while (reached + weights[here.batch][here.day] < wanted) {
      const bool is_last = here.batch + 1 == weights.size() && here.day + 1 == days;
      if (is_last) break;
      reached += weights[here.batch][here.day];
      here = here.day + 1 < days ? Chosen{here.batch, here.day + 1} : Chosen{here.batch + 1, 0};
    }
    chosen.push_back(here);
  }
  return chosen;
}

// Stands and in-times of the events to come, and at the anchor, for the chosen days.
void fill_stands(const LivePace& pace, const LiveDraws& draws, const Placer& placer, const LiveAnchor& anchor,
                 const std::vector<Batch>& batches, const std::vector<Chosen>& chosen, HorseDays& days) {
  const std::size_t first = anchor.event ? *anchor.event : 0;
  for (std::size_t e = first; e < pace.events.size(); ++e) {
    const bool is_anchor = anchor.event == e;
    if (is_anchor && anchor.has_left) continue;
    const bool is_pass = pace.events[e].pass.has_value();
    const double hold = pace.events[e].kind == RideEvent::Kind::gate ? pace.loops[pace.at[e].loop].hold : 0.0;
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      const auto [k, d] = chosen[i];
      const double drawn_stay = is_anchor ? batches[k].stay[d] : draws.stand[e * draws.days + placer.shifted(d, k)];
      if (!is_pass) days.in_time[e * days.days + i] = drawn_stay;
      if (pace.events[e].kind != RideEvent::Kind::finish) days.stand[e * days.days + i] = drawn_stay + hold;
    }
  }
}

}  // namespace

LiveDays live_days(const LivePace& pace, const DayEvidence& evidence, Seed seed) {
  return live_days(pace, evidence, live_draws(pace, seed, 1));
}

LiveDays live_days(const LivePace& pace, const DayEvidence& evidence, const LiveDraws& draws) {
  const LiveBelief belief = believe(pace, evidence.started, evidence.own, evidence.riders);
  const std::size_t count = draws.days;
  Placer placer(pace, belief, draws);
  std::vector<Batch> batches;
  std::vector<Column> weights;
  for (std::size_t k = 0; k < most_live_batches; ++k) {
    batches.push_back(placer.batch(k));
    weights.push_back(batches.back().weight);
    weigh(evidence, belief.anchor, pace, count, batches.back().base, weights.back());
    if (effective(weights) >= std::min(wanted_effective, 0.25 * static_cast<double>(count))) break;
  }
  LiveDays live;
  live.anchor = belief.anchor;
  live.riders_used = belief.riders_used;
  live.prior = batches.front().weight;
  normalise(live.prior);
  live.effective = effective(weights);
  live.is_contradicted = !(live.effective > 0);
  if (live.is_contradicted) {
    weights = {live.prior};
    live.effective = effective(weights);
  }
  live.days = {pace.start, count, pace.events, {}, {}, {}};
  for (auto* column : {&live.days.stand, &live.days.in_time}) column->assign(pace.events.size() * count, 0.0);
  std::vector<Chosen> chosen;
  if (weights.size() == 1) {
    for (std::size_t d = 0; d < count; ++d) chosen.push_back({0, d});
    live.days.base = std::move(batches.front().base);
    live.weight = std::move(weights.front());
    normalise(live.weight);
  } else {
    chosen = choose(weights, count);
    live.days.base.resize(pace.events.size() * count);
    for (std::size_t e = 0; e < pace.events.size(); ++e) {
      for (std::size_t i = 0; i < count; ++i) {
        live.days.base[e * count + i] = batches[chosen[i].batch].base[e * count + chosen[i].day];
      }
    }
    live.weight.assign(count, 1.0 / static_cast<double>(count));
    live.unweighed = std::move(batches.front().base);
  }
  fill_stands(pace, draws, placer, belief.anchor, batches, chosen, live.days);
  fill_past(pace, evidence, belief.anchor, live.days);
  return live;
}

}  // namespace outbye
