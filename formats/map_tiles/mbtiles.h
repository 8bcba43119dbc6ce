// An MBTiles 1.3 file being written. SQLite's errors end here.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "core/base/result.h"
#include "formats/map_tiles/map_tiles.h"
#include "formats/map_tiles/world.h"

struct sqlite3;
struct sqlite3_stmt;

namespace outbye {

// Of what the tiles hold: raised when layers or classes change, so that maps made before are made again.
inline constexpr int map_version = 1;

// A bare file: no journal, because a file that is not finished is thrown away.
class MbtilesWriter {
 public:
  static Result<MbtilesWriter> create(const std::filesystem::path& file);
  Result<void> add(TileId tile, const std::string& bytes);
  // Facts, index, and everything on the disk. Nothing may be added after it.
  Result<void> finish(const MapFacts& facts);

 private:
  struct Close {
    void operator()(sqlite3* db) const;
    void operator()(sqlite3_stmt* statement) const;
  };
  Result<void> run(const char* sql);
  Result<void> set(const std::string& name, const std::string& value);
  tl::unexpected<Problem> failed() const;

  std::string file_;
  std::unique_ptr<sqlite3, Close> db_;
  std::unique_ptr<sqlite3_stmt, Close> insert_;
};

}  // namespace outbye
