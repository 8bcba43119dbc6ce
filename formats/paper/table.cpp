#include <algorithm>
#include <numeric>

#include "formats/paper/page.h"

namespace outbye {
namespace {

constexpr double cell_gap = 6;  // between columns
constexpr double cell_pad = 1.5;

}  // namespace

TextLook Paper::look_of(const Table& table, const TableCell& cell) const {
  TextLook with = table.is_small ? small() : look();
  with.is_bold = cell.is_bold;
  return with;
}

// Columns that stay whole take what they need; the others share the rest in proportion to their text, but never less
// than their longest word while that can be had. Empty: there is no room for columns at all.
std::vector<double> Paper::column_widths(const Table& table) const {
  const std::size_t n = table.columns.size();
  std::vector<double> natural(n), least(n);
  const auto measure = [&](std::size_t c, const std::string& text, const TextLook& with) {
    natural[c] = std::max(natural[c], layout_width(typesetter_.layout(text, with, 0).get()) + 1);
    least[c] = table.columns[c].stays_whole ? natural[c] : std::max(least[c], widest_word(typesetter_, text, with) + 1);
  };
  for (std::size_t c = 0; c < n; ++c) {
    measure(c, table.columns[c].head, {format_.least, true, 0, TextAlign::start});
    for (const auto& row : table.rows) {
      if (c < row.size()) measure(c, row[c].text, look_of(table, row[c]));
    }
  }
  const double across = width() - cell_gap * static_cast<double>(n > 0 ? n - 1 : 0);
  const double wanted = std::accumulate(natural.begin(), natural.end(), 0.0);
  if (wanted <= across) {
    // What is over goes to the last column that wraps, so that lines run the page's width.
    std::vector<double> widths = natural;
    if (table.is_boxed) {
      for (double& one : widths) one += (across - wanted) / static_cast<double>(n);
    }
    return widths;
  }
  double fixed_part = 0, flexible = 0, flexible_least = 0;
  for (std::size_t c = 0; c < n; ++c) {
    (table.columns[c].stays_whole ? fixed_part : flexible) += natural[c];
    if (!table.columns[c].stays_whole) flexible_least += std::min(least[c], across * 0.5);
  }
  const double shared = across - fixed_part;
  if (flexible <= 0 || shared < 0.2 * across || shared < 8 * format_.body) return {};
  std::vector<double> widths(n);
  std::vector<std::size_t> open;  // columns that wrap, those with the shortest longest word first
  for (std::size_t c = 0; c < n; ++c) {
    if (table.columns[c].stays_whole) {
      widths[c] = natural[c];
    } else {
      open.push_back(c);
    }
  }
  if (flexible_least < shared) {
    const double over = std::max(1e-9, flexible - flexible_least);
    for (const std::size_t c : open) {
      const double bottom = std::min(least[c], across * 0.5);
      widths[c] = bottom + (shared - flexible_least) * std::max(0.0, natural[c] - bottom) / over;
    }
    return widths;
  }
  // Some word is longer than there is room for: the others keep theirs whole, and it breaks.
  std::sort(open.begin(), open.end(), [&least](std::size_t a, std::size_t b) { return least[a] < least[b]; });
  double left = shared;
  for (std::size_t i = 0; i < open.size(); ++i) {
    widths[open[i]] = std::min(least[open[i]], left / static_cast<double>(open.size() - i));
    left -= widths[open[i]];
  }
  return widths;
}

// A column of single words is harder to read than no columns.
bool Paper::is_readable(const Table& table, const std::vector<double>& widths) const {
  for (std::size_t c = 0; c < widths.size(); ++c) {
    if (table.columns[c].stays_whole) continue;
    double natural = 0;
    for (const auto& row : table.rows) {
      if (c < row.size())
        natural = std::max(natural, layout_width(typesetter_.layout(row[c].text, look_of(table, row[c]), 0).get()));
    }
    if (widths[c] < std::min(natural, 4.5 * format_.body)) return false;
  }
  return !widths.empty();
}

double Paper::row_height(const Table& table, const std::vector<TableCell>& row, const std::vector<double>& widths,
                         bool is_head) const {
  double height = is_head ? 0 : table.row_height;
  for (std::size_t c = 0; c < std::min(row.size(), widths.size()); ++c) {
    TextLook with = look_of(table, row[c]);
    if (is_head) with = {format_.least, true, 0, TextAlign::start};
    height = std::max(height, layout_height(typesetter_.layout(row[c].text, with, widths[c]).get()));
  }
  return height + 2 * cell_pad;
}

void Paper::table_row(const Table& table, const std::vector<TableCell>& row, const std::vector<double>& widths,
                      double height, bool is_head) {
  double x = format_.margin;
  begin_tag("TR");
  for (std::size_t c = 0; c < widths.size(); ++c) {
    if (c < row.size() && !row[c].text.empty()) {
      TextLook with = look_of(table, row[c]);
      if (is_head) with = {format_.least, true, 0, TextAlign::start};
      with.align = table.columns[c].align;
      put(typesetter_.layout(row[c].text, with, widths[c]), {x, y_ + cell_pad}, with, is_head ? "TH" : "TD");
    }
    x += widths[c] + cell_gap;
    if (table.is_boxed && c + 1 < widths.size()) {
      put_line({x - cell_gap / 2, y_}, {x - cell_gap / 2, y_ + height}, 0.5, 0.5);
    }
  }
  end_tag("TR");
  y_ += height;
  put_line({format_.margin, y_}, {format_.margin + width(), y_}, is_head ? 0.8 : 0.4, is_head ? 0.0 : 0.6);
}

// Where columns find no room: each row as lines of "head: text".
void Paper::table_stacked(const Table& table) {
  for (const auto& row : table.rows) {
    keep_together([&] {
      std::string first, rest;
      for (std::size_t c = 0; c < std::min(row.size(), table.columns.size()); ++c) {
        if (row[c].text.empty()) continue;
        const std::string& head = table.columns[c].head;
        if (c == 0 || row[c].is_bold) {
          // A name says what it is; a time or a number does not.
          const bool says_itself = head.empty() || !table.columns[c].stays_whole;
          first += (first.empty() ? "" : "  ") + (says_itself ? "" : head + " ") + row[c].text;
        } else {
          rest += (rest.empty() ? "" : " · ") + (head.empty() ? "" : head + ": ") + row[c].text;
        }
      }
      text(first, bold());
      text(rest, look(), 8);
      if (table.row_height > 0) y_ += std::min(table.row_height, room());
      put_line({format_.margin, y_}, {format_.margin + width(), y_}, 0.4, 0.6);
      space(2);
    });
  }
}

void Paper::table(const Table& table) {
  if (table.columns.empty()) return;
  const std::vector<double> widths = column_widths(table);
  std::vector<TableCell> head;
  bool has_head = false;
  for (const auto& column : table.columns) {
    head.emplace_back(column.head);
    has_head = has_head || !column.head.empty();
  }
  const double head_height = widths.empty() || !has_head ? 0 : row_height(table, head, widths, true);
  std::vector<double> heights;
  bool fits = is_readable(table, widths);
  for (const auto& row : table.rows) {
    heights.push_back(fits ? row_height(table, row, widths, false) : 0);
    fits = fits && head_height + heights.back() <= page_room();
  }
  if (!fits) return table_stacked(table);
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    const bool starts = r == 0;
    // A head never stands alone at the foot of a page.
    const double wanted = heights[r] + (starts ? head_height : 0);
    const bool turns = wanted > room() && y_ > top_;
    if (turns) {
      if (!starts) end_tag("Table");  // of each page its own: no part of it is on two
      new_page();
    }
    if (starts || turns) begin_tag("Table");
    if ((starts || turns) && has_head) table_row(table, head, widths, head_height, true);
    table_row(table, table.rows[r], widths, heights[r], false);
  }
  if (!table.rows.empty()) end_tag("Table");
  y_ += format_.body * 0.3;
}

}  // namespace outbye
