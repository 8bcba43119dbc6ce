// The orienteering solver on the 29 published instances: every route valid, every score proven and the published one.
#include <gtest/gtest.h>

#include <iostream>

#include "core/crewing/orienteering_check.h"
#include "tests/support/orienteering_instances.h"

namespace outbye {
namespace {

class PublishedInstance : public testing::TestWithParam<KnownInstance> {};

TEST_P(PublishedInstance, IsProvenOptimalWithAValidRoute) {
  const KnownInstance known = GetParam();
  const std::string folder = std::string(OUTBYE_SHARED) + "/data/bench/optw";
  const auto problem = read_instance(folder, known.name);
  if (!problem) GTEST_SKIP() << "no " << known.name << ".txt with 101 points in " << folder;

  const auto answer = solve_orienteering(*problem);
  ASSERT_TRUE(answer) << answer.error().what;
  const auto checked = check_route(*problem, answer->route);
  ASSERT_TRUE(checked) << checked.error().where << " " << checked.error().what;
  EXPECT_EQ(*checked, answer->score);
  EXPECT_LE(answer->score, answer->upper_bound);
  if (!answer->is_proven) {
    std::cout << known.name << " not proven: " << answer->score << " .. " << answer->upper_bound << '\n';
  }
  EXPECT_TRUE(answer->is_proven);
  EXPECT_EQ(answer->score, known.score) << "the published score is quoted from memory: check which of the two is wrong";
}

INSTANTIATE_TEST_SUITE_P(Optw, PublishedInstance, testing::ValuesIn(known_instances),
                         [](const auto& instance) { return std::string(instance.param.name); });

}  // namespace
}  // namespace outbye
