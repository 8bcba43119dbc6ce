#include "core/load/load_plan.h"

#include <algorithm>
#include <cmath>
#include <queue>
#include <utility>

#include "core/base/text.h"
#include "core/load/load_finish.h"
#include "core/load/load_forward.h"
#include "core/load/load_improve.h"
#include "core/load/load_input.h"
#include "core/load/load_proof.h"

namespace outbye {
namespace {

constexpr std::size_t few_things = 12;   // up to so many sets to keep out are gone through in order of cost
constexpr int rounds = 20'000;           // of bettering a load of more
constexpr int rounds_when_all_in = 300;  // once all is in
constexpr double dear = 1e6;             // leaving what must come along; more than all pains together

// What it costs not to have a thing in the boot: the least of the other spaces' inconvenience and leaving it.
std::vector<double> costs_outside(const LoadTask& task) {
  std::vector<double> costs;
  for (const LoadItem& item : task.items) {
    const double leaving = item.pain_if_left.value_or(dear);
    double cost = leaving;
    for (std::size_t s = 1; s < task.spaces.size() && !item.is_emergency; ++s) {
      cost = std::min(cost, task.spaces[s].inconvenience * item.pain_if_left.value_or(1000.0));
    }
    costs.push_back(std::max(cost, 1e-3));
  }
  return costs;
}

// Sets of things to keep out of the boot, cheapest first.
class CheapestSets {
 public:
  CheapestSets(std::vector<LoadItemId> items, const std::vector<double>& cost) : items_(std::move(items)), cost_(cost) {
    std::stable_sort(items_.begin(), items_.end(),
                     [&](LoadItemId a, LoadItemId b) { return cost_[a.value] < cost_[b.value]; });
    if (!items_.empty()) queue_.push({cost_[items_[0].value], {0}});
  }
  // Each set comes once: extend by the next item, or replace the last by the next.
  bool next(std::vector<LoadItemId>& out, double& cost) {
    if (queue_.empty()) return false;
    const Entry entry = queue_.top();
    queue_.pop();
    out.clear();
    for (const std::size_t i : entry.picked) out.push_back(items_[i]);
    cost = entry.cost;
    const std::size_t last = entry.picked.back();
    if (last + 1 < items_.size() && queue_.size() < 20'000) {
      const double step = cost_[items_[last + 1].value];
      Entry more = entry;
      more.picked.push_back(last + 1);
      more.cost += step;
      queue_.push(more);
      Entry other = entry;
      other.picked.back() = last + 1;
      other.cost += step - cost_[items_[last].value];
      queue_.push(other);
    }
    return true;
  }

 private:
  struct Entry {
    double cost;
    std::vector<std::size_t> picked;
    bool operator<(const Entry& other) const {
      return cost > other.cost || (cost == other.cost && picked > other.picked);
    }
  };
  std::vector<LoadItemId> items_;
  const std::vector<double>& cost_;
  std::priority_queue<Entry> queue_;
};

// Could these be in the boot by mass and volume?
bool may_fit(const LoadTask& task, const std::vector<LoadItemId>& items) {
  const LoadSpace& boot = task.spaces[0];
  double mass = 0.0;
  double volume = 0.0;
  for (const LoadItemId id : items) {
    const LoadItem& item = at(task.items, id);
    mass += item.mass.value;
    volume += 1.0 * item.size.length * item.size.width * item.size.height;
  }
  double room = 1.0 * boot.size.length * boot.size.width * boot.size.height;
  for (const LoadBox& box : boot.blocked) room -= 1.0 * box.size.length * box.size.width * box.size.height;
  return mass <= boot.payload.value && volume <= room;
}

bool fits_alone(const LoadTask& task, LoadSpaceId space, LoadItemId id, const LoadSearch& search) {
  LoadRoom room = empty_room(task, space);
  LoadWork work{&search, 0, false};
  return stow_one(room, id, {}, work);
}

Result<void> check_fits_somewhere(const LoadTask& task) {
  const LoadSearch free;
  for (std::size_t i = 0; i < task.items.size(); ++i) {
    const LoadItem& item = task.items[i];
    const LoadItemId id{static_cast<std::uint32_t>(i)};
    if (item.pain_if_left) continue;
    bool fits = false;
    for (std::size_t s = 0; s < task.spaces.size() && !fits; ++s) {
      if (item.is_emergency && s > 0) break;
      fits = fits_alone(task, LoadSpaceId{static_cast<std::uint32_t>(s)}, id, free);
    }
    if (fits) continue;
    const LoadSpace& boot = task.spaces[0];
    if (item.mass.value > boot.payload.value) {
      return impossible(item.name, "weighs " + fixed(item.mass.value, 1) + " kg and " + boot.name + " may take " +
                                       fixed(boot.payload.value, 1) + " kg: take fewer people, or carry it less full");
    }
    return impossible(item.name, "is " + std::to_string(item.size.length) + " x " + std::to_string(item.size.width) +
                                     " x " + std::to_string(item.size.height) + " mm and does not fit in " + boot.name +
                                     " even alone: fold the seats, turn it another way, or allow it to be left");
  }
  return {};
}

Stowage stow_boot(const LoadTask& task, const std::vector<LoadItemId>& all, const std::vector<double>& cost, Rng& rng,
                  LoadWork& work, CannotFit& proof) {
  const LoadSpaceId boot{0};
  Stowage best = stow_best(task, boot, all, cost, 60, 20, rng, work);
  if (!best.out.empty()) proof = prove_cannot_fit(task, boot, all, work);
  if (all.size() > few_things) improve_stowage(best, cost, rounds, rounds_when_all_in, rng, work);
  if (best.out.empty() || all.size() > few_things) return best;
  if (!proof.is_proven) {
    Stowage again = stow_best(task, boot, all, cost, 400, 5, rng, work);
    if (again.cost < best.cost) best = std::move(again);
  }
  // The cheapest sets to keep out, each given a few tries, until none can be cheaper than what is known.
  CheapestSets sets(all, cost);
  std::vector<LoadItemId> out;
  double price = 0.0;
  for (int tried = 0; tried < 4000 && !best.out.empty() && sets.next(out, price) && price < best.cost;) {
    std::vector<LoadItemId> rest;
    for (const LoadItemId id : all) {
      if (std::find(out.begin(), out.end(), id) == out.end()) rest.push_back(id);
    }
    if (work.is_over) break;
    if (!may_fit(task, rest)) continue;
    ++tried;
    Stowage now = stow_best(task, boot, rest, cost, 8, 4, rng, work);
    for (const LoadItemId id : out) now.cost += cost[id.value];
    now.out.insert(now.out.end(), out.begin(), out.end());
    if (now.cost < best.cost) best = std::move(now);
  }
  return best;
}

// The same things in the boot otherwise, for reach and balance, and what is heavy forward.
void polish(const std::vector<double>& cost, Rng& rng, LoadWork& work, Stowage& best) {
  std::vector<LoadItemId> out = std::move(best.out);
  best.out.clear();
  const double all = best.cost;
  best.cost = 0.0;
  improve_stowage(best, cost, rounds, rounds_when_all_in, rng, work);
  best.out = std::move(out);
  best.cost = all;
}

// Is it too large for a space by its sides alone, or too heavy?
bool fits_by_itself(const LoadTask& task, LoadSpaceId id, const LoadItem& item) {
  const LoadSpace& space = at(task.spaces, id);
  const auto all = stances(item);
  return item.mass <= space.payload && std::any_of(all.begin(), all.end(), [&](const LoadSize& size) {
           return size.length <= space.size.length && size.width <= space.size.width &&
                  size.height <= height_limit(space, item);
         });
}

std::string who_is_too_large(const LoadTask& task, const std::vector<LoadItemId>& never) {
  std::string words = "proven: " + at(task.items, never.front()).name;
  if (never.size() > 1) words += " and " + std::to_string(never.size() - 1) + " more";
  const bool is_too_heavy = at(task.items, never.front()).mass > task.spaces[0].payload;
  return words + (never.size() > 1 ? " are each too " : " alone is too ") + (is_too_heavy ? "heavy" : "large") +
         " for " + task.spaces[0].name;
}

}  // namespace

Result<Load> plan_load(const LoadTask& task, const LoadSearch& search) {
  if (const auto good = check_load_task(task); !good) return tl::make_unexpected(good.error());
  if (const auto good = check_fits_somewhere(task); !good) return tl::make_unexpected(good.error());
  Rng rng(Seed{1});
  LoadWork work{&search, 0, false};
  std::vector<LoadItemId> all;
  std::vector<LoadItemId> never;
  for (std::uint32_t i = 0; i < task.items.size(); ++i) {
    (fits_by_itself(task, LoadSpaceId{0}, task.items[i]) ? all : never).push_back(LoadItemId{i});
  }
  const std::vector<double> cost = costs_outside(task);
  CannotFit proof;
  std::vector<LoadRoom> rooms;
  // Of the work, a part is kept for the balance of what goes in.
  LoadSearch most = search;
  most.max_evaluations -= 2 * (search.max_evaluations / 5);
  work.search = &most;
  Stowage boot = stow_boot(task, all, cost, rng, work, proof);
  work.search = &search;
  if (work.evaluations >= most.max_evaluations && work.evaluations < search.max_evaluations) work.is_over = false;
  polish(cost, rng, work, boot);
  // Whatever the time: a rule, not a wish. It looks at some hundred places, each of them once.
  const LoadSearch short_work{{}, 60'000};
  LoadWork forward{&short_work, 0, false};
  move_heavy_forward(boot.room, forward);
  work.evaluations += forward.evaluations;
  boot.out.insert(boot.out.end(), never.begin(), never.end());
  if (!never.empty()) proof = {true, who_is_too_large(task, never)};
  Load load;
  if (boot.out.empty()) {
    load.proof = LoadProof::all_fit;
    load.proof_words = "proven: everything is in " + task.spaces[0].name;
  } else {
    load.proof = proof.is_proven ? LoadProof::cannot_fit : LoadProof::not_proven;
    load.proof_words = proof.words;
  }
  rooms.push_back(std::move(boot.room));
  std::vector<LoadItemId> rest = std::move(boot.out);
  std::vector<double> leaving;
  for (const LoadItem& item : task.items) leaving.push_back(std::max(item.pain_if_left.value_or(dear), 1e-3));
  for (std::size_t s = 1; s < task.spaces.size(); ++s) {
    std::vector<LoadItemId> may;
    std::vector<LoadItemId> may_not;
    for (const LoadItemId id : rest) (at(task.items, id).is_emergency ? may_not : may).push_back(id);
    Stowage there = stow_best(task, LoadSpaceId{static_cast<std::uint32_t>(s)}, may, leaving, 60, 10, rng, work);
    rooms.push_back(std::move(there.room));
    rest = std::move(there.out);
    rest.insert(rest.end(), may_not.begin(), may_not.end());
  }
  for (const LoadItemId id : rest) {
    const LoadItem& item = at(task.items, id);
    if (!item.pain_if_left) {
      if (work.is_over) {
        return problem(Problem::Kind::cancelled, item.name, "found no place in the work given: allow more of it");
      }
      return impossible(item.name,
                        "must come along and found no place (" + load.proof_words +
                            "): allow other things to be left, fold the seats or add a roof box or second car");
    }
  }
  finish_load(task, std::move(rooms), rest, load);
  load.evaluations = work.evaluations;
  return load;
}

}  // namespace outbye
