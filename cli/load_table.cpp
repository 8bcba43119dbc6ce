#include "cli/load_table.h"

#include <algorithm>

#include "cli/text_layout.h"
#include "core/base/text.h"

namespace outbye {
namespace {

std::string kg(Kilograms mass) { return fixed(mass.value, mass.value < 10.0 ? 1 : 0) + " kg"; }

// Names may have commas and an "and" in them.
std::string with_semicolons(const std::vector<std::string>& names) {
  std::string text;
  for (const auto& name : names) text += (text.empty() ? "" : "; ") + name;
  return text;
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  }
  return text;
}

class LoadTable {
 public:
  LoadTable(const RidePlan& plan, const LoadAnswer& answer, const Style& style)
      : plan_(plan), answer_(answer), style_(style) {}

  std::string text() {
    if (!plan_.ride.name.empty()) out_ += style_.heading(cut_to(plan_.ride.name, line_width)) + "\n";
    out_ += "How to load the cars; left and right as seen when facing forwards.\n";
    for (std::size_t c = 0; c < answer_.load.cars.size(); ++c) {
      car(answer_.load.cars[c]);
      if (c < answer_.after.size() && answer_.after[c]) after(answer_.load.cars[c], *answer_.after[c]);
    }
    elsewhere();
    notes();
    return out_;
  }

 private:
  void heading(const std::string& words) { out_ += "\n" + style_.heading(cut_to(words, line_width)) + "\n"; }

  void car(const CarLoad& car) {
    heading(car.name);
    packed_together(car);
    for (std::size_t s = 0; s < car.task.spaces.size(); ++s) {
      const LoadSpace& space = car.task.spaces[s];
      const bool is_empty = std::none_of(car.load.placements.begin(), car.load.placements.end(),
                                         [&](const LoadPlacement& p) { return p.space.value == s; });
      if (s > 0 && is_empty) continue;
      out_ += cut_to(space.name, 40) + ", " + std::to_string(space.size.length) + " x " +
              std::to_string(space.size.width) + " x " + std::to_string(space.size.height) + " mm\n";
      if (is_empty) out_ += "  Nothing to load.\n";
      steps(car, LoadSpaceId{static_cast<std::uint32_t>(s)});
      balance(car, s);
    }
    payload(car);
    out_ += wrapped(car.load.proof_words, "  Fit: ");
    reach(car);
    cautions(car);
    for (const auto& sentence : car.assumptions) out_ += wrapped(sentence, "  Taken for granted: ");
  }

  // What to put into which crate before the car is loaded, and what goes into the car without being loaded.
  void packed_together(const CarLoad& car) {
    std::string text;
    for (std::size_t i = 0; i < car.contents.size(); ++i) {
      if (car.contents[i].empty()) continue;
      const LoadItem& item = car.task.items[i];
      text += wrapped(item.name + ", " + kg(item.mass) + ": " + with_semicolons(car.contents[i]) + ".", "  - ");
    }
    if (!text.empty()) out_ += "Pack together first\n" + text;
    for (const CarPlace& place : car.places) {
      out_ += wrapped(
          place.name + ", not in the boot, " + kg(place.mass) + ": " + with_semicolons(place.contents) + ".", "  - ");
    }
    if (!text.empty() || !car.places.empty()) out_ += "\n";
  }

  void steps(const CarLoad& car, LoadSpaceId space) {
    for (const LoadStep& step : car.steps) {
      if (step.space != space) continue;
      const LoadItem& item = at(car.task.items, step.item);
      // "step 4: jerrycan 2, left, ...": the number stands in its column, the rest is wrapped beside it.
      std::string words = one_line(item.name) + ", " + kg(item.mass) + ": " + step.side + ", " + step.depth + ", " +
                          step.on + (step.turned.empty() ? "" : ", " + step.turned);
      if (!car.task.helpers.empty() && item.mass.value >= 5.0) words += " (lift: " + step.lift + ")";
      out_ += wrapped(words, "  step " + right(std::to_string(step.step), 2) + ": ");
    }
  }

  void balance(const CarLoad& car, std::size_t s) {
    if (s >= car.load.balance.size() || car.load.balance[s].mass <= Kilograms{0}) return;
    const LoadSpace& space = car.task.spaces[s];
    const LoadBalance& balance = car.load.balance[s];
    const Millimetres off = balance.centre.y - space.size.width / 2;
    out_ += wrapped("Middle of the mass: " + std::to_string(balance.centre.x) + " mm from the seat-back, " +
                        std::to_string(balance.centre.z) + " mm above the floor, " + std::to_string(std::abs(off)) +
                        " mm " + (off < 0 ? "left" : "right") + " of the middle.",
                    "  ");
    if (!balance.on_rear) return;
    const auto axle = [](const char* name, std::optional<Kilograms> on, std::optional<Kilograms> over) {
      return std::string(name) + " axle " + (on->value < 0 ? "-" : "+") + fixed(std::abs(on->value), 0) + " kg" +
             (over ? " of the " + fixed(over->value, 0) + " kg it may still take" : "");
    };
    out_ += wrapped("The load puts on the " + axle("front", balance.on_front, space.axles->front_left_over) +
                        ", on the " + axle("rear", balance.on_rear, space.axles->rear_left_over) + ".",
                    "  ");
  }

  void payload(const CarLoad& car) {
    Kilograms loaded{};
    for (std::size_t s = 0; s < car.load.balance.size(); ++s) loaded += car.load.balance[s].mass;
    const Kilograms left = car.task.spaces.front().payload - loaded;
    Kilograms beside{};
    for (const CarPlace& place : car.places) beside += place.mass;
    out_ +=
        wrapped("payload " + kg(car.payload) + " beyond the driver, " +
                    (car.people > 1 ? std::to_string(car.people - 1) + " more riding in it " +
                                          kg((car.people - 1.0) * mass_of_a_person) + ", "
                                    : "") +
                    (beside > Kilograms{} ? "beside the boot " + kg(beside) + ", " : "") + "load " + kg(loaded) + ": " +
                    (left < Kilograms{0} ? style_.bad(kg(-1.0 * left) + " TOO MUCH") : kg(left) + " left") + ".",
                "  Mass: ");
  }

  // What is under the same things is told together, what is needed first first.
  struct Behind {
    std::vector<LoadItemId> moved;
    int first_needed{};
    std::vector<std::string> names;
  };

  std::string with_stop(const CarLoad& car, const LoadItem& item) const {
    const auto stop = static_cast<std::size_t>(*item.first_needed);
    return item.name + (stop < car.stops.size() ? " (" + car.stops[stop] + ")" : "");
  }

  void reach(const CarLoad& car) {
    std::vector<std::string> at_once;
    std::vector<Behind> behind;
    std::size_t easy_count = 0;
    for (const LoadPlacement& p : car.load.placements) {
      const LoadItem& item = at(car.task.items, p.item);
      if (item.is_emergency) at_once.push_back(item.name);
      if (!item.first_needed) continue;
      if (p.moved_first.empty()) {
        ++easy_count;
        continue;
      }
      auto same = std::find_if(behind.begin(), behind.end(), [&](const Behind& b) { return b.moved == p.moved_first; });
      if (same == behind.end()) same = behind.insert(same, Behind{p.moved_first, *item.first_needed, {}});
      same->first_needed = std::min(same->first_needed, *item.first_needed);
      same->names.push_back(with_stop(car, item));
    }
    std::stable_sort(behind.begin(), behind.end(),
                     [](const Behind& a, const Behind& b) { return a.first_needed < b.first_needed; });
    if (!at_once.empty()) out_ += wrapped("in reach at once: " + joined(at_once) + ".", "  Emergency: ");
    if (easy_count > 0) {
      out_ += wrapped(std::to_string(easy_count) +
                          (easy_count == 1 ? " thing that a stop needs is" : " things that stops need are") +
                          " reached with nothing to move.",
                      "  Reach: ");
    }
    for (const Behind& b : behind) {
      std::vector<std::string> moved;
      for (const LoadItemId id : b.moved) moved.push_back(at(car.task.items, id).name);
      out_ += wrapped("first move " + joined(moved) + " for " + with_semicolons(b.names) + ".", "  Reach: ");
    }
  }

  void cautions(const CarLoad& car) {
    // The same of several things is said once.
    std::vector<std::pair<std::string, std::vector<std::string>>> said;
    for (const Warning& w : car.warnings) {
      const auto same = std::find_if(said.begin(), said.end(), [&](const auto& s) { return s.first == w.what; });
      (same == said.end() ? said.insert(same, {w.what, {}}) : same)->second.push_back(w.where);
    }
    for (const auto& [what, things] : said) out_ += wrapped(with_semicolons(things) + ": " + what, "  ! ");
    if (car.load.placements.empty()) return;
    out_ += wrapped(
        "Lash the cans and whatever is heavy; heavy things low and against the seat-back. Nothing hard "
        "above the seat-back without a net or grille. Respect payload and axle limits on the car's plate.",
        "  ! ");
    const bool has_full_can = std::any_of(car.load.placements.begin(), car.load.placements.end(), [&](const auto& p) {
      const LoadItem& item = at(car.task.items, p.item);
      return item.is_liquid && item.mass.value >= 20.0;
    });
    if (has_full_can)
      out_ += wrapped("A full can of 20 L or more is no lift for one; half full it is easier for all.", "  ! ");
  }

  void after(const CarLoad& car, const LoadAfterStop& after) {
    heading(car.name + " after " + after.stop);
    out_ += wrapped(fixed(after.used.value, 0) + " L are out of the cans by the plan.", "  ");
    for (const MassChange& change : after.changes) {
      out_ += wrapped(at(car.task.items, change.item).name + " now weighs " + kg(change.mass) + ".", "  - ");
    }
    if (!after.repack.why.empty()) out_ += wrapped(after.repack.why + ".", "  ");
    for (std::size_t m = 0; m < after.repack.moves.size(); ++m) {
      out_ += wrapped(after.repack.moves[m].words, "  move " + std::to_string(m + 1) + ": ");
    }
    for (std::size_t s = 0; s < after.repack.load.balance.size() && s < 1; ++s) {
      const LoadBalance& was = car.load.balance[s];
      const LoadBalance& is = after.repack.load.balance[s];
      out_ += wrapped(kg(was.mass) + " become " + kg(is.mass) + "; its middle from " + std::to_string(was.centre.x) +
                          " to " + std::to_string(is.centre.x) + " mm behind the seat-back, from " +
                          std::to_string(was.centre.z) + " to " + std::to_string(is.centre.z) + " mm above the floor.",
                      "  ");
    }
    for (const Warning& w : after.repack.load.cautions) out_ += wrapped(w.where + ": " + w.what, "  ! ");
  }

  void elsewhere() {
    if (answer_.load.elsewhere.empty()) return;
    heading("Does not fit into its boot, least painful first");
    std::size_t n = 0;
    for (const LoadedElsewhere& thing : answer_.load.elsewhere) {
      std::string where = "stays at home";
      if (thing.where == LoadedElsewhere::Where::roof_box) where = "goes into the roof box of " + thing.from;
      if (thing.where == LoadedElsewhere::Where::other_car) where = "rides in " + thing.to;
      out_ +=
          wrapped(thing.item + " (pain " + fixed(thing.pain, thing.pain < 10 ? 1 : 0) + ") " + where + ": " + thing.why,
                  "  " + std::to_string(++n) + ". ");
    }
  }

  void notes() {
    out_ += "\n";
    for (const auto& file : answer_.pictures) out_ += wrapped(file, "Wrote ");
    for (const Warning& w : answer_.load.warnings) out_ += wrapped(w.where + ": " + w.what, "! ");
    for (const Warning& w : answer_.warnings) out_ += wrapped(w.where + ": " + w.what, "! ");
    out_ += wrapped(
        "Lifting: the guideline filter of the Health and Safety Executive, no limit in law and no promise; "
        "whoever doubts asks for a second pair of hands. Sizes and masses are as typed in.");
  }

  const RidePlan& plan_;
  const LoadAnswer& answer_;
  const Style& style_;
  std::string out_;
};

}  // namespace

std::string load_table(const RidePlan& plan, const LoadAnswer& answer, const Style& style) {
  return LoadTable(plan, answer, style).text();
}

}  // namespace outbye
