#include "formats/ride_file/boot_fields.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/ride_file/full_ride_for_test.h"
#include "formats/ride_file/ride_file.h"

namespace outbye {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;

// The problems of a ride whose only car has this boot, "WHERE WHAT" a line.
std::string problems_of(const std::string& boot) {
  const auto reading = check_ride_file(R"({"version": 1, "start": "2026-06-13T07:00", "files": {"course": ["a.gpx"]},
                                           "cars": [{"name": "Van", "boot": )" +
                                           boot + "}]}",
                                       "ride.json");
  std::string text;
  for (const auto& problem : reading.problems) text += problem.where + " " + problem.what + "\n";
  return text;
}

TEST(BootFields, ComeBackAsTheyWereWritten) {
  const Ride ride = full_ride();
  const auto again = read_ride_file(write_ride_file(ride), "ride.json");
  ASSERT_TRUE(again) << again.error().where << " " << again.error().what;
  const RideBoot& is = again->cars[0].boot.value();
  const RideBoot& was = ride.cars[0].boot.value();
  EXPECT_EQ(is.shape, was.shape);
  EXPECT_EQ(is.floor_length, was.floor_length);
  EXPECT_EQ(is.floor_width, was.floor_width);
  EXPECT_EQ(is.height, was.height);
  EXPECT_EQ(is.cover_height, was.cover_height);
  EXPECT_EQ(is.arches, was.arches);
  EXPECT_EQ(is.lip, was.lip);
  EXPECT_EQ(is.blocked, was.blocked);
  EXPECT_EQ(is.lip_above_ground, was.lip_above_ground);
  EXPECT_EQ(is.floor_above_ground, was.floor_above_ground);
  EXPECT_EQ(is.seats_folded, was.seats_folded);
  EXPECT_EQ(is.has_guard, was.has_guard);
  EXPECT_EQ(is.payload, was.payload);
  EXPECT_EQ(is.people, was.people);
  EXPECT_EQ(is.axles->wheelbase, was.axles->wheelbase);
  EXPECT_EQ(is.axles->seat_back, was.axles->seat_back);
  EXPECT_EQ(is.axles->front_left_over, was.axles->front_left_over);
  EXPECT_EQ(is.axles->rear_left_over, was.axles->rear_left_over);
  EXPECT_EQ(is.roof_box, was.roof_box);
}

TEST(BootFields, TakeAShapeAlone) { EXPECT_THAT(problems_of(R"({"shape": "small hatch"})"), IsEmpty()); }

TEST(BootFields, RefuseAnUnknownShapeAndNameTheNearest) {
  EXPECT_THAT(problems_of(R"({"shape": "estat"})"),
              AllOf(HasSubstr("cars[0].boot.shape"), HasSubstr("did you mean 'estate'?")));
}

TEST(BootFields, RefuseNegativeSizes) {
  EXPECT_THAT(problems_of(R"({"shape": "estate", "floor_length_mm": -1050})"),
              HasSubstr("cars[0].boot.floor_length_mm"));
  EXPECT_THAT(problems_of(R"({"shape": "estate", "arches": {"length_mm": 300, "width_mm": -80, "height_mm": 200}})"),
              HasSubstr("cars[0].boot.arches.width_mm"));
}

// 75 kg each besides the driver: 450 - 6 x 75 = 0 (derived).
TEST(BootFields, SayThatPeopleHaveUsedUpThePayload) {
  EXPECT_THAT(problems_of(R"({"shape": "small hatch", "people": 7})"),
              AllOf(HasSubstr("cars[0].boot.people"), HasSubstr("450 kg"), HasSubstr("use up the payload")));
  EXPECT_THAT(problems_of(R"({"shape": "small hatch", "people": 6})"), IsEmpty());
}

TEST(BootFields, AskForWhatIsNotMeasuredWithoutAShape) {
  EXPECT_THAT(problems_of(R"({"floor_length_mm": 1000, "height_mm": 700})"),
              AllOf(HasSubstr("boot.floor_width_mm"), HasSubstr("boot.payload_kg"), HasSubstr("measure it")));
}

TEST(BootFields, RefuseArchesThatMeetInTheMiddle) {
  EXPECT_THAT(problems_of(R"({"shape": "estate", "arches": {"length_mm": 300, "width_mm": 525, "height_mm": 200}})"),
              HasSubstr("leave no floor between them"));
}

TEST(BootFields, RefuseABlockedBoxThatSticksOut) {
  EXPECT_THAT(problems_of(R"({"shape": "estate",
                              "blocked": [{"x_mm": 1000, "length_mm": 100, "width_mm": 50, "height_mm": 50}]})"),
              HasSubstr("box 1 sticks out"));
}

}  // namespace
}  // namespace outbye
