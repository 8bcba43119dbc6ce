#include "formats/map_tiles/mbtiles.h"

#include <sqlite3.h>

#include <array>
#include <charconv>
#include <nlohmann/json.hpp>

#include "core/base/text.h"
#include "formats/map_tiles/gzip.h"
#include "formats/map_tiles/map_look.h"

namespace outbye {
namespace {

// MBTiles counts rows from the south.
std::int64_t row_of(int z, std::int64_t y) { return (std::int64_t{1} << z) - 1 - y; }

// The layers as the standard wants them listed, with the kinds of their attributes.
std::string vector_layers() {
  using Json = nlohmann::ordered_json;
  const Json none = Json::object(), name{{"name", "String"}}, of_class{{"class", "String"}};
  const Json named{{"class", "String"}, {"name", "String"}};
  const std::array<Json, map_layer_count> fields{
      named,
      name,
      named,
      Json{{"class", "String"}, {"level", "Number"}},
      Json{{"class", "String"}, {"name", "String"}, {"ref", "String"}, {"level", "Number"}, {"private", "Number"}},
      none,
      named,
      Json{{"class", "String"}, {"name", "String"}, {"metres", "Number"}}};
  Json layers = Json::array();
  for (std::size_t i = 0; i < map_layer_count; ++i) {
    layers.push_back(Json{{"id", std::string(layer_name(static_cast<MapLayer>(i)))}, {"fields", fields[i]}});
  }
  return Json{{"vector_layers", layers}}.dump();
}

std::string degrees(double value) { return fixed(value, 6); }

}  // namespace

void MbtilesWriter::Close::operator()(sqlite3* db) const { sqlite3_close(db); }
void MbtilesWriter::Close::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

tl::unexpected<Problem> MbtilesWriter::failed() const {
  return problem(Problem::Kind::cancelled, file_,
                 "cannot be written (" + std::string(sqlite3_errmsg(db_.get())) + "); is the disk full or read-only?");
}

Result<void> MbtilesWriter::run(const char* sql) {
  if (sqlite3_exec(db_.get(), sql, nullptr, nullptr, nullptr) != SQLITE_OK) return failed();
  return {};
}

Result<MbtilesWriter> MbtilesWriter::create(const std::filesystem::path& file) {
  MbtilesWriter writer;
  writer.file_ = file.string();
  sqlite3* db = nullptr;
  const int opened = sqlite3_open_v2(writer.file_.c_str(), &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
  writer.db_.reset(db);
  if (opened != SQLITE_OK) return writer.failed();
  // application_id: "MPBX", as registered for MBTiles.
  auto made = writer.run(
      "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA application_id = 0x4d504258; BEGIN;"
      "CREATE TABLE metadata (name TEXT, value TEXT);"
      "CREATE TABLE tiles (zoom_level INTEGER, tile_column INTEGER, tile_row INTEGER, tile_data BLOB);");
  if (!made) return tl::make_unexpected(made.error());
  sqlite3_stmt* insert = nullptr;
  if (sqlite3_prepare_v2(db, "INSERT INTO tiles VALUES (?, ?, ?, ?)", -1, &insert, nullptr) != SQLITE_OK) {
    return writer.failed();
  }
  writer.insert_.reset(insert);
  return writer;
}

Result<void> MbtilesWriter::add(TileId tile, const std::string& bytes) {
  const std::string packed = gzipped(bytes);
  sqlite3_stmt* insert = insert_.get();
  sqlite3_reset(insert);
  sqlite3_bind_int(insert, 1, tile.z);
  sqlite3_bind_int64(insert, 2, tile.x);
  sqlite3_bind_int64(insert, 3, row_of(tile.z, tile.y));
  sqlite3_bind_blob64(insert, 4, packed.data(), packed.size(), SQLITE_STATIC);
  if (sqlite3_step(insert) != SQLITE_DONE) return failed();
  return {};
}

Result<void> MbtilesWriter::set(const std::string& name, const std::string& value) {
  sqlite3_stmt* raw = nullptr;
  if (sqlite3_prepare_v2(db_.get(), "INSERT INTO metadata VALUES (?, ?)", -1, &raw, nullptr) != SQLITE_OK) {
    return failed();
  }
  const std::unique_ptr<sqlite3_stmt, Close> statement(raw);
  sqlite3_bind_text(raw, 1, name.c_str(), -1, SQLITE_STATIC);
  sqlite3_bind_text(raw, 2, value.c_str(), -1, SQLITE_STATIC);
  if (sqlite3_step(raw) != SQLITE_DONE) return failed();
  return {};
}

Result<void> MbtilesWriter::finish(const MapFacts& facts) {
  const BoundingBox& box = facts.bounds;
  const std::string bounds =
      degrees(box.west) + "," + degrees(box.south) + "," + degrees(box.east) + "," + degrees(box.north);
  const std::string center = degrees((box.west + box.east) / 2) + "," + degrees((box.south + box.north) / 2) + ",11";
  const std::pair<const char*, std::string> rows[] = {{"name", "Outbye map"},
                                                      {"format", "pbf"},
                                                      {"type", "baselayer"},
                                                      {"version", std::to_string(map_version)},
                                                      {"description", "What the extracts of a ride show"},
                                                      {"bounds", bounds},
                                                      {"center", center},
                                                      {"minzoom", std::to_string(facts.min_zoom)},
                                                      {"maxzoom", std::to_string(facts.max_zoom)},
                                                      {"attribution", facts.attribution},
                                                      {"generator", "outbye"},
                                                      {"json", vector_layers()}};
  for (const auto& [name, value] : rows) {
    auto done = set(name, value);
    if (!done) return done;
  }
  insert_.reset();
  auto done =
      run("CREATE UNIQUE INDEX tile_index ON tiles (zoom_level, tile_column, tile_row); COMMIT; PRAGMA synchronous = "
          "FULL;");
  if (!done) return done;
  if (sqlite3_close(db_.get()) != SQLITE_OK) return failed();
  static_cast<void>(db_.release());
  return {};
}

// ---- reading

struct MapSource::Store {
  struct Close {
    void operator()(sqlite3* db) const { sqlite3_close(db); }
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  std::string file;
  MapFacts facts;
  std::unique_ptr<sqlite3, Close> db;  // in serialised mode: several threads may ask
};

namespace {

using Statement = std::unique_ptr<sqlite3_stmt, MapSource::Store::Close>;

Statement prepared(sqlite3* db, const char* sql) {
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(db, sql, -1, &statement, nullptr);
  return Statement(statement);
}

std::optional<std::string> metadata(sqlite3* db, const char* name) {
  const Statement statement = prepared(db, "SELECT value FROM metadata WHERE name = ?");
  if (!statement) return std::nullopt;
  sqlite3_bind_text(statement.get(), 1, name, -1, SQLITE_STATIC);
  if (sqlite3_step(statement.get()) != SQLITE_ROW) return std::nullopt;
  const unsigned char* text = sqlite3_column_text(statement.get(), 0);
  if (text == nullptr) return std::nullopt;
  return std::string(text, text + sqlite3_column_bytes(statement.get(), 0));
}

// "west,south,east,north"
std::optional<BoundingBox> bounds_from(const std::string& text) {
  std::array<double, 4> values{};
  std::size_t from = 0;
  for (double& value : values) {
    const std::size_t to = std::min(text.find(',', from), text.size());
    const auto number = parse_decimal(std::string_view(text).substr(from, to - from));
    if (!number) return std::nullopt;
    value = *number;
    from = to + 1;
    if (from > text.size() && &value != &values.back()) return std::nullopt;
  }
  return BoundingBox{values[1], values[0], values[3], values[2]};
}

}  // namespace

MapSource::MapSource(std::unique_ptr<Store> store) : store_(std::move(store)) {}
MapSource::MapSource(MapSource&&) noexcept = default;
MapSource& MapSource::operator=(MapSource&&) noexcept = default;
MapSource::~MapSource() = default;
const MapFacts& MapSource::facts() const { return store_->facts; }

Result<MapSource> open_map(const std::filesystem::path& file) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(file, error)) {
    return not_found(file.string(), "does not exist; make the map again from its extract");
  }
  auto store = std::make_unique<MapSource::Store>();
  store->file = file.string();
  sqlite3* db = nullptr;
  const int opened = sqlite3_open_v2(store->file.c_str(), &db, SQLITE_OPEN_READONLY | SQLITE_OPEN_FULLMUTEX, nullptr);
  store->db.reset(db);
  const auto version = opened == SQLITE_OK ? metadata(db, "version") : std::nullopt;
  if (!version || metadata(db, "generator") != "outbye") {
    return bad_input(store->file, "is damaged, or no map made by outbye; make it again from its extract");
  }
  if (*version != std::to_string(map_version)) {
    return bad_input(store->file, "was made by another version of outbye; make it again from its extract");
  }
  const auto bounds = bounds_from(metadata(db, "bounds").value_or(""));
  const auto attribution = metadata(db, "attribution");
  if (!bounds || !attribution) return bad_input(store->file, "is damaged; make it again from its extract");
  store->facts.bounds = *bounds;
  store->facts.attribution = *attribution;
  return MapSource(std::move(store));
}

Result<std::optional<std::string>> map_tile(const MapSource& map, int z, std::int64_t x, std::int64_t y) {
  constexpr std::size_t largest = std::size_t{64} << 20;  // bytes; ours have some hundred thousand
  const MapSource::Store& store = map.store();
  if (z < store.facts.min_zoom || z > store.facts.max_zoom) return std::nullopt;
  const std::int64_t side = std::int64_t{1} << z;
  if (x < 0 || y < 0 || x >= side || y >= side) return std::nullopt;
  const auto damaged = [&] {
    return bad_input(store.file, "is damaged at tile " + std::to_string(z) + "/" + std::to_string(x) + "/" +
                                     std::to_string(y) + "; make it again from its extract");
  };
  const Statement statement =
      prepared(store.db.get(), "SELECT tile_data FROM tiles WHERE zoom_level = ? AND tile_column = ? AND tile_row = ?");
  if (!statement) return damaged();
  sqlite3_bind_int(statement.get(), 1, z);
  sqlite3_bind_int64(statement.get(), 2, x);
  sqlite3_bind_int64(statement.get(), 3, row_of(z, y));
  const int found = sqlite3_step(statement.get());
  if (found == SQLITE_DONE) return std::nullopt;
  if (found != SQLITE_ROW) return damaged();
  const auto* data = static_cast<const char*>(sqlite3_column_blob(statement.get(), 0));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement.get(), 0));
  if (data == nullptr) return damaged();
  auto bytes = gunzipped({data, size}, largest);
  if (!bytes) return damaged();
  return std::optional<std::string>(std::move(*bytes));
}

}  // namespace outbye
