#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "formats/load_picture/drawing.h"
#include "formats/load_picture/load_picture.h"

namespace outbye {
namespace {

constexpr double margin = 30;
constexpr double plan_width = 440;  // the names stand to the right of it
constexpr double around = 66;       // heading, seat-back, tailgate and scale of a plan

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
        balance_(id.value < load.balance.size() ? load.balance[id.value] : LoadBalance{}) {
    layers_ = layer_.empty() ? 1 : 1 + *std::max_element(layer_.begin(), layer_.end());
    const double room = page_height - heading_height - 20;
    scale_ =
        std::min({plan_width / space_.size.width, 0.5, (room / (layers_ > 1 ? 2 : 1) - around) / space_.size.length});
    each_ = std::max<std::size_t>(1, static_cast<std::size_t>(room / row_height()));
    pages_.title = "Layers of " + space_.name;
    pages_.description = "Plans from above, one a layer.";
    pages_.count = (layers_ + each_ - 1) / each_;
    const std::string name = car + (space_.kind == LoadSpace::Kind::roof_box ? ", roof box" : "");
    pages_.draw = [this, name](Svg& svg, std::size_t p) { page(svg, p, name); };
  }
  const Pages& pages() const { return pages_; }

 private:
  static constexpr double heading_height = 120;

  double row_height() const { return scale_ * space_.size.length + around; }

  void page(Svg& svg, std::size_t p, const std::string& name) const {
    std::vector<std::string> lines{
        "From above: the front of the car is up, left is left. Numbers are the steps of the list. Hatched: 10 kg and "
        "more. Dashed: underneath. Grey: part of the car."};
    if (p == 0) {
      lines.push_back("Loaded " + kg(balance_.mass) + " of " + kg(space_.payload) + ". Cross: middle of the mass, " +
                      std::to_string(balance_.centre.x) + " mm from the seat-back, " +
                      std::to_string(balance_.centre.z) + " mm above the floor.");
    }
    const std::string of =
        pages_.count > 1 ? ", page " + std::to_string(p + 1) + " of " + std::to_string(pages_.count) : "";
    draw_heading(svg, "Layers of the load: " + name + of, lines);
    for (std::size_t n = 0; n < each_ && p * each_ + n < layers_; ++n) {
      plan(svg, {margin, heading_height + 32 + row_height() * static_cast<double>(n)}, p * each_ + n);
    }
  }

  Face on_paper(Spot origin, const LoadBox& box) const {
    return {{origin.x + scale_ * box.at.y, origin.y + scale_ * box.at.x},
            {scale_ * box.size.width, 0},
            {0, scale_ * box.size.length}};
  }

  void plan(Svg& svg, Spot origin, std::size_t layer) const {
    const double width = scale_ * space_.size.width;
    const double length = scale_ * space_.size.length;
    svg.text({origin.x, origin.y - 18}, layer == 0 ? "Layer 1: on the floor" : "Layer " + std::to_string(layer + 1), 14,
             Anchor::start, "font-weight=\"bold\"");
    svg.text({origin.x + width / 2, origin.y - 4}, "seat-back, front of the car", small_text, Anchor::middle,
             "class=\"quiet\"");
    svg.rectangle({origin.x, origin.y, origin.x + width, origin.y + length}, "class=\"floor\"");
    for (const LoadBox& box : space_.blocked) {
      const Face face = on_paper(origin, box);
      svg.path(outline(face), "class=\"blocked\"", true);
      hatch(svg, face, 7, true, "class=\"soft\"");
    }
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (layer_[i] < layer) svg.path(outline(on_paper(origin, things_[i].box)), "class=\"under\"", true);
    }
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (layer_[i] == layer) draw_thing(svg, origin, things_[i]);
    }
    if (layer == 0 && balance_.mass > Kilograms{0}) {
      const Spot c{origin.x + scale_ * balance_.centre.y, origin.y + scale_ * balance_.centre.x};
      svg.line({c.x - 9, c.y}, {c.x + 9, c.y}, "class=\"scale\"");
      svg.line({c.x, c.y - 9}, {c.x, c.y + 9}, "class=\"scale\"");
    }
    svg.text({origin.x + width / 2, origin.y + length + 14}, "tailgate", small_text, Anchor::middle, "class=\"quiet\"");
    names(svg, {origin.x + width + 24, origin.y + 4}, layer);
    if (layer > 0) return;
    const double y = origin.y + length + 8;
    svg.line({origin.x, y}, {origin.x + 500 * scale_, y}, "class=\"scale\"");
    for (const double x : {origin.x, origin.x + 500 * scale_}) svg.line({x, y - 3}, {x, y + 3}, "class=\"scale\"");
    svg.text({origin.x, y + 15}, "500 mm", small_text);
  }

  // Beside the plan, in the order of loading.
  void names(Svg& svg, Spot at_top, std::size_t layer) const {
    const double room = page_width - margin - at_top.x - 22;
    const auto width = static_cast<std::size_t>(room / (0.52 * small_text));
    double y = at_top.y + small_text;
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (layer_[i] != layer) continue;
      const LoadItem& item = at(task_.items, things_[i].item);
      number_mark(svg, {at_top.x + 8, y - 0.3 * small_text}, things_[i].step, true, small_text);
      for (const auto& line : text_lines(item.name + ", " + kg(item.mass), width, 2)) {
        svg.text({at_top.x + 23, y}, line, small_text);
        y += small_pitch;
      }
      y += 5;
    }
  }

  void draw_thing(Svg& svg, Spot origin, const DrawnThing& thing) const {
    const LoadItem& item = at(task_.items, thing.item);
    const Face face = on_paper(origin, thing.box);
    svg.path(outline(face), "class=\"new\"", true);
    if (item.mass.value >= 10.0) hatch(svg, face, 11, false, "class=\"soft\"");
    number_mark(svg, on_face(face, 0.5, 0.5), thing.step, true, small_text + 1);
  }

  const LoadTask& task_;
  const LoadSpace& space_;
  std::vector<DrawnThing> things_;
  std::vector<std::size_t> layer_;
  LoadBalance balance_;
  Pages pages_;
  std::size_t layers_{1};
  std::size_t each_{1};  // plans a page
  double scale_{0.3};
};

}  // namespace

std::vector<std::string> load_layers_pages(const LoadTask& task, const Load& load, LoadSpaceId space,
                                           const std::string& car) {
  const LayersPicture picture(task, load, space, car);
  return one_by_one(picture.pages());
}

std::string load_layers_svg(const LoadTask& task, const Load& load, LoadSpaceId space, const std::string& car) {
  const LayersPicture picture(task, load, space, car);
  return one_below_the_other(picture.pages());
}

}  // namespace outbye
