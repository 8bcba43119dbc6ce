#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "formats/load_picture/drawing.h"
#include "formats/load_picture/load_picture.h"

namespace outbye {
namespace {

constexpr double page_width = 794;  // A4 upright
constexpr double page_height = 1123;
constexpr double margin = 26;
constexpr std::size_t columns = 3;
constexpr std::size_t rows = 4;
constexpr double text_size = 9;
constexpr double pitch = 11;

// From behind the car, a little to the right and above: azimuth and elevation in radians.
constexpr double azimuth = 0.42;
constexpr double elevation = 0.62;

struct View {
  double scale{1.0};  // units per mm
  Spot origin;
  Spot operator()(double x, double y, double z) const {
    const double right = y * std::cos(azimuth) - x * std::sin(azimuth);
    const double up = z * std::cos(elevation) - (x * std::cos(azimuth) + y * std::sin(azimuth)) * std::sin(elevation);
    return {origin.x + scale * right, origin.y - scale * up};
  }
  Face face(Spot a, Spot b, Spot c) const { return {a, {b.x - a.x, b.y - a.y}, {c.x - a.x, c.y - a.y}}; }
};

struct Faces {
  Face rear, right, top;  // the three that are seen
};

Faces faces_of(const View& view, const LoadBox& box) {
  const double x1 = box.at.x;
  const double x2 = box.at.x + box.size.length;
  const double y1 = box.at.y;
  const double y2 = box.at.y + box.size.width;
  const double z1 = box.at.z;
  const double z2 = box.at.z + box.size.height;
  return {view.face(view(x2, y1, z1), view(x2, y2, z1), view(x2, y1, z2)),
          view.face(view(x2, y2, z1), view(x1, y2, z1), view(x2, y2, z2)),
          view.face(view(x2, y1, z2), view(x2, y2, z2), view(x1, y1, z2))};
}

// Farther things first. Boxes that do not overlap are always parted along some axis; where two axes disagree neither
// hides the other.
bool is_behind(const LoadBox& a, const LoadBox& b) {
  return a.at.x + a.size.length <= b.at.x || a.at.y + a.size.width <= b.at.y || a.at.z + a.size.height <= b.at.z;
}

struct Solid {
  LoadBox box;
  int step{};  // 0: part of the car
};

std::vector<Solid> painters_order(std::vector<Solid> solids) {
  std::vector<Solid> ordered;
  while (!solids.empty()) {
    std::size_t next = 0;
    for (std::size_t i = 0; i < solids.size(); ++i) {
      const bool is_free = std::none_of(solids.begin(), solids.end(), [&](const Solid& other) {
        return &other != &solids[i] && is_behind(other.box, solids[i].box) && !is_behind(solids[i].box, other.box);
      });
      if (is_free) {
        next = i;
        break;
      }
    }
    ordered.push_back(solids[next]);
    solids.erase(solids.begin() + static_cast<std::ptrdiff_t>(next));
  }
  return ordered;
}

class StepsPicture {
 public:
  StepsPicture(const LoadTask& task, const Load& load, LoadSpaceId id, const std::string& car)
      : task_(task),
        space_(at(task.spaces, id)),
        things_(things_in(task, load, id)),
        svg_(page_width, page_height, "Loading " + space_.name, description(), load_style) {
    const double top = draw_heading(svg_, page_width, "How to load the " + shown_name(car),
                                    {"Seen from behind the car. Hatched and dark numbers: goes in now; white: is there "
                                     "already; grey: part of the car. Numbers are the steps of the list.",
                                     "Heavy things low and against the seat-back; lash cans and whatever can slide."});
    std::size_t first = 0;
    const std::size_t panels = columns * rows;
    const std::size_t each = std::max<std::size_t>(1, (things_.size() + panels - 1) / panels);
    const std::size_t used = (things_.size() + each - 1) / each;
    const std::size_t used_rows = std::max<std::size_t>(1, (used + columns - 1) / columns);
    const double width = (page_width - 2 * margin) / columns;
    const double height = std::min((page_height - top - 34) / static_cast<double>(used_rows), 330.0);
    lines_each_ = each <= 2 ? 4 : 3;
    for (std::size_t p = 0; first < things_.size(); ++p, first += each) {
      const double left = margin + width * static_cast<double>(p % columns);
      const double y = top + height * static_cast<double>(p / columns);
      panel({left + 3, y + 3, left + width - 3, y + height - 3}, first, std::min(first + each, things_.size()), p == 0);
    }
    if (things_.empty()) svg_.text({margin + 4, top + 20}, "Nothing is loaded here.", 12);
    svg_.text({page_width / 2, page_height - 14},
              "A plan, not a guarantee: check straps, tyre pressures and axle loads on the car itself.", 9,
              Anchor::middle, "class=\"quiet\"");
  }
  std::string finish() && { return std::move(svg_).finish(); }

 private:
  std::string shown_name(const std::string& car) const {
    return car + (space_.kind == LoadSpace::Kind::roof_box ? ", roof box" : "");
  }
  std::string description() const {
    std::string text;
    for (const DrawnThing& thing : things_) text += (text.empty() ? "" : "; ") + thing.words.words;
    return text.empty() ? "Nothing is loaded here." : text;
  }

  void panel(const Box& frame, std::size_t from, std::size_t to, bool is_first) {
    svg_.rectangle(frame, "class=\"frame\"");
    const double text_height = static_cast<double>((to - from) * lines_each_) * pitch + 8;
    draw_boot({frame.left + 6, frame.top + 14, frame.right - 6, frame.bottom - text_height - 2}, from, to, is_first);
    double y = frame.bottom - text_height + pitch;
    for (std::size_t i = from; i < to; ++i) {
      const DrawnThing& thing = things_[i];
      const LoadItem& item = at(task_.items, thing.item);
      const auto width = static_cast<std::size_t>((frame.right - frame.left - 26) / (0.52 * text_size));
      number_mark(svg_, {frame.left + 12, y - 0.3 * text_size}, thing.step, true, 8.5);
      svg_.text({frame.left + 23, y}, shortened(item.name, width - 12) + ", " + kg(item.mass), text_size, Anchor::start,
                "font-weight=\"bold\"");
      std::string words = thing.words.side + ", " + thing.words.depth + ", " + thing.words.on;
      if (!thing.words.turned.empty()) words += ", " + thing.words.turned;
      if (!task_.helpers.empty() && item.mass.value >= 10.0) words += ". Lift: " + thing.words.lift + ".";
      double row = y;
      for (const auto& line : text_lines(words, width, lines_each_ - 1)) {
        row += pitch;
        svg_.text({frame.left + 23, row}, line, text_size, Anchor::start, "class=\"quiet\"");
      }
      y += pitch * static_cast<double>(lines_each_);
    }
  }

  // As high as anything stands, so that a boot loaded to the cover is not drawn small under its roof.
  Millimetres drawn_height() const {
    Millimetres top = std::min(space_.size.height, space_.cover_height.value_or(space_.size.height));
    for (const DrawnThing& thing : things_) top = std::max(top, thing.box.at.z + thing.box.size.height);
    return top;
  }

  View fitted(const Box& box) const {
    View view;
    const double length = space_.size.length;
    const double width = space_.size.width;
    const double height = drawn_height();
    const std::vector<Spot> corners{
        view(0, 0, height),      view(length, 0, 0), view(0, width, height),      view(length, width, 0),
        view(length, 0, height), view(0, width, 0),  view(length, width, height), view(0, 0, 0)};
    Box reach{1e9, 1e9, -1e9, -1e9};
    for (const Spot& s : corners) {
      reach = {std::min(reach.left, s.x), std::min(reach.top, s.y), std::max(reach.right, s.x),
               std::max(reach.bottom, s.y)};
    }
    view.scale = std::min((box.right - box.left) / (reach.right - reach.left),
                          (box.bottom - box.top - 12) / (reach.bottom - reach.top));
    view.origin = {(box.left + box.right) / 2 - view.scale * (reach.left + reach.right) / 2,
                   (box.top + box.bottom - 12) / 2 - view.scale * (reach.top + reach.bottom) / 2};
    return view;
  }

  void draw_boot(const Box& box, std::size_t from, std::size_t to, bool is_first) {
    const View view = fitted(box);
    const double length = space_.size.length;
    const double width = space_.size.width;
    const double height = drawn_height();
    // Floor, seat-back and left wall are behind everything.
    svg_.path({view(0, 0, 0), view(0, width, 0), view(0, width, height), view(0, 0, height)}, "class=\"wall\"", true);
    svg_.path({view(0, 0, 0), view(length, 0, 0), view(length, 0, height), view(0, 0, height)}, "class=\"wall\"", true);
    svg_.path({view(0, 0, 0), view(length, 0, 0), view(length, width, 0), view(0, width, 0)}, "class=\"floor\"", true);
    std::vector<Solid> solids;
    for (const LoadBox& blocked : space_.blocked) solids.push_back({blocked, 0});
    for (std::size_t i = 0; i < to; ++i) solids.push_back({things_[i].box, things_[i].step});
    solids = painters_order(std::move(solids));
    const int first_new = things_[from].step;
    for (const Solid& solid : solids) draw_solid(view, solid, solid.step >= first_new);
    svg_.path({view(0, width, height), view(length, width, height), view(length, width, 0)}, "class=\"open\"");
    svg_.path({view(length, 0, height), view(length, width, height)}, "class=\"open\"");
    for (std::size_t s = 0; s < solids.size(); ++s) draw_number(view, solids, s, first_new);
    const Spot seats = view(0, width / 2, height);
    svg_.text({seats.x, seats.y - 3}, "seat-back", 8, Anchor::middle, "class=\"quiet\"");
    const Spot tail = view(length, width / 2, 0);
    svg_.text({tail.x - 4, tail.y + 12}, "tailgate", 8, Anchor::end, "class=\"quiet\"");
    if (!is_first) return;
    // Along the tailgate, so that it is as long as things across the car are drawn.
    const Spot a = view(length, width - 500, 0);
    const Spot b = view(length, width, 0);
    const Spot down{0, 6};
    svg_.line({a.x, a.y + down.y}, {b.x, b.y + down.y}, "class=\"scale\"");
    svg_.text({b.x + 2, b.y + down.y + 9}, "500 mm across", 8, Anchor::middle);
  }

  void draw_solid(const View& view, const Solid& solid, bool is_new) {
    const Faces faces = faces_of(view, solid.box);
    const bool is_car = solid.step == 0;
    const std::string base = is_car ? "blocked" : is_new ? "new" : "there";
    const std::string side = base + (is_car ? "" : is_new ? " newside" : " side");
    svg_.path(outline(faces.top), "class=\"" + base + "\"", true);
    svg_.path(outline(faces.right), "class=\"" + side + "\"", true);
    svg_.path(outline(faces.rear), "class=\"" + base + "\"", true);
    if (is_new && !is_car) hatch(svg_, faces.rear, 9, false, "class=\"hatch\"");
  }

  // On the first spot of its faces that nothing in front hides; what is new and hidden is outlined through the rest.
  void draw_number(const View& view, const std::vector<Solid>& solids, std::size_t s, int first_new) {
    const Solid& solid = solids[s];
    if (solid.step == 0) return;
    const bool is_new = solid.step >= first_new;
    const Faces faces = faces_of(view, solid.box);
    const double size = is_new ? 10.5 : 7.5;
    for (const Face* face : {&faces.rear, &faces.top, &faces.right}) {
      for (const auto& [u, v] : {std::pair{0.5, 0.5}, {0.5, 0.8}, {0.2, 0.5}, {0.8, 0.5}, {0.2, 0.85}, {0.8, 0.85}}) {
        const Spot spot = on_face(*face, u, v);
        bool is_hidden = false;
        for (std::size_t other = s + 1; other < solids.size() && !is_hidden; ++other) {
          const Faces cover = faces_of(view, solids[other].box);
          is_hidden = covers(cover.rear, spot) || covers(cover.right, spot) || covers(cover.top, spot);
        }
        if (is_hidden) continue;
        number_mark(svg_, spot, solid.step, is_new, size);
        return;
      }
    }
    if (!is_new) return;
    svg_.path(outline(faces.rear), "class=\"hidden\"", true);
    svg_.path(outline(faces.top), "class=\"hidden\"", true);
    number_mark(svg_, on_face(faces.rear, 0.5, 0.5), solid.step, true, size);
  }

  const LoadTask& task_;
  const LoadSpace& space_;
  std::vector<DrawnThing> things_;
  Svg svg_;
  std::size_t lines_each_{3};
};

}  // namespace

std::string load_steps_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car) {
  return StepsPicture(task, load, space, car).finish();
}

}  // namespace outbye
