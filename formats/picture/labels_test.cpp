#include "formats/picture/labels.h"

#include <gtest/gtest.h>

#include "core/base/random.h"
#include "core/base/text.h"

namespace outbye {
namespace {

TEST(Labels, NeverCoverEachOtherOrLeaveTheFrame) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Rng rng{Seed{seed}};
    const Box frame{0, 0, 300, 200};
    Labels labels(frame);
    std::vector<Box> placed;
    for (int i = 0; i < 60; ++i) {
      const double x = 300 * uniform(rng);
      const double y = 200 * uniform(rng);
      const auto label = labels.place({x, y}, 20 + 40 * uniform(rng), 12, 6, 60);
      if (!label) continue;
      EXPECT_TRUE(is_inside(label->box, frame));
      for (const auto& other : placed) EXPECT_FALSE(overlap(label->box, other)) << "seed " << seed;
      placed.push_back(label->box);
    }
    EXPECT_GT(placed.size(), 20u);
  }
}

TEST(Labels, ComeAsNearAsTheyCan) {
  Labels labels({0, 0, 300, 200});
  const auto first = labels.place({150, 100}, 40, 12, 6, 60);
  ASSERT_TRUE(first.has_value());
  EXPECT_FALSE(first->needs_leader);
  EXPECT_EQ(first->box.left, 156);
}

TEST(Labels, RatherKeepOffLines) {
  Labels labels({0, 0, 300, 200});
  labels.avoid({{150, 100}, {300, 100}});
  const auto placed = labels.place({150, 100}, 40, 12, 6, 60);
  ASSERT_TRUE(placed.has_value());
  EXPECT_FALSE(placed->box.top < 100 && placed->box.bottom > 100 && placed->box.left > 150);
}

TEST(SpreadOut, KeepsOrderPitchAndRange) {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    Rng rng{Seed{seed}};
    std::vector<double> wanted;
    double at = 0;
    for (int i = 0; i < 20; ++i) wanted.push_back(at += 12 * uniform(rng));
    const auto placed = spread_out(wanted, 10, 0, 240);
    for (std::size_t i = 0; i < placed.size(); ++i) {
      EXPECT_GE(placed[i], 0);
      EXPECT_LE(placed[i], 240);
      if (i > 0) {
        EXPECT_GE(placed[i] - placed[i - 1], 10 - 1e-9);
      }
    }
  }
}

TEST(SpreadOut, LeavesAloneWhatFits) {
  EXPECT_EQ(spread_out({10, 30, 55}, 10, 0, 100), (std::vector<double>{10, 30, 55}));
}

TEST(SpreadOut, CentresAGroupOnWhatItWants) {
  EXPECT_EQ(spread_out({50, 50}, 10, 0, 100), (std::vector<double>{45, 55}));
}

TEST(Escaped, LeavesNothingThatXmlForbids) {
  EXPECT_EQ(escaped("a<b>&\"c\""), "a&lt;b&gt;&amp;&quot;c&quot;");
  EXPECT_EQ(escaped("a\x01\x1f\x7f z"), "a z");
  EXPECT_EQ(escaped("\xff"), "\xEF\xBF\xBD");
  EXPECT_EQ(escaped("Kläranlage 日本"), "Kläranlage 日本");
}

TEST(Shortened, CutsTheMiddleAndKeepsTheEnd) {
  EXPECT_EQ(shortened("Mill Ford 12", 20), "Mill Ford 12");
  const auto cut = shortened("Upper Mill Ford by the Old Bridge 12", 16);
  EXPECT_LE(display_width(cut), 16u);
  EXPECT_EQ(cut.substr(cut.size() - 2), "12");
  EXPECT_LE(display_width(shortened("日本日本日本日本日本日本", 9)), 9u);
}

}  // namespace
}  // namespace outbye
