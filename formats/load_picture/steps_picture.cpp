#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "formats/load_picture/drawing.h"
#include "formats/load_picture/load_picture.h"

namespace outbye {
namespace {

constexpr double margin = 26;
constexpr std::size_t columns = 2;
constexpr std::size_t rows = 2;
constexpr std::size_t steps_a_panel = 3;
constexpr std::size_t lines_a_step = 3;

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
      : task_(task), space_(at(task.spaces, id)), things_(things_in(task, load, id)) {
    pages_.title = "Loading " + space_.name;
    pages_.description = description();
    // As few things a panel as the pages that are needed anyway leave room for.
    const std::size_t panels = columns * rows;
    pages_.count = std::max<std::size_t>(1, (things_.size() + panels * steps_a_panel - 1) / (panels * steps_a_panel));
    each_ = std::max<std::size_t>(1, (things_.size() + pages_.count * panels - 1) / (pages_.count * panels));
    const std::string name = car + (space_.kind == LoadSpace::Kind::roof_box ? ", roof box" : "");
    pages_.draw = [this, name](Svg& svg, std::size_t p) { page(svg, p, name); };
  }
  const Pages& pages() const { return pages_; }

 private:
  std::string description() const {
    std::string text;
    for (const DrawnThing& thing : things_) text += (text.empty() ? "" : "; ") + thing.words.words;
    return text.empty() ? "Nothing is loaded here." : text;
  }

  void page(Svg& svg, std::size_t p, const std::string& name) const {
    std::vector<std::string> lines{
        "Hatched, dark numbers: goes in now. White: is there already. Grey: part of the car. "
        "Seen from behind the car."};
    if (p == 0) lines.push_back("Heavy things low and against the seat-back; lash cans and whatever can slide.");
    const std::string of =
        pages_.count > 1 ? ", page " + std::to_string(p + 1) + " of " + std::to_string(pages_.count) : "";
    const double top = draw_heading(svg, "How to load the " + name + of, lines);
    const double width = (page_width - 2 * margin) / columns;
    const double height = (page_height - top - 34) / rows;
    for (std::size_t n = 0; n < columns * rows; ++n) {
      const std::size_t from = (p * columns * rows + n) * each_;
      if (from >= things_.size()) break;
      const double left = margin + width * static_cast<double>(n % columns);
      const double y = top + height * static_cast<double>(n / columns);
      panel(svg, {left + 3, y + 3, left + width - 3, y + height - 3}, from, std::min(from + each_, things_.size()));
    }
    if (things_.empty()) svg.text({margin + 4, top + 20}, "Nothing is loaded here.", small_text);
    svg.text({page_width / 2, page_height - 14},
             "A plan, not a guarantee: check straps, tyre pressures and axle loads on the car itself.", small_text,
             Anchor::middle, "class=\"quiet\"");
  }

  void panel(Svg& svg, const Box& frame, std::size_t from, std::size_t to) const {
    svg.rectangle(frame, "class=\"frame\"");
    const double text_height = static_cast<double>(each_ * lines_a_step) * small_pitch + 10;
    draw_boot(svg, {frame.left + 8, frame.top + 16, frame.right - 8, frame.bottom - text_height - 4}, from, to);
    double y = frame.bottom - text_height + small_pitch;
    for (std::size_t i = from; i < to; ++i) {
      const DrawnThing& thing = things_[i];
      const LoadItem& item = at(task_.items, thing.item);
      const auto width = static_cast<std::size_t>((frame.right - frame.left - 36) / (0.52 * small_text));
      number_mark(svg, {frame.left + 15, y - 0.3 * small_text}, thing.step, true, small_text);
      svg.text({frame.left + 31, y}, shortened(item.name, width - 12) + ", " + kg(item.mass), small_text, Anchor::start,
               "font-weight=\"bold\"");
      std::string words = thing.words.side + ", " + thing.words.depth + ", " + thing.words.on;
      if (!thing.words.turned.empty()) words += ", " + thing.words.turned;
      if (!task_.helpers.empty() && item.mass.value >= 10.0) words += ". Lift: " + thing.words.lift + ".";
      double row = y;
      for (const auto& line : text_lines(words, width, lines_a_step - 1)) {
        row += small_pitch;
        svg.text({frame.left + 31, row}, line, small_text, Anchor::start, "class=\"quiet\"");
      }
      y += small_pitch * static_cast<double>(lines_a_step);
    }
  }

  // A little higher than anything stands, so that a half-empty van is not drawn small under its roof.
  Millimetres drawn_height() const {
    Millimetres top = space_.size.height / 3;
    for (const DrawnThing& thing : things_) top = std::max(top, thing.box.at.z + thing.box.size.height + 30);
    return std::min(top, space_.size.height);
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

  void draw_boot(Svg& svg, const Box& box, std::size_t from, std::size_t to) const {
    const View view = fitted(box);
    const double length = space_.size.length;
    const double width = space_.size.width;
    const double height = drawn_height();
    // Floor, seat-back and left wall are behind everything.
    svg.path({view(0, 0, 0), view(0, width, 0), view(0, width, height), view(0, 0, height)}, "class=\"wall\"", true);
    svg.path({view(0, 0, 0), view(length, 0, 0), view(length, 0, height), view(0, 0, height)}, "class=\"wall\"", true);
    svg.path({view(0, 0, 0), view(length, 0, 0), view(length, width, 0), view(0, width, 0)}, "class=\"floor\"", true);
    std::vector<Solid> solids;
    for (const LoadBox& blocked : space_.blocked) solids.push_back({blocked, 0});
    for (std::size_t i = 0; i < to; ++i) solids.push_back({things_[i].box, things_[i].step});
    solids = painters_order(std::move(solids));
    const int first_new = things_[from].step;
    for (const Solid& solid : solids) draw_solid(svg, view, solid, solid.step >= first_new);
    svg.path({view(0, width, height), view(length, width, height), view(length, width, 0)}, "class=\"open\"");
    svg.path({view(length, 0, height), view(length, width, height)}, "class=\"open\"");
    for (std::size_t s = 0; s < solids.size(); ++s) {
      if (solids[s].step >= first_new || bears_new(solids[s], from, to)) draw_number(svg, view, solids, s, first_new);
    }
    const Spot seats = view(0, width / 2, height);
    svg.text({seats.x, seats.y - 4}, "seat-back", small_text, Anchor::middle, "class=\"quiet\"");
    const Spot tail = view(length, width / 2, 0);
    svg.text({tail.x - 6, tail.y + 14}, "tailgate", small_text, Anchor::end, "class=\"quiet\"");
    if (from > 0) return;
    // Along the tailgate, so that it is as long as things across the car are drawn.
    const Spot a = view(length, width - 500, 0);
    const Spot b = view(length, width, 0);
    const Spot down{0, 7};
    svg.line({a.x, a.y + down.y}, {b.x, b.y + down.y}, "class=\"scale\"");
    svg.text({b.x + 6, b.y + down.y + 4}, "500 mm", small_text);
  }

  // Of what is there already only that is numbered on which something stands now.
  bool bears_new(const Solid& solid, std::size_t from, std::size_t to) const {
    const LoadBox& under = solid.box;
    return solid.step > 0 && std::any_of(things_.begin() + static_cast<std::ptrdiff_t>(from),
                                         things_.begin() + static_cast<std::ptrdiff_t>(to), [&](const DrawnThing& t) {
                                           return t.box.at.z == under.at.z + under.size.height &&
                                                  t.box.at.x < under.at.x + under.size.length &&
                                                  under.at.x < t.box.at.x + t.box.size.length &&
                                                  t.box.at.y < under.at.y + under.size.width &&
                                                  under.at.y < t.box.at.y + t.box.size.width;
                                         });
  }

  void draw_solid(Svg& svg, const View& view, const Solid& solid, bool is_new) const {
    const Faces faces = faces_of(view, solid.box);
    const bool is_car = solid.step == 0;
    const std::string base = is_car ? "blocked" : is_new ? "new" : "there";
    const std::string side = base + (is_car ? "" : is_new ? " newside" : " side");
    svg.path(outline(faces.top), "class=\"" + base + "\"", true);
    svg.path(outline(faces.right), "class=\"" + side + "\"", true);
    svg.path(outline(faces.rear), "class=\"" + base + "\"", true);
    if (is_new && !is_car) hatch(svg, faces.rear, 9, false, "class=\"hatch\"");
  }

  // On the first spot of its faces that nothing in front hides; what is new and hidden is outlined through the rest.
  void draw_number(Svg& svg, const View& view, const std::vector<Solid>& solids, std::size_t s, int first_new) const {
    const Solid& solid = solids[s];
    if (solid.step == 0) return;
    const bool is_new = solid.step >= first_new;
    const Faces faces = faces_of(view, solid.box);
    const double size = is_new ? 14.0 : small_text;
    for (const Face* face : {&faces.rear, &faces.top, &faces.right}) {
      for (const auto& [u, v] : {std::pair{0.5, 0.5}, {0.5, 0.8}, {0.2, 0.5}, {0.8, 0.5}, {0.2, 0.85}, {0.8, 0.85}}) {
        const Spot spot = on_face(*face, u, v);
        bool is_hidden = false;
        for (std::size_t other = s + 1; other < solids.size() && !is_hidden; ++other) {
          const Faces cover = faces_of(view, solids[other].box);
          is_hidden = covers(cover.rear, spot) || covers(cover.right, spot) || covers(cover.top, spot);
        }
        if (is_hidden) continue;
        number_mark(svg, spot, solid.step, is_new, size);
        return;
      }
    }
    if (!is_new) return;
    svg.path(outline(faces.rear), "class=\"hidden\"", true);
    svg.path(outline(faces.top), "class=\"hidden\"", true);
    number_mark(svg, on_face(faces.rear, 0.5, 0.5), solid.step, true, size);
  }

  const LoadTask& task_;
  const LoadSpace& space_;
  std::vector<DrawnThing> things_;
  Pages pages_;
  std::size_t each_{1};  // things a panel
};

}  // namespace

std::vector<std::string> load_steps_pages(const LoadTask& task, const Load& load, LoadSpaceId space,
                                          const std::string& car) {
  const StepsPicture picture(task, load, space, car);
  return one_by_one(picture.pages());
}

std::string load_steps_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car) {
  const StepsPicture picture(task, load, space, car);
  return one_below_the_other(picture.pages());
}

}  // namespace outbye
