// The page layer: headings, text, tables, pictures and lines to write on, flowing from page to page. Nothing is cut:
// text wraps, long paragraphs and tables go on overleaf, what belongs together stays together. Lengths are points
// (1/72 inch), y downwards. Internal to formats/paper.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/result.h"
#include "formats/exports/place_codes.h"
#include "formats/paper/paper.h"
#include "formats/paper/typeset.h"

namespace outbye {

struct PaperFormat {
  double width{};
  double height{};
  double margin{};
  double body{};   // size of plain text
  double least{};  // no text is smaller
  bool is_card() const { return least < 9; }
};
PaperFormat format_of(PaperSize size);

struct PlacedText {
  Spot at;  // upper left corner of its layout
  LayoutPtr layout;
  double size{};
  double grey{};
  const char* tag{"P"};  // of the document's structure: "H1", "H2", "P"
};
using Drawing = std::function<void(cairo_t*)>;
struct PaperPage {
  std::vector<std::variant<PlacedText, Drawing>> parts;
  std::vector<std::pair<std::string, double>> headings;  // for the outline, with their y
};

struct TableCell {
  std::string text;
  bool is_bold{};
  TableCell(std::string words = "", bool bold = false) : text(std::move(words)), is_bold(bold) {}
  TableCell(const char* words) : text(words) {}
};
struct TableColumn {
  std::string head;
  bool stays_whole{};  // times and numbers: never wrapped while there is any room
  TextAlign align{TextAlign::start};
};
struct Table {
  std::vector<TableColumn> columns;
  std::vector<std::vector<TableCell>> rows;
  double row_height{};  // at least: for lines to write on
  bool is_boxed{};      // lines between the columns too
  bool is_small{};      // in the smallest text
};

class Paper {
 public:
  // `head`: the ride; `sheet`: "Crew book"; `foot`: version and time of the plan. On every page.
  Paper(PaperSize size, const std::string& head, const std::string& sheet, const std::string& foot);

  const PaperFormat& format() const { return format_; }
  double width() const { return format_.width - 2 * format_.margin; }
  double page_room() const { return bottom_ - top_; }  // of an empty page
  double room() const { return bottom_ - y_; }         // left on this page
  double y() const { return y_; }
  const Typesetter& typesetter() const { return typesetter_; }
  TextLook look() const { return {format_.body, false, 0.0, TextAlign::start}; }
  TextLook bold() const { return {format_.body, true, 0.0, TextAlign::start}; }
  TextLook small() const { return {format_.least, false, 0.0, TextAlign::start}; }

  void new_page();
  void space(double height);  // none at the top of a page
  void need(double height);   // a new page unless there is so much room
  // 1: a part, 2: a block, 3: a few lines. Stays with what follows.
  void heading(int level, const std::string& text);
  void text(const std::string& text) { this->text(text, look()); }
  void text(const std::string& text, const TextLook& look, double indent = 0, const std::string& mark = "");
  void list(const std::vector<std::string>& sentences, const std::string& mark = "•");
  void table(const Table& table);
  // A picture of this height, the page's width: `draw` gets its box and draws by what is below.
  void picture(double height, const std::function<void(const Box&)>& draw);
  // Labels with a line each to write on, as many beside each other as fit.
  void to_fill_in(const std::vector<std::string>& labels, double width_each);
  // What `build` puts down goes on one page if it fits on one at all.
  void keep_together(const std::function<void()>& build);
  // Whether a page of its own would hold it.
  bool fits_a_page(const std::function<void()>& build);

  // Into a picture, at a place of the page.
  void put(const LayoutPtr& layout, Spot at, const TextLook& look, const char* tag = "P");
  void put_line(Spot from, Spot to, double thickness, double grey = 0.0, std::vector<double> dashes = {});
  void put_path(std::vector<Spot> points, double thickness, double grey, std::vector<double> dashes = {});
  void put_rectangle(const Box& box, double thickness, std::optional<double> fill_grey, double line_grey = 0.0);
  void put_area(std::vector<Spot> outline, double fill_grey);
  void put_ring(Spot centre, double radius, double fill_grey);
  void put_qr(const QrCode& code, const Box& box);
  void draw(Drawing drawing) { page().parts.emplace_back(std::move(drawing)); }
  // Between the two, what is put down belongs to one part of the document's structure: "Table", "TR".
  void begin_tag(const char* tag);
  void end_tag(const char* tag);

  // Page numbers, head and foot; then the pages as they are.
  void finish();
  const std::vector<PaperPage>& pages() const { return pages_; }
  const std::string& title() const { return title_; }

 private:
  PaperPage& page() { return pages_.back(); }
  void table_stacked(const Table& table);
  std::vector<double> column_widths(const Table& table) const;
  bool is_readable(const Table& table, const std::vector<double>& widths) const;
  TextLook look_of(const Table& table, const TableCell& cell) const;
  double row_height(const Table& table, const std::vector<TableCell>& row, const std::vector<double>& widths,
                    bool is_head) const;
  void table_row(const Table& table, const std::vector<TableCell>& row, const std::vector<double>& widths,
                 double height, bool is_head);

  PaperFormat format_;
  Typesetter typesetter_;
  std::string title_;
  std::string head_, foot_;
  double top_{}, bottom_{};
  double y_{};
  std::vector<PaperPage> pages_;
};

struct PdfWords {
  std::string title;
  std::string subject;
  std::string made;  // ISO 8601
  std::string language{"en-GB"};
};
void draw_page(cairo_t* cr, const PaperPage& page);
// Errors: cancelled when Cairo cannot (out of memory).
Result<std::string> pdf_of(const Paper& paper, const PdfWords& words);

}  // namespace outbye
