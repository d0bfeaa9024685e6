// Draws SVG by librsvg and cairo. A part of its own: these libraries take longer to load than a rehearsal takes to compute.
#include "report/raster_plugin.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <librsvg/rsvg.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>
#include <string>

namespace {

constexpr double a4_long_pt = 841.89, a4_short_pt = 595.28, margin_pt = 10.0 / 25.4 * 72.0;
// A date of the clock would make every PDF of the same picture different.
constexpr const char* fixed_date = "2000-01-01T00:00:00Z";

struct Free {
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(GError* error) const { g_error_free(error); }
};
template <class T>
using Owned = std::unique_ptr<T, Free>;

struct Output {
  heatwork_raster_sink sink;
  void* context;
};

cairo_status_t pass_on(void* closure, const unsigned char* bytes, unsigned int count) {
  const auto* output = static_cast<const Output*>(closure);
  output->sink(output->context, bytes, count);
  return CAIRO_STATUS_SUCCESS;
}

std::string render(RsvgHandle* handle, cairo_surface_t* surface, const RsvgRectangle& box) {
  const Owned<cairo_t> context(cairo_create(surface));
  GError* error = nullptr;
  if (!rsvg_handle_render_document(handle, context.get(), &box, &error)) {
    const Owned<GError> owned(error);
    return std::string("the picture cannot be drawn: ") + (error ? error->message : "no reason given");
  }
  return {};
}

std::string of_status(cairo_status_t status) {
  return status == CAIRO_STATUS_SUCCESS ? std::string() : std::string("the picture cannot be written: ") + cairo_status_to_string(status);
}

std::string draw_png(RsvgHandle* handle, double width, double height, double scale, Output output) {
  const int across = static_cast<int>(std::lround(width * scale)), down = static_cast<int>(std::lround(height * scale));
  const Owned<cairo_surface_t> surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down));
  if (std::string wrong = of_status(cairo_surface_status(surface.get())); !wrong.empty()) return wrong;
  if (std::string wrong = render(handle, surface.get(), {0, 0, static_cast<double>(across), static_cast<double>(down)}); !wrong.empty())
    return wrong;
  return of_status(cairo_surface_write_to_png_stream(surface.get(), pass_on, &output));
}

void name_pdf(cairo_surface_t* surface, const char* title) {
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, fixed_date);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, fixed_date);
}

std::string draw_pdf(RsvgHandle* handle, double width, double height, Output output) {
  const Owned<cairo_surface_t> surface(cairo_pdf_surface_create_for_stream(pass_on, &output, a4_long_pt, a4_short_pt));
  name_pdf(surface.get(), "Firing picture");
  const double room_across = a4_long_pt - 2 * margin_pt, room_down = a4_short_pt - 2 * margin_pt;
  const double scale = std::min(room_across / width, room_down / height);
  const RsvgRectangle box = {margin_pt + (room_across - width * scale) / 2, margin_pt, width * scale, height * scale};
  if (std::string wrong = render(handle, surface.get(), box); !wrong.empty()) return wrong;
  cairo_surface_finish(surface.get());
  return of_status(cairo_surface_status(surface.get()));
}

/// A handle of a readable SVG, or a sentence.
std::string read_svg(const char* svg, std::size_t length, Owned<RsvgHandle>& handle) {
  GError* error = nullptr;
  handle.reset(rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg), length, &error));
  if (!handle) {
    const Owned<GError> owned(error);
    return std::string("the picture is not a readable SVG: ") + (error ? error->message : "no reason given");
  }
  rsvg_handle_set_dpi(handle.get(), 96);
  return {};
}

std::string draw_pages(const char* const* svgs, std::size_t count, double across, double down, const char* title, Output output) {
  const Owned<cairo_surface_t> surface(cairo_pdf_surface_create_for_stream(pass_on, &output, across, down));
  name_pdf(surface.get(), title);
  for (std::size_t i = 0; i < count; ++i) {
    Owned<RsvgHandle> handle;
    if (std::string wrong = read_svg(svgs[i], std::strlen(svgs[i]), handle); !wrong.empty()) return wrong;
    if (std::string wrong = render(handle.get(), surface.get(), {0, 0, across, down}); !wrong.empty()) return wrong;
    cairo_surface_show_page(surface.get());
  }
  cairo_surface_finish(surface.get());
  return of_status(cairo_surface_status(surface.get()));
}

std::string draw(const char* svg, std::size_t length, bool pdf, double scale, Output output) {
  Owned<RsvgHandle> handle;
  if (std::string wrong = read_svg(svg, length, handle); !wrong.empty()) return wrong;
  double width = 0, height = 0;
  if (!rsvg_handle_get_intrinsic_size_in_pixels(handle.get(), &width, &height) || !(width > 0) || !(height > 0)) {
    return "the picture has no size";
  }
  return pdf ? draw_pdf(handle.get(), width, height, output) : draw_png(handle.get(), width, height, scale, output);
}

int answered(const std::string& wrong, char* sentence, std::size_t room) {
  if (wrong.empty()) return 0;
  const std::size_t kept = std::min(wrong.size(), room - 1);
  std::memcpy(sentence, wrong.data(), kept);
  sentence[kept] = 0;
  return 1;
}

}  // namespace

extern "C" int heatwork_raster_pages(const char* const* svgs, std::size_t count, double across_pt, double down_pt, const char* title,
                                     heatwork_raster_sink sink, void* context, char* sentence, std::size_t room) {
  return answered(draw_pages(svgs, count, across_pt, down_pt, title, {sink, context}), sentence, room);
}

extern "C" int heatwork_raster(const char* svg, std::size_t length, int pdf, double scale, heatwork_raster_sink sink, void* context,
                               char* sentence, std::size_t room) {
  return answered(draw(svg, length, pdf != 0, scale, {sink, context}), sentence, room);
}
