// Rides and their states.
#include "server/storage/sqlite_class.h"

namespace outbye {
namespace {

constexpr const char* entry_columns =
    "SELECT ride.id, ride.revision, ride.changed_at, ride.is_removed, json_extract(document, '$.name'), "
    "json_extract(document, '$.start') FROM ride JOIN ride_state "
    "ON ride_state.ride = ride.id AND ride_state.revision = ride.revision ";

RideEntry read_entry(const Statement& row) {
  return {row.text(0), row.number(1), row.text(2), row.number(3) != 0, row.text(4), row.text(5)};
}

tl::unexpected<std::vector<Trouble>> no_ride(const std::string& id) {
  return trouble(Trouble::Kind::not_found, "ride", "there is no ride '" + id + "'");
}

}  // namespace

Answer<std::vector<RideEntry>> SqliteStore::rides() {
  const std::lock_guard guard(lock_);
  const std::string sql = std::string(entry_columns) + "ORDER BY ride.changed_at DESC, ride.rowid DESC";
  Statement asked = database_.sql(sql.c_str());
  std::vector<RideEntry> entries;
  while (asked.next()) entries.push_back(read_entry(asked));
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return entries;
}

Answer<RideEntry> SqliteStore::entry_of(const std::string& id) {
  const std::string sql = std::string(entry_columns) + "WHERE ride.id = ?";
  Statement asked = database_.sql(sql.c_str());
  asked.with(id);
  if (asked.next()) return read_entry(asked);
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return no_ride(id);
}

Answer<RideEntry> SqliteStore::ride(const std::string& id) {
  const std::lock_guard guard(lock_);
  return entry_of(id);
}

Answer<Saved> SqliteStore::add_state(const std::string& ride, const RideText& text, const std::string& label) {
  const auto entry = entry_of(ride);
  if (!entry) return tl::make_unexpected(entry.error());
  const Saved saved{entry->revision + 1, time_now()};
  Statement state = database_.sql("INSERT INTO ride_state VALUES (?, ?, ?, ?, ?, ?)");
  state.with(ride).with(saved.revision).with(saved.at).with(label).with(text.document).with(text.drafts).next();
  if (auto ok = state.done(); !ok) return tl::make_unexpected(ok.error());
  Statement update = database_.sql("UPDATE ride SET revision = ?, changed_at = ? WHERE id = ?");
  update.with(saved.revision).with(saved.at).with(ride).next();
  if (auto ok = update.done(); !ok) return tl::make_unexpected(ok.error());
  return saved;
}

Answer<std::string> SqliteStore::insert_ride(const RideText& text, const std::string& label) {
  const std::string id = fresh_id('r');
  const std::string at = time_now();
  Statement ride = database_.sql("INSERT INTO ride VALUES (?, 1, ?, 0)");
  ride.with(id).with(at).next();
  if (auto ok = ride.done(); !ok) return tl::make_unexpected(ok.error());
  Statement state = database_.sql("INSERT INTO ride_state VALUES (?, 1, ?, ?, ?, ?)");
  state.with(id).with(at).with(label).with(text.document).with(text.drafts).next();
  if (auto ok = state.done(); !ok) return tl::make_unexpected(ok.error());
  return id;
}

Answer<std::string> SqliteStore::make_ride(const RideText& text, const std::string& label) {
  const std::lock_guard guard(lock_);
  return database_.whole<std::string>([&] { return insert_ride(text, label); });
}

Answer<std::string> SqliteStore::copy_ride(const std::string& id, const RideText& text) {
  const std::lock_guard guard(lock_);
  return database_.whole<std::string>([&]() -> Answer<std::string> {
    const auto files = files_of(id);
    if (!files) return tl::make_unexpected(files.error());
    auto copy = insert_ride(text, "copied");
    if (!copy) return copy;
    for (const RideFile& file : *files) {
      if (auto ok = insert_file(*copy, 1, file); !ok) return tl::make_unexpected(ok.error());
    }
    return copy;
  });
}

Answer<tl::expected<Saved, Conflict>> SqliteStore::save_ride(const std::string& id, std::uint64_t base_revision,
                                                             const RideText& text, const std::string& label) {
  const std::lock_guard guard(lock_);
  using Outcome = tl::expected<Saved, Conflict>;
  return database_.whole<Outcome>([&]() -> Answer<Outcome> {
    const auto entry = entry_of(id);
    if (!entry) return tl::make_unexpected(entry.error());
    if (entry->revision != base_revision) {
      auto stored = state_of(id, entry->revision);
      if (!stored) return tl::make_unexpected(stored.error());
      return Outcome(tl::make_unexpected(Conflict{std::move(*stored)}));
    }
    const auto saved = add_state(id, text, label);
    if (!saved) return tl::make_unexpected(saved.error());
    return Outcome(*saved);
  });
}

Answer<void> SqliteStore::set_removed(const std::string& id, bool is_removed) {
  const std::lock_guard guard(lock_);
  Statement update = database_.sql("UPDATE ride SET is_removed = ? WHERE id = ?");
  update.with(std::uint64_t{is_removed ? 1U : 0U}).with(id).next();
  if (auto ok = update.done(); !ok) return ok;
  if (database_.changes() == 0) return no_ride(id);
  return {};
}

Answer<std::vector<StateEntry>> SqliteStore::states(const std::string& ride, std::uint64_t before, std::size_t most) {
  const std::lock_guard guard(lock_);
  if (const auto entry = entry_of(ride); !entry) return tl::make_unexpected(entry.error());
  Statement asked = database_.sql(
      "SELECT revision, at, label FROM ride_state WHERE ride = ? AND (? = 0 OR revision < ?) "
      "ORDER BY revision DESC LIMIT ?");
  asked.with(ride).with(before).with(before).with(std::uint64_t{most});
  std::vector<StateEntry> states;
  while (asked.next()) states.push_back({asked.number(0), asked.text(1), asked.text(2)});
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return states;
}

Answer<RideState> SqliteStore::state_of(const std::string& ride, std::uint64_t revision) {
  Statement asked =
      database_.sql("SELECT revision, at, label, document, drafts FROM ride_state WHERE ride = ? AND revision = ?");
  asked.with(ride).with(revision);
  if (asked.next()) {
    return RideState{asked.number(0), asked.text(1), asked.text(2), {asked.text(3), asked.text(4)}};
  }
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return trouble(Trouble::Kind::not_found, "revision", "this ride has no state " + std::to_string(revision));
}

Answer<RideState> SqliteStore::state(const std::string& ride, std::uint64_t revision) {
  const std::lock_guard guard(lock_);
  if (const auto entry = entry_of(ride); !entry) return tl::make_unexpected(entry.error());
  return state_of(ride, revision);
}

Answer<RideState> SqliteStore::newest_state(const std::string& ride) {
  const std::lock_guard guard(lock_);
  const auto entry = entry_of(ride);
  if (!entry) return tl::make_unexpected(entry.error());
  return state_of(ride, entry->revision);
}

Answer<RideState> SqliteStore::restore_state(const std::string& ride, std::uint64_t revision) {
  const std::lock_guard guard(lock_);
  return database_.whole<RideState>([&]() -> Answer<RideState> {
    if (const auto entry = entry_of(ride); !entry) return tl::make_unexpected(entry.error());
    const auto old = state_of(ride, revision);
    if (!old) return tl::make_unexpected(old.error());
    const auto saved = add_state(ride, old->text, "as it was in state " + std::to_string(revision));
    if (!saved) return tl::make_unexpected(saved.error());
    const auto had = files_at(ride, revision);
    if (!had) return tl::make_unexpected(had.error());
    for (const RideFile& file : *had) {
      if (auto ok = end_file(ride, saved->revision, file.name); !ok) return tl::make_unexpected(ok.error());
      if (auto ok = insert_file(ride, saved->revision, file); !ok) return tl::make_unexpected(ok.error());
    }
    return state_of(ride, saved->revision);
  });
}

}  // namespace outbye
