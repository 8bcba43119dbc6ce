#include "server/storage/database.h"

#include <sqlite3.h>

#include <utility>

namespace outbye {
namespace {

tl::unexpected<std::vector<Trouble>> refused(sqlite3* database, int code) {
  const bool is_full = code == SQLITE_FULL || (code & 0xFF) == SQLITE_IOERR;
  const std::string reason = database == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(database);
  return trouble(Trouble::Kind::storage, "store",
                 is_full ? "the disk is full or failing: free some space and try again; what was saved before is still "
                           "there (" +
                               reason + ")"
                         : "the store refuses: " + reason + "; what was saved before is still there");
}

}  // namespace

Statement::Statement(sqlite3* database, const char* sql) : database_(database) {
  code_ = sqlite3_prepare_v2(database, sql, -1, &statement_, nullptr);
}

Statement::Statement(Statement&& other) noexcept
    : database_(other.database_),
      statement_(std::exchange(other.statement_, nullptr)),
      next_(other.next_),
      code_(other.code_) {}

Statement::~Statement() { sqlite3_finalize(statement_); }

Statement& Statement::with(std::string_view text) {
  if (statement_ == nullptr) return *this;
  const int code = sqlite3_bind_text64(statement_, next_++, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
  if (code != SQLITE_OK) code_ = code;
  return *this;
}

Statement& Statement::with(std::uint64_t number) {
  if (statement_ == nullptr) return *this;
  const int code = sqlite3_bind_int64(statement_, next_++, static_cast<sqlite3_int64>(number));
  if (code != SQLITE_OK) code_ = code;
  return *this;
}

Statement& Statement::with_real(double number) {
  if (statement_ == nullptr) return *this;
  const int code = sqlite3_bind_double(statement_, next_++, number);
  if (code != SQLITE_OK) code_ = code;
  return *this;
}

bool Statement::next() {
  if (statement_ == nullptr || (code_ != SQLITE_OK && code_ != SQLITE_ROW)) return false;
  code_ = sqlite3_step(statement_);
  return code_ == SQLITE_ROW;
}

std::string Statement::text(int column) const {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_, column));
  const int length = sqlite3_column_bytes(statement_, column);
  return bytes == nullptr ? std::string() : std::string(bytes, static_cast<std::size_t>(length));
}

std::uint64_t Statement::number(int column) const {
  return static_cast<std::uint64_t>(sqlite3_column_int64(statement_, column));
}

double Statement::real(int column) const { return sqlite3_column_double(statement_, column); }

bool Statement::is_null(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }

Answer<void> Statement::done() const {
  if (code_ == SQLITE_DONE || code_ == SQLITE_OK || code_ == SQLITE_ROW) return {};
  return refused(database_, code_);
}

void Database::Close::operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }

Answer<Database> Database::open(const std::string& path) {
  sqlite3* handle = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_FULLMUTEX;
  const int code = sqlite3_open_v2(path.c_str(), &handle, flags, nullptr);
  Database database;
  database.handle_.reset(handle);
  if (code != SQLITE_OK) return refused(handle, code);
  sqlite3_busy_timeout(handle, 5000);
  for (const char* setting : {"PRAGMA journal_mode=WAL", "PRAGMA synchronous=FULL", "PRAGMA foreign_keys=ON"}) {
    if (auto ok = database.run(setting); !ok) return tl::make_unexpected(ok.error());
  }
  return database;
}

Answer<void> Database::run(const char* text) {
  const int code = sqlite3_exec(handle_.get(), text, nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) return refused(handle_.get(), code);
  return {};
}

std::uint64_t Database::changes() const { return static_cast<std::uint64_t>(sqlite3_changes(handle_.get())); }

void Database::undo() {
  // Some errors have undone the transaction already.
  if (sqlite3_get_autocommit(handle_.get()) == 0) (void)run("ROLLBACK");
}

}  // namespace outbye
