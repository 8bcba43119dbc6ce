// A hash as text.
#pragma once

#include <xxhash.h>

#include <string>

namespace outbye {

// 32 hexadecimal digits, the same on every machine.
inline std::string hash_text(XXH128_hash_t hash) {
  XXH128_canonical_t bytes;
  XXH128_canonicalFromHash(&bytes, hash);
  std::string text;
  for (const unsigned char byte : bytes.digest) {
    constexpr char digits[] = "0123456789abcdef";
    text += digits[byte >> 4];
    text += digits[byte & 15];
  }
  return text;
}

}  // namespace outbye
