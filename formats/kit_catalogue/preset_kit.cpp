#include <cassert>

#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/kit_catalogue/preset_text.h"

namespace outbye {

const KitCatalogue& preset_kit() {
  static const KitCatalogue catalogue = [] {
    const auto preset = preset_kit_texts().front();
    auto reading = check_kit_catalogue(preset.text, "data/kit/" + preset.file);
    assert(reading.catalogue && "the catalogue of data/kit is broken");
    return reading.catalogue ? std::move(*reading.catalogue) : KitCatalogue{};
  }();
  return catalogue;
}

}  // namespace outbye
