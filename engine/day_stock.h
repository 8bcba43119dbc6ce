// What is left of each car's stock on the day: what it set out with, and what the log says was filled in and used.
// Drinks and pours are taken off only when they are noted as used from the stock. What melts or is spilt is not known.
#pragma once

#include <string>
#include <vector>

#include "engine/stock.h"

namespace outbye {

struct DayState;
struct DayTrouble;

struct ContainerLeft {
  std::string name;
  StockKind holds{};
  double capacity{};  // L; of ice kg
  double start{};
  double filled{};
  double used{};
  double left{};
};

struct KindLeft {
  StockKind kind{};
  double capacity{};
  double left{};
  double to_come{};  // what the plan's stops that are still to come take (medians)
};

struct CarStockLeft {
  CarId car;
  std::vector<ContainerLeft> containers;
  std::vector<KindLeft> kinds;     // of those that there are or that are still taken
  std::vector<std::string> notes;  // in sentences
};

// An entry names a container, or a kind of stock: then the containers of that kind are used and filled in turn.
// `is_over`: by meet option, stops that take nothing any more. Adds what cannot be to `troubles`; entries about other
// things stay in DayState::stock alone.
std::vector<CarStockLeft> stock_left(const RidePlan& plan, const std::vector<CarStock>& stocks, const DayState& state,
                                     const std::vector<char>& is_over, std::vector<DayTrouble>& troubles);

}  // namespace outbye
