#include "core/roads/road_store.h"

#include <array>
#include <cstring>
#include <string_view>
#include <type_traits>

namespace outbye {
namespace {

constexpr std::array<char, 8> magic{'O', 'B', 'R', 'O', 'A', 'D', 'S', '\n'};

class Writer {
 public:
  template <class T>
  void value(const T& x) {
    static_assert(std::is_trivially_copyable_v<T>);
    raw(&x, sizeof x);
  }
  template <class Items>
  void items(const Items& x) {
    static_assert(std::is_trivially_copyable_v<typename Items::value_type>);
    value(std::uint64_t{x.size()});
    raw(x.data(), x.size() * sizeof(typename Items::value_type));
  }
  std::vector<std::byte> take() { return std::move(bytes_); }

 private:
  void raw(const void* from, std::size_t size) {
    const std::size_t at = bytes_.size();
    bytes_.resize(at + size);
    if (size > 0) std::memcpy(bytes_.data() + at, from, size);
  }
  std::vector<std::byte> bytes_;
};

class Reader {
 public:
  explicit Reader(std::span<const std::byte> bytes) : rest_(bytes) {}
  template <class T>
  bool value(T& x) {
    if (rest_.size() < sizeof x) return false;
    std::memcpy(&x, rest_.data(), sizeof x);
    rest_ = rest_.subspan(sizeof x);
    return true;
  }
  template <class Items>
  bool items(Items& x) {
    constexpr std::size_t each = sizeof(typename Items::value_type);
    std::uint64_t count = 0;
    if (!value(count) || count > rest_.size() / each) return false;
    x.resize(static_cast<std::size_t>(count));
    if (count > 0) std::memcpy(x.data(), rest_.data(), x.size() * each);
    rest_ = rest_.subspan(x.size() * each);
    return true;
  }
  bool is_at_end() const { return rest_.empty(); }

 private:
  std::span<const std::byte> rest_;
};

// One list of what is stored serves both ways. `visit` returns false to stop.
template <class Parts, class Visit>
bool for_each_part(Parts& p, Visit& visit) {
  return visit.items(p.nodes) && visit.items(p.edges) && visit.items(p.geometry) && visit.items(p.name_first) &&
         visit.items(p.names) && visit.items(p.state_first) && visit.items(p.copy_of) && visit.items(p.arcs) &&
         visit.items(p.way_out) && visit.value(p.grid.low) && visit.value(p.grid.high) && visit.value(p.grid.rows) &&
         visit.value(p.grid.columns) && visit.items(p.grid.first) && visit.items(p.grid.edges) &&
         visit.value(p.restrictions) && visit.items(p.pumps);
}

struct Writing {
  Writer& to;
  template <class T>
  bool value(const T& x) {
    to.value(x);
    return true;
  }
  template <class T>
  bool items(const T& x) {
    to.items(x);
    return true;
  }
};

}  // namespace

std::vector<std::byte> to_bytes(const RoadGraph& roads) {
  Writer writer;
  writer.value(magic);
  writer.value(road_store_version);
  Writing writing{writer};
  for_each_part(roads.parts(), writing);
  return writer.take();
}

Result<RoadGraph> road_graph_from_bytes(std::span<const std::byte> bytes) {
  Reader reader(bytes);
  std::array<char, 8> found_magic{};
  std::uint32_t version = 0;
  if (!reader.value(found_magic) || found_magic != magic || !reader.value(version))
    return bad_input("road graph", "is not a stored road graph");
  if (version != road_store_version)
    return bad_input("road graph", "was stored by another version (" + std::to_string(version) + ")");
  RoadGraphParts parts;
  if (!for_each_part(parts, reader) || !reader.is_at_end()) return bad_input("road graph", "is cut short or damaged");
  return RoadGraph::from_parts(std::move(parts));
}

}  // namespace outbye
