// Salts a horse loses with its sweat, and what it was given. What a trial gave is told as that, never as advice, and
// everything that speaks of a dose carries its cautions.
#pragma once

#include <cstddef>
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

// The cautions that go with every answer about what is given. They are part of the type: an answer that holds a dose
// holds one of these, and there is no way to make it without its sentences. To be shown whole.
class DoseCautions {
 public:
  using value_type = std::string;
  using const_iterator = std::vector<std::string>::const_iterator;
  const_iterator begin() const { return lines().begin(); }
  const_iterator end() const { return lines().end(); }
  std::size_t size() const { return lines().size(); }
  static const std::vector<std::string>& lines();
  // The effect on drinking and the doubt about the high dose are published; the rest is from memory.
  static std::string_view source();
};

struct DailyNeed {
  Ions ions;
  std::string_view source;
  DoseCautions cautions;
};
// Need of the whole day, feed included, of a horse at rest and with so many litres of sweat (Equinews 5(1): rest, 5,
// 10, 20 and 40 L; straight lines between, the last slope beyond 40). Sodium, chloride and potassium only. At rest the
// middle of its range (15-20, 27-33 and 40-50 g). It is not what to give on top of the feed.
DailyNeed daily_need(Litres sweat);

// Salts as weighed in: grams of sodium chloride and potassium chloride to ions.
Ions ions_of(Grams sodium_chloride, Grams potassium_chloride);

// Salt water to stand beside plain water, never instead of it.
struct Saline {
  Grams salt;
  Ions per_litre;
  std::string_view source;
  DoseCautions cautions;
};
// 90 g of salt in 10 L (0.9 %, common practice) have 3.54 g of sodium and 5.46 g of chloride a litre (derived).
// Percent by weight in volume, 10 g a litre for each percent.
Saline saline(Litres water, Percent strength = {0.9});

// What a published trial gave to a horse of that mass each time (30 minutes before and at 40 km of 80 km).
struct TrialDose {
  std::string name;
  Grams sodium_chloride;
  Grams potassium_chloride;
  std::string result;  // what the trial found
  std::string source;
  DoseCautions cautions;
};
std::vector<TrialDose> trial_doses(Kilograms horse);

// Losses over the day against what was given. The interval spans the range of the sweat and the compositions. The
// shortfall is not a dose to make up: hay and feed bring salts back over the following days, potassium above all.
struct SaltBalance {
  Ions lost_low;   // least sweat, leanest composition of each ion
  Ions lost_high;  // most sweat, richest composition of each ion
  Ions given;
  Ions short_low;  // lost_low - given, not below 0
  Ions short_high;
  std::string source;
  DoseCautions cautions;
};
SaltBalance salt_balance(const Estimate& sweat, const Ions& given);
// By one make-up of sweat alone: an element of sweat_compositions(). What its source does not name counts as 0 here.
SaltBalance salt_balance(const Estimate& sweat, const Ions& given, const SweatComposition& composition);

}  // namespace outbye
