#include "server/storage/migrations.h"

#include <iterator>

namespace outbye {
namespace {

// A released step is never changed: a store may have taken it.
constexpr const char* steps[] = {
    // 1: rides with their states, files, keepsakes, tasks
    R"sql(
CREATE TABLE ride (
  id TEXT PRIMARY KEY,
  revision INTEGER NOT NULL,
  changed_at TEXT NOT NULL,
  is_removed INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE TABLE ride_state (
  ride TEXT NOT NULL REFERENCES ride(id),
  revision INTEGER NOT NULL,
  at TEXT NOT NULL,
  label TEXT NOT NULL,
  document TEXT NOT NULL,
  drafts TEXT NOT NULL,
  PRIMARY KEY (ride, revision)
) STRICT;
CREATE TABLE ride_file (
  number INTEGER PRIMARY KEY,
  ride TEXT NOT NULL REFERENCES ride(id),
  name TEXT NOT NULL,
  kind TEXT NOT NULL,
  bytes INTEGER NOT NULL,
  hash TEXT NOT NULL,
  added_at TEXT NOT NULL,
  from_revision INTEGER NOT NULL,  -- of the ride when it was added
  until_revision INTEGER           -- of the ride when it was removed or replaced
) STRICT;
CREATE UNIQUE INDEX ride_file_now ON ride_file (ride, name) WHERE until_revision IS NULL;
CREATE TABLE keepsake (
  id TEXT PRIMARY KEY,
  revision INTEGER NOT NULL,
  is_removed INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE TABLE keepsake_state (
  keepsake TEXT NOT NULL REFERENCES keepsake(id),
  revision INTEGER NOT NULL,
  at TEXT NOT NULL,
  kind TEXT NOT NULL,
  name TEXT NOT NULL,
  data TEXT NOT NULL,
  PRIMARY KEY (keepsake, revision)
) STRICT;
CREATE TABLE task (
  number INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  ride TEXT NOT NULL REFERENCES ride(id),
  kind TEXT NOT NULL,
  state TEXT NOT NULL,
  step TEXT NOT NULL,
  share REAL NOT NULL,
  problems TEXT NOT NULL
) STRICT;
)sql",
};

}  // namespace

std::uint64_t newest_layout() { return std::size(steps); }

Answer<void> migrate(Database& database) {
  Statement asked = database.sql("PRAGMA user_version");
  std::uint64_t layout = 0;
  while (asked.next()) layout = asked.number(0);
  if (auto ok = asked.done(); !ok) return ok;
  if (layout > newest_layout()) {
    return trouble(Trouble::Kind::storage, "store",
                   "was written by a newer outbye (layout " + std::to_string(layout) +
                       "); use that one, or another "
                       "folder with --store");
  }
  for (; layout < newest_layout(); ++layout) {
    const auto step = [&]() -> Answer<void> {
      if (auto ok = database.run(steps[layout]); !ok) return ok;
      return database.run(("PRAGMA user_version = " + std::to_string(layout + 1)).c_str());
    };
    if (auto ok = database.whole<void>(step); !ok) return ok;
  }
  return {};
}

}  // namespace outbye
