#include <cassert>

#include "formats/kit_catalogue/kit_catalogue.h"
#include "formats/kit_catalogue/preset_text.h"

namespace outbye {

const KitCatalogue& preset_kit() {
  static const KitCatalogue catalogue = [] {
    std::string text;
    for (const auto piece : preset_kit_text()) text += piece;
    auto reading = check_kit_catalogue(text, "data/kit/catalogue.json");
    assert(reading.catalogue && "the catalogue of data/kit is broken");
    return reading.catalogue ? std::move(*reading.catalogue) : KitCatalogue{};
  }();
  return catalogue;
}

}  // namespace outbye
