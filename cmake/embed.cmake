# outbye_embed(TARGET HEADER FUNCTION FILE...) builds the files into the library TARGET, so that the program needs no
# folder of data: FUNCTION(), declared in HEADER as std::vector<EmbeddedText> FUNCTION(), gives them in that order. A
# compiler may refuse one literal of more than 65,536 bytes, so a text goes in pieces of 8,000, cut anywhere.
function(outbye_embed TARGET HEADER FUNCTION)
  set(entries "")
  foreach(file ${ARGN})
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
    file(READ ${file} text)
    string(LENGTH "${text}" length)
    set(pieces "")
    set(at 0)
    while(at LESS length)
      string(SUBSTRING "${text}" ${at} 8000 piece)
      string(APPEND pieces "          R\"embedded(${piece})embedded\",\n")
      math(EXPR at "${at} + 8000")
    endwhile()
    get_filename_component(name ${file} NAME)
    string(APPEND entries "      {\"${name}\",\n       {\n${pieces}       }},\n")
  endforeach()
  set(generated ${CMAKE_CURRENT_BINARY_DIR}/embedded.cpp)
  file(CONFIGURE OUTPUT ${generated} @ONLY CONTENT [[
// Made by CMake from files under data; edit there.
#include "@HEADER@"

namespace outbye {

std::vector<EmbeddedText> @FUNCTION@() {
  return {
@entries@  };
}

}  // namespace outbye
]])
  target_sources(${TARGET} PRIVATE ${generated})
endfunction()
