// The files of rides. A file belongs to the states from the revision it was added at up to, and with, the one before it
// was removed or replaced; a state has the last file of a name that it ever had.
#include "server/storage/sqlite_class.h"

namespace outbye {
namespace {

constexpr const char* now_columns = "SELECT name, kind, bytes, added_at, hash FROM ride_file ";

RideFile read_file(const Statement& row) { return {row.text(0), row.text(1), row.number(2), row.text(3), row.text(4)}; }

tl::unexpected<std::vector<Trouble>> no_file(const std::string& name) {
  return trouble(Trouble::Kind::not_found, name, "is no file of this ride");
}

}  // namespace

Answer<std::vector<RideFile>> SqliteStore::files_of(const std::string& ride) {
  if (const auto entry = entry_of(ride); !entry) return tl::make_unexpected(entry.error());
  const std::string sql = std::string(now_columns) + "WHERE ride = ? AND until_revision IS NULL ORDER BY number";
  Statement asked = database_.sql(sql.c_str());
  asked.with(ride);
  std::vector<RideFile> files;
  while (asked.next()) files.push_back(read_file(asked));
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return files;
}

// With one name twice in a state (replaced within it), the later one.
Answer<std::vector<RideFile>> SqliteStore::files_at(const std::string& ride, std::uint64_t revision) {
  const std::string sql =
      std::string(now_columns) +
      "WHERE number IN (SELECT max(number) FROM ride_file WHERE ride = ? AND from_revision <= ? AND "
      "(until_revision IS NULL OR until_revision >= ?) GROUP BY name) ORDER BY number";
  Statement asked = database_.sql(sql.c_str());
  asked.with(ride).with(revision).with(revision);
  std::vector<RideFile> files;
  while (asked.next()) files.push_back(read_file(asked));
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return files;
}

Answer<void> SqliteStore::insert_file(const std::string& ride, std::uint64_t revision, const RideFile& file) {
  Statement insert = database_.sql(
      "INSERT INTO ride_file (ride, name, kind, bytes, hash, added_at, from_revision) VALUES (?, ?, ?, ?, ?, ?, ?)");
  insert.with(ride).with(file.name).with(file.kind).with(file.bytes).with(file.hash).with(file.added_at).with(revision);
  insert.next();
  return insert.done();
}

Answer<void> SqliteStore::end_file(const std::string& ride, std::uint64_t revision, const std::string& name) {
  Statement update =
      database_.sql("UPDATE ride_file SET until_revision = ? WHERE ride = ? AND name = ? AND until_revision IS NULL");
  update.with(revision).with(ride).with(name).next();
  return update.done();
}

Answer<std::vector<RideFile>> SqliteStore::files(const std::string& ride) {
  const std::lock_guard guard(lock_);
  return files_of(ride);
}

Answer<RideFile> SqliteStore::file(const std::string& ride, const std::string& name) {
  const std::lock_guard guard(lock_);
  if (const auto entry = entry_of(ride); !entry) return tl::make_unexpected(entry.error());
  const std::string sql = std::string(now_columns) + "WHERE ride = ? AND name = ? AND until_revision IS NULL";
  Statement asked = database_.sql(sql.c_str());
  asked.with(ride).with(name);
  if (asked.next()) return read_file(asked);
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return no_file(name);
}

Answer<RideFile> SqliteStore::add_file(const std::string& ride, RideFile file) {
  const std::lock_guard guard(lock_);
  file.added_at = time_now();
  return database_.whole<RideFile>([&]() -> Answer<RideFile> {
    const auto entry = entry_of(ride);
    if (!entry) return tl::make_unexpected(entry.error());
    if (auto ok = end_file(ride, entry->revision, file.name); !ok) return tl::make_unexpected(ok.error());
    if (auto ok = insert_file(ride, entry->revision, file); !ok) return tl::make_unexpected(ok.error());
    return file;
  });
}

Answer<void> SqliteStore::remove_file(const std::string& ride, const std::string& name) {
  const std::lock_guard guard(lock_);
  return database_.whole<void>([&]() -> Answer<void> {
    const auto entry = entry_of(ride);
    if (!entry) return tl::make_unexpected(entry.error());
    if (auto ok = end_file(ride, entry->revision, name); !ok) return ok;
    if (database_.changes() == 0) return no_file(name);
    return {};
  });
}

}  // namespace outbye
