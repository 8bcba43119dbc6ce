// What is said to the crew on the day: one clause a sentence, odds as "7 in 10". Internal to engine.
#pragma once

#include "engine/day.h"

namespace outbye {

// Fills in headline, sentences and why.
void say(const RidePlan& plan, const DayAnswer& answer, const CarOnDay& car, CarAdvice& advice);

}  // namespace outbye
