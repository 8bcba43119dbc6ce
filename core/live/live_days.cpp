#include "core/live/live_days.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

#include "core/pace/within_loop.h"

namespace outbye {
namespace {

constexpr std::size_t most_batches = 16;
constexpr double wanted_effective = 600.0;
constexpr double wrong_word_span = 7200.0;  // s: a word about another horse may name any time in these
constexpr double held_up_share = 0.25;      // of the days drawn

Seed stream(Seed seed, std::uint64_t number) {
  // splitmix64 (Steele, Lea, Flood 2014), as in simulate_days
  std::uint64_t z = seed.value + 0x9e3779b97f4a7c15u * (number + 1);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return {z ^ (z >> 31)};
}

double drawn(const UncertainTime& time, double z) { return time.median.count() * std::exp(time.log_sd * z); }

// Draws days from the last certain time on.
class Drawer {
 public:
  Drawer(const LivePace& pace, const LiveBelief& belief)
      : pace_(pace), anchor_(belief.anchor), parts_(parts_of(pace, belief)), draws_(belief.belief, parts_) {
    for (std::size_t l = anchor_.loop + 1; l < pace.loops.size(); ++l) {
      const auto& cells = pace.loops[l];
      const auto count = cells.ends.size() - 1;
      steps_.push_back(wander_steps(Metres{cells.length * static_cast<double>(count)}, count, pace.spread.within,
                                    pace.spread.within_length));
    }
    z_.resize(draws_.size());
    x_.resize(draws_.size());
  }

  // Fills day d of `days`, for events after the anchor; returns the weight of the draw.
  double draw(Rng& rng, HorseDays& days, std::size_t d) {
    standard_normals(rng, z_);
    draws_.draw(z_.data(), x_.data());
    const double ride = x_[0];
    double now = (anchor_.at - days.origin).count();
    if (!anchor_.event && !anchor_.is_exact) now += drawn(pace_.start_delay, standard_normal(rng));
    if (anchor_.event && !anchor_.has_left) now += stay_at_anchor(rng, days, d);
    double weight = 1.0;
    for (std::size_t l = anchor_.loop; l < pace_.loops.size(); ++l) {
      const bool is_current = l == anchor_.loop;
      const double from = is_current ? anchor_.seconds : 0.0;
      const auto [held_at, held_for] = held_up(rng, l, from, is_current ? d : std::size_t{1}, is_current, weight);
      const double loop = is_current ? 0.0 : pace_.spread.loop * standard_normal(rng);
      double state = 0;
      const auto& ends = pace_.loops[l].ends;
      std::size_t e = first_event(l, from);
      const std::size_t skipped = is_current ? first_cell_ : 0;
      for (std::size_t i = skipped; i + 1 < ends.size(); ++i) {
        double log_pace = ride;
        if (is_current) {
          log_pace += x_[1 + i - skipped];
        } else {
          const WanderStep& w = steps_[l - anchor_.loop - 1][i];
          const double z = standard_normal(rng);
          log_pace += loop + w.from_state * state + w.from_draw * z;
          state = w.keep * state + w.learn * z;
        }
        const double factor = std::exp(log_pace);
        const double begin = std::max(ends[i], from);
        const bool is_last = i + 2 == ends.size();
        for (; e < pace_.at.size() && pace_.at[e].loop == l && (is_last || pace_.at[e].seconds < ends[i + 1]); ++e) {
          const double there = pace_.at[e].seconds;
          days.base[e * days.days + d] =
              now + factor * std::max(there - begin, 0.0) + (held_at < there ? held_for : 0.0);
          if (pace_.events[e].pass) days.stand[e * days.days + d] = drawn(pace_.at[e].stand, standard_normal(rng));
        }
        now += factor * (ends[i + 1] - begin);
      }
      now += held_for;
      const std::size_t gate = e - 1;
      const double recovery = drawn(pace_.loops[l].recovery, standard_normal(rng));
      days.in_time[gate * days.days + d] = recovery;
      if (l + 1 == pace_.loops.size()) break;
      days.stand[gate * days.days + d] = recovery + pace_.loops[l].hold;
      now += recovery + pace_.loops[l].hold;
    }
    return weight;
  }

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

  std::size_t first_event(std::size_t loop, double) const {
    std::size_t e = anchor_.event ? *anchor_.event + 1 : 0;
    while (e < pace_.at.size() && pace_.at[e].loop < loop) ++e;
    return e;
  }

  double stay_at_anchor(Rng& rng, HorseDays& days, std::size_t d) const {
    const std::size_t e = *anchor_.event;
    const double z = standard_normal(rng);
    double stay = 0;
    if (pace_.events[e].pass) {
      if (anchor_.is_met) stay = drawn(pace_.at[e].stand, z);
      days.stand[e * days.days + d] = stay;
      return stay;
    }
    const auto& gate = pace_.loops[pace_.at[e].loop];
    if (!anchor_.is_in_time) {
      stay = drawn(gate.recovery, z);
      days.in_time[e * days.days + d] = stay;
    }
    if (pace_.events[e].kind == RideEvent::Kind::finish) return 0;
    return stay + gate.hold;
  }

  struct HoldUp {
    double at, seconds;  // after which expected second of the loop
  };
  HoldUp held_up(Rng& rng, std::size_t l, double from, std::size_t d, bool is_current, double& weight) const {
    const double whole = pace_.loops[l].ends.back();
    const double chance = pace_.settings.held_up * (whole - from) / whole;
    if (pace_.settings.held_up <= 0) return {whole, 0.0};
    bool happens = false;
    if (is_current) {
      happens = d % 4 == 0;
      weight *= happens ? chance / held_up_share : (1.0 - chance) / (1.0 - held_up_share);
    } else {
      happens = uniform(rng) < chance;
    }
    if (!happens) return {whole, 0.0};
    const double share = uniform(rng);
    return {from + share * (whole - from), drawn(pace_.settings.hold_up, standard_normal(rng))};
  }

  const LivePace& pace_;
  LiveAnchor anchor_;
  std::size_t first_cell_{};
  std::vector<std::size_t> parts_;
  GaussianDraws draws_;
  std::vector<std::vector<WanderStep>> steps_;
  std::vector<double> z_, x_;
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

double likelihood(const DayEvidence& evidence, const LiveAnchor& anchor, const HorseDays& days, std::size_t d) {
  double product = 1.0;
  const auto is_past = [&anchor](std::size_t event) { return anchor.event && event <= *anchor.event; };
  for (const Watch& watch : evidence.watches) {
    if (is_past(watch.event)) continue;
    const Instant passes = days.origin + Seconds{days.base[watch.event * days.days + d]};
    if (watch.from <= passes && passes <= watch.to) product *= watch.overlook;
  }
  for (const Word& word : evidence.words) {
    if (is_past(word.event)) continue;
    const Instant passes = days.origin + Seconds{days.base[word.event * days.days + d]};
    if (!word.seen_at) {
      if (passes <= word.at) product *= 1.0 - word.trust;
      continue;
    }
    const double sd = std::max(word.doubt.count(), 5.0);
    const double off = (*word.seen_at - passes).count() / sd;
    constexpr double root_two_pi = 2.5066282746310005;
    product *= word.trust * std::exp(-0.5 * off * off) / (sd * root_two_pi) + (1.0 - word.trust) / wrong_word_span;
  }
  return product;
}

double effective(const std::vector<double>& weight) {
  double sum = 0, squares = 0;
  for (const double w : weight) {
    sum += w;
    squares += w * w;
  }
  return squares > 0 ? sum * sum / squares : 0.0;
}

}  // namespace

LiveDays live_days(const LivePace& pace, const DayEvidence& evidence, Seed seed) {
  const LiveBelief belief = believe(pace, evidence.started, evidence.own, evidence.riders);
  const std::size_t batch = std::max<std::size_t>(pace.settings.days, 64);
  const std::size_t events = pace.events.size();
  std::vector<HorseDays> batches;
  std::vector<double> weight, without;
  for (std::size_t k = 0; k < most_batches; ++k) {
    Rng rng(stream(seed, k));
    HorseDays days{pace.start, batch, pace.events, {}, {}, {}};
    for (auto* column : {&days.base, &days.stand, &days.in_time}) column->assign(events * batch, 0.0);
    Drawer drawer(pace, belief);
    for (std::size_t d = 0; d < batch; ++d) {
      const double drawn_weight = drawer.draw(rng, days, d);
      without.push_back(drawn_weight);
      weight.push_back(drawn_weight * likelihood(evidence, belief.anchor, days, d));
    }
    batches.push_back(std::move(days));
    if (effective(weight) >= std::min(wanted_effective, 0.25 * static_cast<double>(batch))) break;
  }
  LiveDays live;
  live.anchor = belief.anchor;
  live.riders_used = belief.riders_used;
  live.days = {pace.start, batch * batches.size(), pace.events, {}, {}, {}};
  for (std::size_t e = 0; e < events; ++e) {
    const auto from = static_cast<std::ptrdiff_t>(e * batch);
    const auto append = [&](std::vector<double>& to, const std::vector<double>& column) {
      to.insert(to.end(), column.begin() + from, column.begin() + from + static_cast<std::ptrdiff_t>(batch));
    };
    for (const HorseDays& days : batches) {
      append(live.days.base, days.base);
      append(live.days.stand, days.stand);
      append(live.days.in_time, days.in_time);
    }
  }
  fill_past(pace, evidence, belief.anchor, live.days);
  const double drawn_sum = std::accumulate(without.begin(), without.end(), 0.0);
  for (double& w : without) w /= drawn_sum;
  live.prior = without;
  double sum = std::accumulate(weight.begin(), weight.end(), 0.0);
  live.is_contradicted = !(sum > 0);
  if (live.is_contradicted) {
    weight = live.prior;
    sum = 1.0;
  }
  for (double& w : weight) w /= sum;
  live.weight = std::move(weight);
  live.effective = effective(live.weight);
  return live;
}

HorseDays equal_days(const LiveDays& live, std::size_t count, Seed seed) {
  Rng rng(seed);
  const double mark = uniform(rng);
  std::vector<std::size_t> chosen;
  chosen.reserve(count);
  double reached = 0;
  std::size_t d = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double wanted = (static_cast<double>(i) + mark) / static_cast<double>(count);
    while (d + 1 < live.weight.size() && reached + live.weight[d] < wanted) reached += live.weight[d++];
    chosen.push_back(d);
  }
  // So that the first days are no worse a sample than all of them.
  shuffle(chosen, rng);
  HorseDays days{live.days.origin, count, live.days.events, {}, {}, {}};
  const std::size_t from = live.days.days;
  for (std::size_t e = 0; e < days.events.size(); ++e) {
    for (const std::size_t c : chosen) {
      days.base.push_back(live.days.base[e * from + c]);
      days.stand.push_back(live.days.stand[e * from + c]);
      days.in_time.push_back(live.days.in_time[e * from + c]);
    }
  }
  return days;
}

std::optional<double> weighted_quantile(const std::vector<double>& values, const std::vector<double>& weights,
                                        double p) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  if (!(sum > 0)) return std::nullopt;
  // Each value stands at the middle of its weight, linear in between.
  double reached = 0, last_at = 0;
  std::optional<double> last;
  for (const std::size_t i : order) {
    if (weights[i] <= 0) continue;
    const double at = (reached + 0.5 * weights[i]) / sum;
    if (at >= p) {
      if (!last) return values[i];
      return *last + (values[i] - *last) * (p - last_at) / (at - last_at);
    }
    reached += weights[i];
    last_at = at;
    last = values[i];
  }
  return last;
}

PassOdds pass_odds(const LiveDays& live, std::size_t event, Instant now) {
  const std::size_t days = live.days.days;
  const auto from = live.days.base.begin() + static_cast<std::ptrdiff_t>(event * days);
  const std::vector<double> arrival(from, from + static_cast<std::ptrdiff_t>(days));
  const double by = (now - live.days.origin).count();
  std::vector<double> gone(days, 0.0), to_come(days, 0.0);
  double has_gone = 0, is_to_come = 0;
  for (std::size_t d = 0; d < days; ++d) {
    const bool is_gone = arrival[d] <= by;
    (is_gone ? gone : to_come)[d] = live.weight[d];
    (is_gone ? has_gone : is_to_come) += live.weight[d];
  }
  PassOdds odds;
  odds.gone = has_gone / (has_gone + is_to_come);
  const auto window = [&](const std::vector<double>& weights) {
    const auto instant = [&](double p) {
      return live.days.origin + Seconds{weighted_quantile(arrival, weights, p).value_or(0.0)};
    };
    return Window{instant(0.1), instant(0.5), instant(0.9)};
  };
  if (odds.gone < 0.999) odds.due = window(to_come);
  if (odds.gone > 0.001) odds.was = window(gone);
  return odds;
}

double chance_of_coming_after(const LiveDays& live, std::size_t event, Instant now) {
  const double by = (now - live.days.origin).count();
  double chance = 0;
  for (std::size_t d = 0; d < live.days.days; ++d) {
    if (live.days.base[event * live.days.days + d] > by) chance += live.prior[d];
  }
  return chance;
}

}  // namespace outbye
