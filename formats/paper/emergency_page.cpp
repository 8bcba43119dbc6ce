#include <algorithm>

#include "core/base/text.h"
#include "formats/exports/place_codes.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

// From memory; the page asks to check it.
std::string usual_number(const std::string& country) {
  if (country == "GB" || country == "IE") return "999 or 112";
  if (country == "US" || country == "CA") return "911";
  if (country == "AU") return "000";
  if (country == "NZ") return "111";
  return "112";
}

// The national grid where there is one, else UTM.
std::string grid_words(Position place) {
  if (const auto grid = national_grid(place)) return grid_reference(*grid);
  const auto mercator = utm(place);
  return mercator ? mgrs_reference(*mercator) : "";
}

struct Phone {
  std::string who;
  std::string number;  // empty: room to write it
};

// Those typed in, then those that a crew wants and nobody has typed in.
std::vector<Phone> phones_of(const RidePlan& plan) {
  std::vector<Phone> phones;
  const auto add = [&](const std::string& who, const std::string& number) {
    for (Phone& phone : phones) {
      if (!same_name(phone.who, who)) continue;
      if (phone.number.empty()) phone.number = number;
      return;
    }
    phones.push_back({who, number});
  };
  for (const RideContact& contact : plan.ride.emergency.contacts) {
    const std::string words = contact.phone + (contact.note.empty() ? "" : " (" + contact.note + ")");
    add(contact.name, contact.phone.empty() ? "" : words);
  }
  for (const char* who : {"Ride control", "Ride vet", "Doctor or first aid", "Farrier"}) add(who, "");
  for (const RideHorse& horse : plan.ride.horses) {
    if (!horse.rider.empty()) add(horse.rider, horse.rider_phone);
  }
  for (const RideHelper& helper : plan.ride.helpers) add(helper.name, helper.phone);
  for (const char* who : {"Own vet at home", "Breakdown service", "To be told at home"}) add(who, "");
  return phones;
}

void telephone_table(Paper& paper, const RidePlan& plan) {
  Table table;
  table.is_boxed = true;
  table.row_height = 18;
  table.columns = {{"Who", false}, {"Number", false}, {"Who", false}, {"Number", false}};
  const auto phones = phones_of(plan);
  for (std::size_t i = 0; i < phones.size(); i += 2) {
    std::vector<TableCell> row;
    for (std::size_t j = i; j < std::min(i + 2, phones.size()); ++j) {
      const std::string room = "                              ";  // keeps the columns for numbers wide
      row.emplace_back(phones[j].who);
      row.emplace_back(phones[j].number.empty() ? room : phones[j].number, !phones[j].number.empty());
    }
    table.rows.push_back(std::move(row));
  }
  paper.table(table);
}

void help_places(Paper& paper, const RidePlan& plan) {
  const auto& places = plan.ride.emergency.places;
  const auto has = [&places](RideHelpPlace::Kind kind) {
    return std::any_of(places.begin(), places.end(), [kind](const RideHelpPlace& place) { return place.kind == kind; });
  };
  paper.heading(2, "Nearest hospital and horse hospital");
  for (const RideHelpPlace& place : places) {
    std::string words = place.kind == RideHelpPlace::Kind::hospital ? "Hospital: "
                        : place.kind == RideHelpPlace::Kind::vet    ? "Horse hospital: "
                                                                    : "";
    words += place.name;
    for (const std::string& more : {place.phone, place.address}) words += more.empty() ? "" : ", " + more;
    if (place.position) {
      words += ", " + coordinates(*place.position);
      if (const auto grid = grid_words(*place.position); !grid.empty()) words += ", grid " + grid;
    }
    paper.text(words + (place.note.empty() ? "" : " (" + place.note + ")"), paper.bold());
  }
  std::vector<std::string> missing;
  if (!has(RideHelpPlace::Kind::hospital)) missing.emplace_back("hospital: name, number, road");
  if (!has(RideHelpPlace::Kind::vet)) missing.emplace_back("horse hospital: name, number, road");
  if (!missing.empty()) paper.to_fill_in(missing, paper.width() / 2 - 1);
}

void what_to_say(Paper& paper, const RidePlan& plan) {
  paper.heading(2, "What to say");
  const std::string& meeting = plan.ride.emergency.meeting_point;
  paper.list(
      {"The number you call from, and who you are: crew at the endurance ride" +
           (plan.ride.name.empty() ? std::string("") : " '" + plan.ride.name + "'") + ".",
       "Where: the place from the table below, its coordinates or grid reference, and the road to it. Say it twice and "
       "have it read back.",
       "What has happened, to whom: rider, horse or somebody else; how many are hurt, are they awake, do they breathe.",
       meeting.empty() ? "Who can open gates and meet the ambulance, and where."
                       : "Where somebody meets the ambulance and opens gates: " + meeting + ".",
       "Stay on the line until they end the call. Then tell ride control, who can stop other riders."});
  paper.text(
      "A fall with a blow to the head or neck: do not move the person, keep the head still, call. A rider with a "
      "concussion does not ride again that day. Catch the horse only when that puts nobody at risk. For the horse call "
      "the ride vet first. (Common practice; a first-aid course says more.)");
}

void place_table(Paper& paper, const RidePlan& plan) {
  paper.heading(2, "Places");
  bool has_national = false, has_other = false;
  Table places;
  places.is_small = true;
  for (const PlaceReport& place : plan.places) {
    (national_grid(place.position) ? has_national : has_other) = true;
  }
  const char* grid = has_national && has_other ? "Grid" : has_national ? "National grid" : "Grid (MGRS)";
  places.columns = {
      {"Place", false}, {"Coordinates (WGS84)", true}, {"Degrees and minutes", true}, {grid, true}, {"Road", false}};
  for (std::uint32_t p = 0; p < plan.places.size(); ++p) {
    const PlaceReport& place = plan.places[p];
    places.rows.push_back({{place_words(plan, PlaceId{p}), true},
                           coordinates(place.position),
                           degrees_minutes(place.position),
                           grid_words(place.position),
                           !place.unreachable.empty() ? "no road: " + place.unreachable : place.road});
  }
  paper.table(places);
  std::string words = "Coordinates of where the cars stand, to about a metre as typed in.";
  if (has_national) words += " National grid of Great Britain to 10 m, worked out to about 5 m.";
  if (has_other) words += " Grid references to 10 m (MGRS, WGS84).";
  paper.text(words, paper.small());
}

}  // namespace

void emergency_page(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  const RideEmergency& emergency = plan.ride.emergency;
  paper.new_page();
  paper.heading(1, "Telephone and emergency");
  paper.text("Emergency number: " + (emergency.number.empty()
                                         ? usual_number(plan.ride.country) + " (from memory: check it for this country)"
                                         : emergency.number),
             {paper.format().body * 1.2, true, 0.0, TextAlign::start});
  if (!emergency.note.empty()) paper.text(emergency.note);
  telephone_table(paper, plan);
  help_places(paper, plan);
  what_to_say(paper, plan);
  place_table(paper, plan);
}

}  // namespace outbye
