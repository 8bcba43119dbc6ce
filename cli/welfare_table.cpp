#include "cli/welfare_table.h"

#include <algorithm>
#include <cmath>

#include "cli/text_layout.h"
#include "core/base/text.h"
#include "core/rules/rule_fields.h"

namespace outbye {
namespace {

std::string whole(double value) { return fixed(value, 0); }
std::string range(double from, double to) { return whole(from) + "-" + whole(to); }

// As short as the table needs; the colour says nothing more.
std::string short_word(HeatBand band) {
  switch (band) {
    case HeatBand::comfortable:
      return "comfortable";
    case HeatBand::discomfort:
      return "discomfort";
    case HeatBand::precautions:
      return "precautions";
    case HeatBand::more_precautions:
      return "MORE PREC.";
    case HeatBand::hazardous:
      return "HAZARDOUS";
    case HeatBand::extreme:
      break;
  }
  return "EXTREME";
}

std::string short_word(Light light) {
  return light == Light::day ? "" : light == Light::civil_twilight ? "dusk" : "dark";
}

class WelfareTable {
 public:
  WelfareTable(const RidePlan& plan, const Style& style) : plan_(plan), style_(style), clock_(plan.ride.clock) {}

  std::string text() {
    for (std::uint32_t h = 0; h < plan_.welfare.horses.size(); ++h) horse(HorseId{h});
    if (!out_.empty()) {
      advice_of_the_day();
      people();
      light();
    }
    return out_;
  }

 private:
  std::string marked(HeatBand band, std::size_t width) const {
    const std::string text = left(short_word(band), width);
    if (band >= HeatBand::more_precautions) return style_.bad(text);
    return band >= HeatBand::precautions ? style_.doubtful(text) : text;
  }

  void horse(HorseId horse) {
    const std::string& name = at(plan_.ride.horses, horse).name;
    out_ += "\n" + style_.heading(cut_to("Heat, water and light: " + name, line_width)) + "\n";
    out_ += style_.quiet("   km  where              due  WBGT  F+RH heat       offer pour  ice short light") + "\n";
    std::optional<LoopId> loop;
    for (std::size_t p = 0; p < plan_.passes.size(); ++p) {
      const PassForecast& pass = plan_.passes[p];
      if (pass.horse != horse) continue;
      if (loop != pass.event.loop) {
        loop = pass.event.loop;
        out_ += style_.quiet("Loop " + std::to_string(loop->value + 1)) + "\n";
      }
      row(pass, plan_.welfare.passes[p]);
    }
    const HorseDayWater& day = plan_.welfare.horses[horse.value];
    out_ += wrapped(
        "offer, pour: litres to have ready to drink and to cool with where it is met; ice: kg to bring that "
        "water to the wanted temperature; short: water still missing afterwards, % of " +
            whole(day.body.mass.value) + " kg.",
        "       ");
    water(day);
    salts(day);
  }

  void row(const PassForecast& pass, const PassWelfare& welfare) {
    std::string name = pass.name;
    if (pass.event.pass && at(plan_.survey.course.passes, *pass.event.pass).nth_in_loop > 1) {
      const std::string tail = " /" + std::to_string(at(plan_.survey.course.passes, *pass.event.pass).nth_in_loop);
      name = cut_to(name, 16 - tail.size()) + tail;
    }
    if (pass.event.kind == RideEvent::Kind::gate) name = "Vet gate";
    if (pass.event.kind == RideEvent::Kind::finish) name = "Finish";
    std::string text = right(fixed(in_kilometres(pass.loop_along), 1), 5) + "  " + left(name, 16) + " " +
                       hours_minutes(pass.due.p50, clock_);
    const auto& heat = welfare.worst_heat;
    text += heat ? right(fixed(heat->wbgt.value, 1), 6) + (heat->full ? " " : "*") + right(whole(heat->sum), 5) + " " +
                       marked(heat->band, 11)
                 : left("     -     -", 24);
    if (welfare.is_served) {
      text += right(whole(welfare.drink.offer.value), 5) +
              right(welfare.cooling.is_cold ? "RUG" : whole(welfare.cooling.pour.value), 5) +
              right(welfare.cooling.ice > Kilograms{0} ? fixed(welfare.cooling.ice.value, 1) : "", 5);
    } else {
      text += right("-", 5) + right("-", 5) + left("", 5);
    }
    text += right(range(welfare.water.percent.from, welfare.water.percent.to), 6) + " " + short_word(welfare.darkest);
    const auto end = text.find_last_not_of(' ');
    out_ += text.substr(0, end + 1) + "\n";
  }

  void water(const HorseDayWater& day) {
    const WaterBalance& water = day.at_finish;
    out_ +=
        wrapped("On coming to the finish it may have sweated " + range(water.sweat.low.value, water.sweat.high.value) +
                    " L. If it drinks as usual it is short of about " + whole(water.middle.value) + " L, " +
                    fixed(water.middle_percent, 1) + " % (" + std::string(deficit_band_name(water.middle_band)) +
                    "). " + std::string(deficit_band_advice(water.middle_band)),
                "  ");
    if (water.band != water.middle_band) {
      out_ += wrapped("If it sweats much and drinks little: up to " + whole(water.deficit.to.value) + " L, " +
                          fixed(water.percent.to, 1) + " % (" + std::string(deficit_band_name(water.band)) + "). " +
                          std::string(deficit_band_advice(water.band)) + " So write down what it drinks.",
                      "  ! ");
    }
    out_ += wrapped(std::string(deficit_source), "  Source: ");
  }

  void salts(const HorseDayWater& day) {
    const SaltBalance& salts = day.salts;
    const auto ion = [](const std::string& name, Grams low, Grams high) {
      return name + " " + range(low.value, high.value) + " g";
    };
    const double given = salts.given.sodium.value + salts.given.chloride.value + salts.given.potassium.value;
    out_ += wrapped("Salts lost by then: " + ion("sodium", salts.lost_low.sodium, salts.lost_high.sodium) + ", " +
                        ion("chloride", salts.lost_low.chloride, salts.lost_high.chloride) + ", " +
                        ion("potassium", salts.lost_low.potassium, salts.lost_high.potassium) + ". Given so far: " +
                        (given > 0 ? "sodium " + whole(salts.given.sodium.value) + " g, chloride " +
                                         whole(salts.given.chloride.value) + " g, potassium " +
                                         whole(salts.given.potassium.value) + " g."
                                   : "none is recorded."),
                    "  ");
    for (const auto& caution : salts.cautions) out_ += wrapped(std::string(caution), "  ! ");
    out_ += wrapped(salts.source, "  Source: ");
  }

  // Of the worst band that a horse comes into, and the limits of the indices that apply anywhere, each said once.
  void advice_of_the_day() {
    const HeatLoad* worst = nullptr;
    std::vector<std::string> notes;
    std::vector<std::string> cautions;
    bool has_short_form = false;
    const auto keep = [](std::vector<std::string>& into, const std::string& sentence) {
      if (std::find(into.begin(), into.end(), sentence) == into.end()) into.push_back(sentence);
    };
    for (const auto& pass : plan_.welfare.passes) {
      if (pass.is_served) {
        for (const auto& caution : pass.cooling.cautions) keep(cautions, caution);
      }
      if (!pass.worst_heat) continue;
      const HeatLoad& heat = *pass.worst_heat;
      has_short_form = has_short_form || !heat.full;
      for (const auto& note : heat.notes) keep(notes, note);
      if (worst == nullptr || heat.band > worst->band) worst = &heat;
    }
    if (worst == nullptr) return;
    const HeatAdvice words = advice(worst->band);
    out_ += "\n" + style_.heading("Heat of the day: " + words.name + " (WBGT " + words.wbgt + ")") + "\n";
    out_ +=
        wrapped(std::string("Set by ") + (worst->set_by == HeatLoad::Index::wbgt ? "WBGT" : "degrees F + %RH") +
                    "; WBGT and the sum stand side by side, the worse one counts, and of each time the worst between "
                    "the early and the late end of the window.",
                "  ");
    for (const auto& sentence : words.do_now) out_ += wrapped(sentence, "  - ");
    for (const auto& sentence : cautions) out_ += wrapped(sentence, "  ! ");
    for (const auto& sentence : notes) out_ += wrapped(sentence, "  * ");
    if (has_short_form) {
      out_ += wrapped("WBGT marked * is the short form; the full model needs wind, and radiation or cloud.", "  * ");
    }
    out_ += wrapped(words.source, "  Source: ");
  }

  void people() {
    const auto& heat = plan_.welfare.crew_heat;
    if (!heat || heat->sentences.empty()) return;
    out_ += "\n" +
            style_.heading("Heat for the people, worst at " + hours_minutes(*plan_.welfare.crew_heat_at, clock_) +
                           " (WBGT " + fixed(plan_.welfare.crew_wbgt->value, 1) + ")") +
            "\n";
    for (const auto& sentence : heat->sentences) out_ += wrapped(sentence, "  - ");
    out_ += wrapped(heat->source, "  Source: ");
  }

  void light() {
    out_ += "\n" + wrapped(sun_sentence(plan_.welfare.sun, clock_));
    std::string names;
    for (std::size_t p = 0; p < plan_.passes.size(); ++p) {
      const PassForecast& pass = plan_.passes[p];
      if (plan_.welfare.passes[p].darkest == Light::day) continue;
      names += (names.empty() ? "" : ", ") +
               (pass.event.kind == RideEvent::Kind::gate     ? "gate"
                : pass.event.kind == RideEvent::Kind::finish ? "finish"
                                                             : pass.name) +
               " L" + std::to_string(pass.event.loop.value + 1);
    }
    if (names.empty()) return;
    out_ += wrapped(names +
                        ". Lights and something that reflects for horse, rider and crew; ask the officials whether "
                        "riding in the dark is foreseen.",
                    "May be without daylight: ");
  }

  const RidePlan& plan_;
  const Style& style_;
  const Clock& clock_;
  std::string out_;
};

}  // namespace

std::string welfare_sections(const RidePlan& plan, const Style& style) {
  if (plan.welfare.passes.size() != plan.passes.size()) return "";
  return WelfareTable(plan, style).text();
}

std::string rules_section(const std::optional<RuleSet>& rules, const std::vector<RuleFinding>& findings,
                          const Style& style) {
  if (!rules) return "";
  std::string title = "Rules: " + (rules->book_name.empty() ? "the event's own" : rules->book_name);
  if (!rules->level.name.empty()) title += ", " + rules->level.name;
  if (rules->year != 0) title += " (" + std::to_string(rules->year) + ")";
  std::string text = "\n" + style.heading(cut_to(title, line_width)) + "\n";
  for (const auto& own : rules->overridden) text += wrapped(own, "  = ");
  for (const auto& finding : findings) {
    const std::string mark = finding.mark ? " (" + in_words(*finding.mark) + ")" : "";
    const std::string sentence = finding.where + ": " + finding.what + mark;
    switch (finding.severity) {
      case RuleFinding::Severity::breaks:
        text += wrapped(sentence, "  BREAKS ");
        break;
      case RuleFinding::Severity::asks:
        text += wrapped(sentence, "  ASK ");
        break;
      case RuleFinding::Severity::notes:
        text += wrapped(sentence, "  - ");
        break;
    }
  }
  if (!rules->book_id.empty() && !rules->notes.empty()) {
    text += wrapped("`outbye rules " + rules->book_id + "` tells what the numbers leave open.", "  * ");
  }
  if (!rules->source.empty()) text += wrapped(rules->source, "  Source: ");
  return text;
}

std::string sun_sentence(const SunTimes& sun, const Clock& clock) {
  if (sun.sun_stays_up) return "The sun stays up all day and night.";
  if (sun.sun_stays_down) return "The sun stays down all day; lights are needed.";
  const auto said = [&clock](const std::optional<Instant>& at) { return at ? hours_minutes(*at, clock) : "none"; };
  return "Light from " + said(sun.civil_dawn) + " (civil dawn), sunrise " + said(sun.sunrise) + ", sunset " +
         said(sun.sunset) + ", dark from " + said(sun.civil_dusk) + " (civil dusk). Hills and cloud move these.";
}

}  // namespace outbye
