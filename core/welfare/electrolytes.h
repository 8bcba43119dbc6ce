// Salts a horse loses with its sweat, and what it was given. What a trial gave is told as that, never as advice, and
// everything that speaks of a dose carries its cautions.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/welfare/sweat.h"

namespace outbye {

// Grams. Calcium and magnesium are 0 where a source gives none.
struct Ions {
  Grams sodium;
  Grams chloride;
  Grams potassium;
  Grams calcium{};
  Grams magnesium{};
  friend constexpr Ions operator+(Ions a, Ions b) {
    return {a.sodium + b.sodium, a.chloride + b.chloride, a.potassium + b.potassium, a.calcium + b.calcium,
            a.magnesium + b.magnesium};
  }
  friend constexpr Ions operator*(double k, Ions a) {
    return {k * a.sodium, k * a.chloride, k * a.potassium, k * a.calcium, k * a.magnesium};
  }
};

// Ions in a litre of sweat.
struct SweatComposition {
  std::string_view name;
  Ions per_litre;
  std::string_view source;
};
// From the leanest to the richest in sodium: Arabians on forage over 60 km (Equine Vet J 2010, mid-range, from mmol);
// NRC 2007 style values (from memory); the slope of the handbook table below; a trade table (common practice).
const std::vector<SweatComposition>& sweat_compositions();

// From mmol/L to g/L.
Ions ions_from_millimoles(double sodium, double chloride, double potassium, double calcium, double magnesium);

// Daily need of a horse at rest and with so many litres of sweat (Equinews 5(1): rest, 5, 10, 20 and 40 L; straight
// lines between, the last slope beyond 40). Sodium, chloride and potassium only. At rest the middle of its range.
Ions daily_need(Litres sweat);

// Salts as weighed in: grams of sodium chloride and potassium chloride to ions.
Ions ions_of(Grams sodium_chloride, Grams potassium_chloride);

// Sodium and chloride of salt water: 90 g of salt in 10 L (0.9 %) have 3.54 g and 5.46 g a litre (derived).
Ions ions_per_litre_of_saline(double grams_of_salt, Litres water);

// Returned with every answer about what is given.
std::vector<std::string> dose_cautions();

// What a published trial gave to a horse of that mass each time (30 minutes before and at 40 km of 80 km).
struct TrialDose {
  std::string name;
  Grams sodium_chloride;
  Grams potassium_chloride;
  std::string result;  // what the trial found
  std::string source;
  std::vector<std::string> cautions;
};
std::vector<TrialDose> trial_doses(Kilograms horse);

// Losses over the day against what was given. The interval spans the range of the sweat and the compositions.
struct SaltBalance {
  Ions lost_low;   // least sweat, leanest composition of each ion
  Ions lost_high;  // most sweat, richest composition of each ion
  Ions given;
  Ions short_low;  // lost_low - given, not below 0
  Ions short_high;
  std::string source;
  std::vector<std::string> cautions;
};
SaltBalance salt_balance(const Estimate& sweat, const Ions& given);

}  // namespace outbye
