#include "cli/stock_section.h"

#include <cmath>

#include "cli/text_layout.h"
#include "core/base/text.h"

namespace outbye {
namespace {

double amount(Portion portion) { return static_cast<double>(portion.value) / 1000.0; }

// Up, so that nobody carries less than was asked for.
std::string amount_words(Portion portion, StockKind kind) {
  return fixed(std::ceil(static_cast<double>(portion.value) / 100.0) / 10.0, 1) + " " +
         std::string(stock_kind_unit(kind));
}
// A share of days that is not nothing is not shown as 0.0 %.
std::string percent(double share) {
  if (share > 0.0 && share < 0.0005) return "<0.1 %";
  if (share < 1.0 && share > 0.9995) return ">99.9 %";
  return fixed(100.0 * share, 1) + " %";
}

std::string container_name(const RefillLine& line, const StockTask& task) {
  return line.container ? one_line(task.containers[*line.container].name) : "straight into the buckets";
}

class StockSection {
 public:
  StockSection(const CarStock& stock, const Style& style) : task_(stock.task), answer_(stock.answer), style_(style) {}

  std::string text() {
    out_ += "\n" + style_.heading(cut_to("Water and ice: " + one_line(task_.car), line_width)) + "\n";
    verdict();
    stops();
    by_use();
    carry();
    refills();
    changes();
    for (const std::string& assumption : answer_.assumptions)
      out_ += style_.quiet(wrapped("Assumed: " + assumption, "  "));
    return out_;
  }

 private:
  void verdict() {
    const std::string days = percent(answer_.chance) + " of " + std::to_string(task_.settings.days) +
                             " simulated days (wanted: " + percent(task_.settings.chance) + ")";
    if (answer_.holds) {
      out_ += style_.good(wrapped("Enough: nothing runs dry on " + days + "."));
    } else {
      out_ += style_.bad(wrapped("NOT ENOUGH: nothing runs dry on only " + days + "."));
    }
  }

  void stops() {
    out_ +=
        style_.quiet("  " + left("stop", 40) + right("there", 9) + right("dry", 9) + right("left at least", 15)) + "\n";
    for (std::size_t s = 0; s < answer_.stops.size(); ++s) {
      const StopStock& stop = answer_.stops[s];
      const bool is_weakest = answer_.weakest == s && stop.dry > 0.0;
      out_ += (is_weakest ? "! " : "  ") + left(cut_to(one_line(stop.label), 39), 40) +
              right(percent(stop.happens), 9) + right(percent(stop.dry), 9) +
              right(fixed(std::floor(10.0 * in_litres(stop.water_after).value) / 10.0, 1) + " L", 15) + "\n";
    }
    if (answer_.weakest && answer_.stops[*answer_.weakest].dry > 0.0) {
      out_ += wrapped("the stop that most often runs dry: " + one_line(answer_.stops[*answer_.weakest].label), "! ");
    }
  }

  void by_use() {
    std::string words;
    for (std::size_t k = 0; k < stock_kind_count; ++k) {
      if (answer_.dry_of[k] <= 0.0) continue;
      words += (words.empty() ? "" : ", ") + std::string(stock_kind_name(static_cast<StockKind>(k))) + " on " +
               percent(answer_.dry_of[k]) + " of days";
    }
    if (!words.empty()) out_ += wrapped("Runs short: " + words + ".");
  }

  void carry() {
    if (answer_.carry.empty()) return;
    out_ += "Set out with, and fill to at each tap:\n";
    for (const CarryLine& line : answer_.carry) {
      std::string words = std::string(stock_kind_name(line.kind)) + " " + amount_words(line.carry, line.kind);
      words += line.capacity < line.carry ? ": MORE than the " + fixed(amount(line.capacity), 1) + " " +
                                                std::string(stock_kind_unit(line.kind)) + " it has room for"
                                          : " (room for " + fixed(amount(line.capacity), 1) + " " +
                                                std::string(stock_kind_unit(line.kind)) + ")";
      out_ += wrapped(words, "  ");
    }
  }

  void refills() {
    std::optional<std::size_t> stop;
    for (const RefillLine& line : answer_.refills) {
      if (stop != line.stop) {
        stop = line.stop;
        std::string title = "Refill at " + one_line(task_.stops[line.stop].label) + ", in this order";
        if (line.hurried > 0.0)
          title += " (the time is up before all is full on " + percent(line.hurried) + " of days)";
        out_ += wrapped(title + ":");
      }
      const StockKind kind = line.container ? task_.containers[*line.container].holds : StockKind::drinking;
      std::string words = container_name(line, task_) + ": " + amount_words(line.median, kind) + ", up to " +
                          amount_words(line.high, kind);
      if (line.time > Seconds{0}) words += " (" + fixed(std::ceil(10.0 * in_minutes(line.time)) / 10.0, 1) + " min)";
      out_ += wrapped(words, "  ");
    }
  }

  void changes() {
    for (const StockPurchase& buy : answer_.buy) {
      std::string words =
          "Add room for " + amount_words(buy.least, buy.kind) + " of " + std::string(stock_kind_name(buy.kind));
      if (buy.sold) {
        words += ": " + (buy.count > 1 ? std::to_string(buy.count) + " of " : std::string("one of ")) +
                 fixed(buy.sold->value, buy.sold->value < 5.0 ? 1 : 0) + " L";
      }
      out_ += wrapped(words + ", full at the start; then " + percent(buy.chance) + " of days" +
                      (answer_.buy.size() > 1 ? ", with all that is listed here." : "."));
    }
    if (answer_.leave_at_home.empty()) return;
    std::string names;
    for (const std::size_t c : answer_.leave_at_home)
      names += (names.empty() ? "" : ", ") + one_line(task_.containers[c].name);
    out_ += wrapped("Could stay at home, all together: " + names + ".");
  }

  const StockTask& task_;
  const StockAnswer& answer_;
  const Style& style_;
  std::string out_;
};

}  // namespace

std::string stock_sections(const std::vector<CarStock>& stocks, const Style& style) {
  std::string out;
  for (const CarStock& stock : stocks) out += StockSection(stock, style).text();
  return out;
}

}  // namespace outbye
