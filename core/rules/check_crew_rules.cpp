#include "core/rules/findings.h"

namespace outbye {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const auto& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

std::string people(std::uint32_t count) { return std::to_string(count) + (count == 1 ? " person" : " people"); }

void check_numbers(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  if (!ride.crew) return;
  // More helpers than may go in is no break: it is a choice to be made before the gate.
  if (level.crew_at_gate && *ride.crew > level.crew_at_gate->value) {
    findings.note("crew",
                  people(*ride.crew) + " crew, at most " + std::to_string(level.crew_at_gate->value) +
                      " with one horse in the vet gate: choose who stays outside",
                  *level.crew_at_gate);
  }
  if (level.people_at_inspection && *ride.crew > level.people_at_inspection->value) {
    findings.note("crew",
                  people(*ride.crew) + " crew, at most " + std::to_string(level.people_at_inspection->value) +
                      " with one horse at the inspection: choose who goes along",
                  *level.people_at_inspection);
  }
  const auto length = length_of(ride);
  if (*ride.crew > 0 || !length) return;
  if (!level.crew_needed_from) {
    findings.ask("crew", "may one ride " + in_words(*length) + " without crew? The book does not say");
  } else if (*length >= level.crew_needed_from->value) {
    findings.not_kept(
        "crew", "no crew for " + in_words(*length) + ", compulsory from " + in_words(level.crew_needed_from->value),
        *level.crew_needed_from);
  }
}

void check_places(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  if (ride.meets_elsewhere.empty()) return;
  const std::string meets = "meets outside the designated crew points: " + joined(ride.meets_elsewhere);
  if (!level.crew_anywhere) {
    findings.ask("crew", "is help allowed there? The book does not say; " + meets);
  } else if (!level.crew_anywhere->value) {
    findings.not_kept("crew", meets + "; help is allowed at designated points only", *level.crew_anywhere);
  }
}

void check_dark(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  if (ride.in_the_dark.empty()) return;
  const std::string passes =
      "passes in the dark: " + joined(ride.in_the_dark) + "; lights and hi-vis for horse and crew";
  if (!level.dark_as_scheduled) {
    findings.ask("ride", "is riding in the dark allowed, and with which lights? The book does not say; " + passes);
  } else if (level.dark_as_scheduled->value) {
    findings.ask("ride", "does the schedule allow riding in the dark? Only then it is allowed; " + passes,
                 *level.dark_as_scheduled);
  } else {
    findings.note("ride", passes, *level.dark_as_scheduled);
  }
}

}  // namespace

void check_crew_rules(const RuleLevel& level, const RideFacts& ride, Findings& findings) {
  check_numbers(level, ride, findings);
  check_places(level, ride, findings);
  check_dark(level, ride, findings);
}

}  // namespace outbye
