// Which country a map is of, by what its makers wrote: speed limits "DE:rural", addresses, country codes.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace outbye {

// The ISO 3166-1 alpha-2 code that most tags of the extracts name ("UK" counts as GB); of equals the first in the
// alphabet. Nothing when no tag names one or a file cannot be read.
std::optional<std::string> map_country(const std::vector<std::filesystem::path>& extracts);

}  // namespace outbye
