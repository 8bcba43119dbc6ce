#include "formats/gpx/xml_file.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "core/base/text.h"
#include "formats/gpx/utf8.h"

namespace outbye {
namespace {

// The specification's namespaces: http://www.topografix.com/GPX/1/0 and /1/1. Written here without the last digit
// because files with https, or with 1/2, are about, and the elements mean the same.
constexpr std::string_view gpx_namespace = "topografix.com/GPX/1/";

struct Name {
  std::string_view prefix, local;
};
Name split(std::string_view qualified) {
  const std::size_t colon = qualified.find(':');
  if (colon == std::string_view::npos) return {"", qualified};
  return {qualified.substr(0, colon), qualified.substr(colon + 1)};
}

void append_utf8(std::string& text, std::uint32_t code) {
  const auto put = [&](std::uint32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0u | (code >> 6)), put(0x80u | (code & 0x3Fu));
  } else if (code < 0x10000) {
    put(0xE0u | (code >> 12)), put(0x80u | ((code >> 6) & 0x3Fu)), put(0x80u | (code & 0x3Fu));
  } else {
    put(0xF0u | (code >> 18)), put(0x80u | ((code >> 12) & 0x3Fu));
    put(0x80u | ((code >> 6) & 0x3Fu)), put(0x80u | (code & 0x3Fu));
  }
}

std::uint32_t byte_at(std::string_view bytes, std::size_t i) { return static_cast<unsigned char>(bytes[i]); }

std::string from_utf16(std::string_view bytes, bool big_endian) {
  std::string text;
  const auto unit = [&](std::size_t i) {
    return big_endian ? (byte_at(bytes, i) << 8) | byte_at(bytes, i + 1)
                      : byte_at(bytes, i) | (byte_at(bytes, i + 1) << 8);
  };
  for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
    std::uint32_t code = unit(i);
    if (code >= 0xD800 && code < 0xDC00 && i + 3 < bytes.size()) {
      const std::uint32_t low = unit(i + 2);
      if (low >= 0xDC00 && low < 0xE000) {
        code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
        i += 2;
      }
    }
    append_utf8(text, code >= 0xD800 && code < 0xE000 ? 0xFFFDu : code);
  }
  return text;
}

std::string from_utf32(std::string_view bytes, bool big_endian) {
  std::string text;
  for (std::size_t i = 0; i + 3 < bytes.size(); i += 4) {
    std::uint32_t code = 0;
    for (std::size_t k = 0; k < 4; ++k) code |= byte_at(bytes, i + k) << (big_endian ? 24 - 8 * k : 8 * k);
    append_utf8(text, code > 0x10FFFF || (code >= 0xD800 && code < 0xE000) ? 0xFFFDu : code);
  }
  return text;
}

// Windows-1252 where it differs from ISO-8859-1 (the WHATWG Encoding Standard's index); 0 stays as it is.
constexpr std::array<std::uint16_t, 32> windows_1252{0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                     0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                     0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                     0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

// The WHATWG Encoding Standard reads ISO-8859-1 as windows-1252, which only adds printable characters.
std::string from_latin1(std::string_view bytes) {
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const std::uint32_t code = byte_at(bytes, i);
    const std::uint32_t other = code >= 0x80 && code < 0xA0 ? windows_1252[code - 0x80] : 0u;
    append_utf8(text, other != 0 ? other : code);
  }
  return text;
}

// The encoding named in <?xml ... encoding="..."?>, in lower case; empty if none is.
std::string named_encoding(std::string_view bytes) {
  if (bytes.substr(0, 5) != "<?xml") return "";
  const std::string_view declaration = bytes.substr(0, std::min(bytes.find("?>"), std::size_t{200}));
  const std::size_t key = declaration.find("encoding");
  if (key == std::string_view::npos) return "";
  const std::size_t open = declaration.find_first_of("\"'", key);
  if (open == std::string_view::npos) return "";
  const std::size_t close = declaration.find(declaration[open], open + 1);
  std::string name{declaration.substr(open + 1, close == std::string_view::npos ? 0 : close - open - 1)};
  for (char& c : name) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return name;
}

// The text in UTF-8, by byte-order mark, by the zero bytes of its first "<", or by what the declaration says.
Result<std::string> decoded(std::string_view bytes, const std::string& file) {
  using namespace std::string_view_literals;
  const auto starts = [&](std::string_view mark) { return bytes.substr(0, mark.size()) == mark; };
  if (starts("\xEF\xBB\xBF"sv)) return std::string(bytes.substr(3));
  if (starts("\x00\x00\xFE\xFF"sv)) return from_utf32(bytes.substr(4), true);
  if (starts("\xFF\xFE\x00\x00"sv)) return from_utf32(bytes.substr(4), false);
  if (starts("\xFE\xFF"sv)) return from_utf16(bytes.substr(2), true);
  if (starts("\xFF\xFE"sv)) return from_utf16(bytes.substr(2), false);
  if (starts("\x00<"sv)) return from_utf16(bytes, true);
  if (starts("<\x00"sv)) return from_utf16(bytes, false);
  const std::string name = named_encoding(bytes);
  if (name.empty() || name == "utf-8" || name == "utf8" || name == "us-ascii" || name == "ascii")
    return std::string(bytes);
  if (name == "iso-8859-1" || name == "latin1" || name == "windows-1252" || name == "cp1252") return from_latin1(bytes);
  if (is_utf8(bytes)) return std::string(bytes);  // named wrongly, as after a careless conversion
  return bad_input(file + " line 1",
                   "is written in '" + xml_text(name) + "', which is not supported; save it again as UTF-8");
}

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

// What a person most likely handed in, when it is not XML.
std::string guess(std::string_view bytes) {
  if (bytes.substr(0, 2) == "PK") return "is a zip archive; unpack it and use the .gpx file inside";
  if (bytes.size() > 12 && bytes.substr(8, 4) == ".FIT") return "is a FIT recording; export it as GPX";
  if (bytes.substr(0, 2) == "\x1f\x8b") return "is compressed with gzip; unpack it first";
  return "is not a GPX file: it does not begin with '<'";
}

}  // namespace

std::optional<Problem> XmlFile::parse(std::string_view bytes, const std::string& file) {
  const auto refuse = [&](std::string where, std::string what) {
    return Problem{Problem::Kind::bad_input, std::move(where), std::move(what)};
  };
  Result<std::string> text = decoded(bytes, file);
  if (!text) return text.error();
  text_ = std::move(*text);
  const auto first = std::find_if_not(text_.begin(), text_.end(), is_space);
  if (first == text_.end()) return refuse(file, "is empty");
  if (*first != '<') return refuse(file, guess(bytes));

  // pugixml neither reads DTDs nor expands any entity but XML's own five: nothing is fetched and nothing multiplies.
  const pugi::xml_parse_result parsed = document_.load_buffer(
      text_.data(), text_.size(), pugi::parse_cdata | pugi::parse_escapes | pugi::parse_eol, pugi::encoding_utf8);
  if (!parsed) {
    return refuse(file + " line " + std::to_string(line_at(parsed.offset)),
                  "is not well-formed XML (" + std::string(parsed.description()) + "); export the file again");
  }
  root_ = document_.document_element();
  if (split(root_.name()).local != "gpx") {
    return refuse(file + " line " + std::to_string(line_of(root_)),
                  "is not a GPX file: its first element is <" + xml_text(std::string_view(root_.name()).substr(0, 40)) +
                      ">; export the course as GPX");
  }
  learn_prefixes();
  return std::nullopt;
}

void XmlFile::learn_prefixes() {
  prefixes_.emplace_back(split(root_.name()).prefix);
  bool has_default = false;
  for (const pugi::xml_attribute attribute : root_.attributes()) {
    const std::string_view name = attribute.name();
    if (name == "xmlns") has_default = true;
    const bool declares = name == "xmlns" || name.substr(0, 6) == "xmlns:";
    if (!declares || std::string_view(attribute.value()).find(gpx_namespace) == std::string_view::npos) continue;
    prefixes_.emplace_back(name == "xmlns" ? "" : name.substr(6));
  }
  if (!has_default) prefixes_.emplace_back();  // written by hand, without any namespace
}

std::string_view XmlFile::gpx_name(pugi::xml_node node) const {
  if (node.type() != pugi::node_element) return {};
  const Name name = split(node.name());
  const bool is_gpx = std::find(prefixes_.begin(), prefixes_.end(), name.prefix) != prefixes_.end();
  return is_gpx ? name.local : std::string_view{};
}

pugi::xml_node XmlFile::child(pugi::xml_node parent, std::string_view name) const {
  for (const pugi::xml_node node : parent.children()) {
    if (gpx_name(node) == name) return node;
  }
  return {};
}

std::string XmlFile::text_of(pugi::xml_node parent, std::string_view name) const {
  std::string text;
  for (const pugi::xml_node part : child(parent, name).children()) text += part.value();
  return text;
}

std::size_t XmlFile::line_of(pugi::xml_node node) const { return line_at(node.offset_debug()); }

std::size_t XmlFile::line_at(std::ptrdiff_t offset) const {
  const auto end = std::clamp(offset, std::ptrdiff_t{0}, static_cast<std::ptrdiff_t>(text_.size()));
  const std::string_view before = std::string_view(text_).substr(0, static_cast<std::size_t>(end));
  // CRLF and LF by their LF; files of old with CR alone by that.
  const auto lines = std::count(before.begin(), before.end(), '\n');
  return 1 + static_cast<std::size_t>(lines > 0 ? lines : std::count(before.begin(), before.end(), '\r'));
}

}  // namespace outbye
