#include "demo/names.h"

#include <array>
#include <string_view>

namespace outbye::demo {
namespace {

// Chosen so that no combination is a word that names a real place: the first two parts together are never English.
constexpr std::array<std::string_view, 26> onsets{"Br", "Dr", "Fl", "Fr", "Gl", "Gr", "J",   "Kl",  "Kr",
                                                  "M",  "N",  "Pl", "Qu", "Sk", "Sn", "Squ", "Str", "Thr",
                                                  "Tw", "V",  "Vr", "Wh", "Y",  "Z",  "Shr", "Spl"};
constexpr std::array<std::string_view, 20> middles{"ozz", "ezz", "azz", "izz", "uzz", "ovv", "evv",
                                                   "avv", "ivv", "uvv", "okk", "ekk", "akk", "ikk",
                                                   "ukk", "ubb", "ebb", "ogg", "ugg", "usk"};
constexpr std::array<std::string_view, 14> endings{"wick",  "ford",    "beck", "mere",  "fold",  "combe", "ley",
                                                   "garth", "thwaite", "holm", "stead", "march", "well",  "rigg"};
constexpr std::array<std::string_view, 9> streets{"Lane",  "Row",  "Street", "Way",  "Loan",
                                                  "Green", "Bank", "Drove",  "Close"};

template <std::size_t n>
std::string any_of(Rng& rng, const std::array<std::string_view, n>& words) {
  return std::string(words[static_cast<std::size_t>(uniform_below(rng, n))]);
}

}  // namespace

std::string Names::once(const std::string& name) { return used_.insert(name).second ? name : std::string(); }

std::string Names::stem() {
  const std::string onset = any_of(rng_, onsets);
  return onset + any_of(rng_, middles);
}

std::string Names::place() {
  for (;;) {
    std::string name = stem();
    name += any_of(rng_, endings);
    // Beyond a few thousand places the plain names run short.
    if (used_.size() > 4000) name = "Nether " + name;
    if (const std::string fresh = once(name); !fresh.empty()) return fresh;
  }
}

std::string Names::street() {
  std::string name = stem();
  name += " ";
  return name + any_of(rng_, streets);  // like real streets, not unique
}

}  // namespace outbye::demo
