#include "formats/plan_json/cautions.h"

namespace outbye {

// Sources: the horse first and the rules of the day, FEI code of conduct and FEI Endurance Rules 2019/2020 (Art. 801,
// 813); the 15 minutes in 2 hours, Highway Code rule 91; the rest is common practice, no source.
std::vector<std::string> crew_cautions() {
  return {
      "The horse comes first, before times, placing and this plan; the vet's decision is final. Outbye does not judge "
      "whether a horse may go on.",
      "The rules of the day win over everything here: schedule, briefing and officials.",
      "Help the horse at the designated points only; no vehicle on the course, none following the horse.",
      "Drivers: keep every limit, no phone in hand, 15 minutes' break in 2 hours; after an early start or a long day "
      "let someone else drive.",
      "Pass horses at 10 mph (16 km/h) or less and 2 m away, ready to stop.",
      "Park off the carriageway, wear something bright, keep children and dogs back, do not reverse near horses.",
      "Drive times are the lowest that the limits and the allowance give: a closed road, a gate or a queue is not in "
      "them.",
      "Take this plan on paper: valleys have no signal.",
  };
}

}  // namespace outbye
