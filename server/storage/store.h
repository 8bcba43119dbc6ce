// Where rides are kept. Every function is whole or not done at all, and what it answered is kept for good. Errors:
// not_found, conflict (a save on top of an older revision), storage (the disk refuses).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/units.h"
#include "server/answer/trouble.h"

namespace outbye {

// What is typed of a ride: any JSON text, and what is not a value yet by field.
struct RideText {
  std::string document;      // a JSON object
  std::string drafts{"{}"};  // a JSON object
};

struct RideState {
  std::uint64_t revision{};
  std::string at;  // ISO 8601, UTC
  std::string label;
  RideText text;
};

// A line of the list of states.
struct StateEntry {
  std::uint64_t revision{};
  std::string at;
  std::string label;
};

struct RideEntry {
  std::string id;
  std::uint64_t revision{};
  std::string changed_at;
  bool is_removed{};
  std::string name;   // of the document, when it has one
  std::string start;  // likewise
};

struct RideFile {
  std::string name;
  std::string kind;  // "course", "map", ...: file_kind.h
  std::uint64_t bytes{};
  std::string added_at;
  std::string hash;  // of its blob
};

struct Keepsake {
  std::string id;
  std::string kind;  // horse, rider, helper, car
  std::string name;
  std::uint64_t revision{};
  std::string data;  // a JSON object
};

// Long work as it is remembered: server/tasks.
struct TaskRecord {
  std::string id;
  std::string ride;
  std::string kind;
  std::string state;  // waiting, running, done, failed, cancelled
  std::string step{};
  double share{};
  std::string problems{"[]"};  // JSON
};

// A save that came too late, with what is stored.
struct Conflict {
  RideState stored;
};
struct Saved {
  std::uint64_t revision{};
  std::string at;
};

class Store {
 public:
  virtual ~Store() = default;

  virtual Answer<std::vector<RideEntry>> rides() = 0;
  virtual Answer<RideEntry> ride(const std::string& id) = 0;  // a removed one too
  virtual Answer<std::string> make_ride(const RideText& text, const std::string& label) = 0;
  // A ride of its own with the text and files of another.
  virtual Answer<std::string> copy_ride(const std::string& id, const RideText& text) = 0;
  virtual Answer<tl::expected<Saved, Conflict>> save_ride(const std::string& id, std::uint64_t base_revision,
                                                          const RideText& text, const std::string& label) = 0;
  virtual Answer<void> set_removed(const std::string& id, bool is_removed) = 0;

  // The newest first, below `before` if it is not 0.
  virtual Answer<std::vector<StateEntry>> states(const std::string& ride, std::uint64_t before, std::size_t most) = 0;
  virtual Answer<RideState> state(const std::string& ride, std::uint64_t revision) = 0;
  virtual Answer<RideState> newest_state(const std::string& ride) = 0;
  // A new state with the text of an old one; files that the old one had and the ride has no more come back.
  virtual Answer<RideState> restore_state(const std::string& ride, std::uint64_t revision) = 0;

  virtual Answer<std::vector<RideFile>> files(const std::string& ride) = 0;
  virtual Answer<RideFile> file(const std::string& ride, const std::string& name) = 0;
  // In place of one of that name, which earlier states keep.
  virtual Answer<RideFile> add_file(const std::string& ride, RideFile file) = 0;
  virtual Answer<void> remove_file(const std::string& ride, const std::string& name) = 0;

  virtual Answer<std::vector<Keepsake>> keepsakes() = 0;
  // Nothing of `base_revision`: whatever is there. Errors: conflict.
  virtual Answer<std::uint64_t> keep(const Keepsake& keepsake, std::optional<std::uint64_t> base_revision) = 0;
  virtual Answer<void> remove_keepsake(const std::string& id) = 0;

  virtual Answer<std::vector<TaskRecord>> tasks() = 0;  // the newest first
  virtual Answer<void> put_task(const TaskRecord& task) = 0;
};

}  // namespace outbye
