#include "formats/paper/typeset.h"

#include <algorithm>

#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

std::string plain(std::string_view text) {
  std::string clean = xml_text(text);
  for (char& c : clean) {
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  }
  return clean;
}

std::shared_ptr<PangoFontDescription> font_of(const TextLook& look) {
  std::shared_ptr<PangoFontDescription> font(pango_font_description_new(), pango_font_description_free);
  pango_font_description_set_family(font.get(), "DejaVu Sans, Noto Sans, sans-serif");
  pango_font_description_set_weight(font.get(), look.is_bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  // Absolute: a point of ours is a unit of the page, whatever the resolution of the screen that Pango thinks of.
  pango_font_description_set_absolute_size(font.get(), look.size * PANGO_SCALE);
  return font;
}

}  // namespace

Typesetter::Typesetter() : context_(pango_font_map_create_context(pango_cairo_font_map_get_default()), UnrefObject{}) {
  // Hinting would fit the text to a screen that there is none of, and let lines differ from what is printed.
  const std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)> options(
      cairo_font_options_create(), cairo_font_options_destroy);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context_.get(), options.get());
  pango_context_set_language(context_.get(), pango_language_from_string("en"));
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
}

Result<void> Typesetter::check_fonts() const {
  PangoFontFamily** families = nullptr;
  int count = 0;
  pango_context_list_families(context_.get(), &families, &count);
  g_free(families);
  if (count > 0) return {};
  return problem(Problem::Kind::cancelled, "fonts", "there is none on this machine; install fonts-dejavu-core");
}

LayoutPtr Typesetter::layout(std::string_view text, const TextLook& look, double width) const {
  LayoutPtr layout(pango_layout_new(context_.get()), UnrefObject{});
  const std::string clean = plain(text);
  pango_layout_set_text(layout.get(), clean.c_str(), static_cast<int>(clean.size()));
  pango_layout_set_font_description(layout.get(), font_of(look).get());
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  // A name that is broken gets no hyphen that is not its own.
  const std::unique_ptr<PangoAttrList, decltype(&pango_attr_list_unref)> attributes(pango_attr_list_new(),
                                                                                    pango_attr_list_unref);
  pango_attr_list_insert(attributes.get(), pango_attr_insert_hyphens_new(FALSE));
  pango_layout_set_attributes(layout.get(), attributes.get());
  if (width > 0) pango_layout_set_width(layout.get(), static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_alignment(layout.get(), look.align == TextAlign::start    ? PANGO_ALIGN_LEFT
                                           : look.align == TextAlign::middle ? PANGO_ALIGN_CENTER
                                                                             : PANGO_ALIGN_RIGHT);
  return layout;
}

double layout_width(PangoLayout* layout) {
  PangoRectangle logical;
  pango_layout_get_extents(layout, nullptr, &logical);
  return static_cast<double>(logical.width) / PANGO_SCALE;
}

double layout_height(PangoLayout* layout) {
  PangoRectangle logical;
  pango_layout_get_extents(layout, nullptr, &logical);
  return static_cast<double>(logical.height) / PANGO_SCALE;
}

Box ink_box(PangoLayout* layout) {
  PangoRectangle ink;
  pango_layout_get_extents(layout, &ink, nullptr);
  const auto points = [](int units) { return static_cast<double>(units) / PANGO_SCALE; };
  return {points(ink.x), points(ink.y), points(ink.x + ink.width), points(ink.y + ink.height)};
}

double widest_word(const Typesetter& typesetter, std::string_view text, const TextLook& look) {
  double widest = 0;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t to = std::min(text.find(' ', from), text.size());
    if (to > from) {
      const LayoutPtr word = typesetter.layout(text.substr(from, to - from), look, 0);
      widest = std::max(widest, layout_width(word.get()));
    }
    from = to + 1;
  }
  return widest;
}

}  // namespace outbye
