#include "core/welfare/weather.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/base/text.h"

namespace outbye {

namespace {

constexpr Seconds hour{3600.0};
constexpr Seconds longest_gap{3 * 3600.0};

std::string hour_name(std::size_t i) { return "weather, hour " + std::to_string(i + 1); }

// What is wrong with a value, or nothing. NaN is out of every range.
std::string out_of_range(const char* name, double value, double low, double high, int decimals) {
  if (value >= low && value <= high) return {};
  return std::string(name) + " " + (std::isfinite(value) ? fixed(value, 1) : "that is not a number") + " is outside " +
         fixed(low, decimals) + " to " + fixed(high, decimals);
}

std::string trouble(const WeatherHour& h) {
  std::string what;
  const auto look = [&](const char* name, double value, double low, double high) {
    if (what.empty()) what = out_of_range(name, value, low, high, 0);
  };
  look("temperature", h.temperature.value, -60, 60);
  look("humidity", h.humidity.value, 0, 100);
  if (h.wind) look("wind", h.wind->value, 0, 60);
  if (h.radiation) look("radiation", h.radiation->value, 0, 1500);
  if (h.cloud) look("cloud", *h.cloud, 0, 1);
  if (h.pressure) look("pressure", h.pressure->value, 500, 1100);
  if (h.rain_mm) look("rain", *h.rain_mm, 0, 300);
  return what;
}

// a + share (b - a), exact at both ends.
double between(double a, double b, double share) { return (1.0 - share) * a + share * b; }

std::optional<double> between(const std::optional<double>& a, const std::optional<double>& b, double share) {
  if (!a || !b) return std::nullopt;
  return between(*a, *b, share);
}
template <class Unit>
std::optional<Quantity<Unit>> between(const std::optional<Quantity<Unit>>& a, const std::optional<Quantity<Unit>>& b,
                                      double share) {
  if (!a || !b) return std::nullopt;
  return Quantity<Unit>{between(a->value, b->value, share)};
}

}  // namespace

Result<void> check_weather(const Weather& weather) {
  for (std::size_t i = 0; i < weather.size(); ++i) {
    if (const std::string what = trouble(weather[i]); !what.empty()) return bad_input(hour_name(i), what);
    if (i > 0 && !(weather[i - 1].at < weather[i].at)) {
      return bad_input(hour_name(i), weather[i - 1].at == weather[i].at ? "has the time of the hour before it"
                                                                        : "is earlier than the hour before it");
    }
  }
  return {};
}

std::optional<WeatherHour> weather_at(const Weather& weather, Instant at) {
  if (weather.empty()) return std::nullopt;
  // The first hour later than `at`; the one before it began at or before `at`.
  const auto next =
      std::upper_bound(weather.begin(), weather.end(), at, [](Instant t, const WeatherHour& h) { return t < h.at; });
  // Outside the table the nearest hour stands for up to an hour.
  if (next == weather.begin() || next == weather.end()) {
    WeatherHour edge = next == weather.begin() ? weather.front() : weather.back();
    const Seconds away = next == weather.begin() ? edge.at - at : at - edge.at;
    if (away > hour) return std::nullopt;
    // Rain is of the hour from its own time on.
    if (next == weather.begin() || away >= hour) edge.rain_mm.reset();
    edge.at = at;
    return edge;
  }
  const WeatherHour& a = *(next - 1);
  const WeatherHour& b = *next;
  const Seconds gap = b.at - a.at;
  if (gap > longest_gap && at != a.at) return std::nullopt;
  const double share = (at - a.at) / gap;
  return WeatherHour{at,
                     {between(a.temperature.value, b.temperature.value, share)},
                     {between(a.humidity.value, b.humidity.value, share)},
                     between(a.wind, b.wind, share),
                     between(a.radiation, b.radiation, share),
                     between(a.cloud, b.cloud, share),
                     between(a.pressure, b.pressure, share),
                     at - a.at < hour ? a.rain_mm : std::nullopt};
}

}  // namespace outbye
