// Parts of answers about rides that several routes give. Internal to routes.
#pragma once

#include "formats/json_text/json_text.h"
#include "server/answer/trouble.h"
#include "server/storage/store.h"

namespace outbye {

// A stored text, which was JSON when it was stored.
Json stored_json(const std::string& text);
Json json_of(const RideFile& file);
// {"revision", "ride", "drafts"}
Json json_of(const RideState& state);

// "ride" (a JSON object of at most `most` bytes) and, if there, "drafts" of a request.
Answer<RideText> ride_text_in(const Json& body, std::uint64_t most);

}  // namespace outbye
