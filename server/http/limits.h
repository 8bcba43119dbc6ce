// How much, how long and how many.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>

namespace outbye {

struct Limits {
  std::uint32_t head_bytes{16 * 1024};
  std::uint64_t json_bytes{1 << 20};
  std::uint64_t engine_bytes{(2 << 20) + 4096};  // two rides to compare
  std::uint64_t photo_bytes{10 << 20};
  std::uint64_t file_bytes{std::uint64_t{512} << 20};
  std::size_t connections{64};
  std::size_t waiting{128};  // requests taken in and not answered yet
  std::chrono::milliseconds head_time{
      10'000};  // from the first byte of a request, or the connection, to its last header
  std::chrono::milliseconds idle_time{60'000};                    // between two requests of a connection
  std::chrono::milliseconds piece_time{15'000};                   // for each 64 KB of a body, in or out
  std::chrono::milliseconds body_time{std::chrono::minutes(30)};  // for all of it
};

}  // namespace outbye
