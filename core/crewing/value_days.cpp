#include "core/crewing/value_days.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace outbye {
namespace {

// The k-th smallest, k = rank in [0, n). Reorders.
float ranked(std::vector<float>& values, std::size_t rank) {
  const auto nth = values.begin() + static_cast<std::ptrdiff_t>(rank);
  std::nth_element(values.begin(), nth, values.end());
  return *nth;
}

// Nearest rank: the smallest value with at least a share p of all at or below it.
std::size_t rank_at(double p, std::size_t n) {
  const double k = std::ceil(p * static_cast<double>(n) - 1e-9);
  return k < 1.0 ? 0 : std::min(n - 1, static_cast<std::size_t>(k) - 1);
}

// The largest value that at least a share p of all reach.
std::size_t rank_reached_by(double p, std::size_t n) {
  const double k = std::ceil(p * static_cast<double>(n) - 1e-9);
  return k < 1.0 ? n - 1 : n - std::min(n, static_cast<std::size_t>(k));
}

// FNV-1a, so that a drive's draws go with what it is and not with its place in a list.
std::uint64_t mixed(std::uint64_t h, std::string_view text) {
  for (const char c : text) h = (h ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  return (h ^ 0xffU) * 0x100000001b3ULL;
}

// A Latin hypercube: every column holds the same n stratified values in an order of its own, so that each drive's
// distribution is met exactly and the mean over days is less noisy than with independent draws.
void append_shuffled(std::vector<float>& out, std::vector<float>& strata, std::uint64_t key) {
  Rng rng(Seed{key});
  shuffle(strata, rng);
  out.insert(out.end(), strata.begin(), strata.end());
}

std::vector<float> factor_strata(const CrewingSettings& settings, std::size_t n) {
  std::vector<float> strata(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double p = (static_cast<double>(i) + 0.5) / static_cast<double>(n);
    const double z = settings.drive_log_sd > 0 ? standard_normal_quantile(p) : 0.0;
    strata[i] = static_cast<float>(std::max(1.0, settings.drive_allowance * std::exp(settings.drive_log_sd * z)));
  }
  return strata;
}

void append_column(std::vector<float>& out, const std::vector<double>& in, std::size_t from, std::size_t n,
                   double offset) {
  for (std::size_t i = from; i < from + n; ++i) out.push_back(static_cast<float>(in[i] + offset));
}

std::vector<float> column_medians(const std::vector<float>& columns, std::size_t days) {
  std::vector<float> medians;
  std::vector<float> scratch;
  for (std::size_t from = 0; from + days <= columns.size(); from += days) {
    scratch.assign(columns.begin() + static_cast<std::ptrdiff_t>(from),
                   columns.begin() + static_cast<std::ptrdiff_t>(from + days));
    medians.push_back(ranked(scratch, rank_at(0.5, days)));
  }
  return medians;
}

}  // namespace

Result<ValuationDays> ValuationDays::make(const CrewingTask& task) {
  if (task.horses.empty()) return bad_input("crewing task", "has no horse");
  ValuationDays v;
  v.task_ = &task;
  v.epoch_ = task.horses.front().origin;
  const std::size_t days = task.horses.front().days;
  if (days == 0) return bad_input("crewing task", "has no simulated day");
  for (std::size_t h = 0; h < task.horses.size(); ++h) {
    const HorseDays& horse = task.horses[h];
    const std::string where = "horse " + std::to_string(h + 1);
    const std::size_t size = horse.events.size() * days;
    if (horse.days != days) return bad_input(where, "has another number of simulated days than the first horse");
    if (horse.base.size() != size || horse.stand.size() != size)
      return bad_input(where, "has columns of another length than events times days");
    v.epoch_ = std::min(v.epoch_, horse.origin);
  }
  for (const CrewCar& car : task.cars) v.epoch_ = std::min(v.epoch_, car.ready_from);
  for (const MeetOption& option : task.options) {
    if (option.horse.value >= task.horses.size() || option.event >= at(task.horses, option.horse).events.size())
      return bad_input(option.label, "names a horse or an event that is not there");
    if (option.place.value >= task.drives.size()) return bad_input(option.label, "is at a place without drives");
  }
  v.all_.days = days;
  v.typical_.days = 1;
  for (const HorseDays& horse : task.horses) {
    DaySet::Horse columns;
    const std::size_t size = horse.events.size() * days;
    columns.base.reserve(size);
    columns.stand.reserve(size);
    append_column(columns.base, horse.base, 0, size, (horse.origin - v.epoch_).count());
    append_column(columns.stand, horse.stand, 0, size, 0.0);
    v.typical_.horses.push_back({column_medians(columns.base, days), column_medians(columns.stand, days)});
    v.all_.horses.push_back(std::move(columns));
    v.first_event_.push_back(v.columns_);
    v.columns_ += horse.events.size();
    v.rows_ += horse.events.size() + 1;
  }
  std::vector<float> strata = factor_strata(task.settings, days);
  const std::vector<float> ordered = strata;
  const float planned = static_cast<float>(std::max(1.0, task.settings.drive_allowance));
  for (const MeetOption& option : task.options) {
    std::uint64_t key = mixed(task.seed.value * 0x9e3779b97f4a7c15ULL + 1, option.label);
    key = mixed(key, task.drives.places()[option.place.value]);
    key = mixed(key, std::to_string(option.event) + "/" + std::to_string(option.horse.value));
    strata = ordered;
    append_shuffled(v.all_.option_factor, strata, key);
    v.typical_.option_factor.push_back(planned);
  }
  for (const RefillPlace& refill : task.refills) {
    strata = ordered;
    append_shuffled(v.all_.refill_factor, strata, mixed(task.seed.value * 0x9e3779b97f4a7c15ULL + 2, refill.label));
    v.typical_.refill_factor.push_back(planned);
  }
  v.has_expectation_.assign(v.rows_ * v.columns_, 0);
  v.expectations_.resize(v.rows_ * v.columns_);
  const std::size_t margins = task.drives.size() * v.rows_ * task.options.size();
  v.has_margin_.assign(margins, 0);
  v.margins_.resize(margins);
  return v;
}

float ValuationDays::span(HorseId horse, std::optional<std::size_t> last_met, std::size_t event, std::size_t d) const {
  const DaySet::Horse& columns = all_.horses[horse.value];
  const float arrival = columns.base[event * days() + d];
  if (!last_met) return arrival;
  const std::size_t from = *last_met * days() + d;
  const bool is_held = at(task_->horses, horse).events[*last_met].kind == RideEvent::Kind::pass;
  return arrival - columns.base[from] + (is_held ? columns.stand[from] : 0.0F);
}

Expectation ValuationDays::expectation(HorseId horse, std::optional<std::size_t> last_met, std::size_t event) {
  const std::size_t row = first_event_[horse.value] + horse.value + (last_met ? *last_met + 1 : 0);
  const std::size_t cell = row * columns_ + first_event_[horse.value] + event;
  if (has_expectation_[cell] == 0) {
    scratch_.resize(sample());
    for (std::size_t d = 0; d < sample(); ++d) scratch_[d] = span(horse, last_met, event, d);
    Expectation& e = expectations_[cell];
    std::sort(scratch_.begin(), scratch_.end());
    e.early = scratch_[rank_at(0.05, sample())];
    e.middle = scratch_[rank_at(0.5, sample())];
    e.late = scratch_[rank_at(task_->settings.confidence, sample())];
    e.latest = scratch_[rank_at(0.99, sample())];
    has_expectation_[cell] = 1;
  }
  return expectations_[cell];
}

// scratch_: the latest departure, counted from the last meet, that is ready for the option, day by day.
void ValuationDays::fill_reach(PlaceId from, std::optional<std::size_t> last_met, MeetOptionId option) {
  const MeetOption& meet = at(task_->options, option);
  const auto drive = static_cast<float>(task_->drives.drive(from, meet.place)->time.count());
  const auto setup = static_cast<float>(meet.setup.count());
  const float* factor = all_.option_factor.data() + option.value * days();
  scratch_.resize(sample());
  for (std::size_t d = 0; d < sample(); ++d)
    scratch_[d] = span(meet.horse, last_met, meet.event, d) - factor[d] * drive - setup;
}

std::optional<Margin> ValuationDays::margin(PlaceId from, std::optional<std::size_t> last_met, MeetOptionId option) {
  const MeetOption& meet = at(task_->options, option);
  if (!task_->drives.drive(from, meet.place)) return std::nullopt;
  const std::size_t row = first_event_[meet.horse.value] + meet.horse.value + (last_met ? *last_met + 1 : 0);
  const std::size_t cell = (from.value * rows_ + row) * task_->options.size() + option.value;
  if (has_margin_[cell] == 0) {
    fill_reach(from, last_met, option);
    Margin m;
    double sum = 0;
    double squares = 0;
    for (const float reach : scratch_) {
      sum += static_cast<double>(reach);
      squares += static_cast<double>(reach) * static_cast<double>(reach);
    }
    const auto n = static_cast<double>(sample());
    m.mean = static_cast<float>(sum / n);
    m.sd = static_cast<float>(std::sqrt(std::max(0.0, squares / n - sum / n * (sum / n))));
    m.wanted = ranked(scratch_, rank_reached_by(task_->settings.confidence, sample()));
    m.least = ranked(scratch_, rank_reached_by(task_->settings.give_up, sample()));
    margins_[cell] = m;
    has_margin_[cell] = 1;
  }
  return margins_[cell];
}

double ValuationDays::chance_ready(PlaceId from, std::optional<std::size_t> last_met, MeetOptionId option,
                                   float lateness, float held) {
  const std::optional<Margin> m = margin(from, last_met, option);
  if (!m) return 0.0;
  const auto spare = static_cast<double>(m->mean + held - lateness);
  if (m->sd < 1.0F) return spare >= 0 ? 1.0 : 0.0;
  return standard_normal_cdf(spare / static_cast<double>(m->sd));
}

}  // namespace outbye
