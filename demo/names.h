// Invented names: syllables that no real place, person or horse is known by, never the same name twice.
#pragma once

#include <set>
#include <string>

#include "core/base/random.h"

namespace outbye::demo {

class Names {
 public:
  explicit Names(Seed seed) : rng_(seed) {}
  std::string place();   // "Quozzwick"
  std::string stem();    // "Quozz": a place name's first part, for rivers and horses
  std::string street();  // "Vrummel Lane"

 private:
  std::string once(const std::string& name);

  Rng rng_;
  std::set<std::string> used_;
};

}  // namespace outbye::demo
