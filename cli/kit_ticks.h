// Ticks of what is packed, written into a ride file and nothing else of it touched.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/kit/kit_item.h"
#include "core/kit/ride_kit.h"

namespace outbye {

struct KitTicks {
  std::string text;                 // the ride file with them
  std::vector<std::string> packed;  // ids, as they now stand
  std::vector<std::string> ticked;  // names, as given
  std::vector<std::string> unticked;
};

// `text` is a sound ride file. Names by id or name. Errors: not_found with the nearest name; bad_input for one that is
// to be ticked and unticked.
Result<KitTicks> with_ticks(std::string_view text, const std::string& file, const KitCatalogue& catalogue,
                            const RideKit& kit, const std::vector<std::string>& tick,
                            const std::vector<std::string>& untick);

}  // namespace outbye
