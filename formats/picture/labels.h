// Room for labels: each is put where it covers no other label or mark, preferably near and off the lines.
#pragma once

#include <optional>
#include <vector>

#include "formats/picture/svg.h"

namespace outbye {

struct PlacedLabel {
  Box box;
  bool needs_leader{};  // so far from its mark that a thin line must join them
};

class Labels {
 public:
  explicit Labels(Box frame) : frame_(frame) {}
  // Taken by a mark or a label: nothing else may be put there.
  void take(const Box& box) { taken_.push_back(box); }
  // A line that labels should rather not cross.
  void avoid(const std::vector<Spot>& line);
  bool is_free(const Box& box) const;
  // A box of this size next to `mark` (which is kept clear by `gap`), tried all round and then farther out up to
  // `reach`. Takes it. Nothing when there is no room.
  std::optional<PlacedLabel> place(Spot mark, double width, double height, double gap, double reach);

 private:
  double crossings(const Box& box) const;
  Box frame_;
  std::vector<Box> taken_;
  std::vector<Spot> avoided_;  // points along the lines, a few units apart
};

// Positions along one axis, kept in order and at least `pitch` apart, as near as possible to those wanted (ascending)
// and within [low, high] when they fit at all.
std::vector<double> spread_out(std::vector<double> wanted, double pitch, double low, double high);

}  // namespace outbye
