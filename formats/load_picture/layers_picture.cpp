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
constexpr double margin = 30;

bool lie_over(const LoadBox& a, const LoadBox& b) {
  return a.at.x < b.at.x + b.size.length && b.at.x < a.at.x + a.size.length && a.at.y < b.at.y + b.size.width &&
         b.at.y < a.at.y + a.size.width;
}

// 0: on the floor or the car itself; else one above the highest that it stands on.
std::vector<std::size_t> layers_of(const std::vector<DrawnThing>& things) {
  std::vector<std::size_t> order(things.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return things[a].box.at.z < things[b].box.at.z; });
  std::vector<std::size_t> layer(things.size(), 0);
  for (const std::size_t i : order) {
    for (const std::size_t j : order) {
      const LoadBox& under = things[j].box;
      if (i == j || under.at.z + under.size.height != things[i].box.at.z || !lie_over(things[i].box, under)) continue;
      layer[i] = std::max(layer[i], layer[j] + 1);
    }
  }
  return layer;
}

class LayersPicture {
 public:
  LayersPicture(const LoadTask& task, const Load& load, LoadSpaceId id, const std::string& car)
      : task_(task),
        space_(at(task.spaces, id)),
        things_(things_in(task, load, id)),
        layer_(layers_of(things_)),
        svg_(page_width, page_height, "Layers of " + space_.name, "Plans from above, one a layer.", load_style) {
    const LoadBalance balance = id.value < load.balance.size() ? load.balance[id.value] : LoadBalance{};
    const double top = draw_heading(
        svg_, page_width, "Layers of the load: " + car + (space_.kind == LoadSpace::Kind::roof_box ? ", roof box" : ""),
        {"Seen from above: the front of the car is up, left is left. Numbers are the steps of the list. Dashed: what "
         "is "
         "underneath. Grey: arches, lip, whatever is part of the car.",
         "Loaded " + kg(balance.mass) + " of " + kg(space_.payload) + ". Cross: middle of the mass, " +
             std::to_string(balance.centre.x) + " mm from the seat-back, " + std::to_string(balance.centre.z) +
             " mm above the floor."});
    const std::size_t count = layer_.empty() ? 1 : 1 + *std::max_element(layer_.begin(), layer_.end());
    const std::size_t columns = count < 2 ? 1 : 2;
    const std::size_t rows = (count + columns - 1) / columns;
    const double width = (page_width - 2 * margin) / static_cast<double>(columns);
    const double height = (page_height - top - 30) / static_cast<double>(rows);
    scale_ = std::min((width - 30) / space_.size.width, (height - 66) / space_.size.length);
    scale_ = std::min(scale_, 0.55);
    const double drawn = scale_ * space_.size.length + 66;
    for (std::size_t layer = 0; layer < count; ++layer) {
      const double left = margin + width * static_cast<double>(layer % columns);
      plan({left + (width - scale_ * space_.size.width) / 2, top + drawn * static_cast<double>(layer / columns) + 32},
           layer, balance, layer == 0);
    }
  }
  std::string finish() && { return std::move(svg_).finish(); }

 private:
  Face on_paper(Spot origin, const LoadBox& box) const {
    return {{origin.x + scale_ * box.at.y, origin.y + scale_ * box.at.x},
            {scale_ * box.size.width, 0},
            {0, scale_ * box.size.length}};
  }

  void plan(Spot origin, std::size_t layer, const LoadBalance& balance, bool is_first) {
    const double width = scale_ * space_.size.width;
    const double length = scale_ * space_.size.length;
    svg_.text({origin.x, origin.y - 18}, layer == 0 ? "Layer 1: on the floor" : "Layer " + std::to_string(layer + 1),
              12, Anchor::start, "font-weight=\"bold\"");
    svg_.text({origin.x + width / 2, origin.y - 4}, "seat-back, front of the car", 9, Anchor::middle,
              "class=\"quiet\"");
    svg_.rectangle({origin.x, origin.y, origin.x + width, origin.y + length}, "class=\"floor\"");
    for (const LoadBox& box : space_.blocked) {
      const Face face = on_paper(origin, box);
      svg_.path(outline(face), "class=\"blocked\"", true);
      hatch(svg_, face, 7, true, "class=\"soft\"");
    }
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (layer_[i] < layer) svg_.path(outline(on_paper(origin, things_[i].box)), "class=\"under\"", true);
    }
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (layer_[i] == layer) draw_thing(origin, things_[i]);
    }
    if (is_first && balance.mass > Kilograms{0}) {
      const Spot c{origin.x + scale_ * balance.centre.y, origin.y + scale_ * balance.centre.x};
      svg_.line({c.x - 7, c.y}, {c.x + 7, c.y}, "class=\"scale\"");
      svg_.line({c.x, c.y - 7}, {c.x, c.y + 7}, "class=\"scale\"");
    }
    svg_.text({origin.x + width / 2, origin.y + length + 12}, "tailgate", 9, Anchor::middle, "class=\"quiet\"");
    if (!is_first) return;
    const double y = origin.y + length + 20;
    svg_.line({origin.x, y}, {origin.x + 500 * scale_, y}, "class=\"scale\"");
    for (const double x : {origin.x, origin.x + 500 * scale_}) svg_.line({x, y - 3}, {x, y + 3}, "class=\"scale\"");
    svg_.text({origin.x + 500 * scale_ + 5, y + 3}, "500 mm", 9);
  }

  void draw_thing(Spot origin, const DrawnThing& thing) {
    const LoadItem& item = at(task_.items, thing.item);
    const Face face = on_paper(origin, thing.box);
    svg_.path(outline(face), "class=\"new\"", true);
    if (item.mass.value >= 10.0) hatch(svg_, face, 11, false, "class=\"soft\"");  // heavy
    const double width = face.along.x;
    const double height = face.across.y;
    const Spot middle = on_face(face, 0.5, 0.5);
    const double size = 8.5;
    const auto columns = static_cast<std::size_t>(std::max(0.0, (width - 6) / (0.54 * size)));
    std::vector<std::string> lines;
    if (columns >= 5) {
      const auto most = static_cast<std::size_t>(std::max(0.0, (height - 20) / 10.0));
      if (most >= 2) lines = text_lines(item.name, columns, most - 1);
      if (most >= 2 && columns >= 7) lines.push_back(kg(item.mass));
      if (most == 1) lines = {shortened(item.name, columns)};
    }
    const double block = 18 + 10.0 * static_cast<double>(lines.size());
    double y = middle.y - block / 2 + 9;
    number_mark(svg_, {middle.x, y}, thing.step, true, std::min({10.5, width / 2.2, height / 1.6}));
    y += 8;
    for (const auto& line : lines) {
      y += 10;
      svg_.text({middle.x, y}, line, size, Anchor::middle,
                "paint-order=\"stroke\" stroke=\"#fff\" stroke-width=\"2.4\"");
    }
  }

  const LoadTask& task_;
  const LoadSpace& space_;
  std::vector<DrawnThing> things_;
  std::vector<std::size_t> layer_;
  Svg svg_;
  double scale_{0.3};
};

}  // namespace

std::string load_layers_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car) {
  return LayersPicture(task, load, space, car).finish();
}

}  // namespace outbye
