#include "core/welfare/heat_band.h"

namespace outbye {

namespace {

std::size_t rank(HeatBand band) { return static_cast<std::size_t>(band); }

constexpr const char* climate = "\"Optimising performance in a challenging climate\"";
constexpr const char* from_memory = "from memory, after the 2018 summary on thermally challenging environments";

}  // namespace

HeatBand band_of_wbgt(Celsius wbgt) {
  if (wbgt.value > 33) return HeatBand::extreme;
  if (wbgt.value >= 32) return HeatBand::hazardous;
  if (wbgt.value >= 30) return HeatBand::more_precautions;
  if (wbgt.value >= 28) return HeatBand::precautions;
  return wbgt.value >= 25 ? HeatBand::discomfort : HeatBand::comfortable;
}

HeatBand band_of_sum(double sum) {
  if (sum > 180) return HeatBand::extreme;
  if (sum >= 150) return HeatBand::more_precautions;
  return sum >= 130 ? HeatBand::discomfort : HeatBand::comfortable;
}

// What the crew does in each band is common practice; where a band begins is from the source named.
HeatAdvice advice(HeatBand band) {
  switch (band) {
    case HeatBand::comfortable:
      return {"Comfortable",
              "below 25",
              {"Offer water at every meet, as on any day.", "Look at the forecast again before each loop."},
              std::string("limit 25: ") + climate + "; what to do: common practice, no source"};
    case HeatBand::discomfort:
      return {"Discomfort begins",
              "25-28",
              {"Carry more water for pouring than on a cool day, and have a slosh bottle ready at every meet.",
               "Note how much the horse drinks, and tell the rider.", "Plan for shade wherever the horse stands."},
              std::string("limit 25: ") + climate + "; what to do: common practice, no source"};
    case HeatBand::precautions:
      return {"Precautions",
              "28-30",
              {"Cool the horse at every meet and let it drink before anything else.",
               "Ask the rider to slow down in the sun and on climbs.",
               "Set up shade and cooling at the gate before the horse comes, and begin at once.",
               "Ask the officials which heat measures are in force."},
              "limit 28: common practice, no source; what to do: common practice, no source"};
    case HeatBand::more_precautions:
      return {"More precautions",
              "30-32",
              {"Leave no designated crew point on this stretch without cooling water, if it can be reached.",
               "Pour cold water without pause while the horse stands, and plan for ice.",
               "Ask the rider to walk the climbs, and to stop at water on the course.",
               "Tell a vet early of a horse that does not drink, breathes hard or recovers slowly."},
              std::string("limit 30: ") + from_memory + "; what to do: common practice, no source"};
    case HeatBand::hazardous:
      return {"Hazardous",
              "32-33",
              {"Ask the officials whether the ride is changed, shortened or stopped.",
               "Talk with the rider about retiring before the next loop.",
               "Keep cooling without pause at every stop, in shade, with cold water.",
               "Have a vet look at the horse when anything seems out of the way."},
              std::string("limit 32: ") + from_memory +
                  "; 32.5 is the ceiling of the 1995 equine index (Equine Vet J, "
                  "doi 10.1111/j.2042-3306.1995.tb05003.x); what to do: common practice, no source"};
    case HeatBand::extreme:
      break;
  }
  return {
      "Extreme",
      "above 33",
      {"Expect the officials to stop or put off the ride; ask them now.",
       "Ask a vet before the horse does any more work, and follow the answer.",
       "Stand the horse in shade and air, and pour cold water without pause.",
       "Odd behaviour is a danger to people too: keep clear of its feet and call a vet."},
      "limit 33: Equestrian Australia, hot weather policy, 4 February 2019; what to do: common practice, no source"};
}

double heat_speed_factor(HeatBand band, const HeatSettings& settings) { return settings.speed_factor[rank(band)]; }
double weight_factor(HeatBand band, const HeatSettings& settings) { return settings.weight_factor[rank(band)]; }

}  // namespace outbye
