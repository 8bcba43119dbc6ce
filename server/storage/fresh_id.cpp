#include "server/storage/fresh_id.h"

#include <sys/random.h>
#include <sys/types.h>

namespace outbye {

std::string fresh_id(char kind) {
  // 20 of 32 signs are 100 bits; no letter that is taken for another.
  constexpr char signs[] = "0123456789abcdefghjkmnpqrstvwxyz";
  unsigned char bytes[20] = {};
  std::size_t got = 0;
  while (got < sizeof bytes) {
    const ssize_t n = ::getrandom(bytes + got, sizeof bytes - got, 0);
    if (n > 0) got += static_cast<std::size_t>(n);
  }
  std::string id(1, kind);
  for (const unsigned char byte : bytes) id += signs[byte % 32];
  return id;
}

}  // namespace outbye
