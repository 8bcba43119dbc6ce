#include "core/live/day_event.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace outbye {
namespace {

constexpr std::array<std::pair<DayKind, std::string_view>, 21> kinds{{
    {DayKind::horse_in, "horse_in"},
    {DayKind::horse_out, "horse_out"},
    {DayKind::car_at, "car_at"},
    {DayKind::car_left, "car_left"},
    {DayKind::number_seen, "number_seen"},
    {DayKind::word, "word"},
    {DayKind::watch_begin, "watch_begin"},
    {DayKind::watch_end, "watch_end"},
    {DayKind::break_begin, "break_begin"},
    {DayKind::break_end, "break_end"},
    {DayKind::watched, "watched"},
    {DayKind::gate_in_time, "gate_in_time"},
    {DayKind::gate_outcome, "gate_outcome"},
    {DayKind::gate_out, "gate_out"},
    {DayKind::drink, "drink"},
    {DayKind::electrolyte, "electrolyte"},
    {DayKind::feed, "feed"},
    {DayKind::pulse, "pulse"},
    {DayKind::stock_used, "stock_used"},
    {DayKind::stock_filled, "stock_filled"},
    {DayKind::note, "note"},
}};

bool is_name(std::string_view text) {
  const auto is_good = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '_' ||
           c == ':' || c == '-';
  };
  return !text.empty() && text.size() <= 64 && std::all_of(text.begin(), text.end(), is_good);
}

class Check {
 public:
  explicit Check(const DayEntry& entry) : e_(entry) {}

  std::vector<Problem> problems() {
    const auto is = [this](auto... kinds_meant) { return ((e_.kind == kinds_meant) || ...); };
    using K = DayKind;
    if (!std::isfinite(e_.at.time_since_epoch().count())) report("at", "is not a time");
    if (is(K::horse_in, K::horse_out, K::number_seen, K::word, K::watch_begin, K::watched, K::car_at)) {
      needs(!e_.place.empty(), "place", "where: a crew point or the venue");
    }
    only(!e_.number.empty(), is(K::number_seen), "number");
    if (is(K::number_seen)) needs(!e_.number.empty(), "number", "the start number as it was seen");
    only(e_.until.has_value(), is(K::watched), "until");
    if (is(K::watched)) {
      needs(e_.until.has_value(), "until", "when the watch ended");
      if (e_.until && *e_.until < e_.at) report("until", "is before `at`; swap the two");
    }
    only(e_.seen_at.has_value(), is(K::word), "seen_at");
    only(e_.not_yet, is(K::word), "not_yet");
    if (is(K::word) && e_.seen_at.has_value() == e_.not_yet) {
      report("seen_at", "give the time at which she is said to have passed, or \"not_yet\": true, and not both");
    }
    only(e_.doubt.has_value(), is(K::word), "doubt");
    only(e_.trust.has_value(), is(K::word), "trust");
    only(e_.overlook.has_value(), is(K::watch_begin, K::watched), "overlook");
    if (e_.doubt) range(e_.doubt->count(), 0, 7200, "doubt");
    if (e_.trust) range(*e_.trust, 0, 1, "trust");
    if (e_.overlook) range(*e_.overlook, 0, 1, "overlook");
    const bool has_amount = is(K::drink, K::electrolyte, K::feed, K::stock_used, K::stock_filled);
    only(e_.amount.has_value(), has_amount, "amount");
    only(!e_.unit.empty(), has_amount, "unit");
    if (e_.amount) range(*e_.amount, 0, 100000, "amount");
    if (e_.unit != "" && e_.unit != "L" && e_.unit != "kg" && e_.unit != "g" && e_.unit != "pieces") {
      report("unit", "is '" + e_.unit + "'; write L, kg, g or pieces");
    }
    if (e_.amount && e_.unit.empty()) report("unit", "is missing; write L, kg, g or pieces");
    if (is(K::stock_used, K::stock_filled)) {
      needs(!e_.what.empty(), "what", "what was used or filled, such as water");
      needs(e_.amount.has_value(), "amount", "how much");
    }
    only(e_.beats.has_value(), is(K::pulse), "beats");
    only(e_.presented, is(K::pulse), "presented");
    if (is(K::pulse)) needs(e_.beats.has_value(), "beats", "the pulse in beats a minute");
    if (e_.beats) range(*e_.beats, 20, 260, "beats");
    only(e_.accepted.has_value(), is(K::gate_outcome, K::pulse), "accepted");
    if (is(K::gate_outcome)) needs(e_.accepted.has_value(), "accepted", "what the officials said: true or false");
    if (is(K::note)) needs(!e_.text.empty() || !e_.photo.empty(), "text", "or a photo");
    if (e_.loop && (*e_.loop > 20 || (*e_.loop == 0 && !is(K::gate_out)))) {
      report("loop", "is " + std::to_string(*e_.loop) + "; loops count from 1 to 20 (0 is the start, for gate_out)");
    }
    if (e_.nth && (*e_.nth == 0 || *e_.nth > 100)) report("nth", "counts passes of the loop from 1");
    return std::move(problems_);
  }

 private:
  void report(std::string where, std::string what) {
    problems_.push_back({Problem::Kind::bad_input, std::move(where), std::move(what)});
  }
  void needs(bool is_there, const char* field, const std::string& what) {
    if (!is_there) report(field, "is missing; give " + what);
  }
  void only(bool is_there, bool may_be, const char* field) {
    if (is_there && !may_be) {
      report(field, "does not belong to '" + std::string(day_kind_name(e_.kind)) + "'; leave it out");
    }
  }
  void range(double value, double from, double to, const char* field) {
    if (std::isfinite(value) && value >= from && value <= to) return;
    const auto whole = [](double x) { return std::to_string(static_cast<long>(x)); };
    report(field, "is out of range; it may be " + whole(from) + " to " + whole(to));
  }

  const DayEntry& e_;
  std::vector<Problem> problems_;
};

}  // namespace

std::string_view day_kind_name(DayKind kind) {
  for (const auto& [value, name] : kinds) {
    if (value == kind) return name;
  }
  return "note";
}

std::optional<DayKind> day_kind_named(std::string_view name) {
  for (const auto& [value, known] : kinds) {
    if (known == name) return value;
  }
  return std::nullopt;
}

std::vector<Problem> check_entry(const DayEntry& entry) { return Check(entry).problems(); }

std::vector<Problem> check_event(const DayEvent& event) {
  std::vector<Problem> problems;
  const auto check_name = [&](const std::string& name, const char* where) {
    if (is_name(name)) return;
    problems.push_back({Problem::Kind::bad_input, where,
                        "must be 1 to 64 letters, digits, '.', '_', ':' or '-', not '" + name.substr(0, 80) + "'"});
  };
  check_name(event.id, "id");
  check_name(event.device, "device");
  if (event.act != DayEvent::Act::enter) check_name(event.of, "of");
  // The hybrid time has to leave room to count on.
  if (event.noted.milliseconds < 0 || event.noted.milliseconds > 253'402'300'799'000 ||
      event.noted.count > 1'000'000'000) {
    problems.push_back({Problem::Kind::bad_input, "noted", "is not a time between 1970 and 9999"});
  }
  if (event.act != DayEvent::Act::withdraw) {
    auto of_entry = check_entry(event.entry);
    problems.insert(problems.end(), of_entry.begin(), of_entry.end());
  }
  return problems;
}

}  // namespace outbye
