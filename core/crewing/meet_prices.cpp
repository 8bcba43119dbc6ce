#include "core/crewing/meet_prices.h"

#include <algorithm>

namespace outbye {
namespace {

constexpr double impossible_worth = -1e200;

}  // namespace

MeetPrices::MeetPrices(const MeetModel& model, std::size_t water_levels) : model_(&model) {
  make_levels(water_levels);
  for (std::size_t c = 0; c < model.cars(); ++c) {
    const std::size_t states = model.size() * (levels_[c].most + 1) + model.cars();
    after_.emplace_back(model.kind(c) == c ? states : 0);
    next_.emplace_back(model.kind(c) == c ? states : 0);
  }
  for (std::size_t h = 0; h < model.task().horses.size(); ++h) {
    help_after_.emplace_back(model.helps(h) + 1);
    help_next_.emplace_back(model.helps(h) + 1);
  }
}

void MeetPrices::make_levels(std::size_t water_levels) {
  const std::size_t n = model_->size();
  levels_.resize(model_->cars());
  for (std::size_t c = 0; c < model_->cars(); ++c) {
    Levels& levels = levels_[c];
    levels.takes.assign(n, 0);
    levels.fills.assign(n, 0);
    levels.capacity = model_->task().cars[c].water_capacity.value;
    if (model_->kind(c) != c) {
      levels.most = levels_[model_->kind(c)].most;
      continue;
    }
    bool is_scarce = false;
    for (std::size_t b = c; b < model_->cars(); ++b) {
      is_scarce = is_scarce || (model_->kind(b) == c && model_->load_at_start(b).stock < 1e299);
    }
    if (!is_scarce) continue;
    levels.most = water_levels;
    levels.unit = levels.capacity / static_cast<double>(levels.most);
    for (std::size_t q = 0; q < n; ++q) {
      const MeetOption& option = at(model_->task().options, model_->nodes()[q].option);
      levels.fills[q] = option.has_water ? 1 : 0;
      const double takes = std::floor(option.water.value / levels.unit + 1e-9);
      if (!option.has_water) levels.takes[q] = static_cast<std::size_t>(std::max(0.0, takes));
    }
  }
}

void MeetPrices::solve_car_kind(std::size_t kind) {
  const std::size_t n = model_->size();
  const std::size_t most = levels_[kind].most;
  std::vector<double>& after = after_[kind];
  std::vector<std::size_t>& next = next_[kind];
  for (std::size_t p = n; p-- > 0;) {
    double* best = after.data() + state_of(kind, p, 0);
    std::size_t* to = next.data() + state_of(kind, p, 0);
    double filled = model_->can_end(kind, p) ? 0.0 : impossible_worth;
    std::size_t to_filled = 2 * n;
    for (std::size_t q = p + 1; q < n && most > 0; ++q) {  // with full water, whatever there was
      const double arc = model_->arc_with_water(p, q);
      if (arc < 0 || !model_->may_meet(kind, q) || levels_[kind].takes[q] > most) continue;
      const double worth = arc + after[state_of(kind, q, level_after(kind, q, most))];
      if (worth > filled) filled = worth, to_filled = 2 * q + 1;
    }
    std::fill(best, best + most + 1, filled);
    std::fill(to, to + most + 1, to_filled);
    for (std::size_t q = p + 1; q < n; ++q) {
      const double arc = model_->arc(p, q);
      if (arc < 0 || !model_->may_meet(kind, q)) continue;
      const bool fills = levels_[kind].fills[q] != 0;
      const std::size_t takes = levels_[kind].takes[q];
      const double* then = after.data() + state_of(kind, q, 0);
      for (std::size_t level = takes; level <= most; ++level) {
        const double worth = arc + then[fills ? most : level - takes];
        if (worth > best[level]) best[level] = worth, to[level] = 2 * q;
      }
    }
    for (std::size_t level = 0; level <= most; ++level) best[level] -= prices_[p];  // its own, paid on the way in
  }
}

void MeetPrices::solve_cars() {
  const std::size_t n = model_->size();
  for (std::size_t c = 0; c < model_->cars(); ++c) {
    const std::size_t kind = model_->kind(c);
    if (kind == c) solve_car_kind(c);
    const std::size_t most = levels_[kind].most;
    double best = 0;
    std::size_t to = 2 * n;
    for (std::size_t q = 0; q < n; ++q) {
      if (model_->start(c, q) < 0 || levels_[kind].takes[q] > most) continue;
      const double worth = model_->start(c, q) + after_[kind][state_of(kind, q, level_after(kind, q, most))];
      if (worth > best) best = worth, to = 2 * q;
    }
    after_[kind][start_of(kind, c)] = best;
    next_[kind][start_of(kind, c)] = to;
  }
}

void MeetPrices::solve_horses() {
  for (std::size_t h = 0; h < help_after_.size(); ++h) {
    const std::size_t end = model_->helps(h);
    std::vector<double>& after = help_after_[h];
    after[end] = 0;
    for (std::size_t u = end; u-- > 0;) {
      double best = -model_->gap(h, u, end);
      std::size_t to = end;
      for (std::size_t v = u + 1; v < end; ++v) {
        const double worth = after[v] - model_->gap(h, u, v);
        if (worth > best) best = worth, to = v;
      }
      after[u] = best + (u > 0 ? prices_[model_->horse_nodes(h)[u - 1]] : 0.0);
      help_next_[h][u] = to;
    }
  }
}

double MeetPrices::bound(const std::vector<double>& prices) {
  prices_ = prices;
  solve_cars();
  solve_horses();
  double total = 0;
  for (std::size_t c = 0; c < model_->cars(); ++c) total += after_[model_->kind(c)][start_of(model_->kind(c), c)];
  for (const auto& after : help_after_) total += after[0];
  return total;
}

double MeetPrices::improve(std::vector<double> prices, double incumbent, std::size_t steps) {
  const std::size_t n = model_->size();
  std::vector<double> best = prices;
  double current = bound(prices);
  double best_bound = current;
  std::vector<double> direction(n, 0.0), slope(n);
  double stride = 1.0;
  std::size_t stale = 0;
  for (std::size_t step = 0; step < steps && best_bound > incumbent + 1e-9 && stride > 1e-3; ++step) {
    std::fill(slope.begin(), slope.end(), 0.0);  // of the bound by price: horses that want the meet less cars that do
    for (std::size_t h = 0; h < help_next_.size(); ++h) {
      for (std::size_t u = help_next_[h][0]; u < model_->helps(h); u = help_next_[h][u]) {
        slope[model_->horse_nodes(h)[u - 1]] += 1;
      }
    }
    for (std::size_t c = 0; c < model_->cars(); ++c) {
      const std::size_t kind = model_->kind(c);
      std::size_t level = levels_[kind].most;
      for (std::size_t step_to = next_[kind][start_of(kind, c)]; step_to < 2 * n;) {
        const std::size_t q = step_to / 2;
        level = level_after(kind, q, step_to % 2 == 1 ? levels_[kind].most : level);
        slope[q] -= 1;
        step_to = next_[kind][state_of(kind, q, level)];
      }
    }
    double square = 0, now = 0;
    for (std::size_t p = 0; p < n; ++p) {
      direction[p] = slope[p] + 0.6 * direction[p];
      square += direction[p] * direction[p];
      now += slope[p] * slope[p];
    }
    if (now == 0 || square == 0) break;  // cars and horses agree: the bound is reached
    const double length = stride * (current - incumbent) / square;
    for (std::size_t p = 0; p < n; ++p) prices[p] -= length * direction[p];
    current = bound(prices);
    if (current < best_bound - 1e-9) {
      best_bound = current;
      best = prices;
      stale = 0;
    } else if (++stale == 8) {
      stale = 0;
      stride *= 0.6;
      prices = best;
      std::fill(direction.begin(), direction.end(), 0.0);
      current = bound(prices);
    }
  }
  return bound(best);
}

void MeetPrices::make_tables() {
  make_car_tables();
  make_horse_tables();
}

void MeetPrices::make_car_tables() {
  const std::size_t n = model_->size();
  const std::size_t width = n + 1;
  car_table_.assign(model_->cars(), {});
  std::vector<double> best;
  for (std::size_t c = 0; c < model_->cars(); ++c) {
    const std::size_t kind = model_->kind(c);
    const std::vector<double>& after = after_[kind];
    std::vector<double>& table = car_table_[kind];
    const std::size_t most = levels_[kind].most;
    if (kind == c) {
      table.resize(after.size() * width);
      for (std::size_t p = 0; p < n; ++p) {
        best.assign(most + 1, model_->can_end(c, p) ? 0.0 : impossible_worth);
        for (std::size_t i = n + 1; i-- > 0;) {
          if (i > p && i < n && model_->may_meet(c, i)) {
            const std::size_t takes = levels_[kind].takes[i];
            const double arc = model_->arc(p, i);
            for (std::size_t level = takes; arc >= 0 && level <= most; ++level) {
              best[level] = std::max(best[level], arc + after[state_of(kind, i, level_after(kind, i, level))]);
            }
            const double filling = most > 0 && takes <= most ? model_->arc_with_water(p, i) : -1.0;
            if (filling >= 0) {
              const double worth = filling + after[state_of(kind, i, level_after(kind, i, most))];
              for (double& b : best) b = std::max(b, worth);
            }
          }
          for (std::size_t level = 0; level <= most; ++level) table[state_of(kind, p, level) * width + i] = best[level];
        }
      }
    }
    double from_start = 0;
    table[start_of(kind, c) * width + n] = 0;
    for (std::size_t i = n; i-- > 0;) {
      if (model_->start(c, i) >= 0 && levels_[kind].takes[i] <= most) {
        from_start = std::max(from_start, model_->start(c, i) + after[state_of(kind, i, level_after(kind, i, most))]);
      }
      table[start_of(kind, c) * width + i] = from_start;
    }
  }
}

void MeetPrices::make_horse_tables() {
  const std::size_t n = model_->size();
  const std::size_t width = n + 1;
  horse_table_.clear();
  for (std::size_t h = 0; h < help_after_.size(); ++h) {
    const std::size_t end = model_->helps(h);
    auto& table = horse_table_.emplace_back(end * width);
    for (std::size_t u = 0; u < end; ++u) {
      double best = -model_->gap(h, u, end);
      std::size_t i = n + 1;
      for (std::size_t v = end; v-- > u + 1;) {
        const std::size_t node = model_->horse_nodes(h)[v - 1];
        while (i > node + 1) table[u * width + --i] = best;
        best = std::max(best, help_after_[h][v] - model_->gap(h, u, v));
      }
      while (i > 0) table[u * width + --i] = best;
    }
  }
}

}  // namespace outbye
