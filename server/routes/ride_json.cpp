#include "server/routes/ride_json.h"

#include "server/routes/router.h"

namespace outbye {

Json stored_json(const std::string& text) {
  Json value = Json::parse(text, nullptr, false);
  return value.is_discarded() ? Json::object() : value;
}

Json json_of(const RideFile& file) {
  return {{"name", file.name}, {"kind", file.kind}, {"bytes", file.bytes}, {"added_at", file.added_at}};
}

Json json_of(const RideState& state) {
  return {{"revision", state.revision},
          {"ride", stored_json(state.text.document)},
          {"drafts", stored_json(state.text.drafts)}};
}

Answer<RideText> ride_text_in(const Json& body, std::uint64_t most) {
  const auto ride = object_in(body, "ride");
  if (!ride) return tl::make_unexpected(ride.error());
  RideText text;
  text.document = ride->dump();
  if (text.document.size() > most) {
    return trouble(Trouble::Kind::too_large, "ride", "is larger than the 1 MB that a ride may have");
  }
  if (body.contains("drafts")) {
    const auto drafts = object_in(body, "drafts");
    if (!drafts) return tl::make_unexpected(drafts.error());
    text.drafts = drafts->dump();
  }
  return text;
}

}  // namespace outbye
