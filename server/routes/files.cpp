// The files of a ride, by the names that the ride gives them.
#include <fstream>

#include "server/http/guard.h"
#include "server/http/target.h"
#include "server/routes/ride_json.h"
#include "server/routes/router.h"
#include "server/storage/file_kind.h"

namespace outbye {
namespace {

std::string first_bytes(const std::filesystem::path& file) {
  std::string bytes(64, '\0');
  std::ifstream in(file, std::ios::binary);
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

Response add(Backstage& backstage, Request& request, const InPath& places) {
  const std::string& name = places[1];
  if (const auto ok = check_file_name(name); !ok) return refused(ok.error());
  if (const auto ride = backstage.store.ride(places[0]); !ride) return refused(ride.error());
  TempFile& upload = *request.upload;
  auto kind = file_kind(upload.start(), upload.size(), name);
  if (!kind) {
    Response response = refused(kind.error());
    response.status = 415;
    return response;
  }
  if (*kind == "photo" && upload.size() > backstage.limits.photo_bytes) {
    return refused({{Trouble::Kind::too_large, name,
                     "is larger than the " + std::to_string(backstage.limits.photo_bytes >> 20) +
                         " MB that a photo may have; make it smaller"}});
  }
  const std::uint64_t size = upload.size();
  const auto hash = backstage.blobs.keep(std::move(upload));
  if (!hash) return refused(hash.error());
  const auto file = backstage.store.add_file(places[0], {name, *kind, size, "", *hash});
  return file ? json_response(201, json_of(*file)) : refused(file.error());
}

Response show(Backstage& backstage, Request& request, const InPath& places) {
  const auto file = backstage.store.file(places[0], places[1]);
  if (!file) return refused(file.error());
  Response response;
  const std::string tag = "\"" + file->hash + "\"";
  response.headers = {{"ETag", tag}, {"Cache-Control", "private, no-cache"}};
  if (request.header("if-none-match") == tag) {
    response.status = 304;
    return response;
  }
  response.file = backstage.blobs.path(file->hash);
  response.type = file->kind == "photo" ? media_type(first_bytes(*response.file)) : "application/octet-stream";
  const std::string how = response.type == "application/octet-stream" ? "attachment" : "inline";
  response.headers.emplace_back("Content-Disposition", how + "; filename*=UTF-8''" + encoded(file->name));
  return response;
}

Response remove(Backstage& backstage, Request&, const InPath& places) {
  const auto done = backstage.store.remove_file(places[0], places[1]);
  return done ? nothing_to_say() : refused(done.error());
}

}  // namespace

std::vector<ApiRoute> file_routes() {
  return {{"GET", "/rides/{id}/files/{name}", Takes::nothing, show},
          {"PUT", "/rides/{id}/files/{name}", Takes::file, add},
          {"DELETE", "/rides/{id}/files/{name}", Takes::nothing, remove}};
}

}  // namespace outbye
