#include "formats/map_tiles/gzip.h"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <cassert>

namespace outbye {
namespace {

constexpr int gzip_window = 15 + 16;  // zlib manual, deflateInit2: 16 more for a gzip header

// zlib reads what it takes by a pointer that is not const, and does not write there.
Bytef* input_of(std::string_view bytes) { return const_cast<Bytef*>(reinterpret_cast<const Bytef*>(bytes.data())); }

}  // namespace

std::string gzipped(std::string_view bytes) {
  z_stream stream{};
  [[maybe_unused]] const int ready =
      deflateInit2(&stream, Z_DEFAULT_COMPRESSION, Z_DEFLATED, gzip_window, 8, Z_DEFAULT_STRATEGY);
  assert(ready == Z_OK);
  std::string out(deflateBound(&stream, static_cast<uLong>(bytes.size())), '\0');
  stream.next_in = input_of(bytes);
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  [[maybe_unused]] const int done = deflate(&stream, Z_FINISH);
  assert(done == Z_STREAM_END);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

std::optional<std::string> gunzipped(std::string_view bytes, std::size_t limit) {
  z_stream stream{};
  if (inflateInit2(&stream, gzip_window) != Z_OK) return std::nullopt;
  stream.next_in = input_of(bytes);
  stream.avail_in = static_cast<uInt>(bytes.size());
  std::string out;
  std::array<char, 65536> chunk{};
  int state = Z_OK;
  while (state == Z_OK && out.size() <= limit) {
    stream.next_out = reinterpret_cast<Bytef*>(chunk.data());
    stream.avail_out = static_cast<uInt>(chunk.size());
    state = inflate(&stream, Z_NO_FLUSH);
    out.append(chunk.data(), chunk.size() - stream.avail_out);
  }
  inflateEnd(&stream);
  if (state != Z_STREAM_END || out.size() > limit) return std::nullopt;
  return out;
}

}  // namespace outbye
