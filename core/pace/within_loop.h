// The part of log-pace that wanders within a loop: a stationary Ornstein-Uhlenbeck process X along the course,
// E X = 0, Cov(X(a), X(b)) = sd^2 exp(-|a - b| / length). What riding time needs is not X but its mean over each piece
// of course, and these means are drawn here exactly, with one normal draw a piece and no error of discretisation.
//
// Over a piece of length h from a to b, given X(a), the pair (mean of X, X(b)) is Gaussian with, for u = h / length:
//   E mean = c X(a), c = (1 - e^-u) / u;          E X(b) = f X(a), f = e^-u
//   Var mean = sd^2 (v - c^2), v = 2 (u - 1 + e^-u) / u^2;   Var X(b) = sd^2 (1 - f^2);   Cov = sd^2 c (1 - f)
// (D. T. Gillespie, Exact numerical simulation of the Ornstein-Uhlenbeck process and its integral, Phys. Rev. E 54
// (1996) 2084-2091; from memory, and derived anew). X itself is never shown, so it is not drawn: a Kalman filter
// carries what the means so far say about it (R. E. Kalman, 1960), which leaves one draw a piece instead of two.
#pragma once

#include <vector>

#include "core/base/units.h"

namespace outbye {

// Gains of one piece: with m the filtered mean of X at its start and z a standard normal draw,
//   mean over the piece = from_state * m + from_draw * z,   m at its end = keep * m + learn * z.
struct WanderStep {
  double from_state{};
  double from_draw{};
  double keep{};
  double learn{};
};

// `pieces` (>= 1) equal pieces over `course` (> 0); sd >= 0; length > 0. Begins with m = 0.
std::vector<WanderStep> wander_steps(Metres course, std::size_t pieces, double sd, Metres length);

// Variance of the mean of X over a stretch, as a share of sd^2: v above with u = stretch / length >= 0.
double mean_variance_share(double u);

}  // namespace outbye
