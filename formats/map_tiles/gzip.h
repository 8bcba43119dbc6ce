// gzip (RFC 1952) in memory; without a time, so that the same bytes give the same file.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace outbye {

std::string gzipped(std::string_view bytes);
// Nothing when it is damaged or would come to more than `limit` bytes.
std::optional<std::string> gunzipped(std::string_view bytes, std::size_t limit);

}  // namespace outbye
