#include "core/kit/kit_counts.h"

#include <algorithm>
#include <cmath>

#include "core/base/text.h"

namespace outbye {
namespace {

// What all cars together may carry by the ride file; a car of which nothing is said carries any amount.
double water_room(const KitFacts& facts) {
  double room = 0.0;
  for (const KitCar& car : facts.cars) {
    if (car.water_capacity <= Litres{0}) return 1e9;
    room += car.water_capacity.value;
  }
  return facts.cars.empty() ? 1e9 : room;
}

std::string plural(double n, const char* one, const char* many) { return fixed(n, 0) + " " + (n == 1.0 ? one : many); }

// `in_other_cans`: litres that larger cans hold already.
KitNumber count_by_amount(const KitCount& count, const KitFacts& facts, const std::vector<Amount>& amounts,
                          double in_other_cans) {
  const Amount* amount = find_amount(amounts, count.amount);
  if (amount == nullptr || count.amount_per_item <= 0.0) return {0, "amount '" + count.amount + "' is not known"};
  double wanted = amount->value;
  std::string words = fixed(wanted, 1) + " " + amount->unit + " (" + amount->name + "), ";
  if (amount->id == "carried-water") {
    const double room = water_room(facts);
    if (wanted > room) words += "but the cars carry " + fixed(room, 0) + " L at most, ";
    wanted = std::min(wanted, room) - in_other_cans;
    if (in_other_cans > 0.0) words += "less " + fixed(in_other_cans, 0) + " L in other cans, ";
  }
  const double number = std::ceil(wanted / count.amount_per_item - 1e-9);
  return {static_cast<std::size_t>(std::max(0.0, number)),
          words + fixed(count.amount_per_item, 1) + " " + amount->unit + " in each"};
}

}  // namespace

KitNumber number_of(const KitItem& item, const KitFacts& facts, const std::vector<Amount>& amounts,
                    double in_other_cans) {
  const KitCount& count = item.count;
  if (!count.amount.empty()) return count_by_amount(count, facts, amounts, in_other_cans);
  const double horses = static_cast<double>(facts.horses.size());
  const double crew = facts.crew;
  struct Rate {
    double rate;
    double number;
    const char* one;
    const char* many;
  };
  const Rate rates[] = {{count.per_horse, horses, "horse", "horses"},
                        {count.per_rider, horses, "rider", "riders"},
                        {count.per_crew, crew, "person of the crew", "people of the crew"},
                        {count.per_person, crew + horses, "person", "people"},
                        {count.per_car, static_cast<double>(facts.cars.size()), "car", "cars"},
                        {count.per_loop, static_cast<double>(facts.loops), "loop", "loops"}};
  double sum = count.fixed;
  std::string words = count.fixed > 0.0 ? fixed(count.fixed, 0) : "";
  for (const auto& rate : rates) {
    if (rate.rate <= 0.0) continue;
    sum += rate.rate * rate.number;
    words += (words.empty() ? "" : " and ") + fixed(rate.rate, rate.rate == std::floor(rate.rate) ? 0 : 1) +
             " for each " + rate.one + ", " + plural(rate.number, rate.one, rate.many);
  }
  return {static_cast<std::size_t>(std::ceil(std::max(0.0, sum) - 1e-9)), words};
}

}  // namespace outbye
