#include "formats/ride_file/ride_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/base/random.h"
#include "formats/ride_file/full_ride_for_test.h"

namespace outbye {
namespace {

using testing::AllOf;
using testing::HasSubstr;

// A ride file with `fields` added to the least that is needed.
std::string file_with(const std::string& fields) {
  return R"({"version": 1, "start": "2026-06-13T07:00", "time_zone": "Europe/London", "files": {"course": ["c.gpx"]})" +
         (fields.empty() ? "" : ", " + fields) + "}";
}

// All problems of a file, one a line.
std::string all_problems_of(const std::string& text) {
  std::string all;
  for (const auto& p : check_ride_file(text, "ride.json").problems) all += p.where + ": " + p.what + "\n";
  return all;
}

TEST(RideFile, KeepsTheNameOfTheWeatherFileAndNotItsHours) {
  Ride was = full_ride();
  was.weather_file = "weather.csv";
  const auto read = read_ride_file(write_ride_file(was), "ride.json");
  ASSERT_TRUE(read) << read.error().where << ": " << read.error().what;
  EXPECT_EQ(read->weather_file, "weather.csv");
  EXPECT_TRUE(read->weather.empty());
}

TEST(RideFile, RefusesWeatherOutOfOrderAndTwiceGiven) {
  const std::string hour = R"({"time": "2026-06-13T09:00", "temperature_c": 20, "humidity_pct": 50})";
  EXPECT_THAT(all_problems_of(file_with("\"weather\": [" + hour + ", " + hour + "]")),
              HasSubstr("weather[1].time: is not later"));
  EXPECT_THAT(all_problems_of(file_with(R"("weather": [{"time": "2026-06-13T09:00", "temperature_c": 20}])")),
              HasSubstr("humidity_pct"));
  EXPECT_THAT(all_problems_of(R"({"version": 1, "start": "2026-06-13T07:00", "files": {"course": ["c.gpx"],
                             "weather": "w.csv"}, "weather": [)" +
                              hour + "]}"),
              HasSubstr("keep one of the two"));
}

TEST(RideFile, RefusesAPassCorrectedTwiceOrInALoopThatIsNotThere) {
  const auto passes = [](const std::string& list) {
    return all_problems_of(
        file_with(R"("loops": [{"name": "A"}], "crew_points": [{"name": "P", "passes": [)" + list + "]}]"));
  };
  EXPECT_EQ(passes(R"({"loop": 1, "km": 3}, {"loop": 1, "nth": 2, "km": 9})"), "");
  EXPECT_THAT(passes(R"({"loop": 1, "km": 3}, {"loop": 1, "nth": 1, "km": 9})"), HasSubstr("keep one of the two"));
  EXPECT_THAT(passes(R"({"loop": 2, "km": 3})"), HasSubstr("crew_points[0].passes[0].loop: is 2"));
  EXPECT_THAT(passes(R"({"loop": 1})"), HasSubstr("passes[0].km"));
}

TEST(RideFile, RefusesHeatThatMakesAHorseFaster) {
  EXPECT_THAT(all_problems_of(file_with(R"("heat": {"speed_factors": [1, 0.9, 0.95, 0.9, 0.8, 0.7]})")),
              HasSubstr("heat.speed_factors: must not rise"));
  EXPECT_THAT(all_problems_of(file_with(R"("heat": {"worth_factors": [1, 1.5]})")), HasSubstr("six bands"));
  EXPECT_THAT(all_problems_of(file_with(R"("heat": {"worth_factors": [1, 1, 1, 1, 2, 1.5]})")),
              HasSubstr("must not fall"));
}

TEST(RideFile, RefusesCareThatAsksForLessInHeat) {
  EXPECT_THAT(all_problems_of(file_with(R"("care": {"sweat_litres_per_hour": [4, 6, 5, 10, 12]})")),
              HasSubstr("hotter never asks for less"));
  EXPECT_THAT(all_problems_of(file_with(R"("care": {"pour_at_gate_litres": [4, 6]})")), HasSubstr("must have 6"));
}

TEST(RideFile, KeepsEveryFieldOfARide) {
  const Ride was = full_ride();
  const auto read = read_ride_file(write_ride_file(was), "ride.json");
  ASSERT_TRUE(read) << read.error().where << ": " << read.error().what;
  const Ride& is = *read;
  EXPECT_EQ(is.name, was.name);
  EXPECT_EQ(is.start, was.start);
  EXPECT_EQ(is.clock.zone, was.clock.zone);
  EXPECT_EQ(is.clock.changes.size(), was.clock.changes.size());
  EXPECT_EQ(is.country, was.country);
  EXPECT_EQ(is.venue, was.venue);
  EXPECT_EQ(is.venue_position, was.venue_position);
  const auto same_pace = [](const LoopPace& a, const LoopPace& b) {
    EXPECT_EQ(a.speed, b.speed);
    EXPECT_EQ(a.is_average, b.is_average);
    EXPECT_EQ(a.heat_factor, b.heat_factor);
    ASSERT_EQ(a.going.size(), b.going.size());
    for (std::size_t i = 0; i < a.going.size(); ++i) {
      EXPECT_EQ(a.going[i].from, b.going[i].from);
      EXPECT_EQ(a.going[i].to, b.going[i].to);
      EXPECT_EQ(a.going[i].factor, b.going[i].factor);
      EXPECT_EQ(a.going[i].what, b.going[i].what);
    }
    EXPECT_EQ(a.recovery.median, b.recovery.median);
    EXPECT_EQ(a.recovery.log_sd, b.recovery.log_sd);
    EXPECT_EQ(a.hold, b.hold);
  };
  same_pace(is.default_pace, was.default_pace);
  ASSERT_EQ(is.loops.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(is.loops[i].name, was.loops[i].name);
    EXPECT_EQ(is.loops[i].tracks, was.loops[i].tracks);
    EXPECT_EQ(is.loops[i].reversed, was.loops[i].reversed);
    same_pace(is.loops[i].pace, was.loops[i].pace);
  }
  ASSERT_EQ(is.horses.size(), 2U);
  const RideHorse& juno = is.horses.front();
  EXPECT_EQ(juno.rider_phone, "0155 500 101");
  EXPECT_EQ(juno.mass, Kilograms{430});
  EXPECT_EQ(juno.rider_weight, Kilograms{76.5});
  EXPECT_TRUE(juno.is_acclimatised);
  EXPECT_TRUE(juno.is_novice);
  EXPECT_EQ(juno.sweat_factor, 1.1);
  ASSERT_EQ(juno.intakes.size(), 2U);
  EXPECT_EQ(juno.intakes[0].place, "Ford");
  EXPECT_EQ(juno.intakes[0].loop, 2U);
  EXPECT_EQ(juno.intakes[0].nth, 3U);
  EXPECT_EQ(juno.intakes[0].drank, Litres{9.5});
  EXPECT_EQ(juno.intakes[0].salt, Grams{30});
  EXPECT_EQ(juno.intakes[0].potassium_chloride, Grams{10});
  EXPECT_FALSE(juno.intakes[1].drank);
  ASSERT_EQ(is.weather.size(), 2U);
  EXPECT_EQ(is.weather[0].at, was.weather[0].at);
  EXPECT_EQ(is.weather[0].temperature, Celsius{21.5});
  EXPECT_EQ(is.weather[0].humidity, Percent{60});
  EXPECT_EQ(is.weather[0].wind, MetresPerSecond{2.5});
  EXPECT_EQ(is.weather[0].radiation, WattsPerSquareMetre{640});
  EXPECT_EQ(is.weather[0].cloud, 0.25);
  EXPECT_EQ(is.weather[0].pressure, Hectopascals{1005});
  EXPECT_EQ(is.weather[0].rain_mm, 0.4);
  EXPECT_FALSE(is.weather[1].wind);
  EXPECT_EQ(is.heat.speed_factor, was.heat.speed_factor);
  EXPECT_EQ(is.heat.weight_factor, was.heat.weight_factor);
  EXPECT_EQ(is.heat.sum_counts_from, Celsius{18});
  EXPECT_TRUE(is.heat.urban);
  EXPECT_FALSE(is.heat_slows);
  EXPECT_EQ(is.worth_of_water, 0.5);
  EXPECT_EQ(is.sweat.rate, was.sweat.rate);
  EXPECT_EQ(is.sweat.range, 0.4);
  EXPECT_EQ(is.sweat.standing, 0.2);
  EXPECT_EQ(is.sweat.weather_unknown, Celsius{20});
  EXPECT_EQ(is.drinks.field_offer, Litres{12});
  EXPECT_EQ(is.drinks.gate_offer, Litres{20});
  EXPECT_EQ(is.cooling.at_pass, was.cooling.at_pass);
  EXPECT_EQ(is.cooling.at_gate, was.cooling.at_gate);
  EXPECT_EQ(is.cooling.cold_water, Celsius{8});
  EXPECT_EQ(is.carried_water, Celsius{15});
  ASSERT_TRUE(is.rules);
  EXPECT_EQ(is.rules->book, "british");
  EXPECT_EQ(is.rules->level, "Open");
  EXPECT_EQ(is.rules->own.min_speed, was.rules->own.min_speed);
  EXPECT_EQ(is.rules->own.gates.at(2).hold, was.rules->own.gates.at(2).hold);
  ASSERT_EQ(is.waters.size(), 1U);
  EXPECT_EQ(is.waters[0].name, "Trough");
  EXPECT_EQ(is.waters[0].loop, 2U);
  EXPECT_EQ(is.waters[0].along, Metres{4250});
  EXPECT_EQ(is.crew, 3U);
  ASSERT_EQ(is.helpers.size(), 1U);
  EXPECT_EQ(is.helpers[0].name, "Ann");
  EXPECT_EQ(is.helpers[0].skills, was.helpers[0].skills);
  EXPECT_EQ(is.helpers[0].own_skills, was.helpers[0].own_skills);
  EXPECT_EQ(is.helpers[0].share, 0.5);
  EXPECT_EQ(is.helpers[0].lifts, LiftFilter::men);
  EXPECT_EQ(is.helpers[0].car, "Van");
  EXPECT_EQ(is.helpers[0].phone, "+353 (0)1 5550 0101");
  EXPECT_EQ(is.emergency.number, "999");
  EXPECT_EQ(is.emergency.meeting_point, was.emergency.meeting_point);
  EXPECT_EQ(is.emergency.note, "No signal in the dale");
  ASSERT_EQ(is.emergency.contacts.size(), 2U);
  EXPECT_EQ(is.emergency.contacts[0].name, "Ride control");
  EXPECT_EQ(is.emergency.contacts[0].phone, "0155 500 102");
  EXPECT_EQ(is.emergency.contacts[0].note, "07:00 to 19:00");
  EXPECT_EQ(is.emergency.contacts[1].phone, "");
  ASSERT_EQ(is.emergency.places.size(), 3U);
  EXPECT_EQ(is.emergency.places[0].name, "General");
  EXPECT_EQ(is.emergency.places[0].kind, RideHelpPlace::Kind::hospital);
  EXPECT_EQ(is.emergency.places[0].phone, "0155 500 103");
  EXPECT_EQ(is.emergency.places[0].address, "High Street");
  EXPECT_EQ(is.emergency.places[0].position, was.emergency.places[0].position);
  EXPECT_EQ(is.emergency.places[0].note, "open all night");
  EXPECT_EQ(is.emergency.places[1].kind, RideHelpPlace::Kind::vet);
  EXPECT_FALSE(is.emergency.places[1].position);
  EXPECT_EQ(is.emergency.places[2].kind, RideHelpPlace::Kind::other);
  EXPECT_EQ(is.rule_files, was.rule_files);
  ASSERT_EQ(is.crew_points.size(), 2U);
  EXPECT_EQ(is.crew_points[0].name, "Ford");
  EXPECT_EQ(is.crew_points[0].position, was.crew_points[0].position);
  EXPECT_EQ(is.crew_points[0].parking, was.crew_points[0].parking);
  EXPECT_EQ(is.crew_points[0].note, "narrow");
  EXPECT_TRUE(is.crew_points[0].is_closed);
  EXPECT_EQ(is.crew_points[0].open, was.crew_points[0].open);
  EXPECT_EQ(is.crew_points[0].setup, Seconds{61});
  EXPECT_EQ(is.crew_points[0].pack, Seconds{62});
  EXPECT_TRUE(is.crew_points[0].has_water);
  EXPECT_EQ(is.crew_points[0].approach, "From the north; the lane is single.");
  ASSERT_EQ(is.crew_points[0].hazards.size(), 2U);
  EXPECT_EQ(is.crew_points[0].hazards[0].what, "Wire left of the gate");
  EXPECT_EQ(is.crew_points[0].hazards[0].position, was.crew_points[0].hazards[0].position);
  EXPECT_FALSE(is.crew_points[0].hazards[1].position);
  EXPECT_EQ(is.crew_points[0].allowed, was.crew_points[0].allowed);
  EXPECT_EQ(is.crew_points[0].recce, "Room for two cars.");
  ASSERT_EQ(is.crew_points[0].photos.size(), 2U);
  EXPECT_EQ(is.crew_points[0].photos[0].file, "ford.jpg");
  EXPECT_EQ(is.crew_points[0].photos[0].alt, "The gate from the lane");
  ASSERT_EQ(is.crew_points[0].corrections.size(), 2U);
  EXPECT_EQ(is.crew_points[0].corrections[0].loop, LoopId{1});
  EXPECT_EQ(is.crew_points[0].corrections[0].nth_in_loop, 2U);
  EXPECT_EQ(is.crew_points[0].corrections[0].along, Metres{7350.25});
  EXPECT_FALSE(is.crew_points[1].position);
  ASSERT_EQ(is.wishes.size(), 1U);
  const auto& wish = is.wishes[0];
  EXPECT_EQ(wish.crew_point, "Ford");
  EXPECT_EQ(wish.loop, 2U);
  EXPECT_EQ(wish.nth, 3U);
  EXPECT_EQ(wish.horse, "Juno");
  EXPECT_EQ(wish.demand, MeetOption::Demand::must);
  EXPECT_EQ(wish.worth, 2.5);
  EXPECT_EQ(wish.stop, Seconds{400});
  EXPECT_EQ(wish.water, Litres{12});
  EXPECT_EQ(wish.car, "Van");
  ASSERT_EQ(is.horses.size(), 2U);
  EXPECT_EQ(is.horses[0].name, "Juno");
  EXPECT_EQ(is.horses[0].rider, "A. Rider");
  EXPECT_EQ(is.horses[0].number, "42");
  EXPECT_EQ(is.horses[0].start_after, Seconds{120});
  EXPECT_EQ(is.horses[0].speeds, was.horses[0].speeds);
  EXPECT_FALSE(is.horses[1].speeds);
  ASSERT_EQ(is.cars.size(), 1U);
  const auto& car = is.cars[0];
  EXPECT_EQ(car.name, "Van");
  EXPECT_EQ(car.start, "Ford");
  EXPECT_EQ(car.ready_from, was.cars[0].ready_from);
  EXPECT_EQ(car.end, "Barn");
  EXPECT_EQ(car.back_by, was.cars[0].back_by);
  EXPECT_EQ(car.water_capacity, Litres{80});
  EXPECT_EQ(car.fuel_range, kilometres(400));
  EXPECT_EQ(car.fuel_reserve, 0.3);
  EXPECT_EQ(car.longest_driving, minutes(100));
  EXPECT_EQ(car.break_length, minutes(20));
  ASSERT_EQ(is.refills.size(), 1U);
  EXPECT_EQ(is.refills[0].name, "Pump");
  EXPECT_EQ(is.refills[0].position, was.refills[0].position);
  EXPECT_TRUE(is.refills[0].water && is.refills[0].fuel);
  EXPECT_EQ(is.refills[0].duration, minutes(7));
  EXPECT_EQ(is.refills[0].open, was.refills[0].open);
  ASSERT_EQ(is.errands.size(), 1U);
  EXPECT_EQ(is.errands[0].name, "Ice");
  EXPECT_EQ(is.errands[0].position, was.errands[0].position);
  EXPECT_EQ(is.errands[0].duration, minutes(8));
  EXPECT_EQ(is.errands[0].worth, 0.75);
  EXPECT_EQ(is.errands[0].open, was.errands[0].open);
  EXPECT_EQ(is.stop.median, Seconds{200});
  EXPECT_EQ(is.stop.log_sd, 0.4);
  EXPECT_EQ(is.start_delay.median, Seconds{30});
  EXPECT_EQ(is.start_delay.log_sd, 0.1);
  EXPECT_EQ(is.spread.ride, 0.07);
  EXPECT_EQ(is.spread.loop, 0.03);
  EXPECT_EQ(is.spread.within, 0.05);
  EXPECT_EQ(is.spread.within_length, Metres{5000});
  EXPECT_EQ(is.setup, Seconds{250});
  EXPECT_EQ(is.pack, Seconds{190});
  EXPECT_EQ(is.water_per_meet, Litres{15});
  EXPECT_EQ(is.gate_worth, 4);
  EXPECT_EQ(is.finish_worth, 2.25);
  EXPECT_EQ(is.crewing.part_worth, 0.5);
  EXPECT_EQ(is.crewing.confidence, 0.9);
  EXPECT_EQ(is.crewing.give_up, 0.2);
  EXPECT_EQ(is.crewing.longest_wait, minutes(80));
  EXPECT_EQ(is.crewing.water_interval, Metres{9000});
  EXPECT_EQ(is.crewing.gap_penalty, 0.06);
  EXPECT_EQ(is.crewing.drive_allowance, 1.2);
  EXPECT_EQ(is.crewing.drive_log_sd, 0.15);
  EXPECT_EQ(is.course.pass_distance, Metres{140});
  EXPECT_EQ(is.course.pass_separation, Metres{310});
  EXPECT_EQ(is.course.refuse_gap, Metres{900});
  EXPECT_EQ(is.course.warn_gap, Metres{200});
  EXPECT_EQ(is.course.far_crew_point, Metres{1900});
  EXPECT_EQ(is.course.climb_threshold, Metres{6});
  EXPECT_EQ(is.course.profile_step, Metres{20});
  EXPECT_EQ(is.course.smoothing, Metres{90});
  EXPECT_EQ(is.snap_limit, Metres{300});
  EXPECT_TRUE(is.ferries);
  EXPECT_EQ(is.days, 2048U);
  EXPECT_EQ(is.seed.value, was.seed.value);
  EXPECT_EQ(is.course_files, was.course_files);
  EXPECT_EQ(is.road_files, was.road_files);
  EXPECT_EQ(is.elevation_files, was.elevation_files);
  EXPECT_EQ(is.drive_times_file, was.drive_times_file);
  EXPECT_EQ(is.assumptions, was.assumptions);
}

TEST(RideFile, IsWrittenTheSameAfterBeingRead) {
  const std::string once = write_ride_file(full_ride());
  EXPECT_EQ(write_ride_file(read_ride_file(once, "ride.json").value()), once);
}

TEST(RideFile, KeepsDurationsAndLengthsToTheMicrosecondAndMicrometre) {
  Rng rng(Seed{7});
  for (int i = 0; i < 500; ++i) {
    Ride ride = full_ride();
    ride.loops.clear();
    ride.horses.clear();
    ride.wishes.clear();
    ride.setup = Seconds{std::round(uniform(rng) * 8e10) / 1e6};
    ride.crewing.water_interval = {std::round(uniform(rng) * 9e10 + 1) / 1e6};
    const auto read = read_ride_file(write_ride_file(ride), "ride.json");
    ASSERT_TRUE(read) << read.error().where << read.error().what;
    ASSERT_EQ(read->setup, ride.setup) << i;
    ASSERT_EQ(read->crewing.water_interval, ride.crewing.water_interval) << i;
  }
}

TEST(RideFile, OfAnEmptyRideNeedsOnlyStartAndCourse) {
  const auto read = read_ride_file(file_with(""), "ride.json");
  ASSERT_TRUE(read) << read.error().what;
  EXPECT_EQ(iso8601(read->start, read->clock), "2026-06-13T07:00:00+01:00");
  EXPECT_EQ(read->default_pace.speed, KmPerHour{12});
}

TEST(RideFile, TakesATimeWithItsOwnOffset) {
  const auto read =
      read_ride_file(R"({"version":1,"start":"2026-06-13T07:00+02:00","files":{"course":["c"]}})", "ride.json");
  ASSERT_TRUE(read);
  EXPECT_EQ(iso8601(read->start, read->clock), "2026-06-13T05:00:00+00:00");
}

TEST(RideFile, LoopsTakeTheDefaultPaceWhereTheySayNothing) {
  const auto read = read_ride_file(
      file_with(R"("default_pace": {"speed_kmh": 9, "hold_min": 50}, "loops": [{"name": "A"}, {"speed_kmh": 10}])"),
      "r");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->loops[0].pace.speed, KmPerHour{9});
  EXPECT_EQ(read->loops[1].pace.speed, KmPerHour{10});
  EXPECT_EQ(read->loops[1].pace.hold, minutes(50));
}

TEST(RideFile, NamesAnUnknownFieldAndTheNearestKnownOne) {
  EXPECT_EQ(all_problems_of(file_with(R"("cars": [{"name": "Van", "reday_from": "2026-06-13T05:00"}])")),
            "ride.json: cars[0].reday_from: is not a known field; did you mean 'ready_from'?\n");
}

TEST(RideFile, SaysTheLineAndColumnOfASyntaxError) {
  EXPECT_THAT(all_problems_of("{\n  \"version\": 1,\n  \"name\": }"),
              HasSubstr("ride.json, line 3, column 11: is not JSON"));
}

TEST(RideFile, RefusesANameWrittenTwice) {
  EXPECT_THAT(all_problems_of(file_with(R"("seed": 1, "seed": 2)")), HasSubstr("seed: is written twice"));
}

TEST(RideFile, ReportsAllProblemsAtOnceWithTheirPaths) {
  const std::string all = all_problems_of(file_with(
      R"("horses": [{"name": "J", "speeds_kmh": [12, 11, -3]}], "setup_min": -1, "crewing": {"confidence": "high"})"));
  EXPECT_THAT(all, AllOf(HasSubstr("horses[0].speeds_kmh[2]: is -3, but must be above 0"),
                         HasSubstr("setup_min: is -1, but must be between 0 and 1440"),
                         HasSubstr("crewing.confidence: is text, but a number is wanted")));
}

TEST(RideFile, RefusesAClosingTimeBeforeTheOpening) {
  EXPECT_THAT(
      all_problems_of(file_with(
          R"("crew_points": [{"name": "A", "open": [{"from": "2026-06-13T12:00", "to": "2026-06-13T09:00"}]}])")),
      HasSubstr("crew_points[0].open[0].to: closes at 2026-06-13T09:00:00+01:00, not after it opens"));
}

TEST(RideFile, RefusesAVersionNewerThanItsOwnAndSaysWhatToDo) {
  EXPECT_THAT(all_problems_of(R"({"version": 2, "anything": 1})"),
              AllOf(HasSubstr("version: is 2, newer than this outbye knows (1)"), HasSubstr("a newer one"),
                    testing::Not(HasSubstr("anything"))));
}

TEST(RideFile, RefusesAWishForAPointThatDoesNotExistAndNamesTheNearest) {
  EXPECT_THAT(
      all_problems_of(file_with(R"("crew_points": [{"name": "Mill Ford"}], "wishes": [{"crew_point": "Mil Ford"}])")),
      HasSubstr("wishes[0].crew_point: 'Mil Ford' is no crew point of this ride; did you mean 'Mill Ford'?"));
}

TEST(RideFile, RefusesALeakThatTheIceCannotTell) {
  const auto with_test = [](const std::string& kind, const std::string& left) {
    return all_problems_of(file_with(R"("kit": {"containers": [{"name": "box", "kind": ")" + kind +
                                     R"(", "litres": 20, "leak_test": {"ice_kg": 4, "left_kg": )" + left +
                                     R"(, "hours": 8, "outside_c": 22}}]})"));
  };
  EXPECT_THAT(with_test("cool box", "0"), HasSubstr("kit.containers[0].leak_test.left_kg: is nothing"));
  EXPECT_THAT(with_test("cool box", "4.5"), HasSubstr("leak_test.left_kg: is not less than ice_kg"));
  EXPECT_THAT(with_test("can", "3.1"), HasSubstr("leak_test: is of a cool box; this is a can"));
}

TEST(RideFile, RefusesAContainerOfACarThatIsNotThere) {
  EXPECT_THAT(all_problems_of(file_with(R"("cars": [{"name": "Estate"}], "kit": {"containers": [
      {"name": "can", "kind": "can", "litres": 20, "car": "Estat"}]})")),
              HasSubstr("kit.containers[0].car: 'Estat' is no car of this ride; did you mean 'Estate'?"));
}

TEST(RideFile, RefusesALocalTimeThatTheClocksSkip) {
  EXPECT_THAT(all_problems_of(
                  R"({"version":1,"start":"2026-03-29T01:30","time_zone":"Europe/London","files":{"course":["c"]}})"),
              HasSubstr("ride.json: start: "));
}

TEST(RideFile, RefusesATelephoneNumberWithWordsInIt) {
  EXPECT_THAT(all_problems_of(file_with(R"("helpers": [{"name": "Ann", "phone": "ask Bob"}])")),
              AllOf(HasSubstr("helpers[0].phone"), HasSubstr("'ask Bob' is no telephone number")));
  EXPECT_THAT(all_problems_of(file_with(R"("emergency": {"number": "911 or 112"})")), HasSubstr("emergency.number"));
  EXPECT_EQ(all_problems_of(file_with(R"("emergency": {"number": "911 / 112"})")), "");
}

TEST(RideFile, RefusesAKindOfHelpThatItDoesNotKnow) {
  EXPECT_THAT(all_problems_of(file_with(R"("emergency": {"places": [{"name": "General", "kind": "clinic"}]})")),
              AllOf(HasSubstr("emergency.places[0].kind"), HasSubstr("\"hospital\", \"vet\" or \"other\"")));
}

TEST(RideFile, NeverEndsInAnExceptionOnCutOrChangedBytes) {
  const std::string good = write_ride_file(full_ride());
  Rng rng(Seed{3});
  for (std::size_t i = 0; i < 1500; ++i) {
    std::string bad = good;
    const std::size_t at = uniform_below(rng, bad.size());
    if (i % 3 == 0) {
      bad.resize(at);
    } else {
      bad[at] = static_cast<char>(uniform_below(rng, 256));
    }
    const auto reading = check_ride_file(bad, "ride.json");
    ASSERT_EQ(reading.ride.has_value(), reading.problems.empty());
  }
  EXPECT_FALSE(check_ride_file(std::string(100000, '['), "ride.json").ride);
}

}  // namespace
}  // namespace outbye
