// Long work tells how far it is, and can be told to stop. The core has no clock and no threads: whoever asks for the
// work brings both functions; either may be empty.
#pragma once

#include <functional>
#include <string>

#include "core/base/result.h"

namespace outbye {

struct Progress {
  std::function<void(const std::string& step, double share)> tell{};  // share of the whole, 0..1
  std::function<bool()> is_cancelled{};                               // asked every few milliseconds
};

inline void tell(const Progress& progress, const std::string& step, double share) {
  if (progress.tell) progress.tell(step, share);
}

inline bool is_cancelled(const Progress& progress) { return progress.is_cancelled && progress.is_cancelled(); }

inline tl::unexpected<Problem> cancelled(std::string where) {
  return problem(Problem::Kind::cancelled, std::move(where), "was stopped; nothing was changed");
}

}  // namespace outbye
