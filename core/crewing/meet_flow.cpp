#include "core/crewing/meet_flow.h"

#include <algorithm>

namespace outbye {
namespace {

constexpr double infinite = 1e300;
constexpr double no_gain = 1e-12;

}  // namespace

void PathFlow::make_room(const PathNetwork& network) {
  n_ = network.nodes;
  k_ = network.cars;
  next_.assign(n_, none);
  previous_.assign(n_, none);
  first_.assign(k_, none);
  price_.assign(n_, 0.0);
  const std::size_t vertices = 2 * n_ + k_ + 1;
  potential_.assign(vertices, infinite);
  distance_.resize(vertices);
  parent_.resize(vertices);
  is_done_.resize(vertices);
}

double PathFlow::solve(const PathNetwork& network) {
  make_room(network);
  if (k_ == 1) return solve_one(network);
  first_potentials(network);
  double worth = 0;
  for (std::size_t c = 0; c < k_; ++c) {
    const double gain = augment(network);
    if (gain <= no_gain) break;
    worth += gain;
  }
  for (std::size_t p = 0; p < n_; ++p) {
    if (previous_[p] == none || potential_[2 * p] >= infinite) continue;
    price_[p] = std::max(0.0, potential_[2 * p + 1] - potential_[2 * p]);
  }
  return worth;
}

// Longest path: distance_[p] is the best worth from p on, p's own not counted.
double PathFlow::solve_one(const PathNetwork& network) {
  for (std::size_t p = n_; p-- > 0;) {
    double best = network.can_end[p] != 0 ? 0.0 : -infinite;
    std::size_t to = none;
    const double* arc = network.arc + p * n_;
    for (std::size_t q = p + 1; q < n_; ++q) {
      const double worth = arc[q] + distance_[q];
      if (arc[q] >= 0 && worth > best) best = worth, to = q;
    }
    distance_[p] = best;
    next_[p] = to;
  }
  double best = 0;
  for (std::size_t q = 0; q < n_; ++q) {
    const double worth = network.start[q] + distance_[q];
    if (network.start[q] >= 0 && worth > best) best = worth, first_[0] = q;
  }
  return best;
}

// Costs are worths turned round. Every car begins at cost 0; the graph is acyclic, so one sweep settles all.
void PathFlow::first_potentials(const PathNetwork& network) {
  const std::size_t end = 2 * n_ + k_;
  for (std::size_t c = 0; c < k_; ++c) {
    potential_[2 * n_ + c] = 0;
    for (std::size_t q = 0; q < n_; ++q) {
      const double worth = network.start[c * n_ + q];
      if (worth >= 0) potential_[2 * q] = std::min(potential_[2 * q], -worth);
    }
  }
  for (std::size_t p = 0; p < n_; ++p) {
    const double cost = potential_[2 * p];
    if (cost >= infinite) continue;
    potential_[2 * p + 1] = cost;
    if (network.can_end[p] != 0) potential_[end] = std::min(potential_[end], cost);
    for (std::size_t q = p + 1; q < n_; ++q) {
      const double worth = network.arc[p * n_ + q];
      if (worth >= 0) potential_[2 * q] = std::min(potential_[2 * q], cost - worth);
    }
  }
}

// One more car along the cheapest path of the residual graph (Dijkstra on reduced costs, dense). Returns the gain.
double PathFlow::augment(const PathNetwork& network) {
  const std::size_t end = 2 * n_ + k_;
  if (potential_[end] >= infinite) return 0;
  std::fill(distance_.begin(), distance_.end(), infinite);
  std::fill(is_done_.begin(), is_done_.end(), char{0});
  std::fill(parent_.begin(), parent_.end(), none);
  const auto relax = [&](std::size_t from, std::size_t to, double cost) {
    if (is_done_[to] != 0 || potential_[to] >= infinite) return;
    const double through = distance_[from] + std::max(0.0, cost + potential_[from] - potential_[to]);
    if (through < distance_[to]) distance_[to] = through, parent_[to] = from;
  };
  for (std::size_t c = 0; c < k_; ++c) {  // the source reaches the unused cars at cost 0; their potential stays 0
    if (first_[c] == none) distance_[2 * n_ + c] = 0;
  }
  for (;;) {
    std::size_t v = none;
    double least = infinite;
    for (std::size_t u = 0; u <= end; ++u) {
      if (is_done_[u] == 0 && distance_[u] < least) least = distance_[u], v = u;
    }
    if (v == none || v == end) break;
    is_done_[v] = 1;
    if (v >= 2 * n_) {
      const double* start = network.start + (v - 2 * n_) * n_;
      for (std::size_t q = 0; q < n_; ++q) {
        if (start[q] >= 0 && first_[v - 2 * n_] != q) relax(v, 2 * q, -start[q]);
      }
      continue;
    }
    const std::size_t p = v / 2;
    if (v % 2 == 0) {
      if (previous_[p] == none) {
        relax(v, v + 1, 0);
      } else if (previous_[p] >= n_) {
        const std::size_t c = previous_[p] - n_;
        relax(v, 2 * n_ + c, network.start[c * n_ + p]);
      } else {
        relax(v, 2 * previous_[p] + 1, network.arc[previous_[p] * n_ + p]);
      }
      continue;
    }
    if (previous_[p] != none) relax(v, v - 1, 0);
    if (network.can_end[p] != 0 && (previous_[p] == none || next_[p] != none)) relax(v, end, 0);
    const double* arc = network.arc + p * n_;
    for (std::size_t q = p + 1; q < n_; ++q) {
      if (arc[q] >= 0 && next_[p] != q) relax(v, 2 * q, -arc[q]);
    }
  }
  if (distance_[end] >= infinite) return 0;
  const double cost = distance_[end] + potential_[end];
  if (-cost <= no_gain) return 0;
  const double farthest = distance_[end];
  for (std::size_t v = 0; v <= end; ++v) {
    if (potential_[v] < infinite) potential_[v] += std::min(distance_[v], farthest);
  }
  // Turn flow on along the path and off where it runs against it. Each vertex is passed once, so each link is set once.
  for (std::size_t v = end; parent_[v] != none; v = parent_[v]) {
    const std::size_t u = parent_[v];
    const bool is_entry = v < 2 * n_ && v % 2 == 0;
    if (v == end) {
      next_[u / 2] = none;
    } else if (is_entry && u >= 2 * n_) {
      first_[u - 2 * n_] = v / 2;
      previous_[v / 2] = n_ + (u - 2 * n_);
    } else if (is_entry && u / 2 == v / 2) {
      next_[v / 2] = previous_[v / 2] = none;
    } else if (is_entry) {
      next_[u / 2] = v / 2;
      previous_[v / 2] = u / 2;
    }
  }
  return -cost;
}

}  // namespace outbye
