// A ride as it is asked about: its text and where its files are.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>

#include "formats/json_text/json_text.h"
#include "formats/ride_inputs/ride_inputs.h"
#include "server/answer/trouble.h"

namespace outbye {

struct StoredFile {
  std::filesystem::path path;
  std::string hash;
  std::string kind;
};
using StoredFiles = std::map<std::string, StoredFile>;  // by name

struct RideQuestion {
  std::string document;  // the stored ride
  StoredFiles files;
  Json request;                       // the body of the call
  std::function<bool()> is_wanted{};  // false: nobody waits for the answer any more; may be empty
};

// The ride that is asked about: `request.ride`, or else the stored one. Problems name the field: "loops[0].speed_kmh".
Answer<Ride> read_ride(const std::string& document);
Answer<std::string> document_in(const RideQuestion& question, const char* field);  // the text of that ride

// A name that the ride has no file for leads nowhere.
FindFile find_in(const StoredFiles& files);

// Messages that tell of paths in the store tell of the ride's names for them.
void rename_stored(const StoredFiles& files, Trouble& trouble);
std::string in_names_of(const StoredFiles& files, std::string text);
std::vector<Trouble> in_names_of(const StoredFiles& files, const std::vector<Problem>& problems);

}  // namespace outbye
