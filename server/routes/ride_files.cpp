#include "server/routes/ride_files.h"

namespace outbye {

Answer<StoredFiles> stored_files(Store& store, const Blobs& blobs, const std::string& ride) {
  const auto files = store.files(ride);
  if (!files) return tl::make_unexpected(files.error());
  StoredFiles found;
  for (const RideFile& file : *files) found[file.name] = {blobs.path(file.hash), file.hash, file.kind};
  return found;
}

Answer<std::vector<Extract>> extracts_of(Store& store, const Blobs& blobs, const std::string& ride) {
  const auto files = store.files(ride);
  if (!files) return tl::make_unexpected(files.error());
  std::vector<Extract> extracts;
  for (const RideFile& file : *files) {
    if (file.kind == "map") extracts.push_back({blobs.path(file.hash), file.hash});
  }
  return extracts;
}

}  // namespace outbye
