#include "formats/exports/place_codes.h"

#include <qrencode.h>

#include <cerrno>
#include <cmath>
#include <memory>

#include "core/base/text.h"
#include "formats/picture/svg.h"

namespace outbye {

std::string geo_uri(Position place) {
  // RFC 5870 knows no "-0".
  return "geo:" + fixed(place.latitude, 5) + "," + fixed(place.longitude, 5);
}

Result<QrCode> qr_code(std::string_view text) {
  const std::string words(text);
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(QRcode_encodeString8bit(words.c_str(), 0, QR_ECLEVEL_M),
                                                             &QRcode_free);
  if (!made) {
    return bad_input("QR code", errno == ERANGE
                                    ? "holds at most 2331 bytes; the text has " + std::to_string(text.size())
                                    : "cannot be made of an empty text");
  }
  QrCode code;
  code.width = static_cast<std::size_t>(made->width);
  for (std::size_t i = 0; i < code.width * code.width; ++i) code.dark.push_back((made->data[i] & 1U) != 0);
  return code;
}

std::string qr_svg(const QrCode& code, std::string_view title) {
  const auto side = static_cast<double>(code.width + 8);
  std::string d;
  for (std::size_t y = 0; y < code.width; ++y) {
    for (std::size_t x = 0; x < code.width; ++x) {
      if (!code.dark[y * code.width + x]) continue;
      d += "M" + std::to_string(x + 4) + " " + std::to_string(y + 4) + "h1v1h-1z";
    }
  }
  const std::string size = number(side);
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" viewBox=\"0 0 " + size + " " + size +
         "\" role=\"img\" shape-rendering=\"crispEdges\"><title>" + escaped(title) + "</title><rect width=\"" + size +
         "\" height=\"" + size + "\" fill=\"#fff\"/><path d=\"" + d + "\" fill=\"#000\"/></svg>\n";
}

std::string coordinates(Position place) {
  const auto half = [](double degrees, const char* positive, const char* negative) {
    const std::string text = fixed(std::fabs(degrees), 5);
    return text + " " + (degrees < 0 && text != "0.00000" ? negative : positive);
  };
  return half(place.latitude, "N", "S") + ", " + half(place.longitude, "E", "W");
}

}  // namespace outbye
