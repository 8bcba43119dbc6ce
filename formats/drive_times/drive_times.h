// Drive times typed in by hand (CSV): a plan without any map. docs/routing.md shows both forms.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/roads/drive_table.h"

namespace outbye {

// Either a list, one drive a line: from, to, minutes or h:mm [, km], good for both ways unless the other way has a
// line of its own; or a matrix: first row and first column are the places, the row is where a drive starts, cells are
// minutes or h:mm, empty where there is no way. Separator comma, semicolon or tab; with a semicolon or tab the decimal
// point may be a comma. Quotes as in RFC 4180, byte-order mark, CRLF and # comments are understood.
// Errors: bad_input with file and line.
Result<DriveTable> read_drive_times(std::string_view text, std::string file);

}  // namespace outbye
