#include "core/crewing/value_bound.h"

#include <algorithm>
#include <limits>
#include <optional>
#include <tuple>

#include "core/crewing/meet_flow.h"

namespace outbye {
namespace {

constexpr std::size_t lanes = 32;  // days at a time
constexpr float far = 1e9F;        // no way by car, no opening
constexpr float rounding = 0.1F;   // seconds, in favour of the bound
constexpr float lost = -1e6F;

struct Meet {
  std::size_t option{};
  std::size_t horse{};
  std::size_t event{};
  std::size_t place{};
  bool is_held{};
  float worth{};
  float setup{};  // the least of its place
  float pack{};
  float own_pack{};
  float opens{-far};
  float shuts{far};
};

class Hindsight {
 public:
  explicit Hindsight(const ValuationDays& days) : days_(days), task_(days.task()), places_(task_.drives.size()) {
    list_meets();
    list_drives();
    const std::size_t n = meets_.size();
    gain_.assign(n * n * lanes, lost);
    start_.assign(task_.cars.size() * n * lanes, lost);
    early_.resize(n * lanes);
    late_.resize(n * lanes);
    stand_.resize(n * lanes);
    closure_.resize(places_ * places_ * lanes);
  }

  HindsightBound bound(std::size_t most_days) {
    HindsightBound result;
    const std::size_t n = std::min(most_days, days_.days());
    result.by_day.resize(n);
    result.counts_gaps = task_.horses.size() == 1 && task_.cars.size() <= 2;
    for (std::size_t from = 0; from < n; from += lanes) {
      const std::size_t count = std::min(lanes, n - from);
      load(from, count);
      if (result.counts_gaps) {
        solve_one_horse(count, result.by_day.data() + from);
      } else {
        for (std::size_t d = 0; d < count; ++d) result.by_day[from + d] = static_cast<float>(solve_flow(d));
      }
    }
    return result;
  }

 private:
  float* gain(std::size_t p, std::size_t q) { return gain_.data() + (p * meets_.size() + q) * lanes; }
  float* start(std::size_t c, std::size_t q) { return start_.data() + (c * meets_.size() + q) * lanes; }
  float limit_time(std::size_t from, std::size_t to) const { return at_limits_[from * places_ + to]; }

  void list_meets() {
    for (std::size_t o = 0; o < task_.options.size(); ++o) {
      const MeetOption& option = task_.options[o];
      if (option.demand == MeetOption::Demand::never) continue;
      Meet m;
      m.option = o;
      m.horse = option.horse.value;
      m.event = option.event;
      m.place = option.place.value;
      m.is_held = at(task_.horses, option.horse).events[option.event].kind == RideEvent::Kind::pass;
      m.worth = static_cast<float>(option.worth);
      m.setup = static_cast<float>(option.setup.count());
      m.own_pack = m.pack = static_cast<float>(option.pack.count());
      if (!option.open.empty()) {
        m.opens = far;
        m.shuts = -far;
        for (const Interval<Instant>& open : option.open) {
          m.opens = std::min(m.opens, days_.seconds(open.from));
          m.shuts = std::max(m.shuts, days_.seconds(open.to));
        }
      }
      meets_.push_back(m);
    }
    std::sort(meets_.begin(), meets_.end(), [](const Meet& a, const Meet& b) {
      return std::tie(a.horse, a.event, a.option) < std::tie(b.horse, b.event, b.option);
    });
    for (Meet& m : meets_) {
      for (const Meet& other : meets_) {
        if (other.place != m.place) continue;
        m.setup = std::min(m.setup, other.setup);
        m.pack = std::min(m.pack, other.pack);
      }
    }
  }

  void list_drives() {
    at_limits_.assign(places_ * places_, far);
    for (std::uint32_t i = 0; i < places_; ++i) {
      for (std::uint32_t j = 0; j < places_; ++j) {
        if (const auto& drive = task_.drives.drive({i}, {j}))
          at_limits_[i * places_ + j] = static_cast<float>(drive->time.count());
      }
    }
    float slowest = 1.0F;
    for (const float f : days_.all().option_factor) slowest = std::max(slowest, f);
    detours_.resize(places_ * places_);
    for (std::size_t i = 0; i < places_; ++i) {
      for (std::size_t j = 0; j < places_; ++j) {
        for (std::size_t k = 0; k < places_; ++k) {
          if (k == i || k == j) continue;
          // The first leg takes at least its time at the limits, the last the factor of the direct drive.
          if (limit_time(i, k) < slowest * (limit_time(i, j) - limit_time(k, j)))
            detours_[i * places_ + j].push_back(k);
        }
      }
    }
  }

  const float* factor(std::size_t option, std::size_t from) const {
    return days_.all().option_factor.data() + option * days_.days() + from;
  }

  // Shortest ways on each day when any drive into a place may take the day's smallest factor there.
  void close(std::size_t from, std::size_t count) {
    std::vector<float> least(places_ * lanes, std::numeric_limits<float>::max());
    const auto lower = [&](std::size_t place, const float* f) {
      for (std::size_t d = 0; d < count; ++d) least[place * lanes + d] = std::min(least[place * lanes + d], f[d]);
    };
    for (const Meet& m : meets_) lower(m.place, factor(m.option, from));
    for (std::size_t r = 0; r < task_.refills.size(); ++r)
      lower(task_.refills[r].place.value, days_.all().refill_factor.data() + r * days_.days() + from);
    for (std::size_t i = 0; i < places_; ++i) {
      for (std::size_t j = 0; j < places_; ++j) {
        for (std::size_t d = 0; d < count; ++d)
          closure_[(i * places_ + j) * lanes + d] =
              i == j ? 0.0F : std::min(far, limit_time(i, j) * std::min(1e3F, least[j * lanes + d]));
      }
    }
    for (std::size_t k = 0; k < places_; ++k) {
      for (std::size_t i = 0; i < places_; ++i) {
        const float* __restrict a = closure_.data() + (i * places_ + k) * lanes;
        for (std::size_t j = 0; j < places_; ++j) {
          if (i == k || j == k) continue;
          const float* __restrict b = closure_.data() + (k * places_ + j) * lanes;
          float* __restrict c = closure_.data() + (i * places_ + j) * lanes;
          for (std::size_t d = 0; d < count; ++d) c[d] = a[d] + b[d] < c[d] ? a[d] + b[d] : c[d];
        }
      }
    }
  }

  // The day's shortest drive from a place to meet q, when the car comes from meet p (or from its start).
  void drive(std::size_t place, std::optional<std::size_t> p, std::size_t q, std::size_t from, std::size_t count,
             float* out) const {
    const Meet& to = meets_[q];
    float f[lanes];
    std::copy_n(factor(to.option, from), count, f);
    const auto lower = [&](const float* other) {
      for (std::size_t d = 0; d < count; ++d) f[d] = std::min(f[d], other[d]);
    };
    for (std::size_t k = 0; k < meets_.size(); ++k) {  // a meet missed on the way may be at the same place
      const Meet& m = meets_[k];
      if (m.place != to.place || k == q) continue;
      if (m.horse == to.horse && m.event >= to.event) continue;
      if (p && m.horse == meets_[*p].horse && m.event <= meets_[*p].event) continue;
      lower(factor(m.option, from));
    }
    for (std::size_t r = 0; r < task_.refills.size(); ++r) {
      if (task_.refills[r].place.value == to.place) lower(days_.all().refill_factor.data() + r * days_.days() + from);
    }
    const float direct = limit_time(place, to.place);
    for (std::size_t d = 0; d < count; ++d) out[d] = std::min(far, f[d] * direct);
    for (const std::size_t k : detours_[place * places_ + to.place]) {
      const float* first = closure_.data() + (place * places_ + k) * lanes;
      const float last = limit_time(k, to.place);
      for (std::size_t d = 0; d < count; ++d) out[d] = std::min(out[d], first[d] + f[d] * last);
    }
  }

  void load(std::size_t from, std::size_t count) {
    close(from, count);
    const std::size_t n = meets_.size();
    const bool others = task_.cars.size() > 1;
    for (std::size_t q = 0; q < n; ++q) {
      const Meet& m = meets_[q];
      const DaySet::Horse& horse = days_.all().horses[m.horse];
      const std::size_t column = m.event * days_.days() + from;
      const bool is_first = q == 0 || meets_[q - 1].horse != m.horse;
      for (std::size_t d = 0; d < count; ++d) {
        early_[q * lanes + d] = horse.base[column + d];
        stand_[q * lanes + d] = horse.stand[column + d];
        const std::size_t before = (q - 1) * lanes + d;
        const float held =
            is_first ? 0.0F : late_[before] - early_[before] + (meets_[q - 1].is_held ? stand_[before] : 0.0F);
        late_[q * lanes + d] = horse.base[column + d] + held;
      }
    }
    float way[lanes];
    for (std::size_t c = 0; c < task_.cars.size(); ++c) {
      const float ready_from = days_.seconds(task_.cars[c].ready_from);
      for (std::size_t q = 0; q < n; ++q) {
        drive(task_.cars[c].start.value, std::nullopt, q, from, count, way);
        float span[lanes];
        // A car alone has met nothing before its first meet, so nothing has held the horse up.
        const float* due = (others ? late_.data() : early_.data()) + q * lanes;
        for (std::size_t d = 0; d < count; ++d) span[d] = due[d] - ready_from;
        gains(q, way, span, meets_[q].setup, count, start(c, q));
      }
    }
    for (std::size_t p = 0; p < n; ++p) {
      const Meet& m = meets_[p];
      for (std::size_t q = 0; q < n; ++q) {
        const bool one_horse = meets_[q].horse == m.horse;
        if (p == q || (one_horse && q < p)) continue;
        const bool is_same_place = meets_[q].place == m.place;
        float span[lanes];
        for (std::size_t d = 0; d < count; ++d) {
          const std::size_t a = p * lanes + d;
          const std::size_t b = q * lanes + d;
          if (!one_horse) {
            span[d] = late_[b] - early_[a] - stand_[a];
          } else {
            const float between =
                others ? late_[b] - early_[b] - (late_[a] - early_[a]) - (m.is_held ? stand_[a] : 0.0F) : 0.0F;
            span[d] = early_[b] - early_[a] - (m.is_held ? 0.0F : stand_[a]) + between;
          }
        }
        if (is_same_place) {
          std::fill_n(way, count, 0.0F);  // the kit stays up
        } else {
          drive(m.place, p, q, from, count, way);
          for (std::size_t d = 0; d < count; ++d) way[d] += m.pack;
        }
        gains(q, way, span, is_same_place ? 0.0F : meets_[q].setup, count, gain(p, q));
      }
    }
  }

  // Worth of q for a car that has `span` seconds until the horse comes and `way` to drive.
  void gains(std::size_t q, const float* way, const float* span, float setup, std::size_t count, float* out) const {
    const Meet& m = meets_[q];
    const float part = static_cast<float>(task_.settings.part_worth) * m.worth;
    for (std::size_t d = 0; d < count; ++d) {
      const std::size_t b = q * lanes + d;
      const bool is_open =
          early_[b] + stand_[b] + m.own_pack <= m.shuts + rounding && m.opens <= late_[b] + stand_[b] + rounding;
      const bool ready = way[d] + setup <= span[d] + rounding && m.opens <= late_[b] + rounding;
      const bool there = way[d] <= span[d] + stand_[b] + rounding;
      out[d] = !is_open || !there ? lost : ready ? m.worth : part;
    }
  }

  // Penalty from the help at meet p (nothing: the start) to the one at q (nothing: the end of the day).
  float gap(std::optional<std::size_t> p, std::optional<std::size_t> q) const {
    const std::vector<RideEvent>& events = task_.horses.front().events;
    double total = 0;
    Metres last = p ? events[meets_[*p].event].ride_along : Metres{0.0};
    const auto cost = [&](Metres along) {
      total += task_.settings.gap_penalty * std::max(0.0, in_kilometres(along - last - task_.settings.water_interval));
      last = along;
    };
    const std::size_t end = q ? meets_[*q].event : events.size();
    for (std::size_t e = p ? meets_[*p].event + 1 : 0; e < end; ++e) {
      if (events[e].kind != RideEvent::Kind::pass || e + 1 == events.size()) cost(events[e].ride_along);
    }
    if (q) cost(events[meets_[*q].event].ride_along);
    return static_cast<float>(total);
  }

  // State (m, o): the last meet of all was m; the other car's last was o < m, or it has not begun (o = n + car).
  void solve_one_horse(std::size_t count, float* best) {
    const std::size_t n = meets_.size();
    const std::size_t cars = task_.cars.size();
    if (gap_.empty()) {
      gap_.resize((n + 1) * (n + 1));
      for (std::size_t p = 0; p <= n; ++p) {
        for (std::size_t q = 0; q <= n; ++q) {
          if (p < n && q <= p) continue;
          const auto from = p < n ? std::optional(p) : std::nullopt;
          const auto to = q < n ? std::optional(q) : std::nullopt;
          gap_[p * (n + 1) + q] = gap(from, to);
        }
      }
    }
    const std::size_t width = n + 2;
    value_.assign(n * width * lanes, lost);
    const auto cell = [&](std::size_t m, std::size_t o) { return value_.data() + (m * width + o) * lanes; };
    std::fill_n(best, count, -gap_[n * (n + 1) + n]);
    for (std::size_t c = 0; c < cars; ++c) {
      for (std::size_t q = 0; q < n; ++q) {
        const float* from_start = start(c, q);
        float* v = cell(q, n + (cars > 1 ? 1 - c : 0));
        for (std::size_t d = 0; d < count; ++d) v[d] = std::max(v[d], from_start[d] - gap_[n * (n + 1) + q]);
      }
    }
    for (std::size_t m = 0; m < n; ++m) {
      for (std::size_t o = 0; o < width; ++o) {
        if (o >= m && o < n) continue;
        if (cars == 1 && o != n) continue;
        const float* __restrict v = cell(m, o);
        if (std::all_of(v, v + count, [](float x) { return x < lost / 2; })) continue;
        const float end = gap_[m * (n + 1) + n];
        for (std::size_t d = 0; d < count; ++d) best[d] = std::max(best[d], v[d] - end);
        for (std::size_t k = m + 1; k < n; ++k) {
          const float cost = gap_[m * (n + 1) + k];
          advance(v, gain(m, k), cost, cell(k, o), count);
          if (cars > 1) advance(v, o < n ? gain(o, k) : start(o - n, k), cost, cell(k, m), count);
        }
      }
    }
  }

  static void advance(const float* __restrict v, const float* __restrict gained, float cost, float* __restrict to,
                      std::size_t count) {
    for (std::size_t d = 0; d < count; ++d) {
      const float through = v[d] + gained[d] - cost;
      to[d] = through > to[d] ? through : to[d];
    }
  }

  // Gaps left out. In the order of the horses' goings every way a car can take must lead forward for the flow to be a
  // bound; on a day when stands at meets could turn an order round, each horse has all cars to itself instead.
  double solve_flow(std::size_t d) {
    const std::size_t n = meets_.size();
    std::vector<std::size_t> order(n);
    for (std::size_t i = 0; i < n; ++i) order[i] = i;
    const auto going = [&](std::size_t q) { return early_[q * lanes + d] + stand_[q * lanes + d]; };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return going(a) < going(b); });
    if (leads_forward(order, d)) return flow(order, d);
    double total = 0;
    for (std::size_t h = 0; h < task_.horses.size(); ++h) {
      std::vector<std::size_t> own;
      for (const std::size_t q : order) {
        if (meets_[q].horse == h) own.push_back(q);
      }
      std::sort(own.begin(), own.end());
      total += flow(own, d);
    }
    return total;
  }

  bool leads_forward(const std::vector<std::size_t>& order, std::size_t d) {
    for (std::size_t i = 0; i < order.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (gain(order[i], order[j])[d] >= 0) return false;
      }
    }
    return true;
  }

  double flow(const std::vector<std::size_t>& order, std::size_t d) {
    const std::size_t n = order.size();
    const std::size_t cars = task_.cars.size();
    if (n == 0 || cars == 0) return 0;
    std::vector<double> arc(n * n, -1.0);
    std::vector<double> first(cars * n, -1.0);
    const std::vector<char> can_end(n, 1);
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = i + 1; j < n; ++j) arc[i * n + j] = static_cast<double>(gain(order[i], order[j])[d]);
      for (std::size_t c = 0; c < cars; ++c) first[c * n + i] = static_cast<double>(start(c, order[i])[d]);
    }
    return flow_.solve({n, cars, arc.data(), first.data(), can_end.data()});
  }

  const ValuationDays& days_;
  const CrewingTask& task_;
  std::size_t places_;
  std::vector<Meet> meets_;  // by horse, then in the order of its ride
  std::vector<float> at_limits_;
  std::vector<std::vector<std::size_t>> detours_;
  std::vector<float> closure_, gain_, start_, early_, late_, stand_, gap_, value_;
  PathFlow flow_;
};

}  // namespace

HindsightBound bound_with_hindsight(const ValuationDays& days, std::size_t most_days) {
  return Hindsight(days).bound(most_days);
}

}  // namespace outbye
