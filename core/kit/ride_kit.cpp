#include "core/kit/ride_kit.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "core/base/text.h"
#include "core/base/water_physics.h"

namespace outbye {

std::string_view container_kind_word(OwnContainer::Kind kind) {
  switch (kind) {
    case OwnContainer::Kind::can:
      return "can";
    case OwnContainer::Kind::bucket:
      return "bucket";
    case OwnContainer::Kind::bottle:
      return "bottle";
    case OwnContainer::Kind::cool_box:
      break;
  }
  return "cool box";
}

double leak_of(const IceMeltTest& test) {
  return leak_from_melt({test.ice.value - test.left.value}, test.air.value, test.time);
}

Result<void> check_leak_test(const IceMeltTest& test) {
  if (test.left >= test.ice) return bad_input("left_kg", "is not less than ice_kg; weigh what is left, without water");
  if (test.left <= Kilograms{0.0}) {
    return bad_input("left_kg", "is nothing: once all is melted the box warms up and tells nothing; stop earlier");
  }
  if (test.air.value < 5.0) {
    return bad_input("outside_c", "is " + fixed(test.air.value, 1) + "; measure where it is 5 degrees or warmer");
  }
  if (test.time < minutes(30)) return bad_input("hours", "is under half an hour: too little melts to be weighed");
  return {};
}

double leak_of(const OwnContainer& box, const KitSettings& settings) {
  if (box.leak_w_per_k) return *box.leak_w_per_k;
  return box.leak_test ? leak_of(*box.leak_test) : settings.box_leak_w_per_k;
}

std::vector<std::vector<std::size_t>> deal_containers(const std::vector<OwnContainer>& containers,
                                                      const std::vector<DealtCar>& cars) {
  std::vector<std::size_t> takers;
  for (std::size_t c = 0; c < cars.size(); ++c) {
    if (cars[c].takes_part) takers.push_back(c);
  }
  if (takers.empty()) {
    takers.resize(std::max<std::size_t>(1, cars.size()));
    std::iota(takers.begin(), takers.end(), std::size_t{0});
  }
  std::array<std::size_t, 4> dealt{};
  std::vector<std::vector<std::size_t>> of;
  for (const OwnContainer& container : containers) {
    std::optional<std::size_t> named;
    for (std::size_t c = 0; container.car && c < cars.size(); ++c) {
      if (same_name(cars[c].name, *container.car)) named = c;
    }
    auto& mine = of.emplace_back();
    for (std::uint32_t n = 0; n < container.count; ++n) {
      std::size_t& turn = dealt[static_cast<std::size_t>(container.kind)];
      mine.push_back(named ? *named : takers[turn++ % takers.size()]);
    }
  }
  return of;
}

std::string_view soaked_feed_word(SoakedFeed feed) {
  switch (feed) {
    case SoakedFeed::none:
      return "none";
    case SoakedFeed::quick:
      return "quick";
    case SoakedFeed::shreds:
      return "shreds";
    case SoakedFeed::pellets:
      break;
  }
  return "pellets";
}

std::string_view like_drink_word(HorseLike::Drink drink) {
  switch (drink) {
    case HorseLike::Drink::nothing:
      return "nothing";
    case HorseLike::Drink::plain:
      return "plain";
    case HorseLike::Drink::electrolyte:
      return "electrolyte";
    case HorseLike::Drink::feed_water:
      break;
  }
  return "feed water";
}

std::string like_words(const HorseLike& like) {
  std::string words =
      like.drink == HorseLike::Drink::nothing ? "does not drink" : std::string(like_drink_word(like.drink));
  if (like.drink == HorseLike::Drink::plain) words = "drinks plain water";
  if (!like.product.empty()) words += " (" + like.product + ")";
  if (like.litres) words += ", " + fixed(like.litres->value, 1) + " L a stop,";
  if (like.to_loop && *like.to_loop == like.from_loop) {
    words += " on loop " + std::to_string(like.from_loop);
  } else if (like.to_loop) {
    words += " on loops " + std::to_string(like.from_loop) + " to " + std::to_string(*like.to_loop);
  } else {
    words += " from loop " + std::to_string(like.from_loop);
  }
  if (!like.note.empty()) words += "; " + like.note;
  return words;
}

bool holds_on(const HorseLike& like, std::uint32_t loop) {
  return loop >= like.from_loop && (!like.to_loop || loop <= *like.to_loop);
}

}  // namespace outbye
