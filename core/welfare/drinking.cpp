#include "core/welfare/drinking.h"

#include <algorithm>

namespace outbye {

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
  settle();
}

void HorseWater::drink(Interval<Litres> litres) {
  balance_.drunk.from += litres.from;
  balance_.drunk.to += litres.to;
  balance_.deficit.from = std::max(Litres{0}, balance_.deficit.from - litres.to);
  balance_.deficit.to = std::max(Litres{0}, balance_.deficit.to - litres.from);
  settle();
}

void HorseWater::settle() {
  const auto share = [this](Litres lost) { return 100.0 * lost.value / horse_.mass.value; };  // a litre, a kilogram
  balance_.percent = {share(balance_.deficit.from), share(balance_.deficit.to)};
  balance_.band = deficit_band(balance_.percent.to);
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
  return answer;
}

}  // namespace outbye
