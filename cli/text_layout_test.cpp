#include "cli/text_layout.h"

#include <gtest/gtest.h>

#include <sstream>

#include "core/base/random.h"
#include "core/base/text.h"

namespace outbye {
namespace {

TEST(TextLayout, PadsAndCutsByColumnsNotBytes) {
  EXPECT_EQ(left("Füße", 6), "Füße  ");
  EXPECT_EQ(right("Füße", 6), "  Füße");
  EXPECT_EQ(left("Kanäle am Wehr", 8), "Kanäle ~");
  EXPECT_EQ(left("日本語", 5), "日本~");
  EXPECT_EQ(left("日本語", 4), "日~ ");
}

TEST(TextLayout, TakesControlCharactersOutOfNames) {
  EXPECT_EQ(one_line("a\x1b[31mred\nnext\t\tcell\x7f "), "a [31mred next cell");
  EXPECT_EQ(one_line("\xff\xfe"), "??");
  EXPECT_EQ(one_line("a\u202eb"), "a b");
}

TEST(TextLayout, WrapsWordsUnderTheFirstLine) {
  EXPECT_EQ(wrapped("one two three four", "- ", 12), "- one two\n  three four\n");
  EXPECT_EQ(wrapped("", "- "), "");
}

TEST(TextLayout, NeverWritesALineWiderThanAsked) {
  Rng rng(Seed{11});
  const char* letters[] = {"a", "ß", "日", " ", "  ", "e\u0301", "\n", "\x01", "\xc3", "long"};
  for (int i = 0; i < 500; ++i) {
    std::string text;
    const auto n = uniform_below(rng, 120);
    for (std::uint64_t k = 0; k < n; ++k) text += letters[uniform_below(rng, std::size(letters))];
    const std::size_t width = 12 + uniform_below(rng, 80);
    std::istringstream lines(wrapped(text, " * ", width));
    for (std::string line; std::getline(lines, line);) ASSERT_LE(display_width(line), width) << text;
    ASSERT_EQ(display_width(left(text, width)), width) << text;
  }
}

}  // namespace
}  // namespace outbye
