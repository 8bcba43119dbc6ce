// The store on SQLite, one lock for all of it: every call takes well under a millisecond but for the flush. Internal to
// storage.
#pragma once

#include <functional>
#include <mutex>

#include "server/storage/database.h"
#include "server/storage/fresh_id.h"
#include "server/storage/store.h"

namespace outbye {

class SqliteStore final : public Store {
 public:
  SqliteStore(Database database, std::function<Instant()> now, int lock_file);
  SqliteStore(const SqliteStore&) = delete;
  SqliteStore& operator=(const SqliteStore&) = delete;
  ~SqliteStore() override;

  Answer<void> prepare();  // the layout

  Answer<std::vector<RideEntry>> rides() override;
  Answer<RideEntry> ride(const std::string& id) override;
  Answer<std::string> make_ride(const RideText& text, const std::string& label) override;
  Answer<std::string> copy_ride(const std::string& id, const RideText& text) override;
  Answer<tl::expected<Saved, Conflict>> save_ride(const std::string& id, std::uint64_t base_revision,
                                                  const RideText& text, const std::string& label) override;
  Answer<void> set_removed(const std::string& id, bool is_removed) override;

  Answer<std::vector<StateEntry>> states(const std::string& ride, std::uint64_t before, std::size_t most) override;
  Answer<RideState> state(const std::string& ride, std::uint64_t revision) override;
  Answer<RideState> newest_state(const std::string& ride) override;
  Answer<RideState> restore_state(const std::string& ride, std::uint64_t revision) override;

  Answer<std::vector<RideFile>> files(const std::string& ride) override;
  Answer<RideFile> file(const std::string& ride, const std::string& name) override;
  Answer<RideFile> add_file(const std::string& ride, RideFile file) override;
  Answer<void> remove_file(const std::string& ride, const std::string& name) override;

  Answer<std::vector<Keepsake>> keepsakes() override;
  Answer<std::uint64_t> keep(const Keepsake& keepsake, std::optional<std::uint64_t> base_revision) override;
  Answer<void> remove_keepsake(const std::string& id) override;

  Answer<std::vector<TaskRecord>> tasks() override;
  Answer<void> put_task(const TaskRecord& task) override;

 private:
  // These hold the lock already.
  Answer<RideEntry> entry_of(const std::string& id);
  Answer<RideState> state_of(const std::string& ride, std::uint64_t revision);
  Answer<std::string> insert_ride(const RideText& text, const std::string& label);
  Answer<Saved> add_state(const std::string& ride, const RideText& text, const std::string& label);
  Answer<void> insert_file(const std::string& ride, std::uint64_t revision, const RideFile& file);
  Answer<void> end_file(const std::string& ride, std::uint64_t revision, const std::string& name);
  Answer<std::vector<RideFile>> files_of(const std::string& ride);
  Answer<std::vector<RideFile>> files_at(const std::string& ride, std::uint64_t revision);
  std::string time_now() const;

  std::mutex lock_;
  Database database_;
  std::function<Instant()> now_;
  int lock_file_{-1};
};

}  // namespace outbye
