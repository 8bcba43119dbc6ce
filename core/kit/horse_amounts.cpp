// What the horses eat and drink apart from plain water: salts as typed in, soaked feed with its times, drinks by loop.
#include <algorithm>
#include <string>

#include "core/base/text.h"
#include "core/kit/kit_formulas.h"
#include "core/welfare/electrolytes.h"

namespace outbye {
namespace {

bool is_gate(const KitStop& stop) { return stop.kind != KitStop::Kind::pass; }

Seconds soak_time(SoakedFeed feed) {
  switch (feed) {
    case SoakedFeed::quick:
      return minutes(15);
    case SoakedFeed::shreds:
      return minutes(12 * 60);
    case SoakedFeed::pellets:
      return minutes(24 * 60);
    case SoakedFeed::none:
      break;
  }
  return Seconds{0};
}

// Each batch is ready for a gate and serves those after it until it spoils.
std::vector<std::string> batches(std::vector<const KitStop*> gates, const KitFacts& facts, const KitSettings& settings,
                                 Seconds spoils) {
  std::vector<std::string> steps;
  const Seconds soak = soak_time(settings.soaked_feed);
  for (std::size_t i = 0; i < gates.size();) {
    const Instant ready = gates[i]->at;
    const Instant away = ready + spoils;
    std::string served;
    double dry = 0.0;
    for (; i < gates.size() && gates[i]->at <= away; ++i) {
      served += (served.empty() ? "" : "; ") + stop_words(*gates[i], facts);
      dry += settings.feed_dry_at_gate.value;
    }
    const Instant start = ready - soak;
    const bool is_day_before = local_date(start, facts.clock) != local_date(ready, facts.clock);
    steps.push_back("Soak " + fixed(dry, 2) + " kg dry in " + fixed(dry * settings.feed_water_l_per_kg, 1) +
                    " L from " + hours_minutes(start, facts.clock) + (is_day_before ? " the day before" : "") +
                    " for " + served + "; throw away what is left at " + hours_minutes(away, facts.clock) + ".");
  }
  return steps;
}

std::string stops_word(std::size_t stops) { return std::to_string(stops) + (stops == 1 ? " stop" : " stops"); }

}  // namespace

Amount electrolyte_amount(const KitFacts& facts) {
  Amount amount{"electrolyte", "Electrolyte, as you typed it", 0.0, "g", {}, "", {}, "", {}, {}};
  for (const auto& stop : facts.stops) {
    if (!is_gate(stop) || stop.horse >= facts.horses.size()) continue;
    for (const auto& like : facts.horses[stop.horse].likes) {
      if (!like.electrolyte || !holds_on(like, stop.loop)) continue;
      amount.value += like.electrolyte->value;
      amount.inputs.push_back({(like.product.empty() ? "" : like.product + ", ") + stop_words(stop, facts),
                               like.electrolyte->value, "g", "typed in the ride file"});
    }
  }
  amount.range = {amount.value, amount.value};
  amount.formula =
      "grams typed in for a horse (horses[].likes[].electrolyte_g) at each of its gates and the finish, summed; "
      "nothing "
      "typed: nothing here. Outbye proposes no amount";
  amount.source = DoseCautions::source();
  for (const auto& line : DoseCautions::lines()) amount.cautions.push_back(line);
  amount.cautions.push_back("Plain water always stands beside it.");
  return amount;
}

Amount soaked_feed_amount(const KitFacts& facts, const KitSettings& settings) {
  Amount amount{"soaked-feed", "Soaked feed, dry", 0.0, "kg", {}, "", {}, no_source, {}, {}};
  amount.formula = "gates and finish x dry feed at each; range: half to one and a half times";
  if (settings.soaked_feed == SoakedFeed::none) {
    amount.formula = "none is planned (kit.settings.soaked_feed)";
    return amount;
  }
  std::vector<const KitStop*> gates;
  for (const auto& stop : facts.stops) {
    if (is_gate(stop)) gates.push_back(&stop);
  }
  const bool is_hot = may_be_hot(facts);
  const Seconds spoils = minutes(60.0 * (is_hot ? 2 : 12));
  const double number = static_cast<double>(gates.size());
  amount.value = number * settings.feed_dry_at_gate.value;
  amount.range = {0.5 * amount.value, 1.5 * amount.value};
  amount.inputs = {{"gates and finish", number, "stops", "plan"},
                   {"dry feed at each", settings.feed_dry_at_gate.value, "kg", no_source},
                   {"water to soak a kg", settings.feed_water_l_per_kg, "L",
                    "4 L: shreds 3-4, pellets 4-5 (common practice, no source)"},
                   {"soak time, " + std::string(soaked_feed_word(settings.soaked_feed)),
                    soak_time(settings.soaked_feed).count() / 3600.0, "h",
                    "quick minutes, shreds 12 h, pellets 24 h (common practice, no source)"},
                   {"spoils once ready in", spoils.count() / 3600.0, "h",
                    "12 h; in hot humid weather as little as 2 h (common practice, no source)"}};
  amount.steps = batches(gates, facts, settings, spoils);
  amount.cautions = {"Follow the sack: soak times differ. Test by squeezing; dry pellets can choke a horse.",
                     "Never a new feed on ride day; after vetting only, where the rules say so."};
  if (is_hot) {
    amount.cautions.push_back(
        "Warm and damp, or the weather is not known: soak in the cool, carry it in the cool box, and smell it before "
        "it "
        "is fed; a quick-soaking kind is made fresh at the gate.");
  }
  return amount;
}

Amount horse_drinks(std::size_t horse, const KitFacts& facts, const KitSettings& settings) {
  const KitHorse& who = facts.horses[horse];
  Amount amount{"drinks-" + in_lower_case(who.name), "Drinks for " + who.name, 0.0, "L", {}, "", {}, "", {}, {}};
  std::string last;
  for (std::uint32_t loop = 1; loop <= facts.loops; ++loop) {
    std::size_t stops = 0;
    double taken = 0.0;
    double offered = 0.0;
    for (const auto& stop : facts.stops) {
      if (stop.horse != horse || stop.loop != loop) continue;
      const StopWater water = stop_water(stop, facts, settings);
      ++stops;
      taken += water.drinking.value;
      offered += water.drinking_offer.value;
    }
    std::string words;
    for (const auto& like : who.likes) {
      if (holds_on(like, loop)) words += (words.empty() ? "" : "; ") + like_words(like);
    }
    amount.value += taken;
    amount.range.to += offered;
    amount.inputs.push_back({"loop " + std::to_string(loop) + ", " + stops_word(stops), taken, "L",
                             words.empty() ? "drink settings of the ride" : "typed in: " + words});
    if (stops == 0) continue;
    const std::string said = words.empty() ? "plain water" : words;
    const std::string from = (words.empty() ? "From loop " : "Loop ") + std::to_string(loop);
    if (said != last) amount.steps.push_back(from + ": " + said + ".");
    last = said;
  }
  if (!amount.steps.empty()) amount.steps.push_back("Plain water is offered at every stop.");
  amount.formula =
      "what is usually taken at each stop of the loop, by the horse's likes; range: nothing to every offer";
  amount.source = "likes as typed in the ride file; the rest common practice, no source";
  return amount;
}

}  // namespace outbye
