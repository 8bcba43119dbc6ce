#include "core/kit/kit_load.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "core/base/text.h"
#include "core/kit/kit_crates.h"

namespace outbye {
namespace {

constexpr std::size_t highest_stack = 6;

LoadItem plain_item(const KitItem& from) {
  LoadItem item;
  item.name = from.name;
  item.size = from.size;
  item.mass = from.full;
  item.vertical = from.is_liquid ? std::array<bool, 3>{false, false, true} : from.vertical;
  item.is_liquid = from.is_liquid;
  item.bears = from.bears;
  item.is_fragile = from.is_fragile;
  item.is_soft = from.is_soft;
  item.lifted_by = from.lifted_by;
  return item;
}

LoadItem piece_of(const KitEntry& entry) {
  LoadItem item = plain_item(entry.item);
  const auto& needed = entry.item.needed;
  if (entry.first_stop) item.first_needed = static_cast<int>(std::min<std::size_t>(*entry.first_stop, 999));
  item.times_needed = static_cast<int>(std::min<std::size_t>(entry.times_needed, 999));
  item.is_emergency = std::find(needed.begin(), needed.end(), KitNeed::emergency) != needed.end();
  if (!entry.item.must_come) item.pain_if_left = entry.item.pain;
  return item;
}

Litres water_in(const KitItem& item) {
  if (!item.is_liquid || !item.holds) return {};
  return Litres{std::clamp((item.full - item.empty).value, 0.0, item.holds->value)};
}

// `whole` is needed when `part` is, and as painful to leave as all its parts together.
void take_over(LoadItem& whole, const LoadItem& part) {
  if (part.first_needed && (!whole.first_needed || *part.first_needed < *whole.first_needed)) {
    whole.first_needed = part.first_needed;
  }
  whole.times_needed = std::max(whole.times_needed, part.times_needed);
  whole.is_emergency = whole.is_emergency || part.is_emergency;
  if (!part.pain_if_left) whole.pain_if_left.reset();
  if (whole.pain_if_left) whole.pain_if_left = std::min(1000.0, *whole.pain_if_left + *part.pain_if_left);
}

bool nest(const KitItem& a, const KitItem& b) { return a.nests && b.nests && *a.nests == *b.nests && a.size == b.size; }

class Pieces {
 public:
  Pieces(const KitList& list, std::size_t cars, const std::vector<Millimetres>& tallest)
      : list_(list), cars_(cars), tallest_(tallest) {}

  std::vector<KitPiece> make() {
    for (const KitCrate& crate : list_.crates) add_crate(crate);
    std::vector<KitPiece> crates = std::move(pieces_);
    pieces_.clear();
    for (std::size_t e = 0; e < list_.taken.size(); ++e) {
      const KitEntry& entry = list_.taken[e];
      if (entry.item.hold) continue;
      // The first pieces of an entry in a car are in its crates, the rest is loose.
      std::map<std::size_t, std::size_t> seen;
      std::size_t loose = 0;
      for (std::size_t n = 0; n < entry.count; ++n) {
        const std::size_t car = car_of_piece(entry, n, cars_);
        if (seen[car]++ >= in_crates_[{e, car}]) add_loose(e, ++loose, car);
      }
    }
    for (KitPiece& piece : pieces_) {
      if (piece.entries.size() > 1) piece.item.name += ", nested " + std::to_string(piece.entries.size());
    }
    pieces_.insert(pieces_.end(), std::make_move_iterator(crates.begin()), std::make_move_iterator(crates.end()));
    return std::move(pieces_);
  }

 private:
  void add_loose(std::size_t e, std::size_t number, std::size_t car) {
    const KitEntry& entry = list_.taken[e];
    LoadItem item = piece_of(entry);
    const auto into = std::find_if(pieces_.begin(), pieces_.end(), [&](const KitPiece& piece) {
      return piece.car == car && nest(list_.taken[piece.entries.front()].item, entry.item) && has_headroom(piece);
    });
    if (into != pieces_.end()) {
      into->item.size.height += *entry.item.nests;
      into->item.mass += item.mass;
      into->item.vertical = {false, false, true};
      take_over(into->item, item);
      into->entries.push_back(e);
      return;
    }
    const std::size_t in_crates = entry.count - loose_of(e);
    if (entry.count - in_crates > 1 && !entry.item.nests) item.name += " " + std::to_string(number);
    pieces_.push_back({std::move(item), {e}, car, {}, water_in(entry.item), false});
  }

  std::size_t loose_of(std::size_t e) const {
    std::size_t loose = list_.taken[e].count;
    for (const auto& [key, count] : in_crates_) loose -= key.first == e ? count : 0;
    return loose;
  }

  bool has_headroom(const KitPiece& piece) const {
    const Millimetres more = *list_.taken[piece.entries.front()].item.nests;
    return piece.entries.size() < highest_stack &&
           (piece.car >= tallest_.size() || piece.item.size.height + more <= tallest_[piece.car]);
  }

  void add_crate(const KitCrate& crate) {
    KitPiece piece{plain_item(crate.item), {}, crate.car, {}, {}, crate.item.hold && crate.item.hold->is_place};
    piece.item.mass = crate.mass;
    piece.item.times_needed = 0;
    piece.item.pain_if_left = 0.0;
    const auto alike = std::count_if(list_.crates.begin(), list_.crates.end(),
                                     [&](const KitCrate& other) { return other.item.id == crate.item.id; });
    if (alike > 1) piece.item.name += " " + std::to_string(crate.number);
    for (const KitCrate::Part& part : crate.contents) {
      for (std::size_t e = 0; e < list_.taken.size(); ++e) {
        const KitEntry& entry = list_.taken[e];
        if (entry.item.id != part.item) continue;
        take_over(piece.item, piece_of(entry));  // once, however many: the second sandwich is missed less
        piece.item.is_liquid = piece.item.is_liquid || entry.item.is_liquid;
        piece.water += static_cast<double>(part.count) * water_in(entry.item);
        piece.entries.push_back(e);
        piece.contents.push_back((part.count > 1 ? std::to_string(part.count) + " x " : "") + entry.item.name);
        in_crates_[{e, crate.car}] += part.count;
      }
    }
    if (piece.item.is_liquid) piece.item.vertical = {false, false, true};
    pieces_.push_back(std::move(piece));
  }

  const KitList& list_;
  std::size_t cars_;
  const std::vector<Millimetres>& tallest_;
  std::vector<KitPiece> pieces_;
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> in_crates_;  // pieces of an entry, in a car
};

}  // namespace

std::vector<KitPiece> load_pieces(const KitList& list, std::size_t cars, const std::vector<Millimetres>& tallest) {
  return Pieces(list, std::max<std::size_t>(1, cars), tallest).make();
}

}  // namespace outbye
