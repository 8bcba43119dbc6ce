#include "formats/day_log/day_log_file.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "formats/json_text/json_fields.h"
#include "formats/time_zone/time_zone.h"

namespace outbye {
namespace {

constexpr const char* format_name = "outbye day log";

class EntryReader {
 public:
  EntryReader(JsonFields& in, DayEntry& entry) : in_(in), entry_(entry) {}

  void read() {
    std::string kind;
    in_.text("kind", kind);
    in_.require("kind", "what happened, such as horse_in");
    if (const auto named = day_kind_named(kind)) {
      entry_.kind = *named;
    } else if (!kind.empty()) {
      in_.report("kind", "is '" + kind + "', which no event is; docs/day.md lists them");
    }
    in_.require("at", "when it happened");
    if (const auto at = time("at")) entry_.at = *at;
    in_.text("horse", entry_.horse, true);
    in_.text("car", entry_.car, true);
    in_.text("place", entry_.place, true);
    in_.whole("loop", 0, 20, [&](std::uint64_t n) { entry_.loop = static_cast<std::uint32_t>(n); });
    in_.whole("nth", 1, 100, [&](std::uint64_t n) { entry_.nth = static_cast<std::uint32_t>(n); });
    in_.text("number", entry_.number, true);
    in_.text("who", entry_.who, true);
    entry_.until = time("until");
    entry_.seen_at = time("seen_at");
    in_.number("doubt_s", {0, 7200, false}, [&](double s) { entry_.doubt = Seconds{s}; });
    in_.number("trust", {0, 1, false}, [&](double p) { entry_.trust = p; });
    in_.flag("not_yet", entry_.not_yet);
    in_.number("overlook", {0, 1, false}, [&](double p) { entry_.overlook = p; });
    in_.text("what", entry_.what, true);
    in_.number("amount", {0, 100000, false}, [&](double x) { entry_.amount = x; });
    in_.text("unit", entry_.unit, true);
    in_.number("beats", {20, 260, false}, [&](double x) { entry_.beats = x; });
    in_.flag("presented", entry_.presented);
    if (in_.find("accepted") != nullptr) {
      bool accepted = false;
      in_.flag("accepted", accepted);
      entry_.accepted = accepted;
    }
    in_.text("text", entry_.text, true);
    in_.text("photo", entry_.photo, true);
  }

 private:
  // With its offset, always: a log may cross a change of clocks.
  std::optional<Instant> time(const char* name) {
    std::string text;
    in_.text(name, text);
    if (text.empty()) return std::nullopt;
    const auto written = parse_written_time(text);
    if (!written || !written->offset) {
      in_.report(name, "is '" + text + "', but must be a time with its offset, such as 2026-06-13T10:32:05+01:00");
      return std::nullopt;
    }
    const auto instant = to_instant(*written, Clock{});
    if (!instant) {
      in_.report(name, instant.error().what);
      return std::nullopt;
    }
    return Instant{Seconds{std::round(instant->time_since_epoch().count())}};
  }

  JsonFields& in_;
  DayEntry& entry_;
};

void add_checks(const std::vector<Problem>& found, JsonFields& in) {
  for (const Problem& p : found) in.report(p.where, p.what);
}

// `fields`: the object of one event.
DayEvent read_event(const Json& json, const std::string& where, Problems& problems) {
  DayEvent event;
  JsonFields in(json, where, "", problems);
  if (!json.is_object()) return event;
  in.require("id", "made on the device, never used again");
  in.require("device", "which device noted it");
  in.require("noted", "the hybrid time, as [milliseconds, count]");
  in.text("id", event.id);
  in.text("device", event.device);
  if (const Json* noted = in.find("noted")) {
    const bool is_pair = noted->is_array() && noted->size() == 2 && (*noted)[0].is_number_unsigned() &&
                         (*noted)[1].is_number_unsigned() && (*noted)[0].get<std::uint64_t>() < (1ULL << 53) &&
                         (*noted)[1].get<std::uint64_t>() < 1'000'000'000;
    if (is_pair) {
      event.noted = {(*noted)[0].get<std::int64_t>(), (*noted)[1].get<std::uint32_t>()};
    } else {
      in.report("noted", "is not [milliseconds since 1970, count]");
    }
  }
  const Json* kind = in.find("kind");
  const bool is_text = kind != nullptr && kind->is_string();
  if (is_text && *kind == "correct") {
    event.act = DayEvent::Act::correct;
    in.require("of", "the id of the event meant");
    in.text("of", event.of);
    in.require("entry", "what is right");
    if (const Json* entry = in.find("entry")) {
      JsonFields inner(*entry, where, "entry", problems);
      if (entry->is_object()) EntryReader(inner, event.entry).read();
      inner.finish();
    }
  } else if (is_text && *kind == "withdraw") {
    event.act = DayEvent::Act::withdraw;
    in.require("of", "the id of the event meant");
    in.text("of", event.of);
  } else {
    EntryReader(in, event.entry).read();
  }
  in.finish();
  if (problems.empty()) add_checks(check_event(event), in);
  return event;
}

Json json_of(const DayEntry& e) {
  const Clock utc;
  Json json{{"kind", day_kind_name(e.kind)}, {"at", iso8601(e.at, utc)}};
  const auto text = [&](const char* name, const std::string& value) {
    if (!value.empty()) json[name] = value;
  };
  const auto number = [&](const char* name, const std::optional<double>& value) {
    if (value) json[name] = plain_number(*value);
  };
  text("horse", e.horse);
  text("car", e.car);
  text("place", e.place);
  if (e.loop) json["loop"] = *e.loop;
  if (e.nth) json["nth"] = *e.nth;
  text("number", e.number);
  text("who", e.who);
  if (e.until) json["until"] = iso8601(*e.until, utc);
  if (e.seen_at) json["seen_at"] = iso8601(*e.seen_at, utc);
  if (e.doubt) json["doubt_s"] = plain_number(e.doubt->count());
  number("trust", e.trust);
  if (e.not_yet) json["not_yet"] = true;
  number("overlook", e.overlook);
  text("what", e.what);
  number("amount", e.amount);
  text("unit", e.unit);
  number("beats", e.beats);
  if (e.presented) json["presented"] = true;
  if (e.accepted) json["accepted"] = *e.accepted;
  text("text", e.text);
  text("photo", e.photo);
  return json;
}

bool is_head(const Json& json) { return json.is_object() && json.contains("format"); }

// Reads the head; a problem when the file is something else.
Result<std::string> ride_of(const Json& json, const std::string& where) {
  Problems problems;
  JsonFields in(json, where, "", problems);
  std::string format, ride;
  in.find("$schema");
  in.text("format", format);
  in.text("ride", ride, true);
  if (problems.empty() && format != format_name) {
    return bad_input(where,
                     "'format' is '" + format + "', not \"" + format_name + "\"; docs/day.md shows how one begins");
  }
  const Json* version = in.find("version");
  const bool is_ours =
      version != nullptr && version->is_number_integer() && version->get<std::int64_t>() == day_log_version;
  if (!is_ours) {
    return bad_input(where, "'version' is " + (version == nullptr ? "missing" : version->dump()) +
                                ", but this outbye reads version 1");
  }
  in.finish();
  if (!problems.empty()) return tl::make_unexpected(problems.front());
  return ride;
}

}  // namespace

Result<DayLogReading> read_day_log(std::string_view text, const std::string& file) {
  DayLogReading reading;
  std::vector<DayEvent> events;
  std::size_t number = 0;
  bool has_head = false;
  while (!text.empty()) {
    ++number;
    const auto end = text.find('\n');
    const bool is_cut = end == std::string_view::npos;
    std::string_view line = text.substr(0, end);
    text = is_cut ? std::string_view{} : text.substr(end + 1);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.find_first_not_of(" \t") == std::string_view::npos) continue;
    const std::string where = file + ", line " + std::to_string(number);
    const auto keep = [&](std::vector<Problem> problems, bool is_torn) {
      reading.unread.push_back({number, std::string(line), is_torn, std::move(problems)});
    };
    const auto json = parse_json(line, where);
    if (!json) {
      if (!has_head) return bad_input(where, "is not the first line of a day log; docs/day.md shows how one begins");
      keep({{Problem::Kind::bad_input, where,
             is_cut ? "was cut off as it was written; it is kept as it is: note again what it said"
                    : "is not JSON (" + json.error().what + "); it is kept as it is"}},
           is_cut);
      continue;
    }
    if (is_head(*json)) {
      const auto ride = ride_of(*json, where);
      if (!ride && !has_head) return tl::make_unexpected(ride.error());
      if (!ride) {
        keep({ride.error()}, false);
      } else if (!has_head) {
        reading.ride = *ride;
      } else if (!ride->empty() && !reading.ride.empty() && *ride != reading.ride) {
        keep({{Problem::Kind::bad_input, where,
               "begins a log of another ride, '" + *ride + "'; what follows is read nevertheless: check the file"}},
             false);
      }
      has_head = true;
      continue;
    }
    if (!has_head) return bad_input(where, "is not the first line of a day log; docs/day.md shows how one begins");
    Problems problems;
    DayEvent event = read_event(*json, where, problems);
    if (problems.empty()) {
      events.push_back(std::move(event));
    } else {
      keep(std::move(problems), false);
    }
  }
  if (!has_head) return bad_input(file, "is empty; a day log begins with a line that says so (docs/day.md)");
  reading.log = day_log_of(std::move(events));
  return reading;
}

std::string day_log_head(const std::string& ride) {
  Json head{{"format", format_name}, {"version", day_log_version}};
  if (!ride.empty()) head["ride"] = ride;
  return head.dump() + "\n";
}

std::string day_log_line(const DayEvent& event) {
  Json json{{"id", event.id}, {"device", event.device}};
  json["noted"] = Json::array({event.noted.milliseconds, event.noted.count});
  switch (event.act) {
    case DayEvent::Act::enter:
      json.update(json_of(event.entry));
      break;
    case DayEvent::Act::correct:
      json["kind"] = "correct";
      json["of"] = event.of;
      json["entry"] = json_of(event.entry);
      break;
    case DayEvent::Act::withdraw:
      json["kind"] = "withdraw";
      json["of"] = event.of;
      break;
  }
  return json.dump() + "\n";
}

std::string write_day_log(const DayLogReading& reading) {
  std::string text = day_log_head(reading.ride);
  for (const DayEvent& event : reading.log.events) text += day_log_line(event);
  for (const UnreadLine& line : reading.unread) text += line.text + "\n";
  return text;
}

DayLogReading merged(const DayLogReading& a, const DayLogReading& b) {
  DayLogReading both{merged(a.log, b.log), a.ride.empty() ? b.ride : a.ride, a.unread};
  both.unread.insert(both.unread.end(), b.unread.begin(), b.unread.end());
  std::sort(both.unread.begin(), both.unread.end(), [](const UnreadLine& x, const UnreadLine& y) {
    return std::tie(x.text, x.number) < std::tie(y.text, y.number);
  });
  both.unread.erase(std::unique(both.unread.begin(), both.unread.end(),
                                [](const UnreadLine& x, const UnreadLine& y) { return x.text == y.text; }),
                    both.unread.end());
  return both;
}

Result<DayEvent> read_day_event(std::string_view text) {
  const auto json = parse_json(text, "event");
  if (!json) return tl::make_unexpected(json.error());
  Problems problems;
  DayEvent event = read_event(*json, "event", problems);
  if (!problems.empty()) return tl::make_unexpected(problems.front());
  return event;
}

}  // namespace outbye
