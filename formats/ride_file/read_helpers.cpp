#include <algorithm>
#include <iterator>
#include <span>
#include <string_view>

#include "core/base/text.h"
#include "core/jobs/stop_task.h"
#include "formats/ride_file/emergency_fields.h"
#include "formats/ride_file/ride_helpers.h"

namespace outbye {
namespace {

constexpr std::string_view usual_skills[] = {skill_holds_horse, skill_first_aid, skill_driver,
                                             skill_lifts,       skill_pulse,     skill_tack};

// As the skill is spelt; nothing: no usual one.
std::optional<std::string> usual_skill(std::string_view name) {
  const auto* const at = std::find_if(std::begin(usual_skills), std::end(usual_skills),
                                      [&](std::string_view skill) { return same_name(skill, name); });
  if (at == std::end(usual_skills)) return std::nullopt;
  return std::string(*at);
}

std::string listed(std::span<const std::string_view> names) {
  std::string all;
  for (const std::string_view name : names) all += (all.empty() ? "" : ", ") + std::string(name);
  return all;
}

void read_skills(JsonFields& at, RideHelper& helper) {
  if (at.find("skills") == nullptr) {
    helper.skills.assign(std::begin(usual_skills), std::end(usual_skills));
  } else {
    at.texts("skills", helper.skills);
  }
  at.texts("own_skills", helper.own_skills);
  for (std::size_t i = 0; i < helper.skills.size(); ++i) {
    const std::string where = "skills[" + std::to_string(i) + "]";
    const auto skill = usual_skill(helper.skills[i]);
    if (!skill) {
      std::string what = "'" + helper.skills[i] + "' is no usual skill";
      const auto nearest = nearest_name(helper.skills[i], usual_skills);
      what += nearest ? "; did you mean '" + std::string(*nearest) + "'?" : "; usual: " + listed(usual_skills) + ".";
      at.report(where, what + " A skill of your own goes into own_skills");
    } else {
      helper.skills[i] = *skill;
    }
  }
}

void read_helper(JsonFields& at, const Ride& ride, RideHelper& helper) {
  at.require("name", "every helper has a name");
  at.text("name", helper.name);
  read_skills(at, helper);
  at.number("share", {0.0, 10.0, true}, [&](double value) { helper.share = value; });
  std::string lifts;
  at.text("lifts", lifts);
  if (lifts == "men") {
    helper.lifts = LiftFilter::men;
  } else if (!lifts.empty() && lifts != "women") {
    at.report("lifts", "is '" + lifts + "', but must be \"women\" or \"men\": whose guideline filters what one lifts");
  }
  at.text("car", helper.car);
  read_phone(at, "phone", helper.phone);
  at.finish();
  if (!helper.car || ride.cars.empty()) return;
  std::vector<std::string_view> cars;
  for (const RideCar& car : ride.cars) cars.push_back(car.name);
  if (std::any_of(cars.begin(), cars.end(), [&](std::string_view car) { return same_name(car, *helper.car); })) return;
  const auto nearest = nearest_name(*helper.car, cars);
  at.report("car", "'" + *helper.car + "' is no car of this ride; " +
                       (nearest ? "did you mean '" + std::string(*nearest) + "'?" : "known: " + listed(cars)));
}

}  // namespace

void read_helpers(JsonFields& in, Ride& ride) {
  in.items("helpers", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    RideHelper helper;
    read_helper(at, ride, helper);
    const auto twice = std::find_if(ride.helpers.begin(), ride.helpers.end(),
                                    [&](const RideHelper& other) { return same_name(other.name, helper.name); });
    if (twice != ride.helpers.end() && !helper.name.empty()) {
      at.report("name", "'" + helper.name + "' is also the name of helpers[" +
                            std::to_string(twice - ride.helpers.begin()) + "]; give each a name of its own");
    }
    ride.helpers.push_back(std::move(helper));
  });
}

}  // namespace outbye
