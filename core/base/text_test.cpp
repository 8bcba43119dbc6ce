#include "core/base/text.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

TEST(ParseDecimal, ReadsPlainNumbersOnly) {
  EXPECT_EQ(parse_decimal("12.5"), 12.5);
  EXPECT_EQ(parse_decimal("-3e2"), -300.0);
  EXPECT_EQ(parse_decimal("+.5"), 0.5);
  for (const char* text : {"", "1,5", "0x1", "nan", "inf", " 1", "1 ", "1e", "-", ".", "1e999"}) {
    EXPECT_FALSE(parse_decimal(text)) << text;
  }
}

TEST(SameName, IgnoresCaseAndNothingElse) {
  EXPECT_TRUE(same_name("CP3", "cp3"));
  EXPECT_FALSE(same_name("CP3", "CP 3"));
  EXPECT_EQ(in_lower_case("Mill Lane"), "mill lane");
}

TEST(EditDistance, CountsASwapOnce) {
  EXPECT_EQ(edit_distance("laop", "loop"), 1u);
  EXPECT_EQ(edit_distance("lopo", "loop"), 1u);
  EXPECT_EQ(edit_distance("Loop", "loop"), 0u);
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3u);  // Levenshtein's usual worked example
}

TEST(NearestName, OffersASlipOfThePenAndNothingFarFetched) {
  const std::string_view names[] = {"speed", "start", "crew_points"};
  EXPECT_EQ(nearest_name("crew_point", names), "crew_points");
  EXPECT_EQ(nearest_name("spede", names), "speed");
  EXPECT_FALSE(nearest_name("weather", names));
}

TEST(DisplayWidth, CountsColumnsNotBytes) {
  EXPECT_EQ(display_width("Ford"), 4u);
  EXPECT_EQ(display_width("Bächle"), 6u);
  EXPECT_EQ(display_width("e\u0301"), 1u);
  EXPECT_EQ(display_width("馬場"), 4u);
}

TEST(Fixed, NeverWritesMinusZero) {
  EXPECT_EQ(fixed(-0.04, 1), "0.0");
  EXPECT_EQ(fixed(2.25, 2), "2.25");
  EXPECT_EQ(fixed(-12.34, 1), "-12.3");
}

}  // namespace
}  // namespace outbye
