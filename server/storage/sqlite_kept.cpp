// Keepsakes and tasks.
#include "server/storage/sqlite_class.h"

namespace outbye {

Answer<std::vector<Keepsake>> SqliteStore::keepsakes() {
  const std::lock_guard guard(lock_);
  Statement asked = database_.sql(
      "SELECT keepsake.id, kind, name, keepsake.revision, data FROM keepsake JOIN keepsake_state "
      "ON keepsake_state.keepsake = keepsake.id AND keepsake_state.revision = keepsake.revision "
      "WHERE is_removed = 0 ORDER BY kind, name, keepsake.id");
  std::vector<Keepsake> kept;
  while (asked.next()) {
    kept.push_back({asked.text(0), asked.text(1), asked.text(2), asked.number(3), asked.text(4)});
  }
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return kept;
}

Answer<std::uint64_t> SqliteStore::keep(const Keepsake& keepsake, std::optional<std::uint64_t> base_revision) {
  const std::lock_guard guard(lock_);
  return database_.whole<std::uint64_t>([&]() -> Answer<std::uint64_t> {
    Statement asked = database_.sql("SELECT revision FROM keepsake WHERE id = ?");
    asked.with(keepsake.id);
    const std::uint64_t stored = asked.next() ? asked.number(0) : 0;
    if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
    if (base_revision && *base_revision != stored) {
      return trouble(Trouble::Kind::conflict, keepsake.name, "was changed on another page meanwhile; look at it again");
    }
    const std::uint64_t revision = stored + 1;
    Statement update = database_.sql(
        "INSERT INTO keepsake VALUES (?, ?, 0) "
        "ON CONFLICT (id) DO UPDATE SET revision = excluded.revision, is_removed = 0");
    update.with(keepsake.id).with(revision).next();
    if (auto ok = update.done(); !ok) return tl::make_unexpected(ok.error());
    Statement insert = database_.sql("INSERT INTO keepsake_state VALUES (?, ?, ?, ?, ?, ?)");
    insert.with(keepsake.id).with(revision).with(time_now()).with(keepsake.kind).with(keepsake.name);
    insert.with(keepsake.data).next();
    if (auto ok = insert.done(); !ok) return tl::make_unexpected(ok.error());
    return revision;
  });
}

Answer<void> SqliteStore::remove_keepsake(const std::string& id) {
  const std::lock_guard guard(lock_);
  Statement update = database_.sql("UPDATE keepsake SET is_removed = 1 WHERE id = ? AND is_removed = 0");
  update.with(id).next();
  if (auto ok = update.done(); !ok) return ok;
  if (database_.changes() == 0)
    return trouble(Trouble::Kind::not_found, "keepsake", "there is no keepsake '" + id + "'");
  return {};
}

Answer<std::vector<TaskRecord>> SqliteStore::tasks() {
  const std::lock_guard guard(lock_);
  Statement asked =
      database_.sql("SELECT id, ride, kind, state, step, share, problems FROM task ORDER BY number DESC LIMIT 200");
  std::vector<TaskRecord> tasks;
  while (asked.next()) {
    tasks.push_back(
        {asked.text(0), asked.text(1), asked.text(2), asked.text(3), asked.text(4), asked.real(5), asked.text(6)});
  }
  if (auto ok = asked.done(); !ok) return tl::make_unexpected(ok.error());
  return tasks;
}

Answer<void> SqliteStore::put_task(const TaskRecord& task) {
  const std::lock_guard guard(lock_);
  Statement put = database_.sql(
      "INSERT INTO task (id, ride, kind, state, step, share, problems) VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) "
      "DO UPDATE SET state = excluded.state, step = excluded.step, share = excluded.share, problems = "
      "excluded.problems");
  put.with(task.id).with(task.ride).with(task.kind).with(task.state).with(task.step).with_real(task.share);
  put.with(task.problems).next();
  return put.done();
}

}  // namespace outbye
