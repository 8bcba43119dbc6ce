#include "formats/paper/paper.h"

#include <cstdint>

#include "core/base/text.h"
#include "formats/exports/plan_words.h"
#include "formats/paper/sheets.h"
#include "formats/plan_json/plan_json.h"

namespace outbye {
namespace {

constexpr PaperSize all_sizes[] = {PaperSize::a4, PaperSize::letter, PaperSize::a5, PaperSize::pocket};

const char* title_of(Sheet sheet) {
  switch (sheet) {
    case Sheet::crew_book:
      return "Crew book";
    case Sheet::rider_card:
      return "Rider card";
    case Sheet::kit_list:
      return "Kit list";
    case Sheet::boot_plan:
      return "Boot plan";
    case Sheet::spotter:
      break;
  }
  return "Spotter's sheet";
}

template <class T, std::size_t n, class NameOf>
Result<T> parse_one(std::string_view name, const T (&all)[n], NameOf name_of, const char* where, const char* what) {
  std::vector<std::string_view> names;
  for (const T one : all) {
    if (same_name(name_of(one), name)) return one;
    names.push_back(name_of(one));
  }
  const auto nearest = nearest_name(name, names);
  std::string known;
  for (const auto one : names) known += (known.empty() ? "" : ", ") + std::string(one);
  return bad_input(where, "'" + std::string(name) + "' is no " + what + "; " +
                              (nearest ? "did you mean '" + std::string(*nearest) + "'?" : "known: " + known));
}

}  // namespace

std::string_view paper_name(PaperSize size) {
  switch (size) {
    case PaperSize::a4:
      return "a4";
    case PaperSize::letter:
      return "letter";
    case PaperSize::a5:
      return "a5";
    case PaperSize::pocket:
      break;
  }
  return "pocket";
}

std::string_view sheet_name(Sheet sheet) {
  switch (sheet) {
    case Sheet::crew_book:
      return "crew-book";
    case Sheet::rider_card:
      return "rider-card";
    case Sheet::kit_list:
      return "kit-list";
    case Sheet::boot_plan:
      return "boot-plan";
    case Sheet::spotter:
      break;
  }
  return "spotter";
}

Result<PaperSize> parse_paper(std::string_view name) {
  return parse_one(name, all_sizes, paper_name, "paper", "paper");
}
Result<Sheet> parse_sheet(std::string_view name) { return parse_one(name, all_sheets, sheet_name, "sheet", "sheet"); }

bool fits_paper(Sheet sheet, PaperSize size) {
  return size != PaperSize::pocket || sheet == Sheet::rider_card || sheet == Sheet::kit_list;
}

std::string plan_mark(const RidePlan& plan) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : write_plan_json(plan, {})) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  hash ^= hash >> 24U;
  hash ^= hash >> 24U;
  std::string mark;
  for (int i = 0; i < 6; ++i, hash >>= 4U) mark += "0123456789ABCDEF"[hash & 15U];
  return mark;
}

void sheet_title(Paper& paper, const RidePlan& plan, const std::string& sheet) {
  paper.heading(1, plan.ride.name.empty() ? sheet : plan.ride.name);
  std::string words = sheet + " for " + date_words(plan.ride.start, plan.ride.clock) + ". Start " +
                      time_words(plan.ride.start, plan) + " at " + place_words(plan, PlaceId{0}) + ", times in " +
                      plan.ride.clock.zone + ".";
  for (std::uint32_t h = 0; h < plan.ride.horses.size(); ++h) {
    words += " " + horse_in_words(plan, HorseId{h});
    if (!plan.ride.horses[h].rider.empty()) words += " with " + plan.ride.horses[h].rider;
    words += ".";
  }
  paper.text(words);
}

Result<Paper> lay_out(Sheet sheet, const PaperSources& from, const PaperSettings& settings) {
  if (!fits_paper(sheet, settings.size)) {
    return bad_input("paper", "a " + std::string(sheet_name(sheet)) + " has no room on a pocket card; use a5");
  }
  if (sheet == Sheet::kit_list && from.kit == nullptr) return bad_input("kit list", "needs the kit of the ride");
  if (sheet == Sheet::boot_plan && from.load == nullptr) return bad_input("boot plan", "needs the load of the cars");
  const Clock& clock = from.plan.ride.clock;
  const std::string version = settings.version.empty() ? plan_mark(from.plan) : settings.version;
  const std::string foot =
      "Plan " + version + ", made " + local_date(settings.made, clock) + " " + hours_minutes(settings.made, clock);
  Paper paper(settings.size, from.plan.ride.name.empty() ? "ride" : from.plan.ride.name, title_of(sheet), foot);
  if (auto ok = paper.typesetter().check_fonts(); !ok) return tl::make_unexpected(ok.error());
  switch (sheet) {
    case Sheet::crew_book:
      crew_book(paper, from);
      break;
    case Sheet::rider_card:
      rider_card(paper, from);
      break;
    case Sheet::kit_list:
      kit_list(paper, from);
      break;
    case Sheet::boot_plan:
      boot_plan(paper, from);
      break;
    case Sheet::spotter:
      spotter_sheet(paper, from);
      break;
  }
  paper.finish();
  return paper;
}

Result<std::string> sheet_pdf(Sheet sheet, const PaperSources& sources, const PaperSettings& settings) {
  const auto paper = lay_out(sheet, sources, settings);
  if (!paper) return tl::make_unexpected(paper.error());
  return pdf_of(*paper, {paper->title(), "Crew plan", iso8601(settings.made, sources.plan.ride.clock)});
}

}  // namespace outbye
