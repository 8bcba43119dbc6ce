#include "core/crewing/meet_prices.h"

#include <algorithm>

namespace outbye {
namespace {

constexpr double impossible_worth = -1e200;

}  // namespace

MeetPrices::MeetPrices(const MeetModel& model) : model_(&model) {
  const std::size_t n = model.size();
  after_.assign(model.cars(), std::vector<double>(n + model.cars()));
  next_.assign(model.cars(), std::vector<std::size_t>(n + model.cars()));
  for (std::size_t h = 0; h < model.task().horses.size(); ++h) {
    help_after_.emplace_back(model.helps(h) + 1);
    help_next_.emplace_back(model.helps(h) + 1);
  }
}

void MeetPrices::solve_cars() {
  const std::size_t n = model_->size();
  for (std::size_t c = 0; c < model_->cars(); ++c) {
    const std::size_t kind = model_->kind(c);
    std::vector<double>& after = after_[kind];
    std::vector<std::size_t>& next = next_[kind];
    for (std::size_t p = kind == c ? n : 0; p-- > 0;) {
      double best = model_->can_end(c, p) ? 0.0 : impossible_worth;
      std::size_t to = n;
      const double* arc = model_->arcs().data() + p * n;
      for (std::size_t q = p + 1; q < n; ++q) {
        const double worth = arc[q] + after[q];
        if (arc[q] >= 0 && worth > best && model_->may_meet(c, q)) best = worth, to = q;
      }
      after[p] = best - prices_[p];  // the node's own price is paid on the way in
      next[p] = to;
    }
    double best = 0;
    std::size_t to = n;
    for (std::size_t q = 0; q < n; ++q) {
      const double worth = model_->start(c, q) + after[q];
      if (model_->start(c, q) >= 0 && worth > best) best = worth, to = q;
    }
    after[n + c] = best;
    next[n + c] = to;
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
  for (std::size_t c = 0; c < model_->cars(); ++c) total += after_[model_->kind(c)][model_->size() + c];
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
      const auto& next = next_[model_->kind(c)];
      for (std::size_t p = next[n + c]; p < n; p = next[p]) slope[p] -= 1;
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
  const std::size_t n = model_->size();
  const std::size_t width = n + 1;
  car_table_.assign(model_->cars(), {});
  for (std::size_t c = 0; c < model_->cars(); ++c) {
    const std::size_t kind = model_->kind(c);
    const std::vector<double>& after = after_[kind];
    std::vector<double>& table = car_table_[kind];
    if (kind == c) {
      table.resize((n + model_->cars()) * width);
      for (std::size_t p = 0; p < n; ++p) {
        double best = model_->can_end(c, p) ? 0.0 : impossible_worth;
        table[p * width + n] = best;
        for (std::size_t i = n; i-- > 0;) {
          if (i > p && model_->arc(p, i) >= 0 && model_->may_meet(c, i)) {
            best = std::max(best, model_->arc(p, i) + after[i]);
          }
          table[p * width + i] = best;
        }
      }
    }
    double best = 0;
    table[(n + c) * width + n] = best;
    for (std::size_t i = n; i-- > 0;) {
      if (model_->start(c, i) >= 0) best = std::max(best, model_->start(c, i) + after[i]);
      table[(n + c) * width + i] = best;
    }
  }
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
