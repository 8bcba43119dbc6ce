#include "formats/ride_file/emergency_fields.h"

#include <algorithm>

#include "formats/ride_file/place_fields.h"

namespace outbye {
namespace {

bool is_phone(std::string_view text) {
  const auto is_figure = [](char c) { return c >= '0' && c <= '9'; };
  const bool is_written_so = std::all_of(text.begin(), text.end(), [&](char c) {
    return is_figure(c) || std::string_view(" +()-./x#*").find(c) != std::string_view::npos;
  });
  return is_written_so && std::count_if(text.begin(), text.end(), is_figure) >= 2;
}

void read_contacts(JsonFields& in, RideEmergency& into) {
  in.items("contacts", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    RideContact contact;
    at.require("name", "who it is, such as \"Ride control\"");
    at.text("name", contact.name);
    read_phone(at, "phone", contact.phone);
    at.text("note", contact.note, true);
    at.finish();
    into.contacts.push_back(std::move(contact));
  });
}

void read_help_places(JsonFields& in, RideEmergency& into) {
  in.items("places", [&](const Json& item, const std::string& path) {
    JsonFields at(item, in.file(), path, in.problems());
    RideHelpPlace place;
    at.require("name", "what it is called");
    at.text("name", place.name);
    std::string kind = "hospital";
    at.text("kind", kind);
    if (kind == "vet") {
      place.kind = RideHelpPlace::Kind::vet;
    } else if (kind == "other") {
      place.kind = RideHelpPlace::Kind::other;
    } else if (kind != "hospital") {
      at.report("kind", "is '" + kind + "', but must be \"hospital\", \"vet\" or \"other\"");
    }
    read_phone(at, "phone", place.phone);
    at.text("address", place.address, true);
    place.position = read_position(at, "position");
    at.text("note", place.note, true);
    at.finish();
    into.places.push_back(std::move(place));
  });
}

const char* kind_name(RideHelpPlace::Kind kind) {
  switch (kind) {
    case RideHelpPlace::Kind::vet:
      return "vet";
    case RideHelpPlace::Kind::other:
      return "other";
    case RideHelpPlace::Kind::hospital:
      break;
  }
  return "hospital";
}

}  // namespace

void read_phone(JsonFields& in, std::string_view name, std::string& into) {
  in.text(name, into, true);
  if (!into.empty() && !is_phone(into)) {
    in.report(name,
              "'" + into + "' is no telephone number, such as \"+44 7700 900123\" or \"112\"; words go into a note");
  }
}

void read_emergency(JsonFields& in, Ride& ride) {
  const Json* field = in.find("emergency");
  if (field == nullptr) return;
  JsonFields at(*field, in.file(), "emergency", in.problems());
  read_phone(at, "number", ride.emergency.number);
  at.text("meeting_point", ride.emergency.meeting_point, true);
  at.text("note", ride.emergency.note, true);
  read_contacts(at, ride.emergency);
  read_help_places(at, ride.emergency);
  at.finish();
}

Json write_emergency(const RideEmergency& emergency) {
  const auto add = [](Json& to, const char* name, const std::string& text) {
    if (!text.empty()) to[name] = text;
  };
  Json json = Json::object();
  add(json, "number", emergency.number);
  add(json, "meeting_point", emergency.meeting_point);
  add(json, "note", emergency.note);
  for (const RideContact& contact : emergency.contacts) {
    Json item{{"name", contact.name}};
    add(item, "phone", contact.phone);
    add(item, "note", contact.note);
    json["contacts"].push_back(std::move(item));
  }
  for (const RideHelpPlace& place : emergency.places) {
    Json item{{"name", place.name}, {"kind", kind_name(place.kind)}};
    add(item, "phone", place.phone);
    add(item, "address", place.address);
    if (place.position) item["position"] = write_position(*place.position);
    add(item, "note", place.note);
    json["places"].push_back(std::move(item));
  }
  return json;
}

}  // namespace outbye
