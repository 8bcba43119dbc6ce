#include "formats/picture/svg.h"

#include <cmath>

#include "core/base/text.h"

namespace outbye {
namespace {

// Bytes of the UTF-8 sequence at the front, 0 when it is not one.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  std::size_t length = 0;
  if (first < 0x80) length = 1;
  if (first >= 0xC2 && first <= 0xDF) length = 2;
  if (first >= 0xE0 && first <= 0xEF) length = 3;
  if (first >= 0xF0 && first <= 0xF4) length = 4;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
  }
  // overlong forms, surrogates, beyond U+10FFFF; U+FFFE and U+FFFF are not XML characters
  if ((first == 0xE0 && byte(1) < 0xA0) || (first == 0xED && byte(1) > 0x9F)) return 0;
  if ((first == 0xF0 && byte(1) < 0x90) || (first == 0xF4 && byte(1) > 0x8F)) return 0;
  if (first == 0xEF && byte(1) == 0xBF && byte(2) >= 0xBE) return 0;
  return length;
}

constexpr std::string_view replacement = "\xEF\xBF\xBD";

// Calls `take` with each character, invalid bytes as U+FFFD, control characters left out.
template <class Take>
void for_each_character(std::string_view text, Take take) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) {
      take(replacement);
      text.remove_prefix(1);
      continue;
    }
    const auto first = static_cast<unsigned char>(text[0]);
    if (first >= 0x20 && first != 0x7F) take(text.substr(0, length));
    text.remove_prefix(length);
  }
}

const char* word(Anchor anchor) {
  switch (anchor) {
    case Anchor::start:
      return "start";
    case Anchor::middle:
      return "middle";
    case Anchor::end:
      return "end";
  }
  return "start";
}

}  // namespace

std::string escaped(std::string_view utf8) {
  std::string result;
  for_each_character(utf8, [&](std::string_view c) {
    if (c == "&") {
      result += "&amp;";
    } else if (c == "<") {
      result += "&lt;";
    } else if (c == ">") {
      result += "&gt;";
    } else if (c == "\"") {
      result += "&quot;";
    } else {
      result += c;
    }
  });
  return result;
}

std::string shortened(std::string_view utf8, std::size_t columns) {
  std::vector<std::string_view> characters;
  std::string whole;
  for_each_character(utf8, [&](std::string_view c) {
    characters.push_back(c);
    whole += c;
  });
  if (display_width(whole) <= columns) return whole;
  const std::size_t tail_columns = (columns - 1) / 3;
  std::size_t first_of_tail = characters.size();
  std::string tail;
  while (first_of_tail > 0 && display_width(std::string(characters[first_of_tail - 1]) + tail) <= tail_columns) {
    tail.insert(0, characters[--first_of_tail]);
  }
  std::string head;
  for (std::size_t i = 0; i < first_of_tail; ++i) {
    if (display_width(head) + display_width(characters[i]) + 1 + display_width(tail) > columns) break;
    head += characters[i];
  }
  return std::string(trimmed(head)) + "…" + std::string(trimmed(tail));
}

double text_width(std::string_view utf8, double size, bool is_bold) {
  double em = 0;
  for_each_character(utf8, [&](std::string_view c) {
    const char first = c[0];
    if (c.size() == 1 && std::string_view("ijl.,:;'|!I ").find(first) != std::string_view::npos) {
      em += 0.36;
    } else if (c.size() == 1 && std::string_view("mwMW%@").find(first) != std::string_view::npos) {
      em += 0.98;
    } else if (c.size() == 1 && first >= 'A' && first <= 'Z') {
      em += 0.72;
    } else {
      em += 0.64 * static_cast<double>(display_width(c));
    }
  });
  return em * size * (is_bold ? 1.125 : 1.0);
}

std::string number(double value) {
  std::string text = fixed(value, 1);
  if (text.size() > 2 && text.compare(text.size() - 2, 2, ".0") == 0) text.resize(text.size() - 2);
  return text;
}

std::string pair(Spot at) { return number(at.x) + ' ' + number(at.y); }

namespace {
// Units are 1/96 inch, so that a page prints at its size.
std::string millimetres(double units) { return fixed(units * 25.4 / 96.0, 0) + "mm"; }
}  // namespace

Svg::Svg(double width, double height, std::string_view title, std::string_view description, std::string_view style) {
  out_ =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" "
      "width=\"" +
      millimetres(width) + "\" height=\"" + millimetres(height) + "\" viewBox=\"0 0 " + number(width) + ' ' +
      number(height) + "\" role=\"img\" font-family=\"Helvetica, Arial, 'DejaVu Sans', sans-serif\">\n";
  out_ += "<title>" + escaped(title) + "</title>\n<desc>" + escaped(description) + "</desc>\n<style>" +
          std::string(style) + "</style>\n<rect width=\"" + number(width) + "\" height=\"" + number(height) +
          "\" fill=\"#ffffff\"/>\n";
}

void Svg::line(Spot from, Spot to, std::string_view attributes) {
  out_ += "<line x1=\"" + number(from.x) + "\" y1=\"" + number(from.y) + "\" x2=\"" + number(to.x) + "\" y2=\"" +
          number(to.y) + "\" " + std::string(attributes) + "/>\n";
}

void Svg::path(const std::vector<Spot>& points, std::string_view attributes, bool is_closed) {
  if (points.size() < 2) return;
  std::string d = "M" + pair(points[0]);
  for (std::size_t i = 1; i < points.size(); ++i) d += (i == 1 ? "L" : " ") + pair(points[i]);
  if (is_closed) d += 'Z';
  shape(d, attributes);
}

void Svg::shape(std::string_view d, std::string_view attributes) {
  out_ += "<path d=\"" + std::string(d) + "\" " + std::string(attributes) + "/>\n";
}

void Svg::rectangle(const Box& box, std::string_view attributes) {
  out_ += "<rect x=\"" + number(box.left) + "\" y=\"" + number(box.top) + "\" width=\"" + number(box.right - box.left) +
          "\" height=\"" + number(box.bottom - box.top) + "\" " + std::string(attributes) + "/>\n";
}

void Svg::circle(Spot centre, double radius, std::string_view attributes) {
  out_ += "<circle cx=\"" + number(centre.x) + "\" cy=\"" + number(centre.y) + "\" r=\"" + number(radius) + "\" " +
          std::string(attributes) + "/>\n";
}

void Svg::text(Spot at, std::string_view words, double size, Anchor anchor, std::string_view attributes) {
  out_ += "<text x=\"" + number(at.x) + "\" y=\"" + number(at.y) + "\" font-size=\"" + number(size) +
          "\" text-anchor=\"" + word(anchor) + "\"" + (attributes.empty() ? "" : " ") + std::string(attributes) + ">" +
          escaped(words) + "</text>\n";
}

void Svg::clip(std::string_view id, const Box& box) {
  out_ += "<clipPath id=\"" + std::string(id) + "\">\n";
  rectangle(box, "");
  out_ += "</clipPath>\n";
}

void Svg::open(std::string_view attributes) { out_ += "<g " + std::string(attributes) + ">\n"; }
void Svg::close() { out_ += "</g>\n"; }

std::string Svg::finish() && {
  out_ += "</svg>\n";
  return std::move(out_);
}

}  // namespace outbye
