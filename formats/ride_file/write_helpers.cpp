#include <cmath>

#include "formats/ride_file/ride_helpers.h"

namespace outbye {

Json write_helpers(const std::vector<RideHelper>& helpers) {
  Json list = Json::array();
  for (const RideHelper& helper : helpers) {
    Json item{{"name", helper.name}, {"skills", helper.skills}};
    if (!helper.own_skills.empty()) item["own_skills"] = helper.own_skills;
    if (helper.share == std::floor(helper.share)) {
      item["share"] = static_cast<std::int64_t>(helper.share);  // 1, not 1.0
    } else {
      item["share"] = helper.share;
    }
    item["lifts"] = helper.lifts == LiftFilter::men ? "men" : "women";
    if (helper.car) item["car"] = *helper.car;
    if (!helper.phone.empty()) item["phone"] = helper.phone;
    list.push_back(std::move(item));
  }
  return list;
}

}  // namespace outbye
