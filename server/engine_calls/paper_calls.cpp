// Sheets of paper: their pages to look at, and the PDF.
#include <chrono>

#include "formats/load_items/timed_search.h"
#include "formats/paper/paper.h"
#include "formats/ride_inputs/kit_files.h"
#include "server/engine_calls/sheets.h"

namespace outbye {
namespace {

constexpr std::chrono::milliseconds sheet_search_time{1000};  // for the load of a car

struct Wanted {
  Sheet sheet{};
  PaperSettings settings;
};

Answer<std::string> text_of(const Json& request, const char* name, const char* usual) {
  const auto found = request.find(name);
  if (found == request.end()) return std::string(usual);
  if (!found->is_string()) return trouble(Trouble::Kind::bad_input, name, "must be a text");
  return found->get<std::string>();
}

Answer<Wanted> wanted_by(const Json& request) {
  const auto name = text_of(request, "sheet", "");
  const auto paper = text_of(request, "paper", "a4");
  const auto mark = text_of(request, "mark", "");
  for (const auto* text : {&name, &paper, &mark}) {
    if (!*text) return tl::make_unexpected(text->error());
  }
  const auto sheet = parse_sheet(*name);
  if (!sheet) return tl::make_unexpected(trouble_of(std::vector<Problem>{sheet.error()}));
  const auto size = parse_paper(*paper);
  if (!size) return tl::make_unexpected(trouble_of(std::vector<Problem>{size.error()}));
  Wanted wanted{*sheet, {}};
  wanted.settings.size = *size;
  wanted.settings.version = *mark;
  wanted.settings.made = Instant{std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now())};
  return wanted;
}

// Plans the ride unless that is done, works out what the sheet shows, and lets `draw` have it.
template <class Draw>
auto with_sources(EngineCalls& engine, const RideQuestion& question, Draw draw)
    -> decltype(draw(std::declval<Wanted>(), std::declval<PaperSources>(), std::declval<PaperParts>())) {
  const auto wanted = wanted_by(question.request);
  if (!wanted) return tl::make_unexpected(wanted.error());
  const auto made = plan_of(engine, question, "ride");
  if (!made) return tl::make_unexpected(made.error());
  const auto catalogue = kit_catalogue_of((*made)->ready.inputs.ride, "", find_in(question.files));
  if (!catalogue) return tl::make_unexpected(in_names_of(question.files, catalogue.error()));
  const PaperParts parts = work_out_parts((*made)->plan, *catalogue, {wanted->sheet}, (*made)->ready.inputs.roads,
                                          searches_of(sheet_search_time));
  return draw(*wanted, sources_of((*made)->plan, parts, (*made)->ready.inputs.roads), parts);
}

}  // namespace

Answer<std::string> sheet_of_ride(EngineCalls& engine, const RideQuestion& question) {
  return with_sources(engine, question,
                      [&](const Wanted& wanted, const PaperSources& sources, const PaperParts&) -> Answer<std::string> {
                        auto pdf = sheet_pdf(wanted.sheet, sources, wanted.settings);
                        if (!pdf) return tl::make_unexpected(in_names_of(question.files, {pdf.error()}));
                        return std::move(*pdf);
                      });
}

Answer<Json> sheet_call(EngineCalls& engine, const RideQuestion& question) {
  return with_sources(engine, question,
                      [&](const Wanted& wanted, const PaperSources& sources, const PaperParts& parts) -> Answer<Json> {
                        auto laid_out = sheet_pages(wanted.sheet, sources, wanted.settings);
                        if (!laid_out) return tl::make_unexpected(in_names_of(question.files, {laid_out.error()}));
                        Json pages = Json::array();
                        for (SheetPage& page : laid_out->pages) {
                          pages.push_back({{"headings", page.headings}, {"svg", std::move(page.svg)}});
                        }
                        Json notes = Json::array();
                        for (const Trouble& one : in_names_of(question.files, parts.problems)) {
                          notes.push_back({{"where", one.where}, {"what", one.what}});
                        }
                        return Json{{"sheet", sheet_name(wanted.sheet)}, {"paper", paper_name(wanted.settings.size)},
                                    {"title", laid_out->title},          {"width_mm", laid_out->width_mm},
                                    {"height_mm", laid_out->height_mm},  {"pages", std::move(pages)},
                                    {"notes", std::move(notes)}};
                      });
}

}  // namespace outbye
