// Four days at once: the vector types that g++ and clang share, with the same few operations for a single float, so
// that a step is written once and used for whole groups of days and for the few left over. Compilers do not turn the
// steps of value_run.cpp into vector code by themselves. The results are those of plain floats, bit for bit.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>

namespace outbye::lanes {

using Four = float __attribute__((vector_size(16)));
using FourMask = std::int32_t __attribute__((vector_size(16)));

template <class F>
inline constexpr std::size_t width = sizeof(F) / sizeof(float);

template <class F>
F load(const float* from) {
  F f;
  std::memcpy(&f, from, sizeof f);
  return f;
}
template <class F>
void store(float* to, F f) {
  std::memcpy(to, &f, sizeof f);
}
template <class F>
F all(float x) {
  return F{} + x;
}

inline float pick(int is_first, float a, float b) { return is_first != 0 ? a : b; }
inline Four pick(FourMask is_first, Four a, Four b) { return is_first ? a : b; }
inline int at_most(float a, float b) { return a <= b ? 1 : 0; }
inline FourMask at_most(Four a, Four b) { return a <= b; }
inline float larger(float a, float b) { return a > b ? a : b; }
inline Four larger(Four a, Four b) { return a > b ? a : b; }
inline float smaller(float a, float b) { return a < b ? a : b; }
inline Four smaller(Four a, Four b) { return a < b ? a : b; }

// 1 where true: to be added up.
inline std::int32_t ones(int is_true) { return is_true; }
inline FourMask ones(FourMask is_true) { return -is_true; }
inline std::int32_t total(std::int32_t n) { return n; }
inline std::int32_t total(FourMask n) { return n[0] + n[1] + n[2] + n[3]; }

}  // namespace outbye::lanes
