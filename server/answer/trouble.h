// What stands between a request and its answer, as the page is told: the problems of the engine, and those that only a
// server has (a save that came too late, a full disk).
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "formats/json_text/json_text.h"

namespace outbye {

struct Trouble {
  enum class Kind { bad_input, not_found, impossible, cancelled, conflict, too_large, storage, internal };
  Kind kind{Kind::internal};
  std::string where;  // a field of the ride, "loops[0].speed_kmh", a file's name, or a place
  std::string what;   // what a person would put right
};

template <class T>
using Answer = tl::expected<T, std::vector<Trouble>>;

tl::unexpected<std::vector<Trouble>> trouble(Trouble::Kind kind, std::string where, std::string what);

Trouble trouble_of(const Problem& problem);
std::vector<Trouble> trouble_of(const std::vector<Problem>& problems);

// The one place where a kind becomes a status.
int status_of(Trouble::Kind kind);

// {"problems": [{"kind", "where", "what"}]}
Json problems_json(const std::vector<Trouble>& troubles);

}  // namespace outbye
