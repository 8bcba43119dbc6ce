// A GPX file as an XML tree: encodings, namespace prefixes and line numbers are dealt with here.
#pragma once

#include <cstddef>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace outbye {

class XmlFile {
 public:
  // Reads the bytes. The problem says what the file is when it is not a GPX file, or the line where it breaks.
  std::optional<Problem> parse(std::string_view bytes, const std::string& file);

  pugi::xml_node root() const { return root_; }

  // The name of an element in GPX's namespace without its prefix; empty for text, comments and foreign elements.
  std::string_view gpx_name(pugi::xml_node node) const;
  // The first child of that name in GPX's namespace; an empty node if there is none.
  pugi::xml_node child(pugi::xml_node parent, std::string_view name) const;
  // All text and CDATA directly in that child, joined; comments are passed over.
  std::string text_of(pugi::xml_node parent, std::string_view name) const;

  // 1-based. Scans the text up to the node.
  std::size_t line_of(pugi::xml_node node) const;

 private:
  std::size_t line_at(std::ptrdiff_t offset) const;
  void learn_prefixes();

  std::string text_;  // in UTF-8, as parsed
  pugi::xml_document document_;
  pugi::xml_node root_;
  std::vector<std::string> prefixes_;  // that stand for GPX; "" is none
};

}  // namespace outbye
