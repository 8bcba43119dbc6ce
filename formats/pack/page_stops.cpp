#include <algorithm>
#include <optional>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/pack/page_parts.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

struct Meeting {
  CarId car;
  const TimedStop* stop{};
  const MeetOption* option{};
};

std::vector<Meeting> meetings_of(const RidePlan& plan) {
  std::vector<Meeting> all;
  for (const CarDay& day : plan.plan.days) {
    for (const TimedStop& stop : day.stops) {
      if (stop.stop.option) all.push_back({day.car, &stop, &at(plan.task.options, *stop.stop.option)});
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Meeting& a, const Meeting& b) { return a.stop->arrive < b.stop->arrive; });
  return all;
}

const char* kind_word(RideEvent::Kind kind) {
  switch (kind) {
    case RideEvent::Kind::gate:
      return "gate";
    case RideEvent::Kind::finish:
      return "finish";
    case RideEvent::Kind::pass:
      break;
  }
  return "pass";
}

bool is_needed(const KitEntry& entry, RideEvent::Kind kind) {
  const KitNeed need = kind == RideEvent::Kind::gate     ? KitNeed::gate
                       : kind == RideEvent::Kind::finish ? KitNeed::finish
                                                         : KitNeed::pass;
  return std::find(entry.item.needed.begin(), entry.item.needed.end(), need) != entry.item.needed.end();
}

struct Thing {
  std::string name;
  std::vector<std::string> contents;  // of a crate: what of it is needed
  std::string where;
  std::vector<std::string> moved_first;
  int depth{};  // to reach it: how many are moved first, then how early it was loaded
};

const CarLoad* load_of(const PaperParts& parts, CarId car) {
  if (!parts.load) return nullptr;
  for (const CarLoad& load : parts.load->cars) {
    if (load.car == car) return &load;
  }
  return nullptr;
}

// Where a thing of this car lies; nothing: it stays at home.
std::optional<Thing> found(const PaperParts& parts, const CarLoad* load, const std::string& name) {
  Thing thing{name, {}, "", {}, 0};
  if (load == nullptr) return thing;
  for (std::size_t p = 0; p < load->load.placements.size(); ++p) {
    const LoadPlacement& placement = load->load.placements[p];
    if (at(load->task.items, placement.item).name != name) continue;
    thing.where = whereabouts(*load, p);
    for (const LoadItemId id : placement.moved_first) thing.moved_first.push_back(at(load->task.items, id).name);
    thing.depth = 1000 * static_cast<int>(placement.moved_first.size()) - load->steps[p].step;
    return thing;
  }
  for (const LoadedElsewhere& other : parts.load->elsewhere) {
    if (other.item != name || other.from != load->name) continue;
    if (other.where == LoadedElsewhere::Where::home) return std::nullopt;
    thing.where = "in " + other.to;
    return thing;
  }
  return thing;
}

Json get_out(const PageSources& from, const Meeting& meeting, const std::vector<KitPiece>& pieces) {
  const CarLoad* load = load_of(from.parts, meeting.car);
  std::vector<Thing> out;
  for (const KitPiece& piece : pieces) {
    if (CarId{static_cast<std::uint32_t>(piece.car)} != meeting.car) continue;
    bool is_wanted = false;
    std::vector<std::string> contents;
    for (std::size_t e = 0; e < piece.entries.size(); ++e) {
      if (!is_needed(from.parts.kit->list.taken[piece.entries[e]], meeting.option->kind)) continue;
      is_wanted = true;
      if (!piece.contents.empty()) contents.push_back(piece.contents[e]);
    }
    if (!is_wanted) continue;
    auto thing = found(from.parts, load, piece.item.name);
    if (!thing) continue;
    thing->contents = std::move(contents);
    if (piece.is_place) thing->where = "beside the boot";
    out.push_back(std::move(*thing));
  }
  std::stable_sort(out.begin(), out.end(), [](const Thing& a, const Thing& b) { return a.depth < b.depth; });
  Json list = Json::array();
  for (const Thing& thing : out) {
    list.push_back(Json{{"name", thing.name},
                        {"contents", thing.contents},
                        {"where", thing.where},
                        {"moved_first", thing.moved_first}});
  }
  return list;
}

Json card_json(const StopCard& card) {
  Json lines = Json::array();
  for (const CardLine& line : card.lines) {
    lines.push_back(Json{{"from_s", rounded(line.at.count(), 0)},
                         {"to_s", rounded(line.until.count(), 0)},
                         {"task", line.task},
                         {"with", line.with},
                         {"caution", line.caution}});
  }
  return Json{{"who", card.who}, {"lines", std::move(lines)}, {"cautions", card.cautions}};
}

void add_jobs(Json& json, const StopJobs* jobs) {
  Json cards = Json::array(), without = Json::array();
  Json early = Json::array(), notes = Json::array();
  if (jobs != nullptr && jobs->problem) {
    notes.push_back(jobs->problem->where + " " + jobs->problem->what);
  } else if (jobs != nullptr) {
    for (const StopCard& card : jobs->cards) cards.push_back(card_json(card));
    if (jobs->early) early = jobs->early->words;
    for (std::size_t h = 0; h < jobs->missing.size(); ++h) {
      const auto& missing = jobs->missing[h];
      Json words = Json::array();
      if (missing) {
        words = missing->words;
      } else {
        words.push_back(missing.error().where + " " + missing.error().what);
      }
      without.push_back(Json{{"helper", jobs->stop.helpers[h].name}, {"words", std::move(words)}});
    }
    for (const auto& note : jobs->notes) notes.push_back(note);
    for (const auto& warning : jobs->warnings) notes.push_back(warning);
  }
  json["cards"] = std::move(cards);
  json["if_early"] = std::move(early);
  json["without"] = std::move(without);
  json["notes"] = std::move(notes);
}

const StopJobs* jobs_at(const PaperParts& parts, const Meeting& meeting) {
  for (const StopJobs& stop : parts.jobs.stops) {
    if (stop.car == meeting.car && stop.option == *meeting.stop->stop.option) return &stop;
  }
  return nullptr;
}

}  // namespace

std::string whereabouts(const CarLoad& car, std::size_t placement) {
  const LoadStep& step = car.steps[placement];
  std::string words = at(car.task.spaces, step.space).name + ", step " + std::to_string(step.step) + ": " + step.side;
  for (const std::string* more : {&step.depth, &step.on, &step.turned}) {
    if (!more->empty()) words += ", " + *more;
  }
  return words;
}

Json stops_json(const PageSources& from) {
  const RidePlan& plan = from.plan;
  const Clock& clock = plan.ride.clock;
  const std::vector<KitPiece> pieces = pieces_of(from);
  Json stops = Json::array();
  for (const Meeting& meeting : meetings_of(plan)) {
    Json json{{"label", meeting.option->label},
              {"car", at(plan.task.cars, meeting.car).name},
              {"horse", at(plan.ride.horses, meeting.option->horse).name},
              {"place", place_words(plan, meeting.option->place)},
              {"kind", kind_word(meeting.option->kind)},
              {"arrive", iso8601(meeting.stop->arrive, clock)},
              {"due", json_of(meeting.stop->due, clock)}};
    json["get_out"] = get_out(from, meeting, pieces);
    add_jobs(json, jobs_at(from.parts, meeting));
    stops.push_back(std::move(json));
  }
  return stops;
}

}  // namespace outbye
