#include <cstdint>

#include "core/base/text.h"
#include "formats/exports/exports.h"
#include "formats/exports/plan_words.h"
#include "formats/exports/stop_lines.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

// RFC 5545, 3.1: at most 75 octets a line without its end; the rest after a space on the next, and no character torn.
void add_line(std::string& out, const std::string& line) {
  std::size_t from = 0;
  std::size_t room = 75;
  while (line.size() - from > room) {
    std::size_t to = from + room;
    while (to > from + 1 && (static_cast<unsigned char>(line[to]) & 0xC0U) == 0x80U) --to;
    out += line.substr(from, to - from) + "\r\n ";
    from = to;
    room = 74;
  }
  out += line.substr(from) + "\r\n";
}

std::string text(std::string_view raw) {
  std::string out;
  for (const char c : xml_text(raw)) {
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    if (c == '\n') {
      out += "\\n";
    } else if (c != '\r') {
      out += c;
    }
  }
  return out;
}

// 20260613T060000Z
std::string utc(Instant at) {
  std::string out;
  for (const char c : iso8601(at, Clock{}).substr(0, 19)) {
    if (c != '-' && c != ':') out += c;
  }
  return out + "Z";
}

// FNV-1a, 64 bits: for names that stay the same.
std::string hash_of(const std::string& words) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : words) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  std::string out;
  for (int i = 0; i < 16; ++i, hash >>= 4U) out += "0123456789abcdef"[hash & 15U];
  return out;
}

struct Event {
  std::string uid;
  Instant from, to;
  std::string summary, words;
  std::string place;
  std::optional<Position> where;
  std::optional<Instant> alarm;
  std::string alarm_words;
};

void add_event(std::string& out, const Event& event, Instant made) {
  add_line(out, "BEGIN:VEVENT");
  add_line(out, "UID:" + event.uid);
  add_line(out, "DTSTAMP:" + utc(made));
  add_line(out, "DTSTART:" + utc(event.from));
  // An event ends after it begins.
  add_line(out, "DTEND:" + utc(std::max(event.to, event.from + Seconds{60})));
  add_line(out, "SUMMARY:" + text(event.summary));
  add_line(out, "DESCRIPTION:" + text(event.words));
  if (!event.place.empty()) add_line(out, "LOCATION:" + text(event.place));
  if (event.where) add_line(out, "GEO:" + fixed(event.where->latitude, 6) + ";" + fixed(event.where->longitude, 6));
  if (event.alarm) {
    add_line(out, "BEGIN:VALARM");
    add_line(out, "ACTION:DISPLAY");
    add_line(out, "TRIGGER;VALUE=DATE-TIME:" + utc(*event.alarm));
    add_line(out, "DESCRIPTION:" + text(event.alarm_words));
    add_line(out, "END:VALARM");
  }
  add_line(out, "END:VEVENT");
}

}  // namespace

std::string plan_calendar(const RidePlan& plan, const ExportChoice& choice, Instant made) {
  std::string out;
  add_line(out, "BEGIN:VCALENDAR");
  add_line(out, "VERSION:2.0");
  add_line(out, "PRODID:-//Outbye//Crew plan//EN");
  add_line(out, "CALSCALE:GREGORIAN");
  for (const CarDay& day : plan.plan.days) {
    if (choice.only_car && day.car != *choice.only_car) continue;
    const std::string car = car_words(plan, day.car);
    for (std::size_t s = 0; s < day.stops.size(); ++s) {
      const TimedStop& stop = day.stops[s];
      const std::string name = stop_words(plan, stop);
      const std::string id = hash_of(plan.ride.name + "\n" + local_date(plan.ride.start, plan.ride.clock) + "\n" + car +
                                     "\n" + name + (stop.stop.option ? "" : "\n" + std::to_string(s)));
      Event event;
      event.words = stop_line(plan, day, s);
      event.place = place_words(plan, stop.place);
      event.where = at(plan.places, stop.place).position;
      if (stop.drive_planned > Seconds{0}) {
        Event drive = event;
        drive.uid = id + "-drive@outbye.invalid";
        drive.from = stop.depart;
        drive.to = stop.arrive;
        drive.summary = car + ": drive to " + name;
        if (const TimedStop* limit = limit_for(day, s)) {
          drive.summary = car + ": leave by " + time_words(*limit->leave_by, plan) + " for " + name;
          drive.alarm = *limit->leave_by;
          drive.alarm_words = drive.summary;
          if (limit->fallback) drive.alarm_words += "; later: " + meet_words(plan, *limit->fallback);
        }
        add_event(out, drive, made);
      }
      event.uid = id + "-stop@outbye.invalid";
      event.from = stop.arrive;
      event.to = stop.leave;
      event.summary = car + ": " + name;
      if (stop.stop.option) event.summary += ", due " + time_words(stop.due.p50, plan);
      add_event(out, event, made);
    }
  }
  add_line(out, "END:VCALENDAR");
  return out;
}

}  // namespace outbye
