// The OpenStreetMap file, by libosmium's writer. Its exceptions end here.
#include <filesystem>
#include <osmium/builder/attr.hpp>
#include <osmium/io/any_output.hpp>
#include <osmium/io/header.hpp>
#include <osmium/io/writer.hpp>
#include <osmium/memory/buffer.hpp>

#include "demo/write_country.h"

namespace outbye::demo {
namespace {

namespace attr = osmium::builder::attr;

// Hands the writer full buffers, so that a million nodes need no more memory than a few.
class Sink {
 public:
  explicit Sink(osmium::io::Writer& writer) : writer_(writer) {}
  osmium::memory::Buffer& buffer() {
    if (buffer_.committed() > 800'000) flush();
    return buffer_;
  }
  void flush() {
    osmium::memory::Buffer full{1'000'000, osmium::memory::Buffer::auto_grow::yes};
    std::swap(full, buffer_);
    writer_(std::move(full));
  }

 private:
  osmium::io::Writer& writer_;
  osmium::memory::Buffer buffer_{1'000'000, osmium::memory::Buffer::auto_grow::yes};
};

void write_objects(const Country& country, osmium::io::Writer& writer) {
  Sink sink(writer);
  auto tags = country.node_tags.begin();
  const std::vector<Tag> none;
  for (std::uint32_t i = 0; i < country.nodes.size(); ++i) {
    const bool is_tagged = tags != country.node_tags.end() && tags->node == i;
    const Position p = country.nodes[i];
    osmium::builder::add_node(sink.buffer(), attr::_id(i + 1), attr::_version(1),
                              attr::_location(p.longitude, p.latitude), attr::_tags(is_tagged ? tags->tags : none));
    if (is_tagged) ++tags;
  }
  std::vector<osmium::object_id_type> refs;
  for (const CountryWay& way : country.ways) {
    refs.clear();
    for (const std::uint32_t node : way.nodes) refs.push_back(node + 1);
    osmium::builder::add_way(sink.buffer(), attr::_id(way.id), attr::_version(1), attr::_nodes(refs),
                             attr::_tags(way.tags));
  }
  for (const TurnRestriction& r : country.restrictions) {
    const std::vector<attr::member_type> members{
        {osmium::item_type::way, r.from_way, "from"},
        {osmium::item_type::node, static_cast<osmium::object_id_type>(r.via_node) + 1, "via"},
        {osmium::item_type::way, r.to_way, "to"}};
    const std::vector<Tag> restriction{{"type", "restriction"}, {"restriction", r.kind}};
    osmium::builder::add_relation(sink.buffer(), attr::_id(r.id), attr::_version(1), attr::_members(members),
                                  attr::_tags(restriction));
  }
  sink.flush();
}

}  // namespace

Result<void> write_map(const Country& country, const std::string& path) {
  try {
    osmium::io::Header header;
    header.set("generator", "outbye-country");
    osmium::Box box;
    for (const Position& p : country.nodes) box.extend(osmium::Location{p.longitude, p.latitude});
    header.add_box(box);
    osmium::io::File file(path);
    file.set("add_metadata", "version");
    osmium::io::Writer writer(file, header, osmium::io::overwrite::allow);
    write_objects(country, writer);
    writer.close();
  } catch (const std::exception& e) {
    return bad_input(path, std::string("cannot be written: ") + e.what());
  }
  return {};
}

}  // namespace outbye::demo
