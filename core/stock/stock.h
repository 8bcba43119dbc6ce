// How far the water, the electrolyte drink and the ice in one car last over a day: its stops in order, on many
// simulated days, with what is refilled on the way. Answers whether it stays "not dry" at the wanted chance, how much
// to carry, what to refill where, and which container to add or to leave at home.
//
// Inside, water is whole millilitres and ice whole grams, so nothing is lost in rounding: what was there at the start
// and what was filled in is what was drunk, poured, spilt and left, to the millilitre.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/physical_units.h"
#include "core/base/random.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

// Whole millilitres of water, or whole grams of ice.
struct Portion {
  std::int64_t value{};
  friend constexpr auto operator<=>(Portion, Portion) = default;
  friend constexpr Portion operator+(Portion a, Portion b) { return {a.value + b.value}; }
  friend constexpr Portion operator-(Portion a, Portion b) { return {a.value - b.value}; }
  constexpr Portion& operator+=(Portion b) {
    value += b.value;
    return *this;
  }
  constexpr Portion& operator-=(Portion b) {
    value -= b.value;
    return *this;
  }
};
Portion portion_of(Litres litres);  // to the nearest
Portion portion_of(Kilograms kilograms);
constexpr Litres in_litres(Portion water) { return {static_cast<double>(water.value) / 1000.0}; }
constexpr Kilograms in_kilograms(Portion ice) { return {static_cast<double>(ice.value) / 1000.0}; }

// What a container holds, and what it is used for. Plain water may be used for what comes after it in this order when
// that runs out (drinking water is poured over the horse before it goes uncooled), never the other way round: cooling
// water has had a sponge in it.
enum class StockKind { drinking, cooling, bottles, electrolyte, ice };
inline constexpr std::size_t stock_kind_count = 5;
std::string_view stock_kind_name(StockKind kind);  // "drinking water"
std::string_view stock_kind_unit(StockKind kind);  // "L" or "kg"
// Errors: bad_input naming the nearest kind.
Result<StockKind> parse_stock_kind(std::string_view name);
template <class T>
using ByStockKind = std::array<T, stock_kind_count>;

struct StockContainer {
  std::string name;
  StockKind holds{StockKind::drinking};
  Litres capacity{};
  std::optional<Litres> start{};   // water in it at the start; nothing: full
  std::optional<Kilograms> ice{};  // for an ice box; nothing: full
  double leak_w_per_k{1.0};        // of an ice box: core/base/water_physics.h
};

// What a stop takes when it happens: the planned litres times a lognormal factor of median 1.
struct StockDemand {
  StockKind use{StockKind::drinking};  // not ice
  Litres planned{};
  double log_sd{0.2};
  // Offered to a horse that is said not to drink: it must be there, and all but what is spilt is there afterwards, to
  // be poured over the horse or carried on.
  bool is_only_offered{};
};
struct StockIceDemand {
  Kilograms planned{};
  double log_sd{0.2};
};

// A tap. While the car stands there plain water goes straight from it into the buckets, and what it gives beyond that
// in the time there is goes into the containers, in the order of the routine. A garden tap gives 10-20 L/min (common
// practice, no source).
struct StockRefill {
  double litres_per_minute{10.0};
  Seconds time{};  // that a helper has for it
  bool has_ice{};  // ice is sold here: the boxes are filled up
};

struct StockStop {
  std::string label;
  // Whether it happens: by simulated day (repeated when there are more days), else drawn by chance.
  std::vector<std::uint8_t> by_day{};
  double chance{1.0};
  std::vector<StockDemand> water{};  // served in the routine's order
  StockIceDemand ice{};
  std::optional<StockRefill> refill{};
  Seconds since_before{};  // from the stop before, or from when the boxes were filled
  Celsius air{20.0};       // outside the ice box over that time
};

struct StockSettings {
  double chance{0.95};  // wanted, that the day ends without a dry stop
  std::size_t days{2000};
  Seed seed{1};
  double day_log_sd{0.15};  // of the whole day's demand: a hotter or cooler day than foreseen (common practice)
  double spill{0.05};       // of what is used, lost on top when pouring and carrying (common practice)
  // The routine: what is filled first at a tap, and served first.
  std::array<StockKind, 4> order{StockKind::drinking, StockKind::cooling, StockKind::bottles, StockKind::electrolyte};
  double ice_kg_per_litre{0.6};                            // cubes in a box, with the gaps (common practice)
  std::vector<Litres> sold{{1.5}, {5}, {10}, {20}, {25}};  // sizes to buy, ascending (common practice)
};

struct StockTask {
  std::string car;
  std::vector<StockContainer> containers;
  std::vector<StockStop> stops;
  StockSettings settings{};
  std::vector<std::string> assumptions{};  // carried through to the answer
};
// Errors: bad_input naming the container or stop and what to change.
Result<void> check_stock_task(const StockTask& task);
// The task without one container. Errors: not_found naming the nearest.
Result<StockTask> without_container(const StockTask& task, std::string_view name);

// One simulated day.
struct StockEntry {
  enum class Kind { filled, drunk, poured, spilt, melted } kind{};
  std::size_t stop{};
  std::optional<std::size_t> container;  // nothing: straight from the tap
  Portion amount;
};
struct StockShortage {
  std::size_t stop{};
  StockKind use{};
  Portion missing;
};
struct WaterLedger {  // start + filled = drunk + poured + spilt + left
  Portion start, filled, drunk, poured, spilt, left;
};
struct IceLedger {  // start + bought = used + melted + left
  Portion start, bought, used, melted, left;
};
struct StockDay {
  std::vector<StockEntry> entries;  // in order
  std::vector<StockShortage> shortages;
  WaterLedger water;
  IceLedger ice;
  std::vector<Portion> left;  // by container
};
// The same day in every call; 0 <= day. Errors: check_stock_task().
Result<StockDay> simulate_stock_day(const StockTask& task, std::size_t day);

struct StopStock {
  std::string label;
  double happens{};              // share of days
  double dry{};                  // share of days on which anything was short
  ByStockKind<double> dry_of{};  // ... of each use
  Portion water_after;           // of all kinds, left after it: at least this much at the wanted chance
};
// One container at one tap, in the routine's order; first what goes straight into the buckets.
struct RefillLine {
  std::size_t stop{};
  std::optional<std::size_t> container;  // nothing: straight into the buckets
  Portion median;                        // over the days on which it happens
  Portion high;                          // at most this much at the wanted chance
  Seconds time{};                        // for `high`; 0 for ice
  double hurried{};                      // share of days on which the time was up before everything was full
};
struct CarryLine {
  StockKind kind{};
  Portion carry;     // fill to this much at the start and at each tap
  Portion capacity;  // of the containers there are
};
struct StockPurchase {
  StockKind kind{};
  Portion least;                 // of it, added and full at the start
  std::optional<Litres> sold{};  // the smallest size sold that holds it; nothing: several of the largest
  std::size_t count{1};
  double chance{};  // with what is bought
};

struct StockAnswer {
  double chance{};  // share of days without a dry stop
  double standard_error{};
  bool holds{};  // chance >= wanted
  std::vector<StopStock> stops;
  ByStockKind<double> dry_of{};  // share of days, by use
  std::vector<CarryLine> carry;  // of every kind that is used
  std::vector<RefillLine> refills;
  std::optional<std::size_t> weakest;      // stop
  std::vector<StockPurchase> buy;          // empty when it holds; all of them together reach the chance
  std::vector<std::size_t> leave_at_home;  // containers; all of them together
  WaterLedger mean;                        // over the days, rounded; for people
  std::vector<std::string> assumptions;
};
// Errors: check_stock_task().
Result<StockAnswer> work_out_stock(const StockTask& task);

}  // namespace outbye
