#include "core/load/load_lift.h"

#include <algorithm>
#include <array>

namespace outbye {

Kilograms lift_filter(LiftFilter filter, Millimetres hands) {
  // HSE manual handling guideline filter, hands close to the body.
  constexpr std::array<double, 5> men{10, 20, 25, 20, 10};
  constexpr std::array<double, 5> women{7, 13, 16, 13, 7};
  const std::size_t band = hands < 500 ? 0 : hands < 850 ? 1 : hands < 1200 ? 2 : hands < 1500 ? 3 : 4;
  return {filter == LiftFilter::men ? men[band] : women[band]};
}

LiftAdvice advise_lift(const LoadTask& task, const LoadSpace& space, const LoadItem& item, const LoadBox& box) {
  if (task.helpers.empty()) return {LiftAdvice::Way::no_helpers, "no helpers named"};
  const Millimetres half = box.size.height / 2;
  const Millimetres over_lip = space.lip_above_ground + half;
  const Millimetres in_place = space.floor_above_ground + box.at.z + half;
  const auto may = [&](const LoadHelper& helper) {
    return std::min(lift_filter(helper.filter, over_lip).value, lift_filter(helper.filter, in_place).value);
  };
  // The weakest that may, so that the strong are left for what only they may.
  const LoadHelper* one = nullptr;
  const LoadHelper* best = nullptr;
  const LoadHelper* second = nullptr;
  for (const LoadHelper& helper : task.helpers) {
    const bool handles =
        item.lifted_by == LiftedBy::anyone || (item.lifted_by == LiftedBy::men && helper.filter == LiftFilter::men);
    if (handles && may(helper) >= item.mass.value && (one == nullptr || may(helper) < may(*one))) one = &helper;
    if (best == nullptr || may(helper) > may(*best)) {
      second = best;
      best = &helper;
    } else if (second == nullptr || may(helper) > may(*second)) {
      second = &helper;
    }
  }
  if (one != nullptr) return {LiftAdvice::Way::one, one->name};
  // Two people lift two thirds of the sum of what each may (from memory).
  if (second != nullptr && 2.0 / 3.0 * (may(*best) + may(*second)) >= item.mass.value) {
    return {LiftAdvice::Way::two, best->name + " and " + second->name + " together"};
  }
  return {LiftAdvice::Way::nobody, "nobody here within the filter: carry it less full or in two"};
}

}  // namespace outbye
