// From a key to a number, for keys that come in any order; never walked, so its order cannot reach a result.
#pragma once

#include <cstdint>
#include <vector>

namespace outbye {

class MaskTable {
 public:
  MaskTable() : slots_(64) {}

  // The number kept under the key; -1 when the key is new.
  std::int32_t& operator[](std::uint64_t key) {
    if (2 * (used_ + 1) > slots_.size()) grow();
    Slot& slot = find(key);
    if (!slot.is_used) {
      slot = {key, -1, true};
      ++used_;
    }
    return slot.number;
  }

 private:
  struct Slot {
    std::uint64_t key{};
    std::int32_t number{-1};
    bool is_used{};
  };

  Slot& find(std::uint64_t key) {
    std::size_t i = (key * 0x9e3779b97f4a7c15U >> 20) & (slots_.size() - 1);
    while (slots_[i].is_used && slots_[i].key != key) i = (i + 1) & (slots_.size() - 1);
    return slots_[i];
  }

  void grow() {
    std::vector<Slot> old(2 * slots_.size());
    old.swap(slots_);
    for (const Slot& slot : old) {
      if (slot.is_used) find(slot.key) = slot;
    }
  }

  std::vector<Slot> slots_;
  std::size_t used_{};
};

}  // namespace outbye
