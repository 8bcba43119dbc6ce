#include "core/kit/kit_facts.h"

namespace outbye {

Seconds hours_out(const KitFacts& facts) { return facts.to > facts.from ? facts.to - facts.from : Seconds{0}; }

}  // namespace outbye
