#include "core/welfare/drinking.h"

#include <algorithm>

namespace outbye {
namespace {

bool is_within(double value, double from, double to) { return value >= from && value <= to; }  // false for NaN
bool is_drink(const Interval<Litres>& litres, double most) {
  return is_within(litres.from.value, 0.0, most) && is_within(litres.to.value, litres.from.value, most);
}
Litres less(Litres deficit, Litres drunk) { return std::max(Litres{0}, deficit - drunk); }

constexpr double most_litres = 60.0;  // at a drink: more than three times the most reported in the field
constexpr double most_hours = 24.0;

// What to put right, or nothing.
std::string fault(const WaterEvent& event) {
  if (event.kind == WaterEvent::Kind::drink) {
    const Interval<Litres> taken = event.taken ? Interval<Litres>{*event.taken, *event.taken} : event.expected;
    return is_drink(taken, most_litres) ? "" : "needs 0 to 60 L drunk, the lesser end first";
  }
  if (!is_within(event.time.count(), 0.0, 3600.0 * most_hours)) return "needs a time of 0 to 24 h";
  return is_within(event.wbgt.value, -60.0, 60.0) ? "" : "needs a WBGT of -60 to 60 degrees";
}

}  // namespace

std::string_view deficit_band_name(DeficitBand band) {
  switch (band) {
    case DeficitBand::usual:
      return "usual";
    case DeficitBand::watch:
      return "watch";
    case DeficitBand::tell_the_vet:
      return "tell the vet";
    case DeficitBand::stop_and_vet:
      break;
  }
  return "stop and vet";
}

std::string_view deficit_band_advice(DeficitBand band) {
  switch (band) {
    case DeficitBand::usual:
      return "Offer water at every chance.";
    case DeficitBand::watch:
      return "Offer water at every chance and watch how it drinks, eats and passes urine.";
    case DeficitBand::tell_the_vet:
      return "Tell the vet how much it has drunk; a horse that does not drink, does not eat or passes dark urine is "
             "shown at once.";
    case DeficitBand::stop_and_vet:
      break;
  }
  return "Stop at the next chance and ask the vet; the vet decides.";
}

DeficitBand deficit_band(double percent_of_mass) {
  if (percent_of_mass > 7.0) return DeficitBand::stop_and_vet;
  if (percent_of_mass >= 5.0) return DeficitBand::tell_the_vet;
  if (percent_of_mass >= 3.0) return DeficitBand::watch;
  return DeficitBand::usual;
}

HorseWater::HorseWater(const HorseBody& horse, const SweatSettings& settings) : horse_(horse), settings_(settings) {}

void HorseWater::ride(Seconds time, Celsius wbgt) { lose(sweat(wbgt, time, false, horse_, settings_)); }
void HorseWater::stand(Seconds time, Celsius wbgt) { lose(sweat(wbgt, time, true, horse_, settings_)); }

void HorseWater::lose(const Estimate& lost) {
  balance_.sweat = balance_.sweat + lost;
  balance_.deficit.from += lost.low;
  balance_.deficit.to += lost.high;
  balance_.middle += lost.middle;
  settle();
}

void HorseWater::drink(Interval<Litres> litres) {
  balance_.drunk.from += litres.from;
  balance_.drunk.to += litres.to;
  settle_after_drink(litres);
}

void HorseWater::expect_drink(Interval<Litres> usual) {
  // The horse that sweats little and drinks much, and the one that sweats much and drinks little.
  const Litres when_low = std::min(usual.to, balance_.deficit.from);
  const Litres when_high = std::min(usual.from, balance_.deficit.to);
  balance_.drunk.from += std::min(when_low, when_high);
  balance_.drunk.to += std::max(when_low, when_high);
  settle_after_drink(usual);
}

void HorseWater::settle_after_drink(Interval<Litres> litres) {
  balance_.deficit.from = less(balance_.deficit.from, litres.to);
  balance_.deficit.to = less(balance_.deficit.to, litres.from);
  balance_.middle = less(balance_.middle, 0.5 * (litres.from + litres.to));
  settle();
}

void HorseWater::settle() {
  const auto share = [this](Litres lost) { return 100.0 * lost.value / horse_.mass.value; };  // a litre, a kilogram
  balance_.percent = {share(balance_.deficit.from), share(balance_.deficit.to)};
  balance_.band = deficit_band(balance_.percent.to);
  balance_.middle_percent = share(balance_.middle);
  balance_.middle_band = deficit_band(balance_.middle_percent);
}

Result<std::vector<WaterBalance>> water_over_day(const HorseBody& horse, const std::vector<WaterEvent>& events,
                                                 const SweatSettings& settings) {
  if (auto checked = check_horse_body(horse); !checked) return tl::unexpected(checked.error());
  if (auto checked = check_sweat_settings(settings); !checked) return tl::unexpected(checked.error());
  HorseWater water{horse, settings};
  std::vector<WaterBalance> day;
  day.reserve(events.size());
  for (const WaterEvent& event : events) {
    if (const std::string what = fault(event); !what.empty())
      return bad_input("water event " + std::to_string(day.size() + 1), what);
    switch (event.kind) {
      case WaterEvent::Kind::riding:
        water.ride(event.time, event.wbgt);
        break;
      case WaterEvent::Kind::standing:
        water.stand(event.time, event.wbgt);
        break;
      case WaterEvent::Kind::drink:
        event.taken ? water.drink({*event.taken, *event.taken}) : water.expect_drink(event.expected);
        break;
    }
    day.push_back(water.now());
  }
  return day;
}

Result<void> check_drink_settings(const DrinkSettings& settings) {
  const std::string where = "drink settings";
  if (!is_drink(settings.field_taken, most_litres) || !is_drink(settings.gate_taken, most_litres))
    return bad_input(where, "need 0 to 60 L taken, the lesser end first");
  if (!is_within(settings.field_offer.value, settings.field_taken.to.value, 200.0) ||
      !is_within(settings.gate_offer.value, settings.gate_taken.to.value, 200.0))
    return bad_input(where, "need an offer of at least what is usually taken, and 200 L at most");
  if (!is_within(settings.best_temperature.value, 0.0, 45.0)) return bad_input(where, "need water of 0 to 45 degrees");
  if (!is_within(settings.hot_extra, 0.0, 2.0)) return bad_input(where, "need 0 to 2 more for each hotter band");
  return {};
}

DrinkOffer drink_offer(bool is_gate, Celsius wbgt, const DrinkSettings& settings, const SweatSettings& sweat) {
  int hotter = -1;  // bands above the second
  for (const Celsius end : sweat.band_ends) hotter += wbgt >= end ? 1 : 0;
  const double more = 1.0 + settings.hot_extra * std::max(0, hotter);
  DrinkOffer answer;
  answer.offer = more * (is_gate ? settings.gate_offer : settings.field_offer);
  answer.taken = is_gate ? settings.gate_taken : settings.field_taken;
  answer.source = is_gate
                      ? "10.5-11.6 L in the first five minutes after 45 km, 11.4-18.5 L within an hour (Equine Vet J "
                        "Suppl 2002); more in heat is common practice, no source"
                      : "7.6-11.4 L a drink in the field, up to 19; many take little early on (common practice, no "
                        "source)";
  answer.temperature = settings.best_temperature;
  answer.temperature_source =
      "14.7, 19.9 and 16.3 L were drunk at 10, 20 and 30 degrees (Rehydration fluid temperature, Vet J 2004, 72-80)";
  answer.advice = {"Water is free at every chance and never held back; let it drink as long as it wants.",
                   "Write down what it takes, nothing too.",
                   "A horse that does not drink gets no salts; offer again, and tell the vet."};
  answer.advice_source =
      "holding the first drink to 4 or 8 L brought nothing lasting, free water right after 45 km did no harm that was "
      "seen (common practice, no source); the rest from memory";
  return answer;
}

}  // namespace outbye
