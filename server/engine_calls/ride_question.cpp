#include "server/engine_calls/ride_question.h"

#include "formats/ride_file/ride_file.h"

namespace outbye {
namespace {

void replace_all(std::string& text, const std::string& what, const std::string& by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
}

}  // namespace

Answer<Ride> read_ride(const std::string& document) {
  auto reading = check_ride_file(document, "ride");
  if (reading.ride) return std::move(*reading.ride);
  auto troubles = trouble_of(reading.problems);
  constexpr std::string_view prefix = "ride: ";
  for (Trouble& one : troubles) {
    if (one.where.rfind(prefix, 0) == 0) one.where.erase(0, prefix.size());
  }
  return tl::make_unexpected(std::move(troubles));
}

Answer<std::string> document_in(const RideQuestion& question, const char* field) {
  const auto given = question.request.find(field);
  if (given == question.request.end() || given->is_null()) return question.document;
  if (!given->is_object()) return trouble(Trouble::Kind::bad_input, field, "must be a JSON object");
  return given->dump();
}

FindFile find_in(const StoredFiles& files) {
  return [files](const std::string& name) {
    const auto found = files.find(name);
    return FoundFile{found == files.end() ? std::string("/nonexistent") : found->second.path.string(), name};
  };
}

std::string in_names_of(const StoredFiles& files, std::string text) {
  for (const auto& [name, file] : files) {
    replace_all(text, file.path.string(), name);
    replace_all(text, file.hash, name);
  }
  return text;
}

void rename_stored(const StoredFiles& files, Trouble& trouble) {
  trouble.where = in_names_of(files, std::move(trouble.where));
  trouble.what = in_names_of(files, std::move(trouble.what));
}

std::vector<Trouble> in_names_of(const StoredFiles& files, const std::vector<Problem>& problems) {
  auto troubles = trouble_of(problems);
  for (Trouble& one : troubles) {
    rename_stored(files, one);
    if (one.kind == Trouble::Kind::not_found && one.what.rfind("no such file", 0) == 0) {
      one.what = "is named by the ride, but there is no such file in it yet; add the file, or take the name out";
    }
  }
  return troubles;
}

}  // namespace outbye
