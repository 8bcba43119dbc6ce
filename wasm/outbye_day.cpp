// The door of formats/day_calls as three functions that JavaScript can call: make room for a request, write it there,
// call. Everything crosses as UTF-8 bytes in the module's memory.
#include <cstddef>
#include <string>

#include "formats/day_calls/day_calls.h"

namespace {

// One page has one ride open; a worker that dies takes both with it.
struct Door {
  outbye::DaySession session;
  std::string asked;
  std::string reply;
};
Door& door() {
  static Door only;
  return only;
}

}  // namespace

extern "C" {

// Where the name of a call and its request are to be written, one after the other.
char* outbye_day_room(std::size_t bytes) {
  door().asked.resize(bytes);
  return door().asked.data();
}

// `name_bytes` of the room are the name, the rest is the request. The reply stands until the next call.
const char* outbye_day_call(std::size_t name_bytes) {
  const std::string_view asked = door().asked;
  door().reply = outbye::day_call(door().session, asked.substr(0, name_bytes), asked.substr(name_bytes));
  return door().reply.data();
}

std::size_t outbye_day_length() { return door().reply.size(); }
}
