#include <cairo-pdf.h>

#include <memory>

#include "formats/gpx/utf8.h"
#include "formats/paper/page.h"
#include "formats/paper/pdf_marks.h"

namespace outbye {
namespace {

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void draw_text(cairo_t* cr, const PlacedText& text) {
  if (text.tag != nullptr) cairo_tag_begin(cr, text.tag, nullptr);
  cairo_set_source_rgb(cr, text.grey, text.grey, text.grey);
  cairo_move_to(cr, text.at.x, text.at.y);
  pango_cairo_show_layout(cr, text.layout.get());
  cairo_new_path(cr);
  if (text.tag != nullptr) cairo_tag_end(cr, text.tag);
}

void add_to_outline(cairo_surface_t* surface, const PaperPage& page, std::size_t number) {
  for (const auto& [words, y] : page.headings) {
    const std::string target =
        "page=" + std::to_string(number) + " pos=[0 " + std::to_string(static_cast<int>(y)) + "]";
    cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, xml_text(words).c_str(), target.c_str(),
                                  static_cast<cairo_pdf_outline_flags_t>(0));
  }
}

}  // namespace

void draw_page(cairo_t* cr, const PaperPage& page) {
  for (const auto& part : page.parts) {
    if (const auto* text = std::get_if<PlacedText>(&part)) {
      draw_text(cr, *text);
    } else {
      std::get<Drawing>(part)(cr);
    }
  }
}

Result<std::string> pdf_of(const Paper& paper, const PdfWords& words) {
  std::string bytes;
  const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, paper.format().width, paper.format().height),
      cairo_surface_destroy);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, xml_text(words.title).c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_SUBJECT, xml_text(words.subject).c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Outbye " OUTBYE_VERSION);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, words.made.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_MOD_DATE, words.made.c_str());
  const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cr(cairo_create(surface.get()), cairo_destroy);
  cairo_tag_begin(cr.get(), "Document", nullptr);
  for (std::size_t p = 0; p < paper.pages().size(); ++p) {
    cairo_pdf_surface_set_page_label(surface.get(), std::to_string(p + 1).c_str());
    draw_page(cr.get(), paper.pages()[p]);
    add_to_outline(surface.get(), paper.pages()[p], p + 1);
    cairo_show_page(cr.get());
  }
  cairo_tag_end(cr.get(), "Document");
  cairo_surface_finish(surface.get());
  for (const auto status : {cairo_status(cr.get()), cairo_surface_status(surface.get())}) {
    if (status != CAIRO_STATUS_SUCCESS) {
      return problem(Problem::Kind::cancelled, "PDF",
                     std::string("could not be drawn: ") + cairo_status_to_string(status));
    }
  }
  return marked_pdf(std::move(bytes), words.language);
}

}  // namespace outbye
