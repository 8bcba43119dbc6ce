// Text as Pango sets it: wrapped between words, and within a word that is longer than the line; from right to left
// where its letters run so. Lengths are points (1/72 inch). Internal to formats/paper.
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "formats/picture/svg.h"

namespace outbye {

enum class TextAlign { start, middle, end };

struct TextLook {
  double size{10};
  bool is_bold{};
  double grey{0.0};  // 0 black .. 1 white; at most 0.35, so that it stays readable
  TextAlign align{TextAlign::start};
};

struct UnrefObject {
  void operator()(gpointer object) const { g_object_unref(object); }
};
using LayoutPtr = std::shared_ptr<PangoLayout>;

class Typesetter {
 public:
  Typesetter();
  // Errors: cancelled when no font is installed at all.
  Result<void> check_fonts() const;
  // `width` <= 0: one line. Line ends and control characters become spaces; bytes that are not UTF-8 become U+FFFD.
  LayoutPtr layout(std::string_view text, const TextLook& look, double width) const;

 private:
  std::shared_ptr<PangoContext> context_;
};

// The rectangle that lines take, and what is inked, both from the layout's upper left corner.
double layout_width(PangoLayout* layout);
double layout_height(PangoLayout* layout);
Box ink_box(PangoLayout* layout);

// The longest single word, without wrapping.
double widest_word(const Typesetter& typesetter, std::string_view text, const TextLook& look);

}  // namespace outbye
