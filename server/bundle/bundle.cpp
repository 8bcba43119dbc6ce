#include "server/bundle/bundle.h"

#include <zip.h>

#include <algorithm>
#include <memory>
#include <set>

#include "server/storage/file_kind.h"

namespace outbye {
namespace {

constexpr const char* ride_name = "ride.json";

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
using Archive = std::unique_ptr<zip_t, Discard>;
struct Close {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};
using OpenEntry = std::unique_ptr<zip_file_t, Close>;

tl::unexpected<std::vector<Trouble>> cannot_write(zip_t* archive) {
  return trouble(Trouble::Kind::storage, "bundle", std::string("could not be written: ") + zip_strerror(archive));
}

// Hands the bytes of an entry to `take`, at most `most` of them.
Answer<std::uint64_t> unpack(zip_t* archive, zip_uint64_t index, const std::string& name, std::uint64_t most,
                             const std::function<Answer<void>(std::string_view)>& take) {
  const OpenEntry entry(zip_fopen_index(archive, index, 0));
  if (!entry) {
    return trouble(Trouble::Kind::bad_input, name, std::string("cannot be unpacked: ") + zip_strerror(archive));
  }
  std::uint64_t read = 0;
  std::string piece(64 * 1024, '\0');
  while (true) {
    const zip_int64_t got = zip_fread(entry.get(), piece.data(), piece.size());
    if (got < 0) return trouble(Trouble::Kind::bad_input, name, "is damaged in the archive; make the bundle again");
    if (got == 0) return read;
    read += static_cast<std::uint64_t>(got);
    if (read > most) {
      return trouble(Trouble::Kind::too_large, name, "is larger than the " + std::to_string(most >> 20) + " MB taken");
    }
    if (auto ok = take(std::string_view(piece).substr(0, static_cast<std::size_t>(got))); !ok) {
      return tl::make_unexpected(ok.error());
    }
  }
}

}  // namespace

Answer<void> write_bundle(const std::string& ride, const std::vector<BundledFile>& files,
                          const std::filesystem::path& target) {
  int error = 0;
  Archive archive(zip_open(target.c_str(), ZIP_CREATE | ZIP_TRUNCATE, &error));
  if (!archive) return trouble(Trouble::Kind::storage, "bundle", "could not be begun: is the disk full?");
  const auto add = [&](const std::string& name, zip_source_t* source) {
    if (source == nullptr) return false;
    if (zip_file_add(archive.get(), name.c_str(), source, ZIP_FL_ENC_UTF_8) >= 0) return true;
    zip_source_free(source);
    return false;
  };
  if (!add(ride_name, zip_source_buffer(archive.get(), ride.data(), ride.size(), 0)))
    return cannot_write(archive.get());
  for (const BundledFile& file : files) {
    if (!add(file.name, zip_source_file(archive.get(), file.path.c_str(), 0, -1))) return cannot_write(archive.get());
  }
  if (zip_close(archive.get()) != 0) return cannot_write(archive.get());
  (void)archive.release();  // closed
  return {};
}

Answer<UnpackedBundle> read_bundle(const std::filesystem::path& path, const BundleLimits& limits,
                                   const std::function<Answer<TempFile>()>& begin) {
  int error = 0;
  const Archive archive(zip_open(path.c_str(), ZIP_RDONLY | ZIP_CHECKCONS, &error));
  if (!archive) return trouble(Trouble::Kind::bad_input, "bundle", "is no whole ZIP archive; export the ride again");
  const zip_int64_t entries = zip_get_num_entries(archive.get(), 0);
  if (entries > static_cast<zip_int64_t>(limits.files)) {
    return trouble(Trouble::Kind::too_large, "bundle",
                   "holds more than " + std::to_string(limits.files) + " files; is it the bundle of a ride?");
  }
  UnpackedBundle bundle;
  bool has_ride = false;
  std::set<std::string> names;
  std::uint64_t left = limits.all_bytes;
  for (zip_int64_t i = 0; i < entries; ++i) {
    const auto index = static_cast<zip_uint64_t>(i);
    const char* given = zip_get_name(archive.get(), index, ZIP_FL_ENC_GUESS);
    const std::string name = given == nullptr ? "" : given;
    if (const auto ok = check_file_name(name); !ok) return tl::make_unexpected(ok.error());
    if (!names.insert(name).second) return trouble(Trouble::Kind::bad_input, name, "is in the archive twice");
    zip_stat_t about;
    if (zip_stat_index(archive.get(), index, 0, &about) == 0 && (about.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 &&
        about.encryption_method != ZIP_EM_NONE) {
      return trouble(Trouble::Kind::bad_input, name, "is locked with a password; make the archive without one");
    }
    if (name == ride_name) {
      const auto keep = [&](std::string_view piece) -> Answer<void> {
        bundle.ride += piece;
        return {};
      };
      if (auto read = unpack(archive.get(), index, name, limits.ride_bytes, keep); !read) {
        return tl::make_unexpected(read.error());
      }
      has_ride = true;
      continue;
    }
    auto file = begin();
    if (!file) return tl::make_unexpected(file.error());
    const auto keep = [&](std::string_view piece) { return file->write(piece); };
    const auto read = unpack(archive.get(), index, name, std::min(limits.file_bytes, left), keep);
    if (!read) return tl::make_unexpected(read.error());
    left -= *read;
    bundle.files.push_back({name, std::move(*file)});
  }
  if (!has_ride) {
    return trouble(Trouble::Kind::bad_input, "bundle",
                   "has no ride.json in it; export a ride to see what belongs in one");
  }
  return bundle;
}

}  // namespace outbye
