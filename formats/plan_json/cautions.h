// What every plan reminds those who drive and crew of. Outbye never says that a horse is fit to go on.
#pragma once

#include <string>
#include <vector>

namespace outbye {

std::vector<std::string> crew_cautions();

}  // namespace outbye
