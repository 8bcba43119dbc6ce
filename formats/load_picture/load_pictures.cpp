#include <algorithm>

#include "formats/load_picture/load_picture.h"

namespace outbye {
namespace {

std::string space_word(const LoadTask& task, LoadSpaceId id) {
  if (id.value == 0) return "";
  return at(task.spaces, id).kind == LoadSpace::Kind::roof_box ? "-roof-box" : "-space-" + std::to_string(id.value + 1);
}

}  // namespace

std::vector<LoadPicture> load_pictures(const LoadTask& task, const Load& load, const std::string& car, LoadPages as) {
  std::vector<LoadPicture> pictures;
  for (std::uint32_t s = 0; s < task.spaces.size(); ++s) {
    const LoadSpaceId id{s};
    const bool has_any = std::any_of(load.placements.begin(), load.placements.end(),
                                     [&](const LoadPlacement& placement) { return placement.space == id; });
    if (s > 0 && !has_any) continue;
    const std::string word = space_word(task, id);
    if (as == LoadPages::one_by_one) {
      pictures.push_back({"steps", word, load_steps_pages(task, load, id, car)});
      pictures.push_back({"layers", word, load_layers_pages(task, load, id, car)});
    } else {
      pictures.push_back({"steps", word, {load_steps_svg(task, load, id, car)}});
      pictures.push_back({"layers", word, {load_layers_svg(task, load, id, car)}});
    }
  }
  return pictures;
}

}  // namespace outbye
