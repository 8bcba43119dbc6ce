#include "core/base/clock.h"
#include "formats/exports/csv_rows.h"
#include "formats/exports/exports.h"

namespace outbye {
namespace {

std::string whole(const std::optional<std::uint32_t>& value) { return value ? std::to_string(*value) : ""; }
std::string number(const std::optional<double>& value) { return value ? plain_decimal(*value) : ""; }

// What a kind says with a yes or a no, in one column: accepted by the officials, presented to them, not seen yet.
std::string outcome(const DayEntry& entry) {
  if (entry.accepted) return *entry.accepted ? "accepted" : "not accepted";
  if (entry.presented) return "presented";
  return entry.not_yet ? "not yet" : "";
}

std::vector<std::string> row_of(const StandingEntry& standing, const char* state, const Clock& clock) {
  const DayEntry& entry = standing.entry;
  const auto time = [&clock](const std::optional<Instant>& at) { return at ? iso8601(*at, clock) : std::string(); };
  const Instant noted{std::chrono::milliseconds{standing.noted.milliseconds}};
  return {iso8601(entry.at, clock),
          std::string(day_kind_name(entry.kind)),
          entry.place,
          whole(entry.loop),
          whole(entry.nth),
          entry.horse,
          entry.number,
          entry.car,
          entry.who,
          time(entry.until),
          time(entry.seen_at),
          outcome(entry),
          entry.what,
          number(entry.amount),
          entry.unit,
          number(entry.beats),
          entry.text,
          entry.photo,
          state,
          standing.device,
          iso8601(std::chrono::floor<std::chrono::seconds>(noted), clock),
          standing.id};
}

}  // namespace

std::string log_csv(const DayLog& log, const Clock& clock) {
  const StandingLog all = standing(log);
  std::string out =
      csv_row({"at",   "kind", "place",  "loop", "nth",   "horse", "number", "car",   "who",    "until",    "seen_at",
               "said", "what", "amount", "unit", "beats", "text",  "photo",  "state", "device", "noted_at", "id"});
  for (const StandingEntry& entry : all.entries) {
    out += csv_row(row_of(entry, entry.is_corrected ? "corrected" : "", clock));
  }
  for (const StandingEntry& entry : all.withdrawn) out += csv_row(row_of(entry, "withdrawn", clock));
  return out;
}

}  // namespace outbye
