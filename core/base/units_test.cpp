#include "core/base/units.h"

#include <gtest/gtest.h>

namespace outbye {
namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};

static_assert(Addable<Metres, Metres>);
static_assert(!Addable<Metres, Seconds>);
static_assert(!Addable<Metres, KmPerHour>);
static_assert(!Addable<Litres, Kilograms>);
static_assert(!Addable<Instant, Instant>);

// FACTS T13 (international mile, exact): 10, 30, 50, 60, 70 mph.
TEST(MilesPerHour, AgreesWithTheInternationalMile) {
  EXPECT_NEAR(miles_per_hour(10).value, 16.093, 5e-4);
  EXPECT_NEAR(miles_per_hour(30).value, 48.280, 5e-4);
  EXPECT_NEAR(miles_per_hour(50).value, 80.467, 5e-4);
  EXPECT_NEAR(miles_per_hour(60).value, 96.561, 5e-4);
  EXPECT_NEAR(miles_per_hour(70).value, 112.654, 5e-4);
}

// FACTS C13 and E4: 40 km at 8 to 15 km/h takes 5:00:00 to 2:40:00.
TEST(LengthOverSpeed, IsATime) {
  EXPECT_DOUBLE_EQ((kilometres(40) / KmPerHour{8}).count(), 5 * 3600.0);
  EXPECT_DOUBLE_EQ((kilometres(40) / KmPerHour{15}).count(), 9600.0);
}

}  // namespace
}  // namespace outbye
