// How a place is told to others: geo: address, QR code, national grid.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/geo/position.h"

namespace outbye {

// "geo:54.52,-2.31" (RFC 5870, WGS84), to 5 decimals: about a metre.
std::string geo_uri(Position place);

// A QR code (ISO/IEC 18004), error correction level M. Dark modules, row by row, without the quiet zone of 4 modules.
struct QrCode {
  std::size_t width{};  // modules in a row
  std::vector<bool> dark;
};
// Errors: bad_input for text too long for a code.
Result<QrCode> qr_code(std::string_view text);
// The same as SVG 1.1 with its quiet zone, `title` for those who cannot see it.
std::string qr_svg(const QrCode& code, std::string_view title);

// Eastings and northings of the national grid of Great Britain (OSGB36).
struct NationalGrid {
  Metres easting{};
  Metres northing{};
};
// By the seven-parameter (Helmert) transformation of "A guide to coordinate systems in Great Britain", Ordnance Survey:
// good to about 5 m. Heights are taken as 0 on the ellipsoid, which moves nothing by more than centimetres. Nothing
// outside the grid's lettered squares (eastings 0 to 700 km, northings 0 to 1300 km), and nothing west of Great Britain
// where the squares lie over Ireland and the sea.
std::optional<NationalGrid> national_grid(Position place);
// The projection alone, from latitude and longitude on the Airy 1830 ellipsoid (OSGB36), as the guide's annex C.
NationalGrid transverse_mercator_osgb36(Position on_airy);
// "NY 1234 5678": to 10 m, truncated as map readers do.
std::string grid_reference(NationalGrid place);

// Universal Transverse Mercator on WGS84, with the band of latitude ("30U"): understood wherever no national grid is.
struct UtmPlace {
  int zone{};
  char band{};
  Metres easting{};
  Metres northing{};  // from the equator; in the south from 10 000 km below it
};
// Nothing near the poles (south of 80 S, north of 84 N), where UTM ends.
std::optional<UtmPlace> utm(Position place);
// The same by the Military Grid Reference System, to 10 m, truncated: "30U WF 4466 4159".
std::string mgrs_reference(const UtmPlace& place);

// "54.52000 N, 2.31000 W": to 5 decimals.
std::string coordinates(Position place);
// "54\u00b0 31.200' N, 2\u00b0 18.600' W": as ships, aircraft and many devices tell it; to about 2 m.
std::string degrees_minutes(Position place);

}  // namespace outbye
