#include "formats/rule_book/rule_values.h"

#include <array>
#include <cmath>
#include <limits>

namespace outbye {
namespace {

constexpr Range pulse_range{20.0, 250.0};
constexpr Range minutes_range{0.0, 10080.0};  // a week: rides over several days
constexpr Range speed_range{0.0, 60.0, true};
constexpr Range mass_range{0.0, 200.0, true};
constexpr Range km_range{0.0, 1000.0};
constexpr Range share_range{0.0, 0.5};
constexpr std::uint32_t most = 100;  // loops, people, presentations

// To the microsecond and micrometre, as in the ride file: what is written comes back the same.
double on_grid(double value) { return std::round(value * 1e6) / 1e6; }
double short_enough(double value) { return std::round(value * 1e10) / 1e10; }

template <class T>
void read_number(JsonFields& in, std::string_view name, Range range, std::optional<T>& into) {
  in.number(name, range, [&](double value) { into = T{value}; });
}

template <class T, std::size_t n>
void read_word(JsonFields& in, std::string_view name, const std::array<std::pair<std::string_view, T>, n>& words,
               std::optional<T>& into) {
  std::string word;
  in.text(name, word);
  if (word.empty()) return;
  std::string choices;
  for (const auto& [known, value] : words) {
    if (word == known) {
      into = value;
      return;
    }
    choices += (choices.empty() ? "\"" : ", \"") + std::string(known) + "\"";
  }
  in.report(name, "is '" + word + "', but must be one of " + choices);
}

template <class T, std::size_t n>
std::string_view word_of(const std::array<std::pair<std::string_view, T>, n>& words, T value) {
  for (const auto& [word, known] : words) {
    if (known == value) return word;
  }
  return "";
}

constexpr std::array<std::pair<std::string_view, HoldFrom>, 2> hold_words{
    {{"in-time", HoldFrom::in_time}, {"arrival", HoldFrom::arrival}}};
constexpr std::array<std::pair<std::string_view, ClockStops>, 2> clock_words{
    {{"line", ClockStops::at_line}, {"in-time", ClockStops::at_in_time}}};
constexpr std::array<std::pair<std::string_view, Mark>, 5> mark_words{{{"published", Mark::published},
                                                                       {"derived", Mark::derived},
                                                                       {"from memory", Mark::from_memory},
                                                                       {"common practice", Mark::common_practice},
                                                                       {"event", Mark::event}}};

// A number for both ends, or [from, to]; null as the second: no upper end.
std::optional<Interval<double>> read_interval(JsonFields& in, std::string_view name, Range range) {
  const Json* field = in.find(name);
  if (field == nullptr) return std::nullopt;
  if (!field->is_array()) {
    const auto both = in.number_of(*field, in.path_of(name), range);
    return both ? std::optional(Interval<double>{*both, *both}) : std::nullopt;
  }
  if (field->size() != 2) {
    in.report(name, "has " + std::to_string(field->size()) + " entries, but [from, to] is wanted");
    return std::nullopt;
  }
  const auto from = in.number_of((*field)[0], in.path_of(name) + "[0]", range);
  auto to = std::optional(std::numeric_limits<double>::infinity());
  if (!(*field)[1].is_null()) to = in.number_of((*field)[1], in.path_of(name) + "[1]", range);
  if (!from || !to) return std::nullopt;
  if (*to < *from) {
    in.report(name, "ends below where it begins; put the smaller number first");
    return std::nullopt;
  }
  return Interval<double>{*from, *to};
}

}  // namespace

void read_plain(JsonFields& in, std::string_view name, std::optional<BeatsPerMinute>& into) {
  read_number(in, name, pulse_range, into);
}
void read_plain(JsonFields& in, std::string_view name, std::optional<Seconds>& into) {
  in.number(name, minutes_range, [&](double min) { into = Seconds{on_grid(60.0 * min)}; });
}
void read_plain(JsonFields& in, std::string_view name, std::optional<KmPerHour>& into) {
  read_number(in, name, speed_range, into);
}
void read_plain(JsonFields& in, std::string_view name, std::optional<Kilograms>& into) {
  read_number(in, name, mass_range, into);
}
void read_plain(JsonFields& in, std::string_view name, std::optional<Metres>& into) {
  in.number(name, km_range, [&](double km) { into = Metres{on_grid(1000.0 * km)}; });
}
void read_plain(JsonFields& in, std::string_view name, std::optional<Interval<Metres>>& into) {
  if (const auto km = read_interval(in, name, km_range)) {
    into = Interval<Metres>{{on_grid(1000.0 * km->from)}, {on_grid(1000.0 * km->to)}};
  }
}
void read_plain(JsonFields& in, std::string_view name, std::optional<std::uint32_t>& into) {
  in.whole(name, 0, most, [&](std::uint64_t count) { into = static_cast<std::uint32_t>(count); });
}
void read_plain(JsonFields& in, std::string_view name, std::optional<Interval<std::uint32_t>>& into) {
  const auto count = read_interval(in, name, {0.0, most});
  if (!count) return;
  const bool is_open = !std::isfinite(count->to);
  if (count->from != std::floor(count->from) || (!is_open && count->to != std::floor(count->to))) {
    return in.report(name, "is not whole; write whole numbers");
  }
  into = {static_cast<std::uint32_t>(count->from),
          is_open ? std::numeric_limits<std::uint32_t>::max() : static_cast<std::uint32_t>(count->to)};
}
void read_plain(JsonFields& in, std::string_view name, std::optional<double>& into) {
  read_number(in, name, share_range, into);
}
void read_plain(JsonFields& in, std::string_view name, std::optional<bool>& into) {
  if (in.find(name) == nullptr) return;
  bool flag = false;
  const std::size_t before = in.problems().size();
  in.flag(name, flag);
  if (in.problems().size() == before) into = flag;
}
void read_plain(JsonFields& in, std::string_view name, std::optional<HoldFrom>& into) {
  read_word(in, name, hold_words, into);
}
void read_plain(JsonFields& in, std::string_view name, std::optional<ClockStops>& into) {
  read_word(in, name, clock_words, into);
}

Json plain_json(BeatsPerMinute value) { return plain_number(value.value); }
Json plain_json(Seconds value) { return plain_number(short_enough(in_minutes(value))); }
Json plain_json(KmPerHour value) { return plain_number(value.value); }
Json plain_json(Kilograms value) { return plain_number(value.value); }
Json plain_json(Metres value) { return plain_number(short_enough(in_kilometres(value))); }
Json plain_json(const Interval<Metres>& value) {
  const Json to = std::isfinite(value.to.value) ? plain_json(value.to) : Json(nullptr);
  return Json::array({plain_json(value.from), to});
}
Json plain_json(std::uint32_t value) { return value; }
Json plain_json(const Interval<std::uint32_t>& value) {
  const bool is_open = value.to == std::numeric_limits<std::uint32_t>::max();
  return Json::array({Json(value.from), is_open ? Json(nullptr) : Json(value.to)});
}
Json plain_json(double value) { return plain_number(value); }
Json plain_json(bool value) { return value; }
Json plain_json(HoldFrom value) { return word_of(hold_words, value); }
Json plain_json(ClockStops value) { return word_of(clock_words, value); }

std::string_view mark_name(Mark mark) { return word_of(mark_words, mark); }
void read_mark(JsonFields& in, std::string_view name, std::optional<Mark>& into) {
  read_word(in, name, mark_words, into);
}

}  // namespace outbye
