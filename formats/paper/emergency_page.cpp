#include "core/base/text.h"
#include "formats/exports/place_codes.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

// From memory; the page asks to check it.
std::string emergency_number(const std::string& country) {
  if (country == "GB" || country == "IE") return "999 or 112";
  if (country == "US" || country == "CA") return "911";
  if (country == "AU") return "000";
  if (country == "NZ") return "111";
  return "112";
}

}  // namespace

void emergency_page(Paper& paper, const PaperSources& from) {
  const RidePlan& plan = from.plan;
  paper.new_page();
  paper.heading(1, "Telephone and emergency");
  paper.text("Emergency number: " + emergency_number(plan.ride.country) + " (from memory: check it for this country)",
             {paper.format().body * 1.2, true, 0.0, TextAlign::start});
  Table phones;
  phones.is_boxed = true;
  phones.row_height = 18;
  phones.columns = {{"Who", false}, {"Number", false}, {"Who", false}, {"Number", false}};
  std::vector<std::string> who{"Ride control", "Ride vet",        "Doctor or first aid",
                               "Farrier",      "Own vet at home", "Breakdown service"};
  for (const RideHelper& helper : plan.ride.helpers) who.push_back(helper.name);
  for (const RideHorse& horse : plan.ride.horses) {
    if (!horse.rider.empty()) who.push_back(horse.rider);
  }
  who.emplace_back("To be told at home");
  for (std::size_t i = 0; i < who.size(); i += 2) {
    const std::string room = "                              ";  // keeps the columns for numbers wide
    phones.rows.push_back({who[i], room, i + 1 < who.size() ? who[i + 1] : "", room});
  }
  paper.table(phones);

  paper.heading(2, "What to say");
  paper.list(
      {"The number you call from, and who you are: crew at the endurance ride " +
           (plan.ride.name.empty() ? std::string("") : "'" + plan.ride.name + "'") + ".",
       "Where: the place from the table below, its coordinates" +
           std::string(" or grid reference, and the road to it. Say it twice."),
       "What has happened, to whom: rider, horse or somebody else; how many are hurt, are they awake, do they breathe.",
       "Who can open gates and meet the ambulance, and where.",
       "Stay on the line until they end the call. Then tell ride control, who can stop other riders."});
  paper.text(
      "A fall with a blow to the head or neck: do not move the person, keep the head still, call. A rider with a "
      "concussion does not ride again that day. Catch the horse only when that puts nobody at risk. For the horse call "
      "the ride vet first. (Common practice; a first-aid course says more.)");

  paper.heading(2, "Places");
  bool has_grid = false;
  Table places;
  for (const PlaceReport& place : plan.places) has_grid = has_grid || national_grid(place.position).has_value();
  places.columns = {{"Place", false}, {"Coordinates (WGS84)", true}};
  if (has_grid) places.columns.push_back({"National grid", true});
  places.columns.push_back({"Road", false});
  for (std::uint32_t p = 0; p < plan.places.size(); ++p) {
    const PlaceReport& place = plan.places[p];
    std::vector<TableCell> row{{place_words(plan, PlaceId{p}), true}, coordinates(place.position)};
    if (has_grid) {
      const auto grid = national_grid(place.position);
      row.emplace_back(grid ? grid_reference(*grid) : "");
    }
    row.emplace_back(!place.unreachable.empty() ? "no road: " + place.unreachable : place.road);
    places.rows.push_back(std::move(row));
  }
  paper.table(places);
  paper.text(std::string("Coordinates of where the cars stand, to about a metre as typed in") +
                 (has_grid ? "; grid references to 10 m, worked out to about 5 m." : "."),
             paper.small());
}

}  // namespace outbye
