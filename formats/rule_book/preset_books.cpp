#include <cassert>

#include "formats/rule_book/preset_texts.h"
#include "formats/rule_book/rule_book_file.h"

namespace outbye {

const std::vector<RuleBook>& preset_books() {
  static const std::vector<RuleBook> books = [] {
    std::vector<RuleBook> read;
    for (const auto& preset : preset_texts()) {
      auto book = read_rule_book(preset.text, preset.file);
      assert(book && "a rule book of data/rules is broken");
      if (book) read.push_back(std::move(*book));
    }
    return read;
  }();
  return books;
}

}  // namespace outbye
