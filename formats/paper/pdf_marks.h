// What Cairo 1.16 leaves unsaid in a PDF that has a structure. Internal to formats/paper.
#pragma once

#include <string>
#include <string_view>

namespace outbye {

// Says in the catalogue in which language the file is (RFC 5646: "en-GB"), that its title is to be shown, not the name
// of the file, and that it is tagged, where Cairo does not (it does once the structure is that of a document). As an
// incremental update (ISO 32000-1, 7.5.6): what Cairo wrote stays as it is. A file laid out otherwise than Cairo 1.16
// does comes back unchanged.
std::string marked_pdf(std::string pdf, std::string_view language);

}  // namespace outbye
