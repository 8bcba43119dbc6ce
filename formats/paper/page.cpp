#include "formats/paper/page.h"

#include <algorithm>
#include <cmath>

namespace outbye {
namespace {

constexpr double mm = 72.0 / 25.4;
constexpr double gap_below_head = 6;
const std::string longest_page_words = "page 888 of 888";

}  // namespace

PaperFormat format_of(PaperSize size) {
  switch (size) {
    case PaperSize::a4:
      return {210 * mm, 297 * mm, 11 * mm, 10, 9};
    case PaperSize::letter:
      return {612, 792, 11 * mm, 10, 9};
    case PaperSize::a5:
      return {148 * mm, 210 * mm, 10 * mm, 9.5, 9};
    case PaperSize::pocket:
      break;
  }
  return {74 * mm, 105 * mm, 5 * mm, 7.5, 7};
}

Paper::Paper(PaperSize size, const std::string& head, const std::string& sheet, const std::string& foot)
    : format_(format_of(size)), title_(sheet + ": " + head), head_(sheet + " · " + head), foot_(foot) {
  const LayoutPtr above = typesetter_.layout(head_, small(), width());
  const LayoutPtr below = typesetter_.layout(foot_ + " · " + longest_page_words, small(), width());
  top_ = format_.margin + layout_height(above.get()) + gap_below_head;
  bottom_ = format_.height - format_.margin - layout_height(below.get()) - gap_below_head;
  new_page();
}

void Paper::new_page() {
  pages_.emplace_back();
  y_ = top_;
}

void Paper::space(double height) {
  if (y_ > top_) y_ += std::min(height, std::max(0.0, room()));
}

void Paper::need(double height) {
  if (height > room() && y_ > top_) new_page();
}

void Paper::heading(int level, const std::string& text) {
  TextLook look = bold();
  look.size = format_.body * (level == 1 ? 1.5 : level == 2 ? 1.2 : 1.0);
  space(format_.body * (level == 1 ? 1.2 : level == 2 ? 0.9 : 0.5));
  const LayoutPtr layout = typesetter_.layout(text, look, width());
  const double height = layout_height(layout.get());
  need(height + 4 * format_.body);
  if (level < 3) page().headings.emplace_back(text, y_);
  if (height <= room()) {
    put(layout, {format_.margin, y_}, look, level == 1 ? "H1" : level == 2 ? "H2" : "H3");
    y_ += height + format_.body * 0.2;
  } else {
    this->text(text, look);
  }
  if (level == 2) {
    put_line({format_.margin, y_}, {format_.margin + width(), y_}, 0.6);
    y_ += format_.body * 0.3;
  }
}

void Paper::text(const std::string& text, const TextLook& look, double indent, const std::string& mark) {
  if (text.empty()) return;
  const double across = width() - indent;
  std::string rest = text;
  bool is_first = true;
  while (!rest.empty()) {
    const LayoutPtr layout = typesetter_.layout(rest, look, across);
    const double height = layout_height(layout.get());
    // What is set here: all of it, or the lines that fit.
    LayoutPtr shown = layout;
    std::string left;
    if (height > room()) {
      const int lines = pango_layout_get_line_count(layout.get());
      int fit = 0;
      double used = 0;
      for (; fit < lines; ++fit) {
        PangoRectangle logical;
        pango_layout_line_get_extents(pango_layout_get_line_readonly(layout.get(), fit), nullptr, &logical);
        used += static_cast<double>(logical.height) / PANGO_SCALE;
        if (used > room()) break;
      }
      if (fit < std::min(lines, 2) && y_ > top_) {  // no single line at the foot of a page
        new_page();
        continue;
      }
      fit = std::clamp(fit, 1, lines);
      if (fit < lines) {
        const std::string set(pango_layout_get_text(layout.get()));
        const auto cut = static_cast<std::size_t>(
            pango_layout_line_get_start_index(pango_layout_get_line_readonly(layout.get(), fit)));
        left = set.substr(cut);
        shown = typesetter_.layout(set.substr(0, cut), look, across);
      }
    }
    if (is_first && !mark.empty()) {
      put(typesetter_.layout(mark, look, 0), {format_.margin, y_}, look);
    }
    put(shown, {format_.margin + indent, y_}, look);
    y_ += layout_height(shown.get());
    is_first = false;
    rest = left;
    if (!rest.empty()) new_page();
  }
  y_ += format_.body * 0.15;
}

void Paper::list(const std::vector<std::string>& sentences, const std::string& mark) {
  const double indent = layout_width(typesetter_.layout(mark + " ", look(), 0).get()) + 2;
  for (const auto& sentence : sentences) text(sentence, look(), indent, mark);
}

void Paper::picture(double height, const std::function<void(const Box&)>& draw) {
  height = std::min(height, page_room());
  need(height);
  draw({format_.margin, y_, format_.margin + width(), y_ + height});
  y_ += height + format_.body * 0.4;
}

void Paper::to_fill_in(const std::vector<std::string>& labels, double width_each) {
  const double line = 8 * mm;  // room for handwriting with cold hands
  const auto columns = static_cast<std::size_t>(std::max(1.0, std::floor(width() / width_each)));
  for (std::size_t first = 0; first < labels.size(); first += columns) {
    std::vector<LayoutPtr> layouts;
    double height = 0;
    const double each = width() / static_cast<double>(columns);
    for (std::size_t i = first; i < std::min(first + columns, labels.size()); ++i) {
      layouts.push_back(typesetter_.layout(labels[i], small(), each - 6));
      height = std::max(height, layout_height(layouts.back().get()));
    }
    need(height + line);
    for (std::size_t i = 0; i < layouts.size(); ++i) {
      const double x = format_.margin + static_cast<double>(i) * each;
      put(layouts[i], {x, y_}, small());
      put_line({x, y_ + height + line - 4}, {x + each - 8, y_ + height + line - 4}, 0.6);
    }
    y_ += height + line;
  }
}

void Paper::keep_together(const std::function<void()>& build) {
  const std::size_t pages = pages_.size();
  const std::size_t parts = page().parts.size(), headings = page().headings.size();
  const double y = y_;
  build();
  if (pages_.size() == pages || y <= top_) return;
  // Does it fit on a page of its own? Only then is it worth the white paper.
  pages_.resize(pages);
  page().parts.resize(parts);
  page().headings.resize(headings);
  y_ = y;
  new_page();
  build();
  if (pages_.size() == pages + 1) return;
  pages_.resize(pages);
  page().parts.resize(parts);
  page().headings.resize(headings);
  y_ = y;
  build();
}

bool Paper::fits_a_page(const std::function<void()>& build) {
  const std::size_t pages = pages_.size();
  const double y = y_;
  new_page();
  build();
  const bool fits = pages_.size() == pages + 1;
  pages_.resize(pages);
  y_ = y;
  return fits;
}

void Paper::put(const LayoutPtr& layout, Spot at, const TextLook& look, const char* tag) {
  page().parts.emplace_back(PlacedText{at, layout, look.size, look.grey, tag});
}

void Paper::begin_tag(const char* tag) {
  draw([tag](cairo_t* cr) { cairo_tag_begin(cr, tag, nullptr); });
}
void Paper::end_tag(const char* tag) {
  draw([tag](cairo_t* cr) { cairo_tag_end(cr, tag); });
}

void Paper::put_line(Spot from, Spot to, double thickness, double grey, std::vector<double> dashes) {
  put_path({from, to}, thickness, grey, std::move(dashes));
}

void Paper::put_path(std::vector<Spot> points, double thickness, double grey, std::vector<double> dashes) {
  if (points.size() < 2) return;
  draw([points = std::move(points), thickness, grey, dashes = std::move(dashes)](cairo_t* cr) {
    cairo_set_source_rgb(cr, grey, grey, grey);
    cairo_set_line_width(cr, thickness);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    cairo_set_dash(cr, dashes.data(), static_cast<int>(dashes.size()), 0);
    for (const Spot& at : points) cairo_line_to(cr, at.x, at.y);
    cairo_stroke(cr);
    cairo_set_dash(cr, nullptr, 0, 0);
  });
}

void Paper::put_rectangle(const Box& box, double thickness, std::optional<double> fill_grey, double line_grey) {
  draw([=](cairo_t* cr) {
    cairo_rectangle(cr, box.left, box.top, box.right - box.left, box.bottom - box.top);
    if (fill_grey) {
      cairo_set_source_rgb(cr, *fill_grey, *fill_grey, *fill_grey);
      cairo_fill_preserve(cr);
    }
    cairo_set_source_rgb(cr, line_grey, line_grey, line_grey);
    cairo_set_line_width(cr, thickness);
    if (thickness > 0) cairo_stroke(cr);
    cairo_new_path(cr);
  });
}

void Paper::put_area(std::vector<Spot> outline, double fill_grey) {
  draw([outline = std::move(outline), fill_grey](cairo_t* cr) {
    for (const Spot& at : outline) cairo_line_to(cr, at.x, at.y);
    cairo_close_path(cr);
    cairo_set_source_rgb(cr, fill_grey, fill_grey, fill_grey);
    cairo_fill(cr);
  });
}

void Paper::put_ring(Spot centre, double radius, double fill_grey) {
  draw([=](cairo_t* cr) {
    cairo_new_sub_path(cr);
    cairo_arc(cr, centre.x, centre.y, radius, 0, 6.283185307179586);
    cairo_set_source_rgb(cr, fill_grey, fill_grey, fill_grey);
    cairo_fill_preserve(cr);
    cairo_set_source_rgb(cr, 0, 0, 0);
    cairo_set_line_width(cr, 0.9);
    cairo_stroke(cr);
  });
}

void Paper::put_qr(const QrCode& code, const Box& box) {
  const double side = std::min(box.right - box.left, box.bottom - box.top) / static_cast<double>(code.width + 8);
  draw([code, box, side](cairo_t* cr) {
    cairo_set_source_rgb(cr, 0, 0, 0);
    for (std::size_t row = 0; row < code.width; ++row) {
      for (std::size_t column = 0; column < code.width;) {
        std::size_t end = column;
        while (end < code.width && code.dark[row * code.width + end]) ++end;
        if (end == column) {
          ++column;
          continue;
        }
        cairo_rectangle(cr, box.left + side * static_cast<double>(column + 4),
                        box.top + side * static_cast<double>(row + 4), side * static_cast<double>(end - column), side);
        column = end;
      }
    }
    cairo_fill(cr);
  });
}

void Paper::finish() {
  for (std::size_t p = 0; p < pages_.size(); ++p) {
    PaperPage& on = pages_[p];
    const LayoutPtr above = typesetter_.layout(head_, small(), width());
    const LayoutPtr below = typesetter_.layout(
        foot_ + " · page " + std::to_string(p + 1) + " of " + std::to_string(pages_.size()), small(), width());
    const double line_above = format_.margin + layout_height(above.get()) + 1.5;
    const double foot = format_.height - format_.margin - layout_height(below.get());
    on.parts.emplace_back(PlacedText{{format_.margin, format_.margin}, above, format_.least, 0.0, nullptr});
    on.parts.emplace_back(PlacedText{{format_.margin, foot}, below, format_.least, 0.0, nullptr});
    const double from = format_.margin, to = format_.margin + width();
    on.parts.emplace_back([=](cairo_t* cr) {
      cairo_set_source_rgb(cr, 0.5, 0.5, 0.5);
      cairo_set_line_width(cr, 0.5);
      for (const double y : {line_above, foot - 1.5}) {
        cairo_move_to(cr, from, y);
        cairo_line_to(cr, to, y);
      }
      cairo_stroke(cr);
    });
  }
}

}  // namespace outbye
