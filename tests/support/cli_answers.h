// What the tests ask of every answer of the command line: it fits a terminal, and its JSON fits its schema.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

#include "core/base/text.h"
#include "tests/run_outbye.h"

namespace outbye {

inline bool has_jsonschema() { return std::system("/usr/bin/python3 -c 'import jsonschema' 2>/dev/null") == 0; }

// "valid" and a line end, or what python3-jsonschema says. `schema` is a file of docs/schema.
inline std::string validated(const FreshFolder& folder, const std::string& schema, const std::string& document) {
  std::ofstream(folder.base() / "document.json") << document;
  const auto run = run_program(
      folder, {"/usr/bin/python3", "-c",
               "import json,sys,jsonschema\n"
               "schema=json.load(open(sys.argv[1]))\n"
               "jsonschema.Draft202012Validator.check_schema(schema)\n"
               "jsonschema.Draft202012Validator(schema).validate(json.load(open(sys.argv[2])))\n"
               "print('valid')",
               std::string(OUTBYE_SOURCE) + "/docs/schema/" + schema, (folder.base() / "document.json").string()});
  return run.out + run.err;
}

inline void expect_at_most_80_columns(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(display_width(line), 80U) << line;
}

}  // namespace outbye
