// Errors are values: nothing in core or engine throws. See docs/decisions/0001-errors-as-values.md.
#pragma once

#include <string>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace outbye {

struct Problem {
  enum class Kind { bad_input, not_found, impossible, cancelled };
  Kind kind{Kind::bad_input};
  std::string where;  // "track point 214"
  std::string what;   // "is 40 s earlier than the point before it": what a person would put right
};

template <class T>
using Result = tl::expected<T, Problem>;  // the only line to change for std::expected

// Odd but usable data: kept beside the result and shown to the user.
struct Warning {
  std::string where;
  std::string what;
  friend bool operator==(const Warning&, const Warning&) = default;
};
using Warnings = std::vector<Warning>;

inline tl::unexpected<Problem> problem(Problem::Kind kind, std::string where, std::string what) {
  return tl::unexpected<Problem>(Problem{kind, std::move(where), std::move(what)});
}
inline tl::unexpected<Problem> bad_input(std::string where, std::string what) {
  return problem(Problem::Kind::bad_input, std::move(where), std::move(what));
}
inline tl::unexpected<Problem> not_found(std::string where, std::string what) {
  return problem(Problem::Kind::not_found, std::move(where), std::move(what));
}
inline tl::unexpected<Problem> impossible(std::string where, std::string what) {
  return problem(Problem::Kind::impossible, std::move(where), std::move(what));
}

}  // namespace outbye
