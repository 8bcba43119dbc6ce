#include "cli/kit_ticks.h"

#include <algorithm>

#include "core/base/text.h"
#include "core/kit/choose_kit.h"
#include "formats/json_text/json_text.h"

namespace outbye {
namespace {

// The one spelling under which a thing is ticked: its id, or the container's name in small letters.
std::optional<std::string> id_of(const KitCatalogue& all, const RideKit& kit, const std::string& name) {
  for (const auto& container : kit.containers) {
    if (same_name(container.name, name)) return in_lower_case(container.name);
  }
  if (const KitItem* item = find_kit_item(all, name)) return item->id;
  return std::nullopt;
}

Result<std::vector<std::string>> ids_of(const KitCatalogue& catalogue, const RideKit& kit,
                                        const std::vector<std::string>& names, const std::string& option) {
  const KitCatalogue all = with_own_items(catalogue, kit.own_items);
  std::vector<std::string> ids;
  for (const auto& name : names) {
    if (auto id = id_of(all, kit, name)) {
      ids.push_back(std::move(*id));
      continue;
    }
    RideKit wanted = kit;
    wanted.left_out.clear();
    wanted.taken_anyway.clear();
    wanted.packed = {name};
    const auto unknown = unknown_kit_names(catalogue, wanted);
    return not_found(option, unknown.empty() ? "'" + name + "' is not known" : unknown.front().what);
  }
  return ids;
}

bool holds(const std::vector<std::string>& list, const std::string& id) {
  return std::find(list.begin(), list.end(), id) != list.end();
}

}  // namespace

Result<KitTicks> with_ticks(std::string_view text, const std::string& file, const KitCatalogue& catalogue,
                            const RideKit& kit, const std::vector<std::string>& tick,
                            const std::vector<std::string>& untick) {
  const auto on = ids_of(catalogue, kit, tick, "--tick");
  if (!on) return tl::make_unexpected(on.error());
  const auto off = ids_of(catalogue, kit, untick, "--untick");
  if (!off) return tl::make_unexpected(off.error());
  for (const auto& id : *on) {
    if (holds(*off, id)) return bad_input("--untick", "'" + id + "' is to be ticked and unticked; say one of the two");
  }
  const auto before = ids_of(catalogue, kit, kit.packed, "kit.packed");
  if (!before) return tl::make_unexpected(before.error());
  KitTicks ticks{{}, {}, *on, *off};
  for (const auto& id : *before) {
    if (!holds(*off, id) && !holds(ticks.packed, id)) ticks.packed.push_back(id);
  }
  for (const auto& id : *on) {
    if (!holds(ticks.packed, id)) ticks.packed.push_back(id);
  }
  auto json = parse_json(text, file);
  if (!json) return tl::make_unexpected(json.error());
  Json& fields = *json;
  if (!fields.contains("kit") || fields["kit"].is_null()) fields["kit"] = Json::object();
  if (ticks.packed.empty()) {
    fields["kit"].erase("packed");
  } else {
    fields["kit"]["packed"] = ticks.packed;
  }
  ticks.text = pretty_json(fields);
  return ticks;
}

}  // namespace outbye
