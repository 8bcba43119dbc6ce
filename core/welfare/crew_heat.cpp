#include "core/welfare/crew_heat.h"

#include <array>

#include "core/base/text.h"

namespace outbye {

namespace {

struct WorkRow {
  WorkRate rate;
  std::string_view name;
  std::string_view example;
  double acclimatised;  // WBGT, ISO 7243:2017, from memory
  double unacclimatised;
};

// The standard's metabolic rates are 115, 180, 300, 415 and 520 W. What a crew does at each is our reading.
constexpr std::array<WorkRow, 5> rows{{
    {WorkRate::rest, "rest", "sitting in the shade", 33, 32},
    {WorkRate::low, "light work", "driving, holding the horse, writing times", 30, 29},
    {WorkRate::moderate, "moderate work", "walking the horse, sponging, handing up bottles", 28, 26},
    {WorkRate::high, "heavy work", "carrying cans and buckets, running alongside", 26, 23},
    {WorkRate::very_high, "very heavy work", "carrying full cans uphill in haste", 25, 20},
}};

const WorkRow& row(WorkRate rate) { return rows[static_cast<std::size_t>(rate)]; }

}  // namespace

std::string_view work_rate_name(WorkRate rate) { return row(rate).name; }
std::string_view work_rate_example(WorkRate rate) { return row(rate).example; }

Celsius crew_limit(WorkRate rate, bool acclimatised) {
  return {acclimatised ? row(rate).acclimatised : row(rate).unacclimatised};
}

CrewHeat crew_heat(Celsius wbgt, bool acclimatised) {
  CrewHeat heat;
  heat.source = "ISO 7243:2017, limits from memory; screening for adults fit for the work, up to 8 hours; people only";
  for (const WorkRow& r : rows) {
    if (wbgt > crew_limit(r.rate, acclimatised)) heat.above_limit.push_back(r.rate);
  }
  if (heat.above_limit.empty()) return heat;

  const WorkRow& lightest = row(heat.above_limit.front());
  heat.sentences.push_back("Crew: WBGT " + fixed(wbgt.value, 1) + " is over the limit of " +
                           fixed(crew_limit(lightest.rate, acclimatised).value, 0) + " for " +
                           std::string(lightest.name) + " (" + std::string(lightest.example) + ") by people who are " +
                           (acclimatised ? "used to heat." : "not used to heat."));
  if (lightest.rate == WorkRate::rest) {
    heat.sentences.push_back(
        "Crew: even sitting still is over its limit; get out of the heat, into a cooled car or house.");
  } else {
    heat.sentences.push_back(
        "Crew: share such work, do it in short turns with rests in the shade, and drink before thirst.");
  }
  heat.sentences.push_back(
      "Crew: headache, sickness, confusion or no more sweat is an emergency: stop, cool the person, call for help.");
  return heat;
}

}  // namespace outbye
