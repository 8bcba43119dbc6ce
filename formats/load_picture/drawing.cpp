#include "formats/load_picture/drawing.h"

#include <cmath>
#include <utility>

#include "core/base/text.h"

namespace outbye {

const char* const load_style =
    "text{fill:#1f2428}.quiet{fill:#4a5058}.frame{fill:none;stroke:#c9c6bd}.wall{fill:#f3f1ec;stroke:#8a8f94;"
    "stroke-width:.8}.floor{fill:#fff;stroke:#8a8f94;stroke-width:.8}.open{fill:none;stroke:#8a8f94;stroke-width:.8;"
    "stroke-dasharray:4 2}.blocked{fill:#d5d2ca;stroke:#5a6068;stroke-width:.8}.there{fill:#fff;stroke:#85827a;"
    "stroke-width:.8;stroke-linejoin:round}.side{fill:#eceae4}.new{fill:#fff;stroke:#1f2428;stroke-width:1.6;"
    "stroke-linejoin:round}.newside{fill:#c9c6bd}.hatch{stroke:#5a6068;stroke-width:.7}.soft{stroke:#a9a59b;"
    "stroke-width:.6}.under{fill:none;stroke:#85827a;stroke-width:.8;stroke-dasharray:3 2}.hidden{fill:none;"
    "stroke:#1f2428;stroke-width:1.1;stroke-dasharray:3 2}.ring{fill:#fff;stroke:#1f2428;stroke-width:1.1}"
    ".disc{fill:#1f2428;stroke:#fff;stroke-width:1}.light{fill:#fff}.scale{stroke:#1f2428;stroke-width:1.6}";

std::vector<DrawnThing> things_in(const LoadTask& task, const Load& load, LoadSpaceId space) {
  std::vector<DrawnThing> things;
  const auto steps = describe(task, load);
  for (std::size_t p = 0; p < load.placements.size(); ++p) {
    if (load.placements[p].space != space) continue;
    things.push_back({steps[p].step, load.placements[p].item, load.placements[p].box, steps[p]});
  }
  return things;
}

Spot on_face(const Face& face, double u, double v) {
  return {face.corner.x + u * face.along.x + v * face.across.x, face.corner.y + u * face.along.y + v * face.across.y};
}

std::vector<Spot> outline(const Face& face) {
  return {on_face(face, 0, 0), on_face(face, 1, 0), on_face(face, 1, 1), on_face(face, 0, 1)};
}

bool covers(const Face& face, Spot at) {
  const double det = face.along.x * face.across.y - face.along.y * face.across.x;
  if (std::fabs(det) < 1e-9) return false;
  const double x = at.x - face.corner.x;
  const double y = at.y - face.corner.y;
  const double u = (x * face.across.y - y * face.across.x) / det;
  const double v = (face.along.x * y - face.along.y * x) / det;
  return u > 0.0 && u < 1.0 && v > 0.0 && v < 1.0;
}

void hatch(Svg& svg, const Face& face, double gap, bool both, std::string_view attributes) {
  // Lines u/a + v/b = constant, with a and b so that they are `gap` apart along the edges.
  const double along = std::hypot(face.along.x, face.along.y);
  const double across = std::hypot(face.across.x, face.across.y);
  if (along < 1.0 || across < 1.0) return;
  for (double reach = gap; reach < along + across; reach += gap) {
    // From the near edge (v = 0) to the far one, in units along the edges.
    const double u0 = std::min(reach, along);
    const double v0 = reach - u0;
    const double v1 = std::min(reach, across);
    const double u1 = reach - v1;
    svg.line(on_face(face, u0 / along, v0 / across), on_face(face, u1 / along, v1 / across), attributes);
    if (!both) continue;
    svg.line(on_face(face, 1 - u0 / along, v0 / across), on_face(face, 1 - u1 / along, v1 / across), attributes);
  }
}

void number_mark(Svg& svg, Spot at, int step, bool is_new, double size) {
  const double radius = size * (step > 9 ? 0.82 : 0.72);
  svg.circle(at, radius, is_new ? "class=\"disc\"" : "class=\"ring\"");
  svg.text({at.x, at.y + 0.36 * size}, std::to_string(step), size, Anchor::middle,
           is_new ? "class=\"light\" font-weight=\"bold\"" : "");
}

std::string kg(Kilograms mass) { return fixed(mass.value, mass.value < 10.0 ? 1 : 0) + " kg"; }

std::vector<std::string> text_lines(const std::string& text, std::size_t columns, std::size_t lines) {
  std::vector<std::string> out;
  std::string line;
  std::string rest = text;
  while (!rest.empty()) {
    const auto space = rest.find(' ');
    const std::string word = rest.substr(0, space);
    const std::string longer = line.empty() ? word : line + " " + word;
    if (display_width(longer) > columns && !line.empty()) {
      if (out.size() + 1 == lines) {
        out.push_back(shortened(line + " " + rest, columns));
        return out;
      }
      out.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    rest = space == std::string::npos ? "" : rest.substr(space + 1);
  }
  if (!line.empty()) out.push_back(shortened(line, columns));
  return out;
}

double draw_heading(Svg& svg, const std::string& title, const std::vector<std::string>& lines) {
  double y = 40;
  svg.text({30, y}, shortened(title, 66), 18, Anchor::start, "font-weight=\"bold\"");
  y += 4;
  for (const auto& words : lines) {
    for (const auto& line : text_lines(words, static_cast<std::size_t>((page_width - 60) / (0.51 * small_text)), 3)) {
      y += small_pitch;
      svg.text({30, y}, line, small_text, Anchor::start, "class=\"quiet\"");
    }
  }
  return y + 12;
}

std::vector<std::string> one_by_one(const Pages& pages) {
  std::vector<std::string> pictures;
  for (std::size_t p = 0; p < pages.count; ++p) {
    Svg svg(page_width, page_height, pages.title, pages.description, load_style);
    pages.draw(svg, p);
    pictures.push_back(std::move(svg).finish());
  }
  return pictures;
}

std::string one_below_the_other(const Pages& pages) {
  Svg svg(page_width, page_height * static_cast<double>(pages.count), pages.title, pages.description, load_style);
  for (std::size_t p = 0; p < pages.count; ++p) {
    svg.open("transform=\"translate(0 " + number(page_height * static_cast<double>(p)) + ")\"");
    pages.draw(svg, p);
    svg.close();
  }
  return std::move(svg).finish();
}

}  // namespace outbye
