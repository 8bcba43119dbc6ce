#include <cairo-svg.h>

#include <memory>

#include "formats/paper/page.h"
#include "formats/paper/sheets.h"

namespace outbye {
namespace {

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

Result<std::string> svg_of(const PaperPage& page, const PaperFormat& format) {
  std::string bytes;
  const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
      cairo_svg_surface_create_for_stream(append, &bytes, format.width, format.height), cairo_surface_destroy);
  const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cr(cairo_create(surface.get()), cairo_destroy);
  cairo_set_source_rgb(cr.get(), 1, 1, 1);
  cairo_paint(cr.get());
  draw_page(cr.get(), page);
  cairo_surface_finish(surface.get());
  for (const auto status : {cairo_status(cr.get()), cairo_surface_status(surface.get())}) {
    if (status == CAIRO_STATUS_SUCCESS) continue;
    return problem(Problem::Kind::cancelled, "page",
                   std::string("could not be drawn: ") + cairo_status_to_string(status));
  }
  return bytes;
}

}  // namespace

Result<SheetPages> sheet_pages(Sheet sheet, const PaperSources& sources, const PaperSettings& settings) {
  const auto paper = lay_out(sheet, sources, settings);
  if (!paper) return tl::make_unexpected(paper.error());
  constexpr double mm_of_point = 25.4 / 72.0;
  SheetPages pages{paper->title(), paper->format().width * mm_of_point, paper->format().height * mm_of_point, {}};
  for (const PaperPage& page : paper->pages()) {
    auto svg = svg_of(page, paper->format());
    if (!svg) return tl::make_unexpected(svg.error());
    std::vector<std::string> headings;
    for (const auto& [words, y] : page.headings) headings.push_back(words);
    pages.pages.push_back({std::move(headings), std::move(*svg)});
  }
  return pages;
}

}  // namespace outbye
