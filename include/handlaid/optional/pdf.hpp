// Pages as a PDF file, true to the millimetre: lines stay lines, text stays text that can be searched.
// `write_pdf(pages, {.font = {HANDLAID_FONT, HANDLAID_BOLD_FONT}})`
//
// Needs cairo and FreeType, which handlaid.hpp does not ask for (CMake: the target handlaid_pdf). Of the libraries that
// write PDF, cairo is the one that is maintained, is on every free desktop, and puts a part of any font into the file,
// as print shops ask; FreeType opens the font by its path, so that no list of installed fonts can change a byte.
#pragma once

#include <cairo-ft.h>
#include <cairo-pdf.h>

#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/look.hpp"
#include "handlaid/sheets/printed_page.hpp"
#include "handlaid/sheets/utf8.hpp"

namespace handlaid {

/// Files of TrueType or OpenType fonts.
struct PdfFonts {
  std::string regular = {};
  std::string bold = {};
};

/// How pages become a file.
struct PdfOptions {
  PdfFonts font = {};
  /// What a reader shows in its title bar.
  std::string title = {};
  /// A printer that shrinks is answered by enlarging: pages are drawn so many times as large, about the middle of the
  /// page, in each direction (see PrintScale).
  double across = 1;
  double up = 1;
};

/// The longest side of a page that readers agree on: 14,400 points (ISO 32000-1, annex C), 5080 mm.
inline constexpr Length longest_pdf_side = 5'080 * mm;

/// The bytes of the file; the same pages and fonts give the same bytes. Each page is in the list of pages by its name.
/// Throws Error for no pages, a page without a size or longer than `longest_pdf_side`, and a font that cannot be read.
/// A character that the font lacks becomes its box; text runs from the left to the right, its letters as they stand
/// alone.
inline std::string write_pdf(std::span<const PrintedPage> pages, const PdfOptions& options);

namespace detail {

/// Calls a C library's own end for what it has made.
template <class T, auto end>
class Owned {
 public:
  explicit Owned(T* held) : held_(held) {}
  Owned(const Owned&) = delete;
  Owned& operator=(const Owned&) = delete;
  ~Owned() {
    if (held_ != nullptr) end(held_);
  }
  T* get() const { return held_; }

 private:
  T* held_;
};

/// What cairo holds on to for as long as it keeps a font, which is longer than the file takes to write.
struct OpenFont {
  FT_Library library = nullptr;
  FT_Face face = nullptr;
  static void close(void* font) {
    auto* open = static_cast<OpenFont*>(font);
    if (open->library != nullptr) FT_Done_FreeType(open->library);  // closes the face as well
    delete open;
  }
};

/// A face of a font, from its file.
class PdfFace {
 public:
  explicit PdfFace(const std::string& file) {
    auto* font = new OpenFont;
    if (FT_Init_FreeType(&font->library) != 0 || FT_New_Face(font->library, file.c_str(), 0, &font->face) != 0 ||
        !FT_IS_SCALABLE(font->face)) {
      OpenFont::close(font);
      throw Error::bad_input("font " + file, "it cannot be read as a font",
                             "name a TrueType or OpenType file, such as DejaVuSans.ttf");
    }
    face_ = cairo_ft_font_face_create_for_ft_face(font->face, FT_LOAD_NO_HINTING);
    static const cairo_user_data_key_t key{};
    if (cairo_font_face_set_user_data(face_, &key, font, OpenFont::close) != CAIRO_STATUS_SUCCESS) {
      cairo_font_face_destroy(face_);
      OpenFont::close(font);
      throw Error::bad_output("PDF", "there is no memory for the font", "try again");
    }
  }
  PdfFace(const PdfFace&) = delete;
  PdfFace& operator=(const PdfFace&) = delete;
  ~PdfFace() { cairo_font_face_destroy(face_); }
  cairo_font_face_t* get() const { return face_; }

 private:
  cairo_font_face_t* face_ = nullptr;
};

struct PdfFaces {
  PdfFace regular;
  PdfFace bold;
};

/// Draws on one page after the other.
class PdfPen {
 public:
  PdfPen(cairo_t* cairo, const PdfFaces& faces) : cairo_(cairo), faces_(faces) {}

  void draw(const PrintedPage& page) {
    for (const PageBox& box : page.boxes) draw(box);
    for (std::size_t i = 0; i < page.lines.size();) i = draw_lines(page.lines, i);
    for (const PageText& text : page.texts) draw(text);
  }

 private:
  void ink(const Srgb8& colour) { cairo_set_source_rgb(cairo_, colour.r / 255.0, colour.g / 255.0, colour.b / 255.0); }

  void draw(const PageBox& box) {
    cairo_rectangle(cairo_, box.at.x.in_mm(), box.at.y.in_mm(), box.size.width.in_mm(), box.size.height.in_mm());
    if (box.filled) {
      ink(box.fill);
      cairo_fill_preserve(cairo_);
    }
    if (box.outline > Length{}) {
      ink(box.colour);
      cairo_set_dash(cairo_, nullptr, 0, 0);
      cairo_set_line_width(cairo_, box.outline.in_mm());
      cairo_stroke_preserve(cairo_);
    }
    cairo_new_path(cairo_);
  }

  /// Lines that look alike are one path; returns the first one that does not.
  std::size_t draw_lines(const std::vector<PageLine>& lines, std::size_t first) {
    const PageLine& like = lines[first];
    std::size_t end = first;
    for (; end < lines.size(); ++end) {
      const PageLine& line = lines[end];
      if (line.width != like.width || line.colour != like.colour || line.dash != like.dash) break;
      cairo_move_to(cairo_, line.from.x.in_mm(), line.from.y.in_mm());
      cairo_line_to(cairo_, line.to.x.in_mm(), line.to.y.in_mm());
    }
    ink(like.colour);
    const double dash = like.dash.in_mm();
    cairo_set_dash(cairo_, &dash, dash > 0 ? 1 : 0, 0);
    cairo_set_line_width(cairo_, like.width.in_mm());
    cairo_stroke(cairo_);
    return end;
  }

  void draw(const PageText& text) {
    if (text.text.empty()) return;
    std::string content = valid_utf8(text.text);
    cairo_set_font_face(cairo_, (text.bold ? faces_.bold : faces_.regular).get());
    double em = text.em.in_mm();
    const auto width = [&] {
      cairo_set_font_size(cairo_, em);
      cairo_text_extents_t extents;
      cairo_text_extents(cairo_, content.c_str(), &extents);
      return extents.x_advance;
    };
    double advance = width();
    const double room = text.room.in_mm();
    if (room > 0 && advance > room) {
      const double least = text.may_be_cut ? std::min(em, smallest_type.in_mm()) : 0;
      em = std::max(em * room / advance, least);
      advance = width();
      if (text.may_be_cut && advance > room) {
        cut(content, [&] { return (advance = width()) <= room; });
      }
    }
    cairo_save(cairo_);
    cairo_translate(cairo_, text.at.x.in_mm(), text.at.y.in_mm());
    cairo_rotate(cairo_, -1.5707963267948966 * text.quarter_turns);
    const double left = text.anchor == TextAnchor::left     ? 0
                        : text.anchor == TextAnchor::middle ? -advance / 2
                                                            : -advance;
    cairo_move_to(cairo_, left, text.centred ? em * look::digit_height / 2000 : 0);
    ink(text.colour);
    cairo_show_text(cairo_, content.c_str());
    cairo_restore(cairo_);
  }

  /// Shortens a text to the most characters that fit with an ellipsis after them.
  template <class Fits>
  static void cut(std::string& content, Fits fits) {
    const std::string whole = content;
    std::vector<std::size_t> starts;
    for (std::size_t at = 0; at < whole.size(); ++at) {
      if ((static_cast<unsigned char>(whole[at]) & 0xc0U) != 0x80U) starts.push_back(at);
    }
    const auto try_first = [&](std::size_t characters) {
      content = whole.substr(0, starts[characters]) + "\u2026";
      return fits();
    };
    std::size_t most = 0;
    for (std::size_t tried = starts.size(); tried - most > 1;) {
      const std::size_t middle = (most + tried) / 2;
      (try_first(middle) ? most : tried) = middle;
    }
    try_first(most);
  }

  cairo_t* cairo_;
  const PdfFaces& faces_;
};

inline cairo_status_t append_bytes(void* text, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

inline void check_pdf_pages(std::span<const PrintedPage> pages, const PdfOptions& options) {
  if (pages.empty()) throw Error::bad_option("PDF", "there are no pages", "give at least one");
  for (const double scale : {options.across, options.up}) {
    if (!(scale >= 0.9 && scale <= 1.1)) {
      throw Error::out_of_range("scale of the print", reported_text(scale, 4), "0.9 to 1.1");
    }
  }
  for (const PrintedPage& page : pages) {
    const Length longer = page.size.width > page.size.height ? page.size.width : page.size.height;
    if (page.size.width <= Length{} || page.size.height <= Length{} || longer > longest_pdf_side) {
      throw Error::out_of_range("page " + page.name, size_text(page.size, LengthUnit::millimetres),
                                "more than 0 and at most 5080 mm");
    }
  }
}

}  // namespace detail

inline std::string write_pdf(std::span<const PrintedPage> pages, const PdfOptions& options) {
  detail::check_pdf_pages(pages, options);
  constexpr double points_a_mm = 72 / 25.4;
  std::string bytes;
  const detail::PdfFaces faces{detail::PdfFace(options.font.regular),
                               detail::PdfFace(options.font.bold.empty() ? options.font.regular : options.font.bold)};
  {
    const detail::Owned<cairo_surface_t, cairo_surface_destroy> surface(
        cairo_pdf_surface_create_for_stream(detail::append_bytes, &bytes, 1, 1));
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, valid_utf8(options.title).c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "handlaid");
    // The clock must not be in the file; cairo leaves no way to leave the date out.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
    const detail::Owned<cairo_t, cairo_destroy> cairo(cairo_create(surface.get()));
    const detail::Owned<cairo_font_options_t, cairo_font_options_destroy> font(cairo_font_options_create());
    cairo_font_options_set_hint_style(font.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(font.get(), CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(cairo.get(), font.get());
    cairo_set_line_cap(cairo.get(), CAIRO_LINE_CAP_BUTT);
    detail::PdfPen pen(cairo.get(), faces);
    int number = 0;
    for (const PrintedPage& page : pages) {
      const double width = page.size.width.in_mm();
      const double height = page.size.height.in_mm();
      cairo_pdf_surface_set_size(surface.get(), width * points_a_mm, height * points_a_mm);
      if (!page.name.empty()) {
        cairo_pdf_surface_add_outline(surface.get(), CAIRO_PDF_OUTLINE_ROOT, valid_utf8(page.name).c_str(),
                                      ("page=" + std::to_string(number + 1) + " pos=[0 0]").c_str(),
                                      CAIRO_PDF_OUTLINE_FLAG_OPEN);
      }
      cairo_identity_matrix(cairo.get());
      cairo_scale(cairo.get(), points_a_mm, points_a_mm);
      cairo_translate(cairo.get(), width / 2, height / 2);
      cairo_scale(cairo.get(), options.across, options.up);
      cairo_translate(cairo.get(), -width / 2, -height / 2);
      pen.draw(page);
      cairo_show_page(cairo.get());
      ++number;
    }
    cairo_surface_finish(surface.get());
    const cairo_status_t status = cairo_surface_status(surface.get());
    const cairo_status_t drawn = cairo_status(cairo.get());
    if (status != CAIRO_STATUS_SUCCESS || drawn != CAIRO_STATUS_SUCCESS) {
      const cairo_status_t worse = drawn != CAIRO_STATUS_SUCCESS ? drawn : status;
      throw Error::bad_output("PDF", cairo_status_to_string(worse), "report it with the plan that shows it");
    }
  }
  return bytes;
}

}  // namespace handlaid
