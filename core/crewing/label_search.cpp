#include "core/crewing/label_search.h"

#include <algorithm>
#include <cstdint>
#include <tuple>
#include <vector>

namespace outbye {
namespace {

constexpr double no_gain = 1e-9;
constexpr std::uint32_t no_history = 0xFFFFFFFF;

struct Slot {
  std::uint32_t last{};  // node, or size() + car at its start
  CarLoad load;
};

std::tuple<std::uint32_t, double, double, double, double> key(const Slot& s) {
  return {s.last, s.load.driving, s.load.used, -s.load.stock, s.load.standing_since};
}

struct History {
  std::uint32_t parent{};
  std::uint32_t from{};  // Slot::last before
  std::uint32_t node{};
  Leg leg;
};

// Labels after one meet. Label i has slots [i * cars, ...) and helps [i * horses, ...).
struct Layer {
  struct Head {
    double value{};
    double bound{};
    std::uint32_t history{no_history};
  };
  std::vector<Head> heads;
  std::vector<Slot> slots;
  std::vector<std::uint16_t> helps;
  void clear() {
    heads.clear();
    slots.clear();
    helps.clear();
  }
};

class LabelSearch {
 public:
  LabelSearch(const MeetModel& model, const MeetPrices& prices, double incumbent, const LabelLimits& limits)
      : model_(model),
        prices_(prices),
        incumbent_(incumbent),
        limits_(limits),
        n_(model.size()),
        cars_(model.cars()),
        horses_(model.task().horses.size()) {
    make_lags();
  }

  LabelResult run() {
    LabelResult result;
    result.is_exact = true;
    result.bound = incumbent_;
    now_.heads.push_back({});
    for (std::uint32_t c = 0; c < cars_; ++c) {
      now_.slots.push_back({static_cast<std::uint32_t>(n_) + c, model_.load_at_start(c)});
    }
    now_.helps.assign(horses_, 0);
    for (std::size_t i = 0; i < n_ && !now_.heads.empty(); ++i) {
      next_.clear();
      for (std::size_t l = 0; l < now_.heads.size(); ++l) expand(l, i);
      thin(result);
    }
    finish(result);
    return result;
  }

 private:
  // lags_[h][u, v]: the most that being last helped at u can cost more than at v, whatever comes.
  void make_lags() {
    for (std::size_t h = 0; h < horses_; ++h) {
      const std::size_t m = model_.helps(h);
      std::vector<double>& lag = lags_.emplace_back(m * m);
      for (std::size_t u = 0; u < m; ++u) {
        for (std::size_t v = 0; v < m; ++v) {
          double most = -1e300;
          for (std::size_t w = std::max(u, v) + 1; w <= m; ++w) {
            most = std::max(most, model_.gap(h, u, w) - model_.gap(h, v, w));
          }
          lag[u * m + v] = most;
        }
      }
    }
  }

  double bound_of(double value, const Slot* slots, const std::uint16_t* helps, std::size_t i) const {
    for (std::size_t c = 0; c < cars_; ++c) value += prices_.car_after(c, slots[c].last, slots[c].load.stock, i);
    for (std::size_t h = 0; h < horses_; ++h) value += prices_.horse_after(h, helps[h], i);
    return value;
  }

  void keep(double value, std::uint32_t history, const Slot* slots, const std::uint16_t* helps, std::size_t i) {
    const double bound = bound_of(value, slots, helps, i);
    if (bound <= incumbent_ + no_gain) return;
    next_.heads.push_back({value, bound, history});
    next_.slots.insert(next_.slots.end(), slots, slots + cars_);
    next_.helps.insert(next_.helps.end(), helps, helps + horses_);
  }

  void expand(std::size_t l, std::size_t i) {
    const Layer::Head head = now_.heads[l];
    slots_.assign(now_.slots.begin() + static_cast<std::ptrdiff_t>(l * cars_),
                  now_.slots.begin() + static_cast<std::ptrdiff_t>((l + 1) * cars_));
    helps_.assign(now_.helps.begin() + static_cast<std::ptrdiff_t>(l * horses_),
                  now_.helps.begin() + static_cast<std::ptrdiff_t>((l + 1) * horses_));
    keep(head.value, head.history, slots_.data(), helps_.data(), i + 1);
    const MeetNode& node = model_.nodes()[i];
    const bool must = at(model_.task().options, node.option).demand == MeetOption::Demand::must;
    const std::uint16_t help_before = helps_[node.horse];
    const double gap = model_.gap(node.horse, help_before, node.help);
    helps_[node.horse] = static_cast<std::uint16_t>(node.help);
    for (std::size_t c = 0; c < cars_; ++c) {
      const Slot before = slots_[c];
      const bool at_start = before.last >= n_;
      const std::size_t car = at_start ? before.last - n_ : c;
      if (at_start && is_repeated_start(c)) continue;
      if (!model_.may_meet(car, i)) continue;
      if ((at_start ? model_.start(car, i) : model_.arc(before.last, i)) < 0) continue;
      const auto p = at_start ? std::optional<std::size_t>{} : std::optional<std::size_t>{before.last};
      for (const Leg leg : model_.legs(car, before.load)) {
        if (!model_.is_useful(leg, before.load)) continue;
        const auto step = model_.walk(car, p, i, before.load, leg);
        if (!step) continue;
        const double readiness = step->is_ready ? 1.0 : model_.task().settings.part_worth;
        const double value = head.value + node.worth * readiness + (must ? model_.must_bonus() : 0.0) - gap;
        moved_ = slots_;
        moved_[c] = {static_cast<std::uint32_t>(i), step->load};
        sort_kind(c);
        const auto before_size = next_.heads.size();
        keep(value, static_cast<std::uint32_t>(history_.size()), moved_.data(), helps_.data(), i + 1);
        if (next_.heads.size() > before_size) {
          history_.push_back({head.history, before.last, static_cast<std::uint32_t>(i), leg});
        }
      }
    }
  }

  // Cars of one kind that set out alike: only the first of them leaves first.
  bool is_repeated_start(std::size_t c) const {
    for (std::size_t b = 0; b < c; ++b) {
      if (slots_[b].last >= n_ && model_.have_one_start(slots_[b].last - n_, slots_[c].last - n_)) return true;
    }
    return false;
  }

  // Cars of one kind can change places, so their slots are kept in one order: fewer labels, the same days.
  void sort_kind(std::size_t c) {
    const std::size_t kind = model_.kind(c);
    std::size_t where = c;
    for (std::size_t b = c; b-- > 0;) {
      if (model_.kind(b) != kind) continue;
      if (!(key(moved_[where]) < key(moved_[b]))) break;
      std::swap(moved_[b], moved_[where]);
      where = b;
    }
    for (std::size_t b = where + 1; b < cars_; ++b) {
      if (model_.kind(b) != kind) continue;
      if (!(key(moved_[b]) < key(moved_[where]))) break;
      std::swap(moved_[b], moved_[where]);
      where = b;
    }
  }

  const Slot* slots_of(std::size_t l) const { return next_.slots.data() + l * cars_; }
  const std::uint16_t* helps_of(std::size_t l) const { return next_.helps.data() + l * horses_; }

  bool have_one_place(std::size_t a, std::size_t b) const {
    for (std::size_t c = 0; c < cars_; ++c) {
      if (slots_of(a)[c].last != slots_of(b)[c].last) return false;
    }
    return true;
  }

  bool beats(std::size_t a, std::size_t b) const {
    double lead = next_.heads[a].value - next_.heads[b].value;
    for (std::size_t h = 0; h < horses_; ++h) {
      lead -= lags_[h][helps_of(a)[h] * model_.helps(h) + helps_of(b)[h]];
    }
    if (lead < -1e-12) return false;
    for (std::size_t c = 0; c < cars_; ++c) {
      const CarLoad& x = slots_of(a)[c].load;
      const CarLoad& y = slots_of(b)[c].load;
      if (x.driving > y.driving || x.used > y.used || x.stock < y.stock) return false;
      if (x.driving >= 0 && x.standing_since > y.standing_since) return false;
    }
    return true;
  }

  // Drops beaten labels, cuts the layer to its limit, and makes it the current one.
  void thin(LabelResult& result) {
    order_.resize(next_.heads.size());
    for (std::uint32_t l = 0; l < order_.size(); ++l) order_[l] = l;
    std::sort(order_.begin(), order_.end(), [&](std::uint32_t a, std::uint32_t b) {
      for (std::size_t c = 0; c < cars_; ++c) {
        if (slots_of(a)[c].last != slots_of(b)[c].last) return slots_of(a)[c].last < slots_of(b)[c].last;
      }
      if (next_.heads[a].value != next_.heads[b].value) return next_.heads[a].value > next_.heads[b].value;
      return a < b;  // labels are made in a fixed order
    });
    kept_.clear();
    std::size_t group = 0;  // start in kept_ of the labels with the same places
    for (const std::uint32_t l : order_) {
      if (!kept_.empty() && group < kept_.size() && !have_one_place(kept_[group], l)) group = kept_.size();
      bool beaten = false;
      for (std::size_t k = group; k < kept_.size() && !beaten; ++k) beaten = beats(kept_[k], l);
      if (!beaten) kept_.push_back(l);
    }
    const std::size_t limit = result.labels > limits_.total ? std::min(limits_.narrow, limits_.layer) : limits_.layer;
    if (kept_.size() > limit) {
      const auto better = [&](std::uint32_t a, std::uint32_t b) {
        return next_.heads[a].bound != next_.heads[b].bound ? next_.heads[a].bound > next_.heads[b].bound : a < b;
      };
      std::nth_element(kept_.begin(), kept_.begin() + static_cast<std::ptrdiff_t>(limit), kept_.end(), better);
      for (std::size_t k = limit; k < kept_.size(); ++k) {
        result.bound = std::max(result.bound, next_.heads[kept_[k]].bound);
      }
      kept_.resize(limit);
      std::sort(kept_.begin(), kept_.end());
      result.is_exact = false;
    }
    now_.clear();
    for (const std::uint32_t l : kept_) {
      now_.heads.push_back(next_.heads[l]);
      now_.slots.insert(now_.slots.end(), slots_of(l), slots_of(l) + cars_);
      now_.helps.insert(now_.helps.end(), helps_of(l), helps_of(l) + horses_);
    }
    result.labels += kept_.size();
  }

  std::optional<Leg> way_home(const Slot& slot, std::size_t c) const {
    for (const Leg leg : model_.legs(c, slot.load)) {
      if (model_.walk(c, slot.last, std::nullopt, slot.load, leg)) return leg;
    }
    return std::nullopt;
  }

  void finish(LabelResult& result) {
    for (std::size_t l = 0; l < now_.heads.size(); ++l) {
      double worth = now_.heads[l].value;
      for (std::size_t h = 0; h < horses_; ++h) {
        worth -= model_.gap(h, now_.helps[l * horses_ + h], model_.helps(h));
      }
      if (worth <= incumbent_ + no_gain || (result.is_found && worth <= result.worth + no_gain)) continue;
      std::vector<Leg> home(n_);
      bool can_end = true;
      for (std::size_t c = 0; c < cars_ && can_end; ++c) {
        const Slot& slot = now_.slots[l * cars_ + c];
        if (slot.last >= n_) continue;
        const auto leg = way_home(slot, c);
        can_end = leg.has_value();
        if (leg) home[slot.last] = *leg;
      }
      if (!can_end) continue;
      result.is_found = true;
      result.worth = worth;
      result.orders = orders_of(now_.heads[l].history, home);
    }
  }

  CrewOrders orders_of(std::uint32_t history, const std::vector<Leg>& home) const {
    std::vector<const History*> after(n_ + cars_, nullptr);
    for (std::uint32_t k = history; k != no_history; k = history_[k].parent) after[history_[k].from] = &history_[k];
    CrewOrders orders;
    for (std::uint32_t c = 0; c < cars_; ++c) {
      CarOrders& day = orders.emplace_back();
      day.car = {c};
      std::size_t at_node = n_ + c;
      for (; after[at_node] != nullptr; at_node = after[at_node]->node) {
        append_leg(day.stops, model_, after[at_node]->leg, after[at_node]->node);
      }
      if (at_node < n_) append_leg(day.stops, model_, home[at_node], std::nullopt);
    }
    return orders;
  }

  const MeetModel& model_;
  const MeetPrices& prices_;
  double incumbent_;
  LabelLimits limits_;
  std::size_t n_, cars_, horses_;
  std::vector<std::vector<double>> lags_;
  Layer now_, next_;
  std::vector<History> history_;
  std::vector<Slot> slots_, moved_;
  std::vector<std::uint16_t> helps_;
  std::vector<std::uint32_t> order_, kept_;
};

}  // namespace

LabelResult search_labels(const MeetModel& model, const MeetPrices& prices, double incumbent,
                          const LabelLimits& limits) {
  return LabelSearch(model, prices, incumbent, limits).run();
}

}  // namespace outbye
