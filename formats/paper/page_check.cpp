#include "formats/paper/page_check.h"

#include "core/base/text.h"

namespace outbye {
namespace {

struct Inked {
  Box box;
  std::string words;
};

std::string where(std::size_t page, const std::string& words) {
  return "page " + std::to_string(page + 1) + ": '" + words.substr(0, 40) + "' ";
}

}  // namespace

std::vector<std::string> page_faults(const Paper& paper) {
  std::vector<std::string> faults;
  const PaperFormat& format = paper.format();
  const Box sheet{format.margin - 1, format.margin - 1, format.width - format.margin + 1,
                  format.height - format.margin + 1};
  for (std::size_t p = 0; p < paper.pages().size(); ++p) {
    std::vector<Inked> all;
    for (const auto& part : paper.pages()[p].parts) {
      const auto* text = std::get_if<PlacedText>(&part);
      if (text == nullptr) continue;
      const std::string words = pango_layout_get_text(text->layout.get());
      const Box ink = ink_box(text->layout.get());
      const Box box{text->at.x + ink.left, text->at.y + ink.top, text->at.x + ink.right, text->at.y + ink.bottom};
      if (text->size < format.least) faults.push_back(where(p, words) + "is " + fixed(text->size, 1) + " pt");
      if (text->grey > 0.35) faults.push_back(where(p, words) + "is too pale");
      if (pango_layout_get_unknown_glyphs_count(text->layout.get()) > 0) {
        faults.push_back(where(p, words) + "has letters that no font has");
      }
      if (pango_layout_is_ellipsized(text->layout.get()) != 0) faults.push_back(where(p, words) + "is cut");
      if (ink.right <= ink.left) continue;
      if (!is_inside(box, sheet)) faults.push_back(where(p, words) + "is off the page");
      for (const Inked& other : all) {
        if (overlap(box, other.box)) faults.push_back(where(p, words) + "covers '" + other.words.substr(0, 40) + "'");
      }
      all.push_back({box, words});
    }
  }
  return faults;
}

}  // namespace outbye
