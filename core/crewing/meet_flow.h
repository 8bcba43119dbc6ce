// Choosing meets when worth simply adds up: paths of cars through an acyclic graph of meets, each meet on at most one
// path. That is a minimum-cost flow with every node split in two (capacity 1), so the optimum is exact and found with
// at most one shortest path a car (successive shortest paths with potentials: Ahuja, Magnanti and Orlin, Network Flows,
// 1993, sections 9.7 and 4.4 for the first potentials). One car is a plain longest path.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

namespace outbye {

// Nodes 0..n-1 in an order that every arc follows. Worths are those of the head; negative: no such arc.
struct PathNetwork {
  std::size_t nodes{};
  std::size_t cars{};
  const double* arc{};    // nodes x nodes; only p < q is read
  const double* start{};  // cars x nodes
  const char* can_end{};  // nodes: a path may end here
};

// Re-usable room for solving many networks: nothing is allocated once the sizes have been seen.
class PathFlow {
 public:
  // The largest total worth of at most `cars` disjoint paths.
  double solve(const PathNetwork& network);

  // Of the last solution. Node after p on its path, or none; first node of a car, or none.
  static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
  std::size_t next(std::size_t p) const { return next_[p]; }
  std::size_t first(std::size_t car) const { return first_[car]; }
  // What a second car at the node would add (>= 0): the price at which the cars agree who meets it. With one car, 0.
  double price(std::size_t p) const { return price_[p]; }

 private:
  double solve_one(const PathNetwork& network);
  double augment(const PathNetwork& network);
  void first_potentials(const PathNetwork& network);
  void make_room(const PathNetwork& network);

  std::size_t n_{}, k_{};
  std::vector<std::size_t> next_, first_, previous_;  // previous_: node before, or n + car, or none
  std::vector<double> price_;
  // Vertices of the residual graph: in(p) = 2p, out(p) = 2p + 1, car c = 2n + c, end = 2n + k.
  std::vector<double> potential_, distance_;
  std::vector<std::size_t> parent_;
  std::vector<char> is_done_;
};

}  // namespace outbye
