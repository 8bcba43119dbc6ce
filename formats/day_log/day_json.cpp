#include "formats/day_log/day_json.h"

#include "formats/day_log/day_next_json.h"
#include "formats/day_log/day_stores_json.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

class Writer {
 public:
  Writer(const RidePlan& plan, const DayAnswer& answer) : plan_(plan), answer_(answer), clock_(plan.ride.clock) {}

  Json passes() const {
    Json all = Json::array();
    for (const PassOutlook& pass : answer_.passes) {
      Json json{{"horse", at(plan_.ride.horses, pass.horse).name}, {"label", pass.label}};
      const RideEvent& event = at(plan_.task.horses, pass.horse).events[pass.event];
      json["loop"] = event.loop.value + 1;
      if (pass.seen) json["seen"] = iso8601(*pass.seen, clock_);
      json["gone"] = rounded(pass.odds.gone, 4);
      if (!pass.seen && pass.odds.due) json["due"] = json_of(*pass.odds.due, clock_);
      if (!pass.seen && pass.odds.was) json["was"] = json_of(*pass.odds.was, clock_);
      all.push_back(std::move(json));
    }
    return all;
  }

  Json cars() const {
    Json all = Json::array();
    for (std::size_t c = 0; c < answer_.cars.size(); ++c) {
      const CarAdvice& advice = answer_.cars[c];
      const CarOnDay& state = answer_.state.cars[c];
      Json json{{"car", at(plan_.task.cars, advice.car).name},
                {"place", at(plan_.places, state.place).name},
                {"driving", state.is_driving}};
      if (state.since) json["since"] = iso8601(*state.since, clock_);
      if (state.driving_to) json["driving_to"] = at(plan_.places, *state.driving_to).name;
      json["next_action"] = next_action(answer_.next[c]);
      json["headline"] = advice.headline;
      json["sentences"] = advice.sentences;
      json["why"] = advice.why;
      const auto name = [&](const char* field, const std::optional<MeetOptionId>& id) {
        if (id) json[field] = at(plan_.task.options, *id).label;
      };
      name("here", advice.here);
      name("next", advice.next);
      name("fallback", advice.fallback);
      if (advice.advice.leave_by) json["leave_by"] = iso8601(*advice.advice.leave_by, clock_);
      if (advice.advice.ask_again) json["ask_again"] = iso8601(*advice.advice.ask_again, clock_);
      Json ways = Json::array();
      for (std::size_t i = 0; i < advice.advice.ways.size(); ++i) {
        ways.push_back(way(advice.advice.ways[i]));
        ways.back()["best"] = i == advice.advice.best;
      }
      json["choices"] = std::move(ways);
      Json picture = Json::array();
      for (const WayOn& w : advice.advice.by_waiting) {
        picture.push_back({{"until", iso8601(w.until, clock_)},
                           {"here", rounded(w.here, 4)},
                           {"ready", rounded(w.ready, 4)},
                           {"there", rounded(w.there, 4)},
                           {"meets", rounded(w.meets, 4)},
                           {"worth", rounded(w.worth, 4)}});
      }
      json["by_waiting"] = std::move(picture);
      all.push_back(std::move(json));
    }
    return all;
  }

  Json troubles() const {
    Json all = Json::array();
    for (const DayTrouble& t : answer_.state.troubles) {
      all.push_back({{"id", t.id.empty() ? Json() : Json(t.id)}, {"what", t.what}});
    }
    return all;
  }

  Json state() const {
    const DayState& s = answer_.state;
    Json horses = Json::array();
    for (const HorseOnDay& h : s.horses) {
      Json seen = Json::array();
      for (const OwnSighting& o : h.seen) {
        Json json{{"label", label(h.horse, o.event)}, {"met", o.is_met}};
        put_time(json, "in", o.in);
        put_time(json, "in_time", o.in_time);
        put_time(json, "out", o.out);
        seen.push_back(std::move(json));
      }
      Json gates = Json::array();
      for (std::size_t g = 0; g < h.gates.size(); ++g) {
        Json pulses = Json::array();
        for (const GatePulse& p : h.gates[g].pulses) {
          pulses.push_back(
              {{"at", iso8601(p.at, clock_)}, {"beats", rounded(p.pulse.value, 1)}, {"presented", p.presented}});
        }
        Json json{{"loop", g + 1}, {"pulses", std::move(pulses)}};
        put_time(json, "arrival", h.gates[g].arrival);
        put_time(json, "in_time", h.gates[g].in_time);
        put_time(json, "left", h.gates[g].left);
        if (h.accepted[g]) json["accepted_by_officials"] = *h.accepted[g];
        gates.push_back(std::move(json));
      }
      Json intakes = Json::array();
      for (const NotedIntake& i : h.intakes) {
        Json json{{"kind", day_kind_name(i.kind)}, {"at", iso8601(i.at, clock_)}, {"what", i.what}};
        if (i.amount) json["amount"] = rounded(*i.amount, 3);
        if (!i.unit.empty()) json["unit"] = i.unit;
        intakes.push_back(std::move(json));
      }
      Json json{{"horse", at(plan_.ride.horses, h.horse).name}};
      put_time(json, "started", h.started);
      json["seen"] = std::move(seen);
      json["gates"] = std::move(gates);
      json["intakes"] = std::move(intakes);
      horses.push_back(std::move(json));
    }
    Json riders = Json::array();
    for (const RiderSeen& r : s.riders) {
      riders.push_back(
          {{"number", r.number}, {"at", iso8601(r.at, clock_)}, {"place", r.place}, {"loop", r.loop.value + 1}});
    }
    Json watches = Json::array();
    for (const WatchKept& w : s.watches) {
      watches.push_back({{"place", w.place},
                         {"who", w.who},
                         {"from", iso8601(w.from, clock_)},
                         {"to", iso8601(w.to, clock_)},
                         {"going_on", w.is_going_on},
                         {"overlook", rounded(w.overlook, 4)}});
    }
    Json stock = Json::array();
    for (const StockOnDay& line : s.stock) {
      stock.push_back({{"what", line.what},
                       {"unit", line.unit},
                       {"filled", rounded(line.filled, 3)},
                       {"used", rounded(line.used, 3)}});
    }
    Json notes = Json::array();
    for (const StandingEntry& n : s.notes) {
      Json json{{"id", n.id}, {"at", iso8601(n.entry.at, clock_)}, {"text", n.entry.text}};
      if (!n.entry.photo.empty()) json["photo"] = n.entry.photo;
      notes.push_back(std::move(json));
    }
    return {{"horses", std::move(horses)},
            {"riders", std::move(riders)},
            {"watches", std::move(watches)},
            {"stock", std::move(stock)},
            {"notes", std::move(notes)}};
  }

  Json rest_of(const RestOfDay& rest) const {
    Json cars = Json::array();
    for (const CarDay& day : rest.plan.days) {
      Json stops = Json::array();
      for (const TimedStop& stop : day.stops) {
        Json json{{"place", at(plan_.places, stop.place).name}};
        json["kind"] = stop.stop.kind == PlannedStop::Kind::meet     ? "meet"
                       : stop.stop.kind == PlannedStop::Kind::refill ? "refill"
                                                                     : "rest";
        if (stop.stop.option) json["meet"] = at(rest.task.options, *stop.stop.option).label;
        json["depart"] = iso8601(stop.depart, clock_);
        json["arrive"] = iso8601(stop.arrive, clock_);
        json["leave"] = iso8601(stop.leave, clock_);
        if (stop.stop.option) {
          json["due"] = json_of(stop.due, clock_);
          json["chance_ready"] = rounded(stop.chance_ready, 4);
        }
        if (stop.leave_by) json["leave_by"] = iso8601(*stop.leave_by, clock_);
        stops.push_back(std::move(json));
      }
      cars.push_back({{"car", at(rest.task.cars, day.car).name}, {"stops", std::move(stops)}});
    }
    return {{"cars", std::move(cars)},
            {"worth", rounded(rest.plan.value.worth, 3)},
            {"changes", rest.changes},
            {"notes", rest.notes}};
  }

  Json gates() const {
    Json all = Json::array();
    for (const GateNow& gate : answer_.gates) all.push_back(gate_json(plan_, gate));
    return all;
  }

 private:
  Json next_action(const NextAction& next) const { return next_action_json(plan_, next); }
  Json way(const WayOn& w) const {
    const char* const kind = w.kind == WayOn::Kind::wait ? "wait" : w.kind == WayOn::Kind::next ? "next" : "fallback";
    Json json{{"kind", kind}};
    if (w.kind == WayOn::Kind::wait) json["until"] = iso8601(w.until, clock_);
    json["here"] = rounded(w.here, 4);
    json["ready"] = rounded(w.ready, 4);
    json["there"] = rounded(w.there, 4);
    json["meets"] = rounded(w.meets, 4);
    json["worth"] = rounded(w.worth, 4);
    return json;
  }
  void put_time(Json& json, const char* field, const std::optional<Instant>& time) const {
    if (time) json[field] = iso8601(*time, clock_);
  }
  const std::string& label(HorseId horse, std::size_t event) const {
    for (const MeetOption& option : plan_.task.options) {
      if (option.horse == horse && option.event == event) return option.label;
    }
    return plan_.ride.venue;
  }

  const RidePlan& plan_;
  const DayAnswer& answer_;
  const Clock& clock_;
};

}  // namespace

Json day_json(const RidePlan& plan, const DayAnswer& answer, const std::optional<Result<RestOfDay>>& rest,
              const std::vector<UnreadLine>& unread) {
  const Writer writer(plan, answer);
  Json json{{"format", "outbye day"},
            {"version", 1},
            {"ride", plan.ride.name},
            {"now", iso8601(answer.state.now, plan.ride.clock)}};
  json["cars"] = writer.cars();
  json["passes"] = writer.passes();
  json["gates"] = writer.gates();
  json["water"] = water_json(plan, answer);
  json["stock_left"] = stock_left_json(plan, answer);
  json["troubles"] = writer.troubles();
  Json lines = Json::array();
  for (const UnreadLine& line : unread) {
    Json problems = Json::array();
    for (const Problem& p : line.problems) problems.push_back(p.what);
    lines.push_back({{"line", line.number}, {"torn", line.is_torn}, {"problems", std::move(problems)}});
  }
  json["unread_lines"] = std::move(lines);
  json["state"] = writer.state();
  if (rest) {
    json["rest"] =
        *rest ? writer.rest_of(**rest) : Json{{"impossible", rest->error().where + " " + rest->error().what}};
  }
  return json;
}

}  // namespace outbye
