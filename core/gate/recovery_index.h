// The cardiac recovery index: a pulse, a trot of 40 m out and back, and the pulse again 60 s after the trot began.
// A rise of more than 4 bpm is suspect (CRI timing, conference abstract; Equine Vet J Suppl 2002, tb05400: at the end
// of the hold it told something only where the first pulse was above 60). The arithmetic alone: what it means is for
// the vet.
#pragma once

#include "core/base/physical_units.h"
#include "core/base/result.h"
#include "core/base/units.h"

namespace outbye {

struct RecoveryIndex {
  BeatsPerMinute rise{};  // second less first; negative: lower after the trot
  bool is_suspect{};      // more than 4 bpm
  Warnings warnings;      // suspect; first pulse above 60; counted at another time than 60 s
};

RecoveryIndex recovery_index(BeatsPerMinute first, BeatsPerMinute second, Seconds after_trot_began = Seconds{60.0});

}  // namespace outbye
