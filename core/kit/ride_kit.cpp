#include "core/kit/ride_kit.h"

#include "core/base/text.h"

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
