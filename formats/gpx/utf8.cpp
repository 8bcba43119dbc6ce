#include "formats/gpx/utf8.h"

#include <cstddef>
#include <cstdint>
#include <optional>

namespace outbye {
namespace {

struct Decoded {
  std::uint32_t code;
  std::size_t length;
};

unsigned byte_at(std::string_view bytes, std::size_t i) { return static_cast<unsigned char>(bytes[i]); }

// The character at `i`, or nothing if the bytes there are not well formed (overlong, surrogate, cut off ...).
std::optional<Decoded> decode(std::string_view bytes, std::size_t i) {
  const unsigned lead = byte_at(bytes, i);
  if (lead < 0x80) return Decoded{lead, 1};
  std::size_t length = 0;
  std::uint32_t code = 0;
  std::uint32_t least = 0;
  if (lead >= 0xC2 && lead <= 0xDF) {
    length = 2, code = lead & 0x1Fu, least = 0x80;
  } else if (lead >= 0xE0 && lead <= 0xEF) {
    length = 3, code = lead & 0x0Fu, least = 0x800;
  } else if (lead >= 0xF0 && lead <= 0xF4) {
    length = 4, code = lead & 0x07u, least = 0x10000;
  } else {
    return std::nullopt;
  }
  if (i + length > bytes.size()) return std::nullopt;
  for (std::size_t k = 1; k < length; ++k) {
    const unsigned next = byte_at(bytes, i + k);
    if ((next & 0xC0u) != 0x80u) return std::nullopt;
    code = (code << 6) | (next & 0x3Fu);
  }
  if (code < least || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return std::nullopt;
  return Decoded{code, length};
}

bool is_xml_character(std::uint32_t code) {
  return code == 0x9 || code == 0xA || code == 0xD || (code >= 0x20 && code != 0xFFFE && code != 0xFFFF);
}

}  // namespace

std::string xml_text(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t i = 0; i < bytes.size();) {
    const std::optional<Decoded> next = decode(bytes, i);
    if (!next) {
      text += "\xEF\xBF\xBD";
      ++i;
      continue;
    }
    if (is_xml_character(next->code)) text += bytes.substr(i, next->length);
    i += next->length;
  }
  return text;
}

bool is_utf8(std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size();) {
    const std::optional<Decoded> next = decode(bytes, i);
    if (!next) return false;
    i += next->length;
  }
  return true;
}

}  // namespace outbye
