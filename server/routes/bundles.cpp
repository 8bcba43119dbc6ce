// A ride with its files in one piece, out and in.
#include <fstream>
#include <iterator>
#include <memory>

#include "server/bundle/bundle.h"
#include "server/http/target.h"
#include "server/routes/ride_json.h"
#include "server/routes/router.h"
#include "server/storage/file_kind.h"

namespace outbye {
namespace {

Response download(Backstage& backstage, Request&, const InPath& places) {
  const auto entry = backstage.store.ride(places[0]);
  if (!entry) return refused(entry.error());
  const auto state = backstage.store.newest_state(places[0]);
  if (!state) return refused(state.error());
  const auto files = backstage.store.files(places[0]);
  if (!files) return refused(files.error());
  std::vector<BundledFile> bundled;
  for (const RideFile& file : *files) bundled.push_back({file.name, backstage.blobs.path(file.hash)});
  auto target = backstage.blobs.begin();
  if (!target) return refused(target.error());
  const std::string text = pretty_json(stored_json(state->text.document));
  if (auto ok = write_bundle(text, bundled, target->path()); !ok) return refused(ok.error());
  Response response;
  response.type = "application/zip";
  response.file = target->path();
  response.lent = std::make_shared<TempFile>(std::move(*target));
  const std::string name = entry->name.empty() ? "ride" : entry->name;
  response.headers.emplace_back("Content-Disposition", "attachment; filename*=UTF-8''" + encoded(name + ".zip"));
  return response;
}

// The names under "files" of a ride, whatever else is in there.
std::vector<std::string> named_files(const Json& ride) {
  std::vector<std::string> names;
  const auto files = ride.find("files");
  if (files == ride.end() || !files->is_object()) return names;
  for (const Json& value : *files) {
    if (value.is_string()) names.push_back(value.get<std::string>());
    if (!value.is_array()) continue;
    for (const Json& name : value) {
      if (name.is_string()) names.push_back(name.get<std::string>());
    }
  }
  return names;
}

// A ride file alone is a bundle without files.
Answer<UnpackedBundle> unpacked(Backstage& backstage, const TempFile& upload) {
  const std::string start = upload.start();
  BundleLimits limits;
  limits.ride_bytes = backstage.limits.json_bytes;
  limits.file_bytes = backstage.limits.file_bytes;
  if (start.substr(0, 2) == "PK") {
    return read_bundle(upload.path(), limits, [&] { return backstage.blobs.begin(); });
  }
  if (upload.size() > limits.ride_bytes) {
    return trouble(Trouble::Kind::too_large, "ride.json", "is larger than the 1 MB that a ride file may have");
  }
  UnpackedBundle bundle;
  std::ifstream in(upload.path(), std::ios::binary);
  bundle.ride.assign(std::istreambuf_iterator<char>(in), {});
  return bundle;
}

Response import(Backstage& backstage, Request& request, const InPath&) {
  auto bundle = unpacked(backstage, *request.upload);
  if (!bundle) return refused(bundle.error());
  const auto ride = parse_json(bundle->ride, "ride.json");
  if (!ride || !ride->is_object()) {
    return refused({{Trouble::Kind::bad_input, "ride.json",
                     "is no ride file or bundle; a course (GPX) goes into a ride: make one, and drop it there"}});
  }
  // All files are taken in before there is a ride, so that a refused one leaves nothing.
  std::vector<RideFile> files;
  for (UnpackedFile& file : bundle->files) {
    const auto kind = file_kind(file.bytes.start(), file.bytes.size(), file.name);
    if (!kind) return refused(kind.error());
    const std::uint64_t size = file.bytes.size();
    const auto hash = backstage.blobs.keep(std::move(file.bytes));
    if (!hash) return refused(hash.error());
    files.push_back({file.name, *kind, size, "", *hash});
  }
  const auto id = backstage.store.make_ride({ride->dump(), "{}"}, "imported");
  if (!id) return refused(id.error());
  for (RideFile& file : files) {
    if (const auto added = backstage.store.add_file(*id, file); !added) {
      (void)backstage.store.set_removed(*id, true);
      return refused(added.error());
    }
  }
  Json missing = Json::array();
  for (const std::string& name : named_files(*ride)) {
    if (!backstage.store.file(*id, name)) missing.push_back(name);
  }
  const auto state = backstage.store.newest_state(*id);
  if (!state) return refused(state.error());
  return json_response(
      201, {{"id", *id}, {"revision", state->revision}, {"ride", *ride}, {"missing_files", std::move(missing)}});
}

}  // namespace

std::vector<ApiRoute> bundle_routes() {
  return {{"GET", "/rides/{id}/bundle", Takes::nothing, download}, {"POST", "/bundles", Takes::bundle, import}};
}

}  // namespace outbye
