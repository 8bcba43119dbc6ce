#include "core/welfare/electrolytes.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <type_traits>

#include "core/base/random.h"

namespace outbye {
namespace {

using testing::Contains;
using testing::HasSubstr;

// Equinews 5(1), Electrolytes and the endurance horse.
TEST(DailyNeed, MeetsTheHandbookTable) {
  const double litres[] = {5, 10, 20, 40};
  const double sodium[] = {33, 50, 85, 155};
  const double chloride[] = {55, 83, 139, 251};
  const double potassium[] = {46, 52, 64, 88};
  for (int i = 0; i < 4; ++i) {
    const Ions need = daily_need({litres[i]}).ions;
    EXPECT_NEAR(need.sodium.value, sodium[i], 1);
    EXPECT_NEAR(need.chloride.value, chloride[i], 1);
    EXPECT_NEAR(need.potassium.value, potassium[i], 1);
  }
}

// (155 - 33) / 35 = 3.486 and (251 - 55) / 35 = 5.600; potassium (88 - 46) / 35 = 1.200 (derived).
TEST(DailyNeed, HasTheSlopeOfSweat) {
  const Ions at_5 = daily_need({5}).ions;
  const Ions at_40 = daily_need({40}).ions;
  EXPECT_NEAR((at_40.sodium - at_5.sodium).value / 35, 3.486, 0.001);
  EXPECT_NEAR((at_40.chloride - at_5.chloride).value / 35, 5.600, 0.001);
  EXPECT_NEAR((at_40.potassium - at_5.potassium).value / 35, 1.200, 0.001);
}

TEST(DailyNeed, NeverFallsWithMoreSweatAndStaysWithinTheRangeAtRest) {
  for (double litres = 0; litres < 60; litres += 0.5) {
    EXPECT_LE(daily_need({litres}).ions.sodium, daily_need({litres + 0.5}).ions.sodium);
    EXPECT_LE(daily_need({litres}).ions.potassium, daily_need({litres + 0.5}).ions.potassium);
  }
  EXPECT_GE(daily_need({0}).ions.sodium, Grams{15});
  EXPECT_LE(daily_need({0}).ions.sodium, Grams{20});
}

// Equine Vet J 2010: 88-104, 133, 46, 8.5 and 2.3 mmol/L, in grams 2.0-2.4, 4.7, 1.8, 0.34 and 0.056 (derived).
TEST(Millimoles, ComeToTheGramsOfTheArabians) {
  EXPECT_NEAR(ions_from_millimoles(88, 0, 0, 0, 0).sodium.value, 2.0, 0.05);
  EXPECT_NEAR(ions_from_millimoles(104, 0, 0, 0, 0).sodium.value, 2.4, 0.05);
  const Ions sweat = ions_from_millimoles(96, 133, 46, 8.5, 2.3);
  EXPECT_NEAR(sweat.chloride.value, 4.7, 0.05);
  EXPECT_NEAR(sweat.potassium.value, 1.8, 0.05);
  EXPECT_NEAR(sweat.calcium.value, 0.34, 0.005);
  EXPECT_NEAR(sweat.magnesium.value, 0.056, 0.0005);
}

// 0.07 g/kg of NaCl and 0.02 of KCl for 480 kg: 33.6 and 9.6 g; the high dose for 500 kg: 100 and 35 g (Equine Vet J
// Suppl 2006).
TEST(TrialDoses, AreWhatTheTrialGave) {
  const auto of_480 = trial_doses(Kilograms{480});
  EXPECT_NEAR(of_480[1].sodium_chloride.value, 33.6, 1e-9);
  EXPECT_NEAR(of_480[1].potassium_chloride.value, 9.6, 1e-9);
  const auto of_500 = trial_doses(Kilograms{500});
  EXPECT_NEAR(of_500[0].sodium_chloride.value, 100, 1e-9);
  EXPECT_NEAR(of_500[0].potassium_chloride.value, 35, 1e-9);
}

TEST(TrialDoses, NeverComeWithoutTheirCautions) {
  for (const auto& dose : trial_doses(Kilograms{450})) {
    EXPECT_THAT(dose.cautions, Contains(HasSubstr("tried at home")));
    EXPECT_THAT(dose.cautions, Contains(HasSubstr("never to a horse that does not drink")));
  }
  EXPECT_THAT(salt_balance({{1}, {2}, {3}}, {}).cautions, Contains(HasSubstr("Tell the vet")));
}

// 0.9 %, 90 g in 10 L (common practice): 3.54 g of sodium and 5.46 g of chloride a litre (derived).
TEST(Saline, HasTheIonsOfItsSalt) {
  const Saline mix = saline(Litres{10});
  EXPECT_NEAR(mix.salt.value, 90, 1e-9);
  EXPECT_NEAR(mix.per_litre.sodium.value, 3.54, 0.005);
  EXPECT_NEAR(mix.per_litre.chloride.value, 5.46, 0.005);
}

TEST(Saline, OfHalfTheStrengthHasHalfTheSalt) {  // 0.45 %, as in the trial of Equine Vet J Suppl 2002
  EXPECT_NEAR(saline(Litres{10}, {0.45}).salt.value, 45, 1e-9);
}

TEST(Saline, OfNoWaterIsNoSalt) { EXPECT_EQ(saline(Litres{0}).salt, Grams{0}); }

// The type of every answer that holds a dose: it cannot be made without its cautions, nor emptied of them.
static_assert(std::is_same_v<decltype(TrialDose::cautions), DoseCautions>);
static_assert(std::is_same_v<decltype(SaltBalance::cautions), DoseCautions>);
static_assert(std::is_same_v<decltype(DailyNeed::cautions), DoseCautions>);
static_assert(std::is_same_v<decltype(Saline::cautions), DoseCautions>);
static_assert(std::is_empty_v<DoseCautions>);

TEST(DoseCautions, SayHomeWaterDrinkingVetAndRules) {
  const DoseCautions cautions;
  EXPECT_EQ(cautions.size(), 4u);
  for (const char* word : {"tried at home", "With or after water", "never to a horse that does not drink",
                           "Tell the vet", "prohibited substances"})
    EXPECT_THAT(cautions, Contains(HasSubstr(word)));
}

TEST(DoseCautions, ComeWithAnAnswerThatWasMadeEmpty) {
  EXPECT_EQ(TrialDose{}.cautions.size(), 4u);
  EXPECT_EQ(SaltBalance{}.cautions.size(), 4u);
}

TEST(TrialDoses, AreToldAsWhatATrialGave) {
  for (const auto& dose : trial_doses(Kilograms{450})) {
    EXPECT_THAT(dose.name, HasSubstr("of the trial"));
    EXPECT_THAT(dose.result, HasSubstr("might not be appropriate"));
  }
}

// A trade table (common practice, no source): 4.0, 7.0, 1.3, 0.25 and 0.13 g/L.
TEST(SaltBalance, ByOneCompositionIsLitresTimesThatComposition) {
  const auto& trade = sweat_compositions().back();
  const auto balance = salt_balance({{10}, {20}, {30}}, {}, trade);
  EXPECT_NEAR(balance.lost_low.sodium.value, 40, 1e-9);
  EXPECT_NEAR(balance.lost_high.chloride.value, 210, 1e-9);
  EXPECT_NEAR(balance.lost_high.magnesium.value, 3.9, 1e-9);
  EXPECT_THAT(balance.source, HasSubstr("trade table"));
}

TEST(SaltBalance, OverAllCompositionsHoldsThatOfEachOne) {
  const Estimate sweat{{14}, {20}, {26}};
  const auto all = salt_balance(sweat, {});
  for (const auto& composition : sweat_compositions()) {
    const auto one = salt_balance(sweat, {}, composition);
    EXPECT_LE(all.lost_low.sodium, one.lost_low.sodium) << composition.name;
    EXPECT_GE(all.lost_high.sodium, one.lost_high.sodium) << composition.name;
    EXPECT_LE(all.lost_low.chloride, one.lost_low.chloride) << composition.name;
    EXPECT_GE(all.lost_high.potassium, one.lost_high.potassium) << composition.name;
  }
}

TEST(SaltBalance, IsNeverShortOfLessThanNothing) {
  const auto balance = salt_balance({{1}, {1}, {1}}, ions_of({500}, {200}));
  EXPECT_EQ(balance.short_high.sodium, Grams{0});
  EXPECT_EQ(balance.short_low.potassium, Grams{0});
}

TEST(IonsOf, KeepTheMassOfTheSalts) {
  const Ions ions = ions_of({33.6}, {9.6});
  EXPECT_NEAR((ions.sodium + ions.chloride + ions.potassium).value, 43.2, 1e-9);
}

TEST(SaltBalance, MoreGivenNeverRaisesTheShortfallAndMoreSweatNeverLowersIt) {
  Rng rng{Seed{3}};
  for (int i = 0; i < 300; ++i) {
    const double litres = 40 * uniform(rng);
    const Estimate sweat{{0.7 * litres}, {litres}, {1.3 * litres}};
    const double salt = 100 * uniform(rng);
    const auto less = salt_balance(sweat, ions_of({salt}, {0.3 * salt}));
    const auto more = salt_balance(sweat, ions_of({salt + 10}, {0.3 * salt + 3}));
    EXPECT_LE(more.short_high.sodium, less.short_high.sodium);
    EXPECT_LE(more.short_low.potassium, less.short_low.potassium);
    const auto wetter = salt_balance(sweat + Estimate{{1}, {2}, {3}}, ions_of({salt}, {0.3 * salt}));
    EXPECT_GE(wetter.short_high.chloride, less.short_high.chloride);
    EXPECT_GE(wetter.short_low.chloride, less.short_low.chloride);
    EXPECT_LE(less.short_low.sodium, less.short_high.sodium);
  }
}

}  // namespace
}  // namespace outbye
