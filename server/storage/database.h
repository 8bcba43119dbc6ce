// SQLite as values and results. Internal to storage.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "server/answer/trouble.h"

struct sqlite3;
struct sqlite3_stmt;

namespace outbye {

class Statement {
 public:
  Statement(sqlite3* database, const char* sql);
  Statement(Statement&& other) noexcept;
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement();

  // In the order of the question marks.
  Statement& with(std::string_view text);
  Statement& with(std::uint64_t number);
  Statement& with_real(double number);

  bool next();  // is there a further row; false also on an error
  std::string text(int column) const;
  std::uint64_t number(int column) const;
  double real(int column) const;
  bool is_null(int column) const;
  // After the last row.
  Answer<void> done() const;

 private:
  sqlite3* database_{};
  sqlite3_stmt* statement_{};
  int next_{1};
  int code_{};
};

class Database {
 public:
  // Makes it when missing. Errors: storage.
  static Answer<Database> open(const std::string& path);

  Statement sql(const char* text) { return Statement(handle_.get(), text); }
  Answer<void> run(const char* text);
  // All of `work` or nothing of it: undone when it fails, and when the disk refuses to keep it.
  template <class T>
  Answer<T> whole(const std::function<Answer<T>()>& work) {
    if (auto ok = run("BEGIN IMMEDIATE"); !ok) return tl::make_unexpected(ok.error());
    auto result = work();
    if (!result) {
      undo();
      return result;
    }
    if (auto ok = run("COMMIT"); !ok) {
      undo();
      return tl::make_unexpected(ok.error());
    }
    return result;
  }
  std::uint64_t changes() const;  // rows of the last statement

 private:
  void undo();
  struct Close {
    void operator()(sqlite3* handle) const;
  };
  std::unique_ptr<sqlite3, Close> handle_;
};

}  // namespace outbye
