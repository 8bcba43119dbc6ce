// Long work of the server: started, watched, cancelled.
#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "core/base/progress.h"
#include "server/answer/trouble.h"
#include "server/storage/store.h"

namespace outbye {

// The work of one kind for one ride. It looks at is_cancelled() often, and tells how far it is.
using TaskWork = std::function<Answer<void>(const std::string& ride, const Progress& progress)>;

class TaskRunner {
 public:
  // What the store knows as waiting or running was ended with the server: it becomes failed.
  TaskRunner(Store& store, std::map<std::string, TaskWork> works);
  TaskRunner(const TaskRunner&) = delete;
  TaskRunner& operator=(const TaskRunner&) = delete;
  ~TaskRunner();  // stops what is running

  // One of the same kind for the same ride that still waits is that one. Errors: bad_input for an unknown kind,
  // not_found for the ride, storage.
  Answer<TaskRecord> start(const std::string& ride, const std::string& kind);
  std::vector<TaskRecord> tasks(const std::string& ride) const;  // of all rides when empty; the newest first
  Answer<TaskRecord> task(const std::string& id) const;
  // What is over stays as it is. Errors: not_found.
  Answer<void> cancel(const std::string& id);

 private:
  void run();
  void run_one(const std::string& id);
  TaskRecord* find(const std::string& id);  // with the lock held
  void keep(const TaskRecord& task);

  Store& store_;
  std::map<std::string, TaskWork> works_;
  mutable std::mutex lock_;
  std::condition_variable news_;
  std::deque<TaskRecord> tasks_;  // the newest first
  std::deque<std::string> waiting_;
  std::string running_;
  bool is_cancelled_{};
  bool is_ending_{};
  std::thread worker_;
};

}  // namespace outbye
