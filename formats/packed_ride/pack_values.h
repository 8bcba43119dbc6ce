// How the values of a packed ride are written and read: one description of each struct's fields (pack_fields.h) serves
// both, so that what is written is what is read. Internal to formats/packed_ride.
#pragma once

#include <cmath>
#include <concepts>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "core/base/index.h"
#include "core/base/units.h"
#include "formats/json_text/json_text.h"

namespace outbye {

// Words of an enum in the order of its values, found by argument-dependent lookup: words_of(Turn::Kind{}).
template <class T>
concept WordedEnum = std::is_enum_v<T> && requires(T value) {
  words_of(value).size();
};

class Packer {
 public:
  // Fields that are nothing are left out.
  template <class T>
  void operator()(const char* name, const T& value) {
    if constexpr (requires { value.has_value(); }) {
      if (!value.has_value()) return;
    }
    json_[name] = packed(value);
  }
  Json json() && { return std::move(json_); }

  static Json packed(bool value) { return value; }
  static Json packed(double value) { return plain_number(value); }
  template <std::unsigned_integral T>
  static Json packed(T value) {
    return value;
  }
  static Json packed(const std::string& value) { return value; }
  static Json packed(Seconds value) { return packed(value.count()); }
  static Json packed(std::chrono::minutes value) { return value.count(); }
  static Json packed(Instant value) { return packed(value.time_since_epoch()); }
  template <class Unit>
  static Json packed(Quantity<Unit> value) {
    return packed(value.value);
  }
  template <class Tag>
  static Json packed(Index<Tag> value) {
    return value.value;
  }
  template <WordedEnum T>
  static Json packed(T value) {
    return std::string(words_of(value)[static_cast<std::size_t>(value)]);
  }
  template <class T>
  static Json packed(const std::optional<T>& value) {
    return value ? packed(*value) : Json();
  }
  template <class T>
  static Json packed(const std::vector<T>& values) {
    Json list = Json::array();
    for (const T& value : values) list.push_back(packed(value));
    return list;
  }
  template <class T>
  requires std::is_class_v<T>
  static Json packed(const T& value) {
    Packer inside;
    fields(inside,
           const_cast<T&>(value));  // fields() gives out references for reading, too; nothing is written through them
    return std::move(inside).json();
  }

 private:
  Json json_ = Json::object();
};

// Where in the document something is, put into words only when it is wrong.
struct PackPath {
  const PackPath* up{};
  std::string_view name{};
  std::optional<std::size_t> index{};
  std::string words() const {
    const std::string before = up != nullptr ? up->words() : "";
    if (index) return before + "[" + std::to_string(*index) + "]";
    return before.empty() ? std::string(name) : before + "." + std::string(name);
  }
};

class Unpacker {
 public:
  Unpacker(const Json& json, const PackPath& path, std::optional<Problem>& problem)
      : json_(json), path_(path), problem_(problem) {
    if (!json.is_object()) refuse(path, "is not an object {...}");
  }

  template <class T>
  void operator()(const char* name, T& into) {
    if (problem_) return;
    const PackPath path{&path_, name};
    const auto found = json_.find(name);
    if (found != json_.end()) return read(*found, path, into);
    if constexpr (!requires { into.has_value(); }) refuse(path, "is missing");
  }

  // The first problem counts.
  void refuse(const PackPath& path, const char* what) {
    if (!problem_) problem_ = Problem{Problem::Kind::bad_input, "packed ride: " + path.words(), what};
  }
  const PackPath& path() const { return path_; }

  void read(const Json& json, const PackPath& path, bool& into) {
    if (!json.is_boolean()) return refuse(path, "is neither true nor false");
    into = json.get<bool>();
  }
  void read(const Json& json, const PackPath& path, double& into) {
    if (!json.is_number()) return refuse(path, "is not a number");
    into = json.get<double>();
    if (!std::isfinite(into)) refuse(path, "is not a number that can be");
  }
  template <std::unsigned_integral T>
  void read(const Json& json, const PackPath& path, T& into) {
    if (!json.is_number_unsigned()) return refuse(path, "is not a whole number from 0 on");
    if (json.get<std::uint64_t>() > std::numeric_limits<T>::max()) return refuse(path, "is too great a number");
    into = json.get<T>();
  }
  void read(const Json& json, const PackPath& path, std::string& into) {
    if (!json.is_string()) return refuse(path, "is not text");
    into = json.get_ref<const std::string&>();
  }
  void read(const Json& json, const PackPath& path, Seconds& into) {
    double value = 0;
    read(json, path, value);
    into = Seconds{value};
  }
  void read(const Json& json, const PackPath& path, std::chrono::minutes& into) {
    if (!json.is_number_integer() || std::abs(json.get<double>()) > 24 * 60) {
      return refuse(path, "is not whole minutes of at most a day");
    }
    into = std::chrono::minutes{json.get<std::int64_t>()};
  }
  void read(const Json& json, const PackPath& path, Instant& into) {
    Seconds value{};
    read(json, path, value);
    into = Instant{value};
  }
  template <class Unit>
  void read(const Json& json, const PackPath& path, Quantity<Unit>& into) {
    read(json, path, into.value);
  }
  template <class Tag>
  void read(const Json& json, const PackPath& path, Index<Tag>& into) {
    read(json, path, into.value);
  }
  template <WordedEnum T>
  void read(const Json& json, const PackPath& path, T& into) {
    std::string word;
    read(json, path, word);
    const auto words = words_of(into);
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] != word) continue;
      into = static_cast<T>(i);
      return;
    }
    refuse(path, "is none of the words that may stand there");
  }
  template <class T>
  void read(const Json& json, const PackPath& path, std::optional<T>& into) {
    if (json.is_null()) return into.reset();
    read(json, path, into.emplace());
  }
  template <class T>
  void read(const Json& json, const PackPath& path, std::vector<T>& into) {
    if (!json.is_array()) return refuse(path, "is not a list [...]");
    into.clear();
    into.reserve(json.size());
    for (std::size_t i = 0; i < json.size() && !problem_; ++i) {
      const PackPath here{&path, {}, i};
      read(json[i], here, into.emplace_back());
    }
  }
  template <class T>
  requires std::is_class_v<T>
  void read(const Json& json, const PackPath& path, T& into) {
    Unpacker inside(json, path, problem_);
    if (!problem_) fields(inside, into);
  }

 private:
  const Json& json_;
  const PackPath& path_;
  std::optional<Problem>& problem_;
};

}  // namespace outbye
