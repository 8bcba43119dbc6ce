// One rule of a book as JSON: how each kind of value is written, and in which range it makes sense. Inside this folder.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/rules/rule_fields.h"
#include "formats/json_text/json_fields.h"

namespace outbye {

// The field `name` of `in` as a plain value. Leaves `into` alone when absent; problems as JsonFields reports them.
void read_plain(JsonFields& in, std::string_view name, std::optional<BeatsPerMinute>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<Seconds>& into);  // minutes
void read_plain(JsonFields& in, std::string_view name, std::optional<KmPerHour>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<Kilograms>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<Metres>& into);  // km
void read_plain(JsonFields& in, std::string_view name,
                std::optional<Interval<Metres>>& into);  // 40, [40, 80], [80, null]
void read_plain(JsonFields& in, std::string_view name, std::optional<std::uint32_t>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<Interval<std::uint32_t>>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<double>& into);  // a share
void read_plain(JsonFields& in, std::string_view name, std::optional<bool>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<HoldFrom>& into);
void read_plain(JsonFields& in, std::string_view name, std::optional<ClockStops>& into);

Json plain_json(BeatsPerMinute value);
Json plain_json(Seconds value);
Json plain_json(KmPerHour value);
Json plain_json(Kilograms value);
Json plain_json(Metres value);
Json plain_json(const Interval<Metres>& value);
Json plain_json(std::uint32_t value);
Json plain_json(const Interval<std::uint32_t>& value);
Json plain_json(double value);
Json plain_json(bool value);
Json plain_json(HoldFrom value);
Json plain_json(ClockStops value);

// In files: "published", "derived", "from memory", "common practice", "event".
std::string_view mark_name(Mark mark);
void read_mark(JsonFields& in, std::string_view name, std::optional<Mark>& into);

}  // namespace outbye
