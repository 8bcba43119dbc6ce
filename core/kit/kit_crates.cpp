#include "core/kit/kit_crates.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/base/text.h"

namespace outbye {
namespace {

double litres(const LoadSize& size) { return 1e-6 * size.length * size.width * size.height; }

std::array<Millimetres, 3> sides(const LoadSize& size) {
  std::array<Millimetres, 3> sorted{size.length, size.width, size.height};
  std::sort(sorted.begin(), sorted.end());
  return sorted;
}

// As it stands or turned over; only by its outside, so that a bottle a little taller than its crate stands out of it.
bool is_large_enough(const KitItem& crate, const KitItem& piece) {
  if (piece.is_soft || crate.hold->is_place) return true;
  const auto a = sides(piece.size);
  const auto b = sides(crate.size);
  return a[0] <= b[0] && a[1] <= b[1] && a[2] <= b[2];
}

struct Open {
  KitCrate crate;
  const KitItem* item{};
  double litres{};
  double kg{};
};

bool has_room(const Open& open, const KitItem& piece) {
  return open.litres + litres(piece.size) <= open.item->hold->room.value + 1e-9 &&
         open.kg + piece.full.value <= open.item->hold->most.value + 1e-9 && is_large_enough(*open.item, piece);
}

void put(Open& open, const KitItem& piece) {
  open.litres += litres(piece.size);
  open.kg += piece.full.value;
  open.crate.mass += piece.full;
  auto& contents = open.crate.contents;
  const auto same =
      std::find_if(contents.begin(), contents.end(), [&](const KitCrate::Part& part) { return part.item == piece.id; });
  if (same == contents.end()) {
    contents.push_back({piece.id, 1});
  } else {
    ++same->count;
  }
}

class Filling {
 public:
  Filling(const std::vector<KitItem>& crates, std::size_t cars) : crates_(crates), cars_(cars) {}

  void put_piece(const KitEntry& entry, std::size_t n) {
    const std::size_t car = car_of_piece(entry, n, cars_);
    for (const std::string& id : entry.item.goes_into) {
      Open* open = with_room(id, car, entry.item);
      if (open == nullptr) open = opened(id, car, entry.item);
      if (open != nullptr) return put(*open, entry.item);
    }
  }

  std::vector<KitCrate> finish() {
    std::vector<KitCrate> filled;
    // In the order of the catalogue, so that numbers of alike crates follow one another.
    for (const KitItem& item : crates_) {
      for (Open& open : open_) {
        if (open.item == &item) filled.push_back(std::move(open.crate));
      }
    }
    return filled;
  }

 private:
  Open* with_room(const std::string& id, std::size_t car, const KitItem& piece) {
    for (Open& open : open_) {
      if (same_name(open.item->id, id) && open.crate.car == car && has_room(open, piece)) return &open;
    }
    return nullptr;
  }

  Open* opened(const std::string& id, std::size_t car, const KitItem& piece) {
    for (const KitItem& item : crates_) {
      if (!same_name(item.id, id)) continue;
      const auto alike = static_cast<std::size_t>(
          std::count_if(open_.begin(), open_.end(), [&](const Open& open) { return open.item == &item; }));
      Open fresh{{item, alike + 1, car, {}, item.full}, &item, 0.0, 0.0};
      if (alike >= item.hold->at_most || !has_room(fresh, piece)) continue;
      open_.push_back(std::move(fresh));
      return &open_.back();
    }
    return nullptr;
  }

  const std::vector<KitItem>& crates_;
  std::size_t cars_;
  std::vector<Open> open_;
};

}  // namespace

std::size_t car_of_piece(const KitEntry& entry, std::size_t n, std::size_t cars) {
  if (n < entry.cars.size() && entry.cars[n] < cars) return entry.cars[n];
  const bool is_shared_out = entry.item.count.per_car > 0.0 || entry.item.count.amount == "carried-water";
  return is_shared_out && cars > 0 ? n % cars : 0;
}

std::vector<KitCrate> fill_crates(const std::vector<KitEntry>& taken, const std::vector<KitItem>& crates,
                                  std::size_t cars) {
  std::vector<std::size_t> order;
  for (std::size_t e = 0; e < taken.size(); ++e) {
    if (!taken[e].item.goes_into.empty()) order.push_back(e);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return litres(taken[a].item.size) > litres(taken[b].item.size);
  });
  Filling filling(crates, cars);
  for (const std::size_t e : order) {
    for (std::size_t n = 0; n < taken[e].count; ++n) filling.put_piece(taken[e], n);
  }
  return filling.finish();
}

std::string crate_words(const KitCrate& crate, const KitList& list) {
  std::string words;
  for (const KitCrate::Part& part : crate.contents) {
    const KitEntry* entry = find_entry(list, part.item);
    words += words.empty() ? "" : "; ";
    if (part.count > 1) words += std::to_string(part.count) + " x ";
    words += entry == nullptr ? part.item : entry->item.name;
  }
  return words;
}

}  // namespace outbye
