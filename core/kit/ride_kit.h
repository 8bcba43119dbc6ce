// What the user says about kit: containers owned, own things, what stays at home, what is packed already, and the
// editable figures behind the amounts. And what a horse likes to drink.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/interval.h"
#include "core/base/physical_units.h"
#include "core/base/result.h"
#include "core/base/units.h"
#include "core/kit/kit_item.h"

namespace outbye {

// A cool box's leak as measured at home: ice goes in, the box stays shut, and what is left is weighed. Some must be
// left, so that it was 0 degrees inside all the time.
struct IceMeltTest {
  Kilograms ice{};   // put in, wet, at 0 degrees
  Kilograms left{};  // of it, drained
  Seconds time{};
  Celsius air{};  // around the box, on average
  friend bool operator==(const IceMeltTest&, const IceMeltTest&) = default;
};
double leak_of(const IceMeltTest& test);  // W/K: core/base/water_physics.h
// Errors: bad_input, with what to change in words.
Result<void> check_leak_test(const IceMeltTest& test);

// A container that is at hand, so many of it.
struct OwnContainer {
  enum class Kind { can, bucket, bottle, cool_box } kind{Kind::can};
  std::string name;  // "blue can"
  Litres holds{10.0};
  std::uint32_t count{1};
  bool is_full{true};  // sets out full
  std::optional<LoadSize> size;
  std::optional<std::string> car{};      // rides in this one; nothing: dealt out, deal_containers()
  std::optional<double> leak_w_per_k{};  // of a cool box, as known; wins over `leak_test`
  std::optional<IceMeltTest> leak_test{};
  friend bool operator==(const OwnContainer&, const OwnContainer&) = default;
};
std::string_view container_kind_word(OwnContainer::Kind kind);  // "cool box"

// Ice in a litre of a box: cubes with the gaps between them (common practice, no source).
inline constexpr double ice_kg_per_litre = 0.6;

enum class SoakedFeed { none, quick, shreds, pellets };
std::string_view soaked_feed_word(SoakedFeed feed);

// Editable defaults; where no source is named: common practice, no source.
struct KitSettings {
  Litres wash_at_gate{4.0};   // sponge for face, saddle and girth places
  Litres wash_at_pass{0.5};   // hands and bit
  Litres others_least{8.0};   // a bucketful for another's horse; about one drink in the field
  double others_share{0.10};  // of all the horses' water, if that is more

  Litres other_drink{5.0};  // a bucket of electrolyte or feed water, beside the plain one

  double box_leak_w_per_k{1.0};  // of a cool box that says nothing of its own
  Kilograms ice_per_box{12.0};
  Celsius weather_unknown{20.0};
  double ice_spare{0.10};  // on top: the box is opened, the sun shines on its lid

  SoakedFeed soaked_feed{SoakedFeed::shreds};
  Kilograms feed_dry_at_gate{0.75};  // a horse, at each gate and the finish
  double feed_water_l_per_kg{4.0};

  std::optional<double> carbohydrate_g_per_h;  // of a rider; nothing: 45 up to 2.5 h, 75 beyond
  std::optional<double> rider_fluid_l_per_h;   // nothing: by heat, 0.4 to 0.8
  double crew_fluid_l_per_h{0.25};             // 0.75 in heat
  double crew_fluid_hot_l_per_h{0.75};
  double meals_per_loop{1.0};  // of each person of the crew

  double fuel_l_per_100km{8.0};  // hatchback 7, estate 8, large four-wheel drive 11; a quarter more when towing
  bool is_towing{};
  Metres fuel_reserve_range{80000.0};
  double idling_l_per_h{1.0};  // from memory
  Seconds idling_per_stop{300.0};
  double drive_back_km{0.0};  // to and from the venue, when it should be in the tank as well

  bool night_camp{};

  double not_dry{0.95};  // wanted share of days on which nothing runs dry
  friend bool operator==(const KitSettings&, const KitSettings&) = default;
};

double leak_of(const OwnContainer& box, const KitSettings& settings);  // W/K

// The car of each container, one by one as counted: by name, else those of a kind in turn over the cars that take part
// (all, when none does). Row of `cars`; 0 when there are none.
struct DealtCar {
  std::string name;
  bool takes_part{true};
};
std::vector<std::vector<std::size_t>> deal_containers(const std::vector<OwnContainer>& containers,
                                                      const std::vector<DealtCar>& cars);

struct RideKit {
  std::vector<OwnContainer> containers;
  std::vector<KitItem> own_items;         // as in a catalogue
  std::vector<std::string> left_out;      // ids
  std::vector<std::string> taken_anyway;  // ids of things the conditions leave at home
  std::vector<std::string> packed;        // ids
  KitSettings settings;
};

// What a horse drinks in some loops, learned or typed in: "does not drink on loop 1", "electrolyte from loop 2".
struct HorseLike {
  enum class Drink { nothing, plain, electrolyte, feed_water } drink{Drink::plain};
  std::uint32_t from_loop{1};            // 1-based
  std::optional<std::uint32_t> to_loop;  // nothing: to the end
  std::optional<Litres> litres;          // as usually taken at a stop
  std::optional<Grams> electrolyte;      // at each gate, as agreed with a vet: there is no default and no advice
  std::string product;                   // as it is called on the tub
  std::string note;
  friend bool operator==(const HorseLike&, const HorseLike&) = default;
};
std::string_view like_drink_word(HorseLike::Drink drink);  // "soaked-feed water"
std::string like_words(const HorseLike& like);             // "does not drink on loop 1"
bool holds_on(const HorseLike& like, std::uint32_t loop);

}  // namespace outbye
