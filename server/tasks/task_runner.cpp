#include "server/tasks/task_runner.h"

#include <algorithm>
#include <exception>

#include "server/storage/fresh_id.h"

namespace outbye {
namespace {

constexpr std::size_t most_kept = 200;

std::string problems_text(const std::vector<Trouble>& troubles) {
  return problems_json(troubles)["problems"].dump(-1, ' ', false, Json::error_handler_t::replace);
}

bool is_over(const TaskRecord& task) { return task.state != "waiting" && task.state != "running"; }

// "run again" is what the page offers.
const std::vector<Trouble>& ended_with_server() {
  static const std::vector<Trouble> words = {
      {Trouble::Kind::cancelled, "task", "was ended with the server before it was done; run it again"}};
  return words;
}

}  // namespace

TaskRunner::TaskRunner(Store& store, std::map<std::string, TaskWork> works) : store_(store), works_(std::move(works)) {
  if (auto stored = store_.tasks()) tasks_.assign(stored->begin(), stored->end());
  for (TaskRecord& task : tasks_) {
    if (is_over(task)) continue;
    task.state = "failed";
    task.problems = problems_text(ended_with_server());
    keep(task);
  }
  worker_ = std::thread([this] { run(); });
}

TaskRunner::~TaskRunner() {
  {
    const std::lock_guard guard(lock_);
    is_ending_ = true;
  }
  news_.notify_all();
  worker_.join();
}

// A full disk must not hide how the work ended from who is watching: that is in memory either way.
void TaskRunner::keep(const TaskRecord& task) { (void)store_.put_task(task); }

TaskRecord* TaskRunner::find(const std::string& id) {
  const auto found = std::find_if(tasks_.begin(), tasks_.end(), [&](const TaskRecord& task) { return task.id == id; });
  return found == tasks_.end() ? nullptr : &*found;
}

Answer<TaskRecord> TaskRunner::start(const std::string& ride, const std::string& kind) {
  if (works_.count(kind) == 0) {
    return trouble(Trouble::Kind::bad_input, "kind", "'" + kind + "' is no work that there is");
  }
  if (const auto known = store_.ride(ride); !known) return tl::make_unexpected(known.error());
  const std::lock_guard guard(lock_);
  for (const TaskRecord& task : tasks_) {
    if (task.ride == ride && task.kind == kind && task.state == "waiting") return task;
  }
  TaskRecord task;
  task.id = fresh_id('t');
  task.ride = ride;
  task.kind = kind;
  task.state = "waiting";
  if (auto ok = store_.put_task(task); !ok) return tl::make_unexpected(ok.error());
  tasks_.push_front(task);
  if (tasks_.size() > most_kept && is_over(tasks_.back())) tasks_.pop_back();
  waiting_.push_back(task.id);
  news_.notify_all();
  return task;
}

std::vector<TaskRecord> TaskRunner::tasks(const std::string& ride) const {
  const std::lock_guard guard(lock_);
  std::vector<TaskRecord> wanted;
  for (const TaskRecord& task : tasks_) {
    if (ride.empty() || task.ride == ride) wanted.push_back(task);
  }
  return wanted;
}

Answer<TaskRecord> TaskRunner::task(const std::string& id) const {
  const std::lock_guard guard(lock_);
  for (const TaskRecord& task : tasks_) {
    if (task.id == id) return task;
  }
  return trouble(Trouble::Kind::not_found, "task", "there is no task '" + id + "'");
}

Answer<void> TaskRunner::cancel(const std::string& id) {
  const std::lock_guard guard(lock_);
  TaskRecord* task = find(id);
  if (task == nullptr) return trouble(Trouble::Kind::not_found, "task", "there is no task '" + id + "'");
  if (task->state == "waiting") {
    waiting_.erase(std::remove(waiting_.begin(), waiting_.end(), id), waiting_.end());
    task->state = "cancelled";
    keep(*task);
  } else if (running_ == id) {
    is_cancelled_ = true;  // the work stops at its next look
  }
  return {};
}

void TaskRunner::run() {
  while (true) {
    std::string id;
    {
      std::unique_lock guard(lock_);
      news_.wait(guard, [this] { return is_ending_ || !waiting_.empty(); });
      if (is_ending_) return;
      id = waiting_.front();
      waiting_.pop_front();
      running_ = id;
      is_cancelled_ = false;
      TaskRecord* task = find(id);
      task->state = "running";
      keep(*task);
    }
    run_one(id);
  }
}

void TaskRunner::run_one(const std::string& id) {
  Progress progress;
  progress.tell = [this, id](const std::string& step, double share) {
    const std::lock_guard guard(lock_);
    TaskRecord* task = find(id);
    task->step = step;
    task->share = std::clamp(share, 0.0, 1.0);
  };
  progress.is_cancelled = [this] {
    const std::lock_guard guard(lock_);
    return is_cancelled_ || is_ending_;
  };
  const auto started = task(id);
  Answer<void> done;
  try {
    done = works_.at(started->kind)(started->ride, progress);
  } catch (const std::exception& error) {
    done = trouble(Trouble::Kind::internal, "task", std::string("has met a fault of the server: ") + error.what());
  }
  const std::lock_guard guard(lock_);
  TaskRecord* task = find(id);
  running_.clear();
  if (done) {
    task->state = "done";
    task->share = 1.0;
  } else if (is_ending_ && !is_cancelled_) {
    task->state = "failed";
    task->problems = problems_text(ended_with_server());
  } else {
    task->state = is_cancelled_ && done.error().front().kind == Trouble::Kind::cancelled ? "cancelled" : "failed";
    task->problems = problems_text(done.error());
  }
  keep(*task);
}

}  // namespace outbye
