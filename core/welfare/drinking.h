// The horse's water over the day: what it sweats, what it drinks, and the deficit between, as an interval in litres and
// in percent of its mass. Water is offered freely at every chance and never held back: limiting the first drink to 4 or
// 8 L brought nothing lasting (common practice), and free water right after 45 km did no harm that was seen.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/interval.h"
#include "core/base/result.h"
#include "core/welfare/sweat.h"

namespace outbye {

// By the worse end of the interval, in percent of body mass: below 3, 3-5, 5-7, above 7. Derived, not a standard:
// performance falls from about 5 % and 4 % already matters (common practice); above 15 % is fatal (handbook chapter
// "Water").
enum class DeficitBand { usual, watch, tell_the_vet, stop_and_vet };
std::string_view deficit_band_name(DeficitBand band);    // "tell the vet"
std::string_view deficit_band_advice(DeficitBand band);  // a sentence
DeficitBand deficit_band(double percent_of_mass);
inline constexpr std::string_view deficit_source =
    "Deficit = sweat less what was drunk; bands of 3, 5 and 7 % are derived, not a standard; sweat varies by 30 % and "
    "more, so do not trust the figure over the horse.";

// What has happened to the horse's water by some point of the day.
struct WaterBalance {
  Estimate sweat;            // so far
  Interval<Litres> drunk;    // so far
  Interval<Litres> deficit;  // from least sweat and most drunk, to most sweat and least drunk; never below 0
  Interval<double> percent;  // of body mass
  DeficitBand band{DeficitBand::usual};  // of the upper end: the one to act on
  Litres middle{};                       // of the deficit; between the ends
  double middle_percent{};
  DeficitBand middle_band{DeficitBand::usual};
};

// One horse's running balance. A horse does not store: what it drinks beyond its deficit is not kept for later, so
// neither end ever falls below 0.
class HorseWater {
 public:
  explicit HorseWater(const HorseBody& horse, const SweatSettings& settings = {});
  void ride(Seconds time, Celsius wbgt);   // at a trot
  void stand(Seconds time, Celsius wbgt);  // at a point, a gate, a hold
  void drink(Interval<Litres> litres);     // from..to >= 0; both the same when it was measured
  // A drink that nobody has seen yet: the usual one, but no more than is missing. The deficit comes out as with
  // drink(); what was drunk so far is not counted beyond the deficit.
  void expect_drink(Interval<Litres> usual);
  const WaterBalance& now() const { return balance_; }

 private:
  void lose(const Estimate& lost);
  void settle_after_drink(Interval<Litres> litres);
  void settle();

  HorseBody horse_;
  SweatSettings settings_;
  WaterBalance balance_;
};

// One thing of the day, as logged or as planned.
struct WaterEvent {
  enum class Kind { riding, standing, drink } kind{Kind::riding};
  Seconds time{};                 // of riding or standing, 0..24 h
  Celsius wbgt;                   // while riding or standing
  std::optional<Litres> taken{};  // of a drink, 0..60: as seen, 0 when it was refused; nothing: not seen
  Interval<Litres> expected{};    // of a drink that was not seen
};
// The balance after each event, in the order given (that of time). Errors: bad_input at "water event 3" for what is out
// of range, and those of check_horse_body() and check_sweat_settings().
Result<std::vector<WaterBalance>> water_over_day(const HorseBody& horse, const std::vector<WaterEvent>& events,
                                                 const SweatSettings& settings = {});

// What to offer and what is usually taken: an amount to have ready, not one to reach.
struct DrinkOffer {
  Litres offer;            // have this much ready, and more if it wants more
  Interval<Litres> taken;  // what horses usually take of it
  std::string source;
  Celsius temperature;  // horses drank most at
  std::string_view temperature_source;
  std::vector<std::string_view> advice;  // sentences, always: free access; what if it does not drink
  std::string_view advice_source;
};

// Editable defaults.
struct DrinkSettings {
  // One drink in the field: 7.6-11.4 L is usual (2-3 US gallons), up to 19 (common practice, no source).
  Litres field_offer{11.4};
  Interval<Litres> field_taken{{0.0}, {7.6}};  // some do not drink for 25-40 km (common practice)
  // At a gate: 10.5-11.6 L in the first five minutes after 45 km, 11.4-18.5 L in an hour (Equine Vet J Suppl 2002).
  Litres gate_offer{18.5};
  Interval<Litres> gate_taken{{4.0}, {11.4}};
  Celsius best_temperature{20.0};  // drunk most at 20 degrees, less at 10 and 30 (Vet J 2004, 72-80)
  double hot_extra{0.25};          // more to have ready for each band of sweat above the second (common practice)
};

// Errors: bad_input at "drink settings" for negative litres, intervals that end before they begin, and a usual drink
// larger than what is offered.
Result<void> check_drink_settings(const DrinkSettings& settings);

DrinkOffer drink_offer(bool is_gate, Celsius wbgt, const DrinkSettings& settings = {}, const SweatSettings& sweat = {});

}  // namespace outbye
