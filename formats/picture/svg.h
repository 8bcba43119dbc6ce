// Writing SVG elements: escaped text, numbers with one decimal, and how wide a text will be.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace outbye {

struct Spot {  // on the paper: units of 1/96 inch, x to the right, y down
  double x{};
  double y{};
};

struct Box {
  double left{}, top{}, right{}, bottom{};
};
constexpr bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
constexpr bool is_inside(const Box& inner, const Box& outer) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top &&
         inner.bottom <= outer.bottom;
}

// For element content and attributes: markup escaped, control characters dropped, invalid UTF-8 replaced by U+FFFD.
std::string escaped(std::string_view utf8);

// At most `columns` (>= 4) wide; what is cut is the middle, as names often differ in their last word or number.
std::string shortened(std::string_view utf8, std::size_t columns);

// Units that a text takes, an upper bound for common sans-serif fonts. Bold takes an eighth more.
double text_width(std::string_view utf8, double size, bool is_bold = false);

enum class Anchor { start, middle, end };

class Svg {
 public:
  Svg(double width, double height, std::string_view title, std::string_view description, std::string_view style);
  // `attributes` go in as they are: class="road" and the like.
  void line(Spot from, Spot to, std::string_view attributes);
  void path(const std::vector<Spot>& points, std::string_view attributes, bool is_closed = false);
  void shape(std::string_view d, std::string_view attributes);
  void rectangle(const Box& box, std::string_view attributes);
  void circle(Spot centre, double radius, std::string_view attributes);
  void text(Spot at, std::string_view words, double size, Anchor anchor = Anchor::start,
            std::string_view attributes = "");
  void clip(std::string_view id, const Box& box);  // then: clip-path="url(#id)"
  void open(std::string_view attributes);          // a group; close() ends it
  void close();
  std::string finish() &&;

 private:
  std::string out_;
};

// "12.3", "12": one decimal, none when it is 0.
std::string number(double value);
std::string pair(Spot at);  // "12.3 4"

}  // namespace outbye
