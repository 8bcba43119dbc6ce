#include "core/kit/kit_conditions.h"

#include <algorithm>

#include "core/base/text.h"

namespace outbye {
namespace {

// Collects what was asked, until the first thing that fails.
class Asked {
 public:
  void that(bool is_asked, bool yes, const std::string& if_yes, const std::string& if_not) {
    if (!is_asked || !holds_.yes) return;
    if (!yes) {
      holds_ = {false, if_not};
    } else {
      holds_.why += (holds_.why.empty() ? "" : ", ") + if_yes;
    }
  }
  void at_least(std::optional<double> from, double value, const std::string& what, const std::string& unit) {
    if (!from) return;
    const std::string words = what + " " + fixed(value, 0) + unit;
    that(true, value >= *from, words + ", from " + fixed(*from, 0) + unit,
         words + ", it comes along from " + fixed(*from, 0) + unit);
  }
  Holds answer() const { return holds_; }

 private:
  Holds holds_{true, ""};
};

Holds all_hold(const KitCondition& when, const KitFacts& facts) {
  Asked asked;
  const auto count = [](std::optional<std::uint32_t> n) { return n ? std::optional<double>(*n) : std::nullopt; };
  const auto any_stop = [&](auto test) { return std::any_of(facts.stops.begin(), facts.stops.end(), test); };
  const auto any_horse = [&](auto test) { return std::any_of(facts.horses.begin(), facts.horses.end(), test); };
  const auto likes = [&](HorseLike::Drink drink) {
    return any_horse([&](const KitHorse& horse) {
      return std::any_of(horse.likes.begin(), horse.likes.end(), [&](const HorseLike& like) {
        return like.drink == drink || (drink == HorseLike::Drink::electrolyte && like.electrolyte);
      });
    });
  };
  const auto worst = worst_band(facts);
  asked.at_least(when.distance_km_from, in_kilometres(facts.distance), "the ride is", " km");
  asked.at_least(count(when.loops_from), facts.loops, "loops:", "");
  asked.at_least(when.hours_from, hours_out(facts).count() / 3600.0, "the crew is out", " h");
  asked.at_least(count(when.crew_from), facts.crew, "people of the crew:", "");
  asked.at_least(count(when.horses_from), static_cast<double>(facts.horses.size()), "horses:", "");
  asked.that(when.dark, any_stop([](const KitStop& stop) { return stop.is_dark; }), "a stop may be without daylight",
             "every stop is in daylight");
  asked.that(when.cold, !worst || any_stop([](const KitStop& stop) { return stop.is_cold; }),
             worst ? "a stop is cold to the horse" : "the weather is not known", "no stop is cold to the horse");
  asked.that(when.hot, !worst || *worst >= HeatBand::precautions,
             worst ? "a stop is in heat that asks for precautions" : "the weather is not known",
             "no stop is in heat that asks for precautions");
  asked.that(when.novice, any_horse([](const KitHorse& horse) { return horse.is_novice; }), "a horse is a novice",
             "no horse is a novice");
  asked.that(when.night_camp, facts.night_camp, "the crew camps the night", "nobody camps the night");
  asked.that(when.electrolyte, likes(HorseLike::Drink::electrolyte), "electrolyte is typed in for a horse",
             "no electrolyte is typed in for a horse");
  asked.that(when.soaked_feed, facts.has_soaked_feed, "soaked feed is planned", "no soaked feed is planned");
  asked.that(when.ice, any_stop([](const KitStop& stop) { return stop.ice.value > 0.0; }), "a stop wants ice",
             "no stop wants ice");
  if (when.feet) {
    const std::string word(feet_word(*when.feet));
    asked.that(true, any_horse([&](const KitHorse& horse) { return !horse.feet || *horse.feet == *when.feet; }),
               "a horse is " + word + ", or it is not said", "no horse is " + word);
  }
  return asked.answer();
}

}  // namespace

Holds any_holds(const std::vector<KitCondition>& when, const KitFacts& facts) {
  if (when.empty()) return {true, "always"};
  Holds none{false, ""};
  for (const auto& condition : when) {
    Holds holds = all_hold(condition, facts);
    if (holds.yes) return holds;
    none.why += (none.why.empty() ? "" : "; ") + holds.why;
  }
  return none;
}

}  // namespace outbye
