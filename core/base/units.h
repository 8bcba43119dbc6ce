// Units as types: a length cannot be added to a time, and a unit changes in one named place.
// Values are plain doubles inside; every quantity says its unit in its name.
#pragma once

#include <chrono>
#include <compare>

namespace outbye {

template <class Unit>
struct Quantity {
  double value{};
  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
  friend constexpr Quantity operator-(Quantity a) { return {-a.value}; }
  friend constexpr Quantity operator*(double k, Quantity q) { return {k * q.value}; }
  friend constexpr Quantity operator*(Quantity q, double k) { return {k * q.value}; }
  friend constexpr Quantity operator/(Quantity q, double k) { return {q.value / k}; }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value / b.value; }
  constexpr Quantity& operator+=(Quantity b) {
    value += b.value;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity b) {
    value -= b.value;
    return *this;
  }
};

using Metres = Quantity<struct MetresTag>;
using KmPerHour = Quantity<struct KmPerHourTag>;
using Litres = Quantity<struct LitresTag>;
using Kilograms = Quantity<struct KilogramsTag>;

using Seconds = std::chrono::duration<double>;
// An instant in UTC. Stored plans hold whole seconds; inside, fractions are kept (2^-22 s near the year 2026).
using Instant = std::chrono::sys_time<Seconds>;

constexpr Metres kilometres(double km) { return {1000.0 * km}; }
constexpr double in_kilometres(Metres d) { return d.value / 1000.0; }
constexpr Seconds minutes(double min) { return Seconds{60.0 * min}; }
constexpr double in_minutes(Seconds s) { return s.count() / 60.0; }
// International mile: 1609.344 m exactly.
constexpr KmPerHour miles_per_hour(double mph) { return {1.609344 * mph}; }

constexpr Seconds operator/(Metres d, KmPerHour v) { return Seconds{3.6 * d.value / v.value}; }
constexpr Metres operator*(KmPerHour v, Seconds t) { return {v.value * t.count() / 3.6}; }
constexpr KmPerHour operator/(Metres d, Seconds t) { return {3.6 * d.value / t.count()}; }

}  // namespace outbye
