#include "server/storage/sqlite_store.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "core/base/clock.h"
#include "server/storage/migrations.h"
#include "server/storage/sqlite_class.h"

namespace outbye {

namespace fs = std::filesystem;

SqliteStore::SqliteStore(Database database, std::function<Instant()> now, int lock_file)
    : database_(std::move(database)), now_(std::move(now)), lock_file_(lock_file) {}

SqliteStore::~SqliteStore() {
  if (lock_file_ >= 0) ::close(lock_file_);
}

std::string SqliteStore::time_now() const { return iso8601(std::chrono::floor<std::chrono::seconds>(now_()), Clock{}); }

Answer<OpenStore> open_store(const fs::path& folder, std::function<Instant()> now) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) return tl::make_unexpected(disk_trouble(folder.string(), error.value()));
  // What people keep of themselves and their horses is theirs alone.
  fs::permissions(folder, fs::perms::owner_all, error);
  const int lock_file = ::open((folder / "lock").c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (lock_file < 0) return tl::make_unexpected(disk_trouble((folder / "lock").string(), errno));
  if (::flock(lock_file, LOCK_EX | LOCK_NB) != 0) {
    ::close(lock_file);
    return trouble(
        Trouble::Kind::conflict, folder.string(),
        "is served by another outbye already; use the page of that one, end it first, or give another folder "
        "with --store");
  }
  auto database = Database::open((folder / "outbye.sqlite").string());
  if (!database) {
    ::close(lock_file);
    return tl::make_unexpected(database.error());
  }
  auto store = std::make_unique<SqliteStore>(std::move(*database), std::move(now), lock_file);
  if (auto ok = store->prepare(); !ok) return tl::make_unexpected(ok.error());
  auto blobs = Blobs::open(folder / "files");
  if (!blobs) return tl::make_unexpected(blobs.error());
  return OpenStore{std::move(store), std::move(*blobs)};
}

Answer<void> SqliteStore::prepare() { return migrate(database_); }

}  // namespace outbye
