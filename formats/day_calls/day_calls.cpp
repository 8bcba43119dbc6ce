#include "formats/day_calls/day_calls.h"

#include <utility>
#include <vector>

#include "formats/day_calls/day_names_json.h"
#include "formats/day_log/day_json.h"
#include "formats/packed_ride/packed_ride.h"
#include "formats/plan_json/plan_json.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

constexpr std::size_t rest_days = 1024;  // as `outbye day --rest`

const char* word(Problem::Kind kind) {
  switch (kind) {
    case Problem::Kind::bad_input:
      return "bad_input";
    case Problem::Kind::not_found:
      return "not_found";
    case Problem::Kind::impossible:
      return "impossible";
    case Problem::Kind::cancelled:
      break;
  }
  return "cancelled";
}

Result<Json> open(DaySession& session, const Json& request) {
  session.ride.reset();
  const auto packed = request.find("packed");
  if (packed == request.end()) return bad_input("open", "has no field 'packed'; give it the packed ride");
  auto day = open_packed_day(*packed);
  if (!day) return tl::unexpected(day.error());
  auto model = day_model(day->plan);
  if (!model) return tl::unexpected(model.error());
  model->kit = std::move(day->kit);
  session.ride.emplace(DaySession::Open{std::move(day->plan), std::move(*model)});
  const RidePlan& opened = session.ride->plan;
  return Json{{"engine", OUTBYE_VERSION},
              {"packed_by", day->packed_by},
              {"plan", plan_json(opened, {})},
              {"names", day_names_json(opened)},
              {"log_head", day_log_head(opened.ride.name)}};
}

// The lines as a log file has them; without a head they get one, and keep their numbers.
Result<DayLogReading> log_of(const Json& request, const std::string& ride) {
  const auto lines = request.find("log");
  if (lines == request.end() || !lines->is_array()) {
    return bad_input("log", "is not a list of lines; give the lines of the day log, or []");
  }
  std::string text;
  bool has_head = false;
  for (std::size_t i = 0; i < lines->size(); ++i) {
    const Json& line = (*lines)[i];
    if (!line.is_string()) return bad_input("log[" + std::to_string(i) + "]", "is not text; give each line as it is");
    text += line.get_ref<const std::string&>();
    if (text.empty() || text.back() != '\n') text += '\n';
    if (i == 0) has_head = text.find("\"format\"") != std::string::npos;
  }
  auto reading = read_day_log(has_head ? text : day_log_head(ride) + text, "log");
  if (!reading || has_head) return reading;
  for (UnreadLine& line : reading->unread) --line.number;
  return reading;
}

Result<Instant> now_of(const Json& request, const Clock& clock) {
  const auto now = request.find("now");
  if (now == request.end() || !now->is_string())
    return bad_input("now", "is missing; write it like 2026-06-13T11:40:00Z");
  const auto written = parse_written_time(now->get_ref<const std::string&>());
  if (!written) return bad_input("now", written.error().what);
  return to_instant(*written, clock);
}

Result<Json> answer(const DaySession& session, const Json& request, bool with_rest) {
  if (!session.ride) return not_found("ride", "none is open; open the packed ride first");
  const RidePlan& plan = session.ride->plan;
  const auto log = log_of(request, plan.ride.name);
  if (!log) return tl::unexpected(log.error());
  const auto now = now_of(request, plan.ride.clock);
  if (!now) return tl::unexpected(now.error());
  const DayAnswer day = day_answer(plan, session.ride->model, log->log, *now);
  std::optional<Result<RestOfDay>> rest;
  if (with_rest) rest = plan_rest(plan, day, rest_days);
  return day_json(plan, day, rest, log->unread);
}

Result<Json> reply_to(DaySession& session, std::string_view name, std::string_view request) {
  const auto asked = parse_json(request, std::string(name));
  if (!asked) return tl::unexpected(asked.error());
  if (!asked->is_object()) return bad_input(std::string(name), "is asked with an object {...}");
  if (name == "open") return open(session, *asked);
  if (name == "answer") return answer(session, *asked, false);
  if (name == "rest") return answer(session, *asked, true);
  return not_found("'" + std::string(name) + "'", "is no call; there are open, answer and rest");
}

}  // namespace

std::string day_call(DaySession& session, std::string_view name, std::string_view request) {
  const auto reply = reply_to(session, name, request);
  const Json json =
      reply
          ? *reply
          : Json{{"problem",
                  {{"kind", word(reply.error().kind)}, {"where", reply.error().where}, {"what", reply.error().what}}}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace outbye
