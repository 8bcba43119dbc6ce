#include "server/answer/trouble.h"

namespace outbye {
namespace {

const char* word(Trouble::Kind kind) {
  switch (kind) {
    case Trouble::Kind::bad_input:
      return "bad_input";
    case Trouble::Kind::not_found:
      return "not_found";
    case Trouble::Kind::impossible:
      return "impossible";
    case Trouble::Kind::cancelled:
      return "cancelled";
    case Trouble::Kind::conflict:
      return "conflict";
    case Trouble::Kind::too_large:
      return "too_large";
    case Trouble::Kind::storage:
      return "storage";
    case Trouble::Kind::internal:
      break;
  }
  return "internal";
}

Trouble::Kind kind_of(Problem::Kind kind) {
  switch (kind) {
    case Problem::Kind::bad_input:
      return Trouble::Kind::bad_input;
    case Problem::Kind::not_found:
      return Trouble::Kind::not_found;
    case Problem::Kind::impossible:
      return Trouble::Kind::impossible;
    case Problem::Kind::cancelled:
      break;
  }
  return Trouble::Kind::cancelled;
}

}  // namespace

tl::unexpected<std::vector<Trouble>> trouble(Trouble::Kind kind, std::string where, std::string what) {
  return tl::make_unexpected(std::vector<Trouble>{{kind, std::move(where), std::move(what)}});
}

Trouble trouble_of(const Problem& problem) { return {kind_of(problem.kind), problem.where, problem.what}; }

std::vector<Trouble> trouble_of(const std::vector<Problem>& problems) {
  std::vector<Trouble> troubles;
  for (const Problem& problem : problems) troubles.push_back(trouble_of(problem));
  return troubles;
}

int status_of(Trouble::Kind kind) {
  switch (kind) {
    case Trouble::Kind::bad_input:
    case Trouble::Kind::impossible:
      return 422;
    case Trouble::Kind::not_found:
      return 404;
    case Trouble::Kind::cancelled:
    case Trouble::Kind::conflict:
      return 409;
    case Trouble::Kind::too_large:
      return 413;
    case Trouble::Kind::storage:
      return 507;
    case Trouble::Kind::internal:
      break;
  }
  return 500;
}

Json problems_json(const std::vector<Trouble>& troubles) {
  Json problems = Json::array();
  for (const Trouble& one : troubles) {
    problems.push_back({{"kind", word(one.kind)}, {"where", one.where}, {"what", one.what}});
  }
  return {{"problems", std::move(problems)}};
}

}  // namespace outbye
