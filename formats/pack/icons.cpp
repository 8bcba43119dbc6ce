// The mark of Outbye as PNG: the same drawing as web/public/icon.svg, in a square of 32 units.
#include <cairo.h>

#include <memory>

#include "formats/pack/packed_files.h"

namespace outbye {
namespace {

struct Look {
  int size{};        // pixels
  double corners{};  // radius, of 32
  double share{1};   // of the square that the mark takes
};

constexpr double pi = 3.14159265358979323846;

void green(cairo_t* cr) { cairo_set_source_rgb(cr, 0x2c / 255.0, 0x5e / 255.0, 0x4a / 255.0); }
void cream(cairo_t* cr) { cairo_set_source_rgb(cr, 0xfa / 255.0, 0xf8 / 255.0, 0xf2 / 255.0); }

void draw(cairo_t* cr, const Look& look) {
  cairo_scale(cr, look.size / 32.0, look.size / 32.0);
  green(cr);
  const double r = look.corners;
  cairo_arc(cr, 32 - r, r, r, -pi / 2, 0);
  cairo_arc(cr, 32 - r, 32 - r, r, 0, pi / 2);
  cairo_arc(cr, r, 32 - r, r, pi / 2, pi);
  cairo_arc(cr, r, r, r, pi, 3 * pi / 2);
  cairo_close_path(cr);
  cairo_fill(cr);
  cairo_translate(cr, 16 * (1 - look.share), 16 * (1 - look.share));
  cairo_scale(cr, look.share, look.share);
  cream(cr);
  cairo_set_line_width(cr, 2.6);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
  cairo_move_to(cr, 5, 24);
  cairo_line_to(cr, 12, 13);
  cairo_line_to(cr, 17, 17);
  cairo_line_to(cr, 27, 5);
  cairo_stroke(cr);
  cairo_arc(cr, 12, 13, 2.8, 0, 2 * pi);
  cairo_fill(cr);
  cairo_arc(cr, 17, 17, 2.8, 0, 2 * pi);
  green(cr);
  cairo_fill_preserve(cr);
  cream(cr);
  cairo_set_line_width(cr, 1.8);
  cairo_stroke(cr);
}

cairo_status_t append(void* to, const unsigned char* data, unsigned int size) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

Result<std::string> png(const Look& look) {
  const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface(
      cairo_image_surface_create(CAIRO_FORMAT_ARGB32, look.size, look.size), cairo_surface_destroy);
  const std::unique_ptr<cairo_t, void (*)(cairo_t*)> cr(cairo_create(surface.get()), cairo_destroy);
  draw(cr.get(), look);
  std::string bytes;
  const cairo_status_t status = cairo_status(cr.get()) != CAIRO_STATUS_SUCCESS
                                    ? cairo_status(cr.get())
                                    : cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  if (status != CAIRO_STATUS_SUCCESS) {
    return tl::make_unexpected(Problem{Problem::Kind::cancelled, "icon",
                                       std::string("could not be drawn: ") + cairo_status_to_string(status)});
  }
  return bytes;
}

}  // namespace

Result<std::vector<PackedFile>> icon_files() {
  struct Icon {
    const char* name;
    Look look;
  };
  constexpr Icon icons[] = {{"icons/icon-192.png", {192, 7, 1}},
                            {"icons/icon-512.png", {512, 7, 1}},
                            {"icons/maskable-512.png", {512, 0, 0.75}},
                            {"icons/touch-180.png", {180, 0, 0.9}}};
  std::vector<PackedFile> files;
  for (const Icon& icon : icons) {
    auto bytes = png(icon.look);
    if (!bytes) return tl::make_unexpected(bytes.error());
    files.push_back({icon.name, std::move(*bytes)});
  }
  return files;
}

}  // namespace outbye
