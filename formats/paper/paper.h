// Sheets of paper for a day without batteries: PDF for A4, Letter, A5 or a pocket card, black on white, readable in
// grey. Values in, bytes out: the same values give the same bytes. Text is at least 9 pt high (on pocket cards 7 pt),
// wraps rather than being cut, and runs from right to left where its letters do. Fonts are embedded. All the sheets of
// a plan at once: work_out_parts(), sources_of(), sheet_files().
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/roads/road_graph.h"
#include "engine/jobs.h"
#include "engine/kit.h"
#include "engine/load.h"
#include "engine/stock.h"
#include "engine/use_cases.h"

namespace outbye {

enum class PaperSize { a4, letter, a5, pocket };  // pocket: 74 x 105 mm
enum class Sheet { crew_book, rider_card, kit_list, boot_plan, spotter };
inline constexpr Sheet all_sheets[] = {Sheet::crew_book, Sheet::rider_card, Sheet::kit_list, Sheet::boot_plan,
                                       Sheet::spotter};

std::string_view paper_name(PaperSize size);  // "a4"
std::string_view sheet_name(Sheet sheet);     // "crew-book": also the name of its file, with .pdf
// Errors: bad_input naming the nearest.
Result<PaperSize> parse_paper(std::string_view name);
Result<Sheet> parse_sheet(std::string_view name);

// Crew book, boot plan and spotter's sheet need room to write and to draw: they are not for pocket cards.
bool fits_paper(Sheet sheet, PaperSize size);

struct PaperSettings {
  PaperSize size{PaperSize::a4};
  Instant made;         // when the plan was made: on every page
  std::string version;  // of the plan, on every page: "revision 7"; empty: plan_mark() of it
};

// Six letters and figures that differ when the plan does, so that two people can tell whether they hold the same one.
// From the plan as JSON (FNV-1a, 64 bits, folded): two plans share them by chance once in 16 million.
std::string plan_mark(const RidePlan& plan);

// What sheets are made from. What is missing is left out of them, and said there.
struct PaperSources {
  const RidePlan& plan;
  const RideJobs* jobs{};
  const KitPlan* kit{};
  const std::vector<CarStock>* stock{};
  const RideLoad* load{};
  const RoadGraph* roads{};  // behind the small maps
};

// Errors: bad_input for paper that the sheet does not fit, and for sources that it cannot do without (kit list: kit;
// boot plan: load); cancelled when no font is installed.
Result<std::string> sheet_pdf(Sheet sheet, const PaperSources& sources, const PaperSettings& settings);

// Everything for the sheets, worked out from a plan. A part that cannot be worked out is left empty, with its problem.
struct PaperParts {
  RideJobs jobs;
  std::optional<KitPlan> kit;
  std::optional<std::vector<CarStock>> stock;
  std::optional<RideLoad> load;
  std::vector<Problem> problems;
};
// `wanted`: only what these sheets need. `roads`: as the plan was made on, for the pumps on the way; may be null.
// `search` limits the load planning, a car (BootLoadSettings::search).
PaperParts work_out_parts(const RidePlan& plan, const KitCatalogue& catalogue, const std::vector<Sheet>& wanted,
                          const RoadGraph* roads, const std::function<LoadSearch()>& search = {});
// Points into `plan` and `parts`.
PaperSources sources_of(const RidePlan& plan, const PaperParts& parts, const RoadGraph* roads);

// The same pages to look at before they are printed: text as outlines, so that no font is needed.
struct SheetPage {
  std::vector<std::string> headings;  // of parts and blocks that begin on it
  std::string svg;
};
struct SheetPages {
  std::string title;
  double width_mm{};
  double height_mm{};
  std::vector<SheetPage> pages;
};
// Errors: as sheet_pdf().
Result<SheetPages> sheet_pages(Sheet sheet, const PaperSources& sources, const PaperSettings& settings);

struct SheetFile {
  Sheet sheet{};
  std::string name;   // "crew-book.pdf"
  std::string bytes;  // the PDF
};
// Every sheet that this paper has room for and that can be made from these sources: a ride without kit has no kit list
// and no boot plan. Errors: as sheet_pdf().
Result<std::vector<SheetFile>> sheet_files(const PaperSources& sources, const PaperSettings& settings);

}  // namespace outbye
