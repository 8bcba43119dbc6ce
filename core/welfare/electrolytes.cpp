#include "core/welfare/electrolytes.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace outbye {
namespace {

// Atomic masses in g/mol (IUPAC, from memory).
constexpr double sodium_mass = 22.990;
constexpr double chlorine_mass = 35.453;
constexpr double potassium_mass = 39.098;
constexpr double calcium_mass = 40.078;
constexpr double magnesium_mass = 24.305;

struct NeedRow {
  double litres;
  double sodium;
  double chloride;
  double potassium;
};
// Equinews 5(1). Rest: 15-20, 27-33 and 40-50 g, by their middles.
constexpr std::array<NeedRow, 5> needs{
    {{0, 17.5, 30, 45}, {5, 33, 55, 46}, {10, 50, 83, 52}, {20, 85, 139, 64}, {40, 155, 251, 88}}};

Ions each(const Ions& a, const Ions& b, Grams (*pick)(Grams, Grams)) {
  return {pick(a.sodium, b.sodium), pick(a.chloride, b.chloride), pick(a.potassium, b.potassium),
          pick(a.calcium, b.calcium), pick(a.magnesium, b.magnesium)};
}
Grams lesser(Grams a, Grams b) { return std::min(a, b); }
Grams greater(Grams a, Grams b) { return std::max(a, b); }
Grams shortfall(Grams lost, Grams given) { return std::max(Grams{0}, lost - given); }
// A source without a figure for calcium or magnesium says nothing about it: it does not count as none.
Ions leaner(const Ions& a, const Ions& b) {
  const auto known = [](Grams x, Grams y) { return x == Grams{0} ? y : y == Grams{0} ? x : std::min(x, y); };
  return {lesser(a.sodium, b.sodium), lesser(a.chloride, b.chloride), lesser(a.potassium, b.potassium),
          known(a.calcium, b.calcium), known(a.magnesium, b.magnesium)};
}

}  // namespace

Ions ions_from_millimoles(double sodium, double chloride, double potassium, double calcium, double magnesium) {
  return {{sodium * sodium_mass / 1000},
          {chloride * chlorine_mass / 1000},
          {potassium * potassium_mass / 1000},
          {calcium * calcium_mass / 1000},
          {magnesium * magnesium_mass / 1000}};
}

const std::vector<SweatComposition>& sweat_compositions() {
  static const std::vector<SweatComposition> all{
      {"Arabians on forage", ions_from_millimoles(96, 133, 46, 8.5, 2.3),
       "Sweat composition in Arabian horses on low sodium rations, Equine Vet J 2010: 88-104 mmol/L sodium"},
      {"feed tables", {{3.1}, {5.65}, {1.5}, {0.12}, {0.05}}, "values in the manner of NRC 2007, from memory"},
      {"handbook slope", {{3.5}, {5.6}, {1.2}, {}, {}}, "slope of the daily need, Equinews 5(1), derived"},
      {"trade table", {{4.0}, {7.0}, {1.3}, {0.25}, {0.13}}, "common practice, no source"},
  };
  return all;
}

DailyNeed daily_need(Litres sweat) {
  std::size_t row = 1;
  while (row + 1 < needs.size() && sweat.value > needs[row].litres) ++row;
  const NeedRow& a = needs[row - 1];
  const NeedRow& b = needs[row];
  const double share = (std::max(0.0, sweat.value) - a.litres) / (b.litres - a.litres);
  DailyNeed need;
  need.ions.sodium = {a.sodium + share * (b.sodium - a.sodium)};
  need.ions.chloride = {a.chloride + share * (b.chloride - a.chloride)};
  need.ions.potassium = {a.potassium + share * (b.potassium - a.potassium)};
  need.source = "Electrolytes and the endurance horse, Equinews 5(1): the whole day, feed included";
  return need;
}

Ions ions_of(Grams sodium_chloride, Grams potassium_chloride) {
  const double na = sodium_mass / (sodium_mass + chlorine_mass);
  const double k = potassium_mass / (potassium_mass + chlorine_mass);
  return {
      na * sodium_chloride, (1 - na) * sodium_chloride + (1 - k) * potassium_chloride, k * potassium_chloride, {}, {}};
}

Saline saline(Litres water, Percent strength) {
  const Grams a_litre{10.0 * strength.value};
  Saline mix;
  mix.salt = water.value * a_litre;
  mix.per_litre = ions_of(a_litre, {});
  mix.source = "common practice, no source: 0.9 % is 90 g in 10 L; ions derived from molar masses";
  return mix;
}

const std::vector<std::string>& DoseCautions::lines() {
  static const std::vector<std::string> all{
      "Only what was tried at home, and in the amount tried at home.",
      "With or after water, never undiluted; never to a horse that does not drink.",
      "Tell the vet what was given, how much and when: keep a list.",
      "Check it against the rules on prohibited substances first.",
  };
  return all;
}

std::string_view DoseCautions::source() {
  return "from memory; the trial (Equine Vet J Suppl 2006) says of its high dose that it might not be appropriate";
}

std::vector<TrialDose> trial_doses(Kilograms horse) {
  const std::string source =
      "Effects of oral electrolyte supplementation on endurance horses competing in 80 km rides, Equine Vet J Suppl "
      "2006";
  const std::string result =
      "The high dose raised drinking, sodium and chloride in the blood, not speed or weight; the authors say it might "
      "not be appropriate.";
  return {{"high dose of the trial", {0.2 * horse.value}, {0.07 * horse.value}, result, source, {}},
          {"low dose of the trial", {0.07 * horse.value}, {0.02 * horse.value}, result, source, {}}};
}

namespace {

SaltBalance balance_between(const Estimate& sweat, const Ions& given, const Ions& lean, const Ions& rich,
                            const std::string& make_up) {
  SaltBalance balance;
  balance.lost_low = sweat.low.value * lean;
  balance.lost_high = sweat.high.value * rich;
  balance.given = given;
  balance.short_low = each(balance.lost_low, given, shortfall);
  balance.short_high = each(balance.lost_high, given, shortfall);
  balance.source = "Litres of sweat times the composition of sweat, " + make_up +
                   ". Most of it is made good by feed over the following days.";
  return balance;
}

}  // namespace

SaltBalance salt_balance(const Estimate& sweat, const Ions& given) {
  const auto& all = sweat_compositions();
  Ions lean = all.front().per_litre;
  Ions rich = all.front().per_litre;
  for (const auto& composition : all) {
    lean = leaner(lean, composition.per_litre);
    rich = each(rich, composition.per_litre, greater);
  }
  return balance_between(
      sweat, given, lean, rich,
      "from the leanest to the richest source for each ion (Equine Vet J 2010, Equinews 5(1), values "
      "from memory and a trade table)");
}

SaltBalance salt_balance(const Estimate& sweat, const Ions& given, const SweatComposition& composition) {
  return balance_between(sweat, given, composition.per_litre, composition.per_litre,
                         std::string{composition.name} + " (" + std::string{composition.source} + ")");
}

}  // namespace outbye
