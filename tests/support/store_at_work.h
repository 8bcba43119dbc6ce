// What tests of the built server begin with.
#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <filesystem>
#include <string>

#include "tests/support/served.h"
#include "tests/support/store_folder.h"

namespace outbye::test {

// A store of its own for each test, and what tests of a running server ask again and again.
struct StoreAtWork : ::testing::Test {
  StoreFolder folder;
  std::filesystem::path store{folder.path() / "store"};

  static std::string make_ride(const Served& served, const std::string& name = "Hollin Dale") {
    return served.json("POST", "/api/v1/rides", Json{{"ride", {{"version", 1}, {"name", name}}}}.dump())["id"];
  }
  static std::string save(std::uint64_t base, const std::string& name) {
    return Json{{"base_revision", base}, {"ride", {{"version", 1}, {"name", name}}}}.dump();
  }
  static std::size_t files_in(const std::filesystem::path& place) {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(place)) count += entry.is_regular_file() ? 1U : 0U;
    return count;
  }
};

}  // namespace outbye::test
