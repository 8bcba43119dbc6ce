// What the heat is at one place and time: every index that the weather allows, the two that are acted on side by side
// (WBGT and degrees F + % humidity), the band of the worse one, and what to mind about each form just now.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/units.h"
#include "core/geo/position.h"
#include "core/welfare/heat_band.h"
#include "core/welfare/heat_index.h"
#include "core/welfare/liljegren.h"
#include "core/welfare/sun.h"
#include "core/welfare/weather.h"

namespace outbye {

struct HeatLoad {
  // Acted on. WBGT is the full model's where wind and radiation or cloud are known, because the short form reads 4-5
  // degrees too high at night; otherwise the short form's.
  Celsius wbgt;
  double sum{};  // degrees F + % humidity
  HeatBand wbgt_band{HeatBand::comfortable};
  HeatBand sum_band{HeatBand::comfortable};  // shown; acted on from HeatSettings::sum_counts_from up
  HeatBand band{HeatBand::comfortable};      // the worse of the two acted on
  enum class Index { wbgt, sum } set_by{Index::wbgt};
  enum class WbgtForm { short_form, full_model } form{WbgtForm::short_form};

  // Beside them, to show.
  Celsius bom_wbgt;                            // short form
  std::optional<GlobeAndWetBulbs> full;        // full model, in the open
  std::optional<Celsius> shade_wbgt;           // full model out of the sun, ISO 7243 without solar load
  std::optional<Celsius> equine_shaded_index;  // 1995 index; ceiling equine_shaded_ceiling
  std::optional<Celsius> stull_wet_bulb;       // nothing outside the formula's range
  Celsius wet_bulb;                            // psychrometer
  std::optional<double> sum_minus_wind;
  std::optional<WattsPerSquareMetre> radiation;  // that the full model used
  bool radiation_from_cloud{};
  SunPosition sun;
  Light light{Light::day};

  std::vector<std::string> notes;  // sentences: limits of the forms that apply here and now
};

// The weather as weather_at() gives it: within the ranges of WeatherHour (checked at the edge).
HeatLoad heat_load(const WeatherHour& weather, Position place, Instant at, const HeatSettings& settings = {});

// Whichever is to be acted on first: the band, then the WBGT.
bool is_worse(const HeatLoad& a, const HeatLoad& b);

}  // namespace outbye
