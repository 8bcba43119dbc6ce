// The target of a request taken apart.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace outbye {

struct Target {
  std::vector<std::string> path;  // decoded; "/" is empty, "/a/" is {"a", ""}
  std::map<std::string, std::string> query;
};

// Nothing for what is no origin-form target ("/a/b?c=d"), is not UTF-8 once decoded, holds control characters, or has a
// segment that would be read as another folder: ".", "..", or one with a slash or backslash in it.
std::optional<Target> parse_target(std::string_view target);

// Percent-encoded for a URL's path.
std::string encoded(std::string_view segment);

}  // namespace outbye
